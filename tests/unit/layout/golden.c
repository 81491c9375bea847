/* Every kind of page as it was placed when it was last looked at: tests/golden/NAME.txt.
 * GOLDEN=update writes them anew: read the difference, and look at the pages. */
#include "form_sample.h"
#include "layout/aids.h"
#include "print_dump.h"

static char *file_text(const char *path)
{
    struct buffer text = {0};
    char part[4096];
    FILE *file = fopen(path, "rb");
    buffer_text(&text, "");
    for (size_t length; file && (length = fread(part, 1, sizeof part, file)) > 0;)
        buffer_add(&text, part, length);
    if (file)
        fclose(file);
    char *kept = arena_text(arena, text.bytes);
    buffer_free(&text);
    return kept;
}

static void write_file(const char *path, const struct buffer *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text->bytes, 1, text->length, file), text->length);
    assert_int_equal(fclose(file), 0);
}

/* Fails at the first line that differs. */
static void assert_same_lines(const char *name, const char *want, const char *got)
{
    for (int line = 1; *want || *got; line++) {
        size_t a = strcspn(want, "\n"), b = strcspn(got, "\n");
        if (a != b || memcmp(want, got, a) != 0)
            fail_msg("%s:%d: \"%.*s\" is now \"%.*s\"", name, line, (int)a, want, (int)b, got);
        want += a + (want[a] == '\n');
        got += b + (got[b] == '\n');
    }
}

static void assert_golden(const char *name, const struct print *print)
{
    char *path = arena_format(arena, "tests/golden/%s.txt", name);
    const char *wish = getenv("GOLDEN");
    struct buffer dump = {0};
    assert_int_equal(diags_count(diags), 0);
    assert_true(print->sheet_count > 0);
    print_dump(&dump, print);
    if (wish && strcmp(wish, "update") == 0)
        write_file(path, &dump);
    else
        assert_same_lines(path, file_text(path), arena_text(arena, dump.bytes));
    buffer_free(&dump);
}

/* Title page, contents, a sheet of text, a turned sheet with a wide table. */
static void test_booklet(void **state)
{
    (void)state;
    struct page *start = new_page("start.md", "A book"), *page = new_page("one.md", "One");
    add_paragraph(start->root, "What it is for.");
    add_heading(page->root, 2, "A heading");
    struct node *paragraph = add_paragraph(page->root, words(30));
    add_text(add(paragraph, NODE_STRONG), " in bold");
    add(paragraph, NODE_CODE)->text = "in code";
    for (int i = 0; i < 2; i++) {
        struct node *list = add(page->root, NODE_LIST);
        list->level = i;
        add_paragraph(add(list, NODE_ITEM), words(14));
        add_paragraph(add(list, NODE_ITEM), "Short.");
    }
    struct node *caution = add(page->root, NODE_CAUTION);
    caution->text = "Power";
    add_paragraph(caution, words(12));
    add_paragraph(add(page->root, NODE_QUOTE), "Said by someone.");
    add(page->root, NODE_LITERAL)->text = "typed\n  as it is";
    add(page->root, NODE_RULE);
    add_table(page->root, "small", 3, 3);
    add_table(page->root, "wide", 11, 2);
    struct page *pages[] = {start, page};
    assert_golden("booklet", booklet_of(pages, 2));
}

/* A page that begins with its table, of so many rows. */
static struct print *table_of(size_t rows)
{
    struct page *page = new_page("table.md", "T");
    page->root->first = page->root->last = NULL;
    add_table(page->root, "numbers", 2, rows);
    return booklet_with(page);
}

/* From the top of a sheet to its foot; and one row more, which divides it. */
static void test_tables_of_a_whole_sheet(void **state)
{
    (void)state;
    size_t rows = 20;
    while (table_of(rows + 1)->sheet_count == 3)
        rows++;
    assert_golden("table-to-the-foot", table_of(rows));
    struct print *over = table_of(rows + 1);
    assert_int_equal(over->sheet_count, 4);
    assert_golden("table-one-row-over", over);
}

static void test_notes_page(void **state)
{
    (void)state;
    struct page *page = new_page("one.md", "One");
    for (int i = 0; i < 40; i++)
        add_heading(page->root, 2, arena_format(arena, "Part %d", i));
    struct print *print = booklet_with(page);
    size_t sheet = 0;
    assert_non_null(find_text(print, "Notes", &sheet));
    struct print notes = {.sheets = &print->sheets[sheet], .sheet_count = 1};
    assert_golden("notes", &notes);
}

