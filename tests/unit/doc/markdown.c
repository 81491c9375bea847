/* Pages of Markdown to trees: what they become, and what is said of what they may not hold. */
#include "doc/markdown.h"
#include "reader_fixture.h"
#include "tree_dump.h"

static struct page *read_page(const char *text)
{
    const char *name = file_of(text);
    struct page *page = markdown_read(arena, diags, name);
    unlink(name);
    return page;
}

static char *dump_of(const char *text)
{
    struct buffer out = {0};
    tree_dump(&out, read_page(text)->root);
    char *dump = arena_slice(arena, out.bytes, out.length);
    buffer_free(&out);
    return dump;
}

static void test_markdown_tree(void **state)
{
    (void)state;
    assert_string_equal(dump_of("# A *b* c\n\nOne **two**\nthree.\n\n- x\n- y\n"),
                        "page 1:0\n"
                        "  heading 1:1 level 1 #a-b-c\n"
                        "    text 1:3 \"A \"\n"
                        "    emphasis 1:5\n"
                        "      text 1:6 \"b\"\n"
                        "    text 1:8 \" c\"\n"
                        "  paragraph 3:1\n"
                        "    text 3:1 \"One \"\n"
                        "    strong 3:5\n"
                        "      text 3:7 \"two\"\n"
                        "    space 3:0\n"
                        "    text 4:1 \"three.\"\n"
                        "  list 6:1 level 0\n"
                        "    item 6:1\n"
                        "      paragraph 6:3\n"
                        "        text 6:3 \"x\"\n"
                        "    item 7:1\n"
                        "      paragraph 7:3\n"
                        "        text 7:3 \"y\"\n");
    assert_int_equal(diags_count(diags), 0);
}

static void test_markdown_caution_keeps_lines(void **state)
{
    (void)state;
    const char *dump = dump_of("# A\n\n```caution Mind\nStop <b>.\n```\n");
    assert_non_null(strstr(dump, "caution 3:1 \"Mind\"\n    paragraph 4:1\n"));
    assert_non_null(strstr(faults(), ":4:6: raw HTML"));
}

static void test_markdown_csv_table(void **state)
{
    (void)state;
    const char *dump = dump_of("# A\n\n```csv t: Cap: tion\nsign,pull / N\nx,3.5\n```\n");
    assert_non_null(strstr(dump, "caption Cap: tion\n"));
    assert_non_null(strstr(dump, "row | x | 3.5\n"));
    assert_int_equal(diags_count(diags), 0);
}

static void test_markdown_same_headings(void **state)
{
    (void)state;
    const char *dump = dump_of("# A\n\n## Pull it: 5 N!\n\n## Pull it 5 N\n");
    assert_non_null(strstr(dump, "#pull-it-5-n\n"));
    assert_non_null(strstr(dump, "#pull-it-5-n-2\n"));
}

/* Letters, digits and hyphens make a heading's name; without any it is "x". */
static void test_heading_names(void **state)
{
    (void)state;
    const char *dump = dump_of("# A\n\n## Pull -- and *again* -\n\n## \xC3\x89\xC2\xBD!\n\n"
                               "## - 12 to 9 {z}\n");
    assert_non_null(strstr(dump, "#pull-and-again\n"));
    assert_non_null(strstr(dump, "#x\n"));
    assert_non_null(strstr(dump, "#12-to-9-z\n"));
    assert_int_equal(diags_count(diags), 0);
}

/* Every name is looked for among all before it; two thousand are quick, and enough. */
static void test_headings_without_end(void **state)
{
    (void)state;
    struct buffer text = {0};
    buffer_print(&text, "# A\n\n");
    for (int i = 1; i < 2000; i++)
        buffer_print(&text, "## B\n\n");
    read_page(text.bytes);
    assert_int_equal(diags_count(diags), 0);
    buffer_print(&text, "## B\n\n## B\n");
    read_page(text.bytes);
    assert_fault(":4001:1: ", "this page has more than 2000 headings");
    buffer_free(&text);
}

static void test_heading_too_deep(void **state)
{
    (void)state;
    dump_of("# A\n\n## B\n\n### C\n\n#### D\n\n##### E\n");
    assert_fault(":9:1: ", "a heading of level 5 is too deep");
}

/* A page begins with its title, whatever else stands there. */
static void test_page_without_title(void **state)
{
    (void)state;
    static const char *const texts[] = {"", "words\n", "## B\n"};
    for (int i = 0; i < 3; i++) {
        struct page *page = read_page(texts[i]);
        assert_non_null(strstr(faults(), ":1: the page does not begin with its title"));
        assert_non_null(page->title);
        teardown(NULL);
        setup(NULL);
    }
}

