/* Tables on their sheets. */
#include "doc/canvas.h"
#include "page_sample.h"
#include "print_dump.h"

#include <math.h>

/* Lines of text above, so that the table meets the foot of the sheet everywhere. */
static struct print *table_after(int lines, size_t columns, size_t rows)
{
    struct page *page = new_page("table.md", "Tables");
    for (int i = 0; i < lines; i++)
        add_paragraph(page->root, "A line.");
    add_table(page->root, "numbers", columns, rows);
    return booklet_with(page);
}

/* x of the decimal point, or of the end of a number without one. */
static double point_of(const struct piece *piece)
{
    return piece->x + fonts_width_of(fonts, piece->face, piece->size, piece->text,
                                     strcspn(piece->text, "."));
}

static bool is_number(const struct piece *piece)
{
    return is_text(piece) && strchr("0123456789", piece->text[strspn(piece->text, "−")]);
}

/* In every column the points of all rows are one below the other. */
static void test_numbers_stand_on_their_decimal_points(void **state)
{
    (void)state;
    struct print *print = table_after(1, 4, 12);
    const struct sheet *sheet = &print->sheets[2];
    double points[3];
    int numbers = 0, cell = 0;
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const struct piece *piece = &sheet->pieces[i];
        if (piece->tag < 0 || kind_of(print, piece) == TAG_HEAD_CELL)
            cell = 0;
        if (piece->tag < 0 || kind_of(print, piece) != TAG_CELL)
            continue;
        int column = cell++ % 3;
        if (!is_number(piece))
            continue;
        double point = point_of(piece);
        if (numbers >= 3 && points[column] > 0)
            assert_true(fabs(point - points[column]) < 0.01);
        points[column] = point;
        numbers++;
    }
    assert_int_equal(numbers, 30);
    assert_true(points[0] + 20 < points[1] && points[1] + 20 < points[2]);
}

static void test_a_table_that_fits_is_not_divided(void **state)
{
    (void)state;
    for (int lines = 0; lines < 50; lines++) {
        struct print *print = table_after(lines, 3, 20);
        size_t first = sheet_with(print, "Numbers of every kind"), sheet = 2;
        assert_int_equal(sheet_with(print, "row 1"), first);
        assert_int_equal(sheet_with(print, "row 20"), first);
        assert_int_equal(sheet_with(print, "A note below"), first);
        assert_null(find_text(print, "Numbers of every kind (continued)", &sheet));
    }
}

/* Rows on a sheet, from their heads. */
static int count_rows(const struct sheet *sheet)
{
    int count = 0;
    for (size_t i = 0; i < sheet->piece_count; i++)
        count += is_text(&sheet->pieces[i]) && strncmp(sheet->pieces[i].text, "row ", 4) == 0;
    return count;
}

/* From a table that fills its sheet to one that goes over many: each part has the
 * heads, few rows stand alone, and no row is lost. */
static void test_divided_tables_repeat_their_heads(void **state)
{
    (void)state;
    int divided = 0;
    for (size_t rows = 30; rows < 130; rows++) {
        struct print *print = table_after(0, 3, rows);
        int all = 0;
        for (size_t i = 2; i < print->sheet_count; i++) {
            const struct sheet *sheet = &print->sheets[i];
            all += count_rows(sheet);
            if (print->sheet_count == 3)
                continue;
            assert_true(count_rows(sheet) >= 2);
            assert_int_equal(count_text(sheet, "low pull"), 2);
            assert_int_equal(count_text(sheet, "Numbers of every kind (continued)"), i > 2);
            divided++;
        }
        assert_int_equal(all, rows);
        assert_int_equal(sheet_with(print, "A note below"), print->sheet_count - 1);
    }
    assert_true(divided > 100);
}

