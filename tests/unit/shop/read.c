/* The readers: CSV against the examples of RFC 4180, Markdown to trees, settings. */
#include "read/csv.h"
#include "read/markdown.h"
#include "read/setting_list.h"
#include "reader_fixture.h"

static struct csv read_csv(const char *text)
{
    struct csv csv;
    csv_read(arena, diags, text, (struct place){"log.csv", 1, 1}, &csv);
    return csv;
}

static const char *cell(const struct csv *csv, size_t row, size_t column)
{
    return csv->cells[row * csv->column_count + column].text;
}

/* RFC 4180 section 2, items 1 to 7. */
static void test_csv_of_the_rfc(void **state)
{
    (void)state;
    struct csv csv = read_csv("aaa,\"b \r\nbb\",ccc\r\n\"z\"\"y\",,\"x,w\"");
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(csv.row_count, 2);
    assert_int_equal(csv.column_count, 3);
    assert_string_equal(cell(&csv, 0, 1), "b \r\nbb");
    assert_string_equal(cell(&csv, 1, 0), "z\"y");
    assert_string_equal(cell(&csv, 1, 1), "");
    assert_string_equal(cell(&csv, 1, 2), "x,w");
}

static void test_csv_line_ends(void **state)
{
    (void)state;
    struct csv csv = read_csv("a,b\rc,d\n\n\r\ne,f\r\n");
    assert_int_equal(csv.row_count, 3);
    assert_int_equal(csv.cells[2].at.line, 2);
    assert_int_equal(csv.cells[4].at.line, 5);
    assert_int_equal(csv.cells[5].at.column, 3);
}

static void test_csv_columns_count_code_points(void **state)
{
    (void)state;
    struct csv csv = read_csv("µµ,\"½\",x\n");
    assert_int_equal(csv.cells[1].at.column, 4);
    assert_int_equal(csv.cells[2].at.column, 8);
}

static void test_csv_open_quote_is_told_where_it_opens(void **state)
{
    (void)state;
    read_csv("a,b\n1,\"2\n3,4\n");
    assert_string_equal(faults(),
                        "log.csv:2:3: the quote opened here is never closed; close it\n");
}

static void test_csv_ragged_rows(void **state)
{
    (void)state;
    struct csv csv = read_csv("a,b\n1\n2,3\n4,5,6\n");
    assert_int_equal(csv.row_count, 2);
    assert_int_equal(diags_count(diags), 2);
    assert_non_null(strstr(faults(), "log.csv:4:1: this row has 3 cells"));
}

static void test_csv_large_cell(void **state)
{
    (void)state;
    size_t size = 1 << 20;
    char *text = arena_get(arena, size + 8);
    memset(text, 'x', size);
    memcpy(text + size, ",y\n", 3);
    struct csv csv = read_csv(text);
    assert_int_equal(strlen(cell(&csv, 0, 0)), size);
    assert_string_equal(cell(&csv, 0, 1), "y");
}

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

/* Behind a closing quote only a comma or the line's end may stand: told once a cell,
 * and the next cell is read again. */
static void test_csv_junk(void **state)
{
    (void)state;
    struct csv csv = read_csv("\"a\"x y,b\n\"c\" \n");
    assert_string_equal(cell(&csv, 0, 1), "b");
    assert_non_null(strstr(faults(), "log.csv:1:4: text stands behind the closing quote"));
    assert_non_null(strstr(faults(), "log.csv:2:4: text stands behind the closing quote"));
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

static struct setting_list read_settings(const char *text)
{
    struct setting_list list;
    struct file_text file = {.name = "s.yaml", .bytes = text, .length = strlen(text)};
    setting_list_read(arena, diags, &file, &list);
    return list;
}

static void test_settings_paths_and_places(void **state)
{
    (void)state;
    struct setting_list list =
        read_settings("a:\n  b: 1 x\n  c:\n    - {d: 'e f'}\n    - {d: g}\n");
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(list.count, 3);
    assert_string_equal(list.items[1].path, "a.c.1.d");
    assert_string_equal(list.items[1].value, "e f");
    assert_int_equal(list.items[1].at.line, 4);
    assert_int_equal(list.items[1].at.column, 12);
    assert_string_equal(setting_list_find(&list, "a.c.2.d")->value, "g");
}

/* A section is where its first key stands, or its brace, bracket or dash. */
static void test_settings_sections(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        int line, column;
    } wanted[] = {{"a", 2, 3}, {"a.c", 4, 5}, {"a.c.1", 4, 7}, {"a.c.2", 5, 7}, {"b", 6, 4}};
    struct setting_list list =
        read_settings("a:\n  b: 1 x\n  c:\n    - {d: 'e f'}\n    - d: g\nb: []\n");
    assert_int_equal(list.section_count, sizeof wanted / sizeof wanted[0]);
    for (size_t i = 0; i < list.section_count; i++) {
        assert_string_equal(list.sections[i].path, wanted[i].path);
        assert_int_equal(list.sections[i].at.line, wanted[i].line);
        assert_int_equal(list.sections[i].at.column, wanted[i].column);
    }
}

static void test_settings_replaced(void **state)
{
    (void)state;
    struct setting_list list = read_settings("a:\n  b: 1\n");
    assert_true(setting_list_replace(arena, &list, "a.b=2 = 3"));
    assert_true(setting_list_replace(arena, &list, "a.c="));
    assert_false(setting_list_replace(arena, &list, "a.c"));
    assert_false(setting_list_replace(arena, &list, "=x"));
    assert_string_equal(setting_list_find(&list, "a.b")->value, "2 = 3");
    assert_int_equal(list.count, 2);
}

/* The sum of the entries in order of path, as the program sha256sum gives it. */
static void test_settings_fingerprint(void **state)
{
    (void)state;
    char one[9], other[9];
    struct setting_list list = read_settings("c:\n  d: 2\na:\n  b: 1 # said\n");
    struct file_text log = {.bytes = "x,y\n", .length = 4};
    setting_list_fingerprint(&list, &log, one);
    FILE *pipe = popen("printf 'a.b=1\\nc.d=2\\nx,y\\n' | sha256sum | cut -c1-8", "r");
    assert_non_null(fgets(other, sizeof other, pipe));
    pclose(pipe);
    assert_string_equal(one, other);
}

static const struct CMUnitTest tests[] = {
    TEST(test_csv_of_the_rfc),
    TEST(test_csv_line_ends),
    TEST(test_csv_columns_count_code_points),
    TEST(test_csv_open_quote_is_told_where_it_opens),
    TEST(test_csv_ragged_rows),
    TEST(test_csv_large_cell),
    TEST(test_markdown_tree),
    TEST(test_markdown_caution_keeps_lines),
    TEST(test_markdown_csv_table),
    TEST(test_markdown_same_headings),
    TEST(test_markdown_depth),
    TEST(test_heading_names),
    TEST(test_headings_without_end),
    TEST(test_heading_too_deep),
    TEST(test_page_without_title),
    TEST(test_link_targets),
    TEST(test_markdown_signs),
    TEST(test_block_names),
    TEST(test_block_options),
    TEST(test_csv_columns_of_figures),
    TEST(test_csv_junk),
    TEST(test_settings_paths_and_places),
    TEST(test_settings_sections),
    TEST(test_settings_replaced),
    TEST(test_settings_fingerprint),
};

GROUP(read, NULL, NULL)