static void test_card_and_its_sheet(void **state)
{
    (void)state;
    static const struct state_cell key[] = {{"▼ low", ""},
                                            {"▽ low?", "below 3"},
                                            {"● good", "3 to 4"},
                                            {"△ high?", "above 4"},
                                            {"▲ high", ""}};
    static const struct card_window window = {
        .head = "● good, at 1–2 r/min",
        .good = "3.0 – 4.0 N",
        .good_from = 30,
        .good_to = 40,
        .marks = {{28, "2.8", "low"}, {35, "3.5", "aim"}, {42, "4.2", "high"}},
        .mark_count = 3,
        .never = "9.0 N"};
    struct page *page = new_page("card.md", "Pull windows");
    add_table(page->root, "windows", 3, 3);
    add(page->root, NODE_RULE);
    add_paragraph(page->root, words(9));
    struct card_ask ask = {.size = PAPER_A6,
                           .booklet = PAPER_A5,
                           .least = 3.05 * MM,
                           .least_good = 4.07 * MM,
                           .distance = "700 mm",
                           .distance_mm = 700,
                           .window = &window,
                           .key = key,
                           .key_count = 5};
    struct card_prints prints = compose_card(arena, page, &imprint, fonts, &ask, diags);
    assert_golden("card", prints.card);
    assert_golden("card-sheet", prints.sheet);
}

static void test_trial(void **state)
{
    (void)state;
    struct fold one = {.pages = 31, .most = 10}, three = {.pages = 88, .most = 10};
    assert_golden("trial", compose_trial(arena, &imprint, fonts, PAPER_HALF_LETTER, &one));
    assert_golden("trial-of-gatherings",
                  compose_trial(arena, &imprint, fonts, PAPER_A5, &three));
}

/* A tape of two pieces; its marks are those of this test. */
static void test_aids(void **state)
{
    (void)state;
    const char *said[] = {"How to use it."};
    struct tape_mark vernier[] = {{-80, 0.4, "0"}, {0, 0.55, "10"}};
    struct tape_mark marks[] = {{900, 0.4, NULL}, {950, 0.55, "95"}, {1000, 0.4, NULL}};
    struct tape tape = {.begin = -100,
                        .end = 1010,
                        .upper_from = 50,
                        .lower_to = 880,
                        .marks = marks,
                        .mark_count = 3,
                        .vernier = vernier,
                        .vernier_count = 2,
                        .name = "the tape",
                        .index = "index"};
    struct aid aid = {.title = "Tape", .words = said, .word_count = 1, .tape = &tape};
    assert_true(tape.end - tape.begin < TAPE_PIECES * aid_width(PAPER_A5));
    assert_golden("aids", compose_aids(arena, &aid, 1, &imprint, fonts, PAPER_A5));
}

static void test_form(void **state)
{
    (void)state;
    assert_golden("form", forms_of(sample_form(), PAPER_A5));
    assert_golden("form-letter", forms_of(sample_form(), PAPER_HALF_LETTER));
}

/* A sheet with a figure at its own size. */
static void test_figure_aid(void **state)
{
    (void)state;
    const char *said[] = {"What it is."};
    static const struct path_step steps[] = {{.kind = STEP_MOVE, .x = 1, .y = 2},
                                             {.kind = STEP_LINE, .x = 90, .y = 60}};
    struct figure_path path = {.stroke = STROKE_THICK, .steps = steps, .step_count = 2};
    struct figure_text text = {.text = "a letter", .x = 40, .y = 20, .size = 7.5, .width = 30};
    struct figure figure = {.name = "one",
                            .description = "A line.",
                            .width = 100,
                            .height = 70,
                            .paths = &path,
                            .path_count = 1,
                            .texts = &text,
                            .text_count = 1};
    struct aid aid = {.title = "Figure", .words = said, .word_count = 1, .figure = &figure};
    assert_golden("aid-with-figure", compose_aids(arena, &aid, 1, &imprint, fonts, PAPER_A5));
}

static const struct CMUnitTest tests[] = {
    TEST(test_booklet),    TEST(test_tables_of_a_whole_sheet),
    TEST(test_notes_page), TEST(test_card_and_its_sheet),
    TEST(test_trial),      TEST(test_aids),
    TEST(test_figure_aid), TEST(test_form),
};

GROUP(golden, NULL, NULL)