/* Where one sheet is just enough, and where it is one row too few. */
static void test_a_sheet_is_filled_to_the_last_row(void **state)
{
    (void)state;
    size_t rows = 30;
    while (table_after(0, 3, rows + 1)->sheet_count == 3)
        rows++;
    const struct sheet *sheet = &table_after(0, 3, rows)->sheets[2];
    double lowest = 0, second = 0;
    for (size_t i = 0; i < sheet->piece_count; i++)
        if (is_text(&sheet->pieces[i]) && sheet->pieces[i].tag >= 0 &&
            sheet->pieces[i].y > lowest) {
            second = lowest;
            lowest = sheet->pieces[i].y;
        }
    double room = sheet->height - 18 * MM - lowest;
    assert_true(lowest > second && room > 0 && room < 18);
    assert_int_equal(table_after(0, 3, rows + 1)->sheet_count, 4);
}

static double cell_size(const struct print *print)
{
    size_t sheet = 2;
    return find_text(print, "row 1", &sheet)->size;
}

/* Smaller type first, then the sheet on its side, then a fault. */
static void test_wide_tables(void **state)
{
    (void)state;
    struct print *print = table_after(2, 5, 6);
    assert_true(fabs(cell_size(print) - 9) < 1e-9);
    print = table_after(2, 9, 6);
    assert_true(cell_size(print) >= 8 && cell_size(print) < 9);
    assert_true(print->sheets[sheet_with(print, "row 1")].width < 500);
    print = table_after(2, 11, 6);
    assert_true(print->sheets[sheet_with(print, "row 1")].width > 500);
    assert_int_equal(sheet_with(print, "row 1"), 3);
    assert_int_equal(diags_count(diags), 0);
    table_after(2, 30, 6);
    assert_said("sample.md:31:1: the table 'numbers' is too wide for the page");
}

/* A table of 8 columns and 20 rows, `long_rows` of which begin with so many words. */
static bool is_turned(size_t long_rows, int count)
{
    struct page *page = new_page("table.md", "Tables");
    struct table *table = add_table(page->root, "numbers", 8, 20);
    for (size_t row = 0; row < long_rows; row++)
        table->cells[8 * row].shown = words(count);
    struct print *print = booklet_with(page);
    size_t sheet = sheet_with(print, "400.125");
    return print->sheets[sheet].width > print->sheets[sheet].height;
}

/* A log with rows of three lines is turned, where each has one; of two or three such rows it
 * is no reason. */
static void test_a_table_is_turned_where_it_is_much_better(void **state)
{
    (void)state;
    assert_false(is_turned(20, 1));
    assert_true(is_turned(20, 7));
    assert_false(is_turned(2, 7));
}

/* A number may leave its long unit in a head or a cell, but not in running text. */
static void test_long_units_do_not_widen_columns(void **state)
{
    (void)state;
    struct page *page = new_page("table.md", "Tables");
    struct table *table = add_table(page->root, "numbers", 3, 3);
    table->columns[1].quantity = "low, 0–1000 r/min";
    struct print *print = booklet_with(page);
    size_t sheet = 2, again = 2;
    const struct piece *number = find_text(print, "low, 0–1000", &sheet);
    const struct piece *unit = find_text(print, "r/min", &again);
    assert_non_null(number);
    assert_non_null(unit);
    assert_true(unit->y > number->y);
}

/* Of a table of 20 rows, `long_rows` of which are as many points wide at size 9: the size
 * of its words. */
static double size_with(size_t long_rows, double width)
{
    struct page *page = new_page("table.md", "Tables");
    struct table *table = add_table(page->root, "numbers", 2, 20);
    const char *text = "row a";
    while (fonts_width(fonts, FACE_REGULAR, 9, text) < width)
        text = arena_format(arena, "%s a", text);
    for (size_t row = 0; row < long_rows; row++)
        table->cells[2 * row].shown = text;
    size_t sheet = 2;
    return find_text(booklet_with(page), "400.125", &sheet)->size;
}