/* What may stand in a link: a page, a heading, a place on the net. */
static void test_link_targets(void **state)
{
    (void)state;
    dump_of("# A\n\n[b](page.html) [c](#d) [e](https://example.org) [f](mailto:a@b.org) "
            "[g](?h) <http://example.org>\n");
    assert_int_equal(diags_count(diags), 0);
    dump_of("# A\n\n[b]() [c](data:x)\n");
    assert_int_equal(diags_count(diags), 2);
    assert_non_null(strstr(faults(), ":3:1: the link leads nowhere"));
    assert_non_null(strstr(faults(), ":3:7: 'data:x' is no place to link to"));
}

static void test_markdown_signs(void **state)
{
    (void)state;
    const char *dump =
        dump_of("# A\n\nOne `two`  \nthree\n\n> four\n\n---\n\n```\nfive\n```\n\n"
                "3. six\n");
    static const char *const parts[] = {
        "code 3:6 \"two\"", "break", "quote 6:1", "rule 8:1", "literal 10:1 \"five\n\"",
        "list 14:1 level 3"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (!strstr(dump, parts[i]))
            fail_msg("no %s in %s", parts[i], dump);
    assert_int_equal(diags_count(diags), 0);
}

/* One line of a block's head or body, and what is said of it. */
static void test_block_names(void **state)
{
    (void)state;
    static const char *const rows[][3] = {
        {"```table -x\n```\n", ":3:1: ", "'-x' is no name of a table"},
        {"```table x-\n```\n", ":3:1: ", "'x-' is no name of a table"},
        {"```table\n```\n", ":3:1: ", "'' is no name of a table"},
        {"```table x y\n```\n", ":3:1: ", "'x y' is no name of a table"},
        {"```tables x\n```\n", ":3:1: ", "'tables x' is no block"},
        {"```table x\n: 5\n```\n", ":4:1: ", "is not an option"},
        {"```csv T: c\na\nb\n```\n", ":3:1: ", "has no name and caption"},
        {"```csv t\na\nb\n```\n", ":3:1: ", "has no name and caption"},
        {"```csv t:\na\nb\n```\n", ":3:1: ", "has no name and caption"},
        {"```csv t: c\na,\"b\nc\"\n1,2\n```\n", ":4:3: ", "the cell holds a line end"},
        {"```figure X\n```\n", ":3:1: ", "'X' is no name of a figure"},
        {"```figure x\na: b\n```\n", ":3:1: ", "takes no options"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        dump_of(arena_format(arena, "# A\n\n%s", rows[i][0]));
        assert_fault(rows[i][1], rows[i][2]);
        teardown(NULL);
        setup(NULL);
    }
}

/* Blank lines in a table block are passed over, and a key may have no value. */
static void test_block_options(void **state)
{
    (void)state;
    struct page *page = read_page("# A\n\n```table x\n\n \t\nkey:   one two\nbare:\n```\n");
    const struct node *node = page->root->last;
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(node->option_count, 2);
    assert_string_equal(node->options[0].key, "key");
    assert_string_equal(node->options[0].value, "one two");
    assert_int_equal(node->options[0].at.line, 6);
    assert_string_equal(node->options[1].value, "");
}

/* A column is set in figures when all its cells are numbers or blank. */
static void test_csv_columns_of_figures(void **state)
{
    (void)state;
    struct page *page = read_page("# A\n\n```csv t: c\na,b,c,d,e,f\n+5,x,\xE2\x88\x92"
                                  "1.5,,2 to 3,+\n-0.5,1,,,+,2\n```\n");
    const struct table *table = page->root->last->table;
    static const enum column_kind kinds[] = {COLUMN_NUMBER, COLUMN_TEXT, COLUMN_NUMBER,
                                             COLUMN_NUMBER, COLUMN_TEXT, COLUMN_TEXT};
    assert_int_equal(diags_count(diags), 0);
    for (int i = 0; i < 6; i++)
        assert_int_equal(table->columns[i].kind, kinds[i]);
}

/* CommonMark lets quotes nest without end; we say where it is too deep. */
static void test_markdown_depth(void **state)
{
    (void)state;
    enum { DEPTH = 100000 };
    char *text = arena_get(arena, DEPTH + 16);
    memcpy(text, "# A\n\n", 5);
    memset(text + 5, '>', DEPTH);
    memcpy(text + 5 + DEPTH, "x\n", 2);
    read_page(text);
    assert_int_equal(diags_count(diags), 1);
    assert_non_null(strstr(faults(), ":3:101: more than 100"));
}

static const struct CMUnitTest tests[] = {
    TEST(test_markdown_tree),        TEST(test_markdown_caution_keeps_lines),
    TEST(test_markdown_csv_table),   TEST(test_markdown_same_headings),
    TEST(test_markdown_depth),       TEST(test_heading_names),
    TEST(test_headings_without_end), TEST(test_heading_too_deep),
    TEST(test_page_without_title),   TEST(test_link_targets),
    TEST(test_markdown_signs),       TEST(test_block_names),
    TEST(test_block_options),        TEST(test_csv_columns_of_figures),
};

GROUP(markdown, NULL, NULL)
