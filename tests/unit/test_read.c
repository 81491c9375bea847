/* The readers: CSV against the examples of RFC 4180, Markdown to trees, settings. */
#include "read/csv.h"
#include "read/markdown.h"
#include "read/setting_list.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static struct arena *arena;
static struct diags *diags;

static int setup(void **state)
{
    (void)state;
    arena = arena_new();
    diags = diags_new(arena);
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

static struct csv read_csv(const char *text)
{
    struct csv csv;
    csv_read(arena, diags, text, (struct place){"log.csv", 1, 1}, &csv);
    return csv;
}

static char *faults(void)
{
    char *text = NULL;
    size_t length = 0;
    FILE *file = open_memstream(&text, &length);
    diags_print(diags, file);
    fclose(file);
    char *kept = arena_text(arena, text);
    free(text);
    return kept;
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
    char name[] = "/tmp/test_read_XXXXXX";
    int handle = mkstemp(name);
    assert_true(handle >= 0);
    assert_int_equal(write(handle, text, strlen(text)), strlen(text));
    close(handle);
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

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
    const struct CMUnitTest tests[] = {
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
        TEST(test_settings_paths_and_places),
        TEST(test_settings_replaced),
        TEST(test_settings_fingerprint),
    };
    return cmocka_run_group_tests_name("readers", tests, NULL, NULL);
}