/* Smaller type is taken where it saves enough lines, and only there. */
static void test_smaller_type_must_be_worth_it(void **state)
{
    (void)state;
    assert_true(size_with(20, 200) == 9); /* nothing wraps */
    assert_true(size_with(20, 310) == 8); /* at 8 no row wraps any more */
    assert_true(size_with(1, 310) == 9);  /* one row of two lines is no reason */
    assert_true(size_with(20, 500) == 9); /* two lines each way */
}

static void test_strong_rows_columns_and_cells_are_bold(void **state)
{
    (void)state;
    struct page *page = new_page("table.md", "Tables");
    struct table *table = add_table(page->root, "numbers", 4, 6);
    table->cells[1 * 4 + 2] = (struct cell){.shown = "77.5", .strong = true};
    table->cells[2 * 4 + 2].shown = "77.6";
    table->cells[3 * 4 + 2].shown = "77.7";
    table->cells[4 * 4 + 1].shown = "77.8";
    struct print *print = booklet_with(page);
    size_t sheet = 2;
    assert_int_equal(find_text(print, "77.5", &sheet)->face, FACE_BOLD); /* the cell */
    assert_int_equal(find_text(print, "77.6", &sheet)->face, FACE_REGULAR);
    assert_int_equal(find_text(print, "77.7", &sheet)->face, FACE_BOLD); /* its row */
    assert_int_equal(find_text(print, "77.8", &sheet)->face, FACE_BOLD); /* its column */
    assert_int_equal(find_text(print, "row 3", &sheet)->face, FACE_REGULAR);
    assert_int_equal(find_text(print, "row 4", &sheet)->face, FACE_BOLD);
    assert_true(print->tags[find_text(print, "row 3", &sheet)->tag].row_head);
}

/* A print made by hand, as the dump tells it. */
static void test_dump(void **state)
{
    (void)state;
    struct piece pieces[] = {
        {.kind = PIECE_TEXT, .tag = 1, .x = 10, .y = 20.04, .width = 5, .size = 9, .text = "a"},
        {.kind = PIECE_LINE, .tag = -1, .x = -0.01, .y = 1, .width = 2, .line = 0.5},
        {.kind = PIECE_BOX, .tag = -1, .width = 3, .height = 4, .filled = true, .grey = 0.9}};
    struct hot_area areas[] = {{.x = 1, .width = 2, .height = 3, .to_sheet = 0, .to_y = 7}};
    struct sheet sheet = {.width = 100,
                          .height = 200,
                          .label = "i",
                          .pieces = pieces,
                          .piece_count = 3,
                          .areas = areas,
                          .area_count = 1};
    struct outline_entry entry = {.title = "Top", .level = 1};
    struct print print = {
        .sheets = &sheet, .sheet_count = 1, .outline = &entry, .outline_count = 1};
    struct buffer out = {0};
    print_dump(&out, &print);
    assert_string_equal(out.bytes, "sheet 1 \"i\" 100.0 x 200.0\n"
                                   "  text 10.0 20.0 5.0 regular 9.0 grey 0.00 tag 1 \"a\"\n"
                                   "  line 0.0 1.0 2.0 0.0 stroke 0.5 grey 0.00\n"
                                   "  box 0.0 0.0 3.0 4.0 stroke 0.0 grey 0.90 filled\n"
                                   "  area 1.0 0.0 2.0 3.0 -> sheet 1 at 7.0\n"
                                   "outline 1 sheet 1 \"Top\"\n");
    buffer_free(&out);
}

static const struct CMUnitTest tests[] = {
    TEST(test_numbers_stand_on_their_decimal_points),
    TEST(test_a_table_that_fits_is_not_divided),
    TEST(test_divided_tables_repeat_their_heads),
    TEST(test_a_sheet_is_filled_to_the_last_row),
    TEST(test_wide_tables),
    TEST(test_a_table_is_turned_where_it_is_much_better),
    TEST(test_long_units_do_not_widen_columns),
    TEST(test_smaller_type_must_be_worth_it),
    TEST(test_strong_rows_columns_and_cells_are_bold),
    TEST(test_dump),
};

GROUP(tables, NULL, NULL)
