/* Forms: what the blocks read, the sheets that they become. */
#include "doc/canvas.h"
#include "form_sample.h"
#include "html/page.h"
#include "tables/tables.h"
#include "tree_dump.h"

#include <math.h>

/* ---- reading ---- */

static const char *dump_of(const char *info, const char *body)
{
    struct node *root = node_new(arena, NODE_PAGE, (struct place){.file = "form.md"});
    struct buffer out = {0};
    tree_dump(&out, add_block(root, info, body));
    const char *dump = arena_slice(arena, out.bytes, out.length);
    buffer_free(&out);
    return strchr(dump, '\n') + 1;
}

static void test_places_are_read(void **state)
{
    (void)state;
    assert_string_equal(
        dump_of("boxes",
                "Date | Pull / N *3\n\nDrum = 62 mm | Warm? \u25a1 yes \u25a1 no, cold\n"),
        "  boxes | Date | Pull / N *3\n"
        "  boxes | Drum = 62 mm | Warm? \u25a1 yes \u25a1 no, cold\n");
    assert_string_equal(dump_of("lines", "Remarks / N\n...\n"),
                        "  lines | Remarks / N\n  lines | \n");
    assert_string_equal(dump_of("boxes", "A *x | B *0 | C *9\n"),
                        "  boxes | A *x | B *0 | C *9\n");
    assert_int_equal(diags_count(diags), 0);
}

static void test_a_row_of_places_knows_its_line(void **state)
{
    (void)state;
    struct node *root = node_new(arena, NODE_PAGE, (struct place){.file = "form.md"});
    struct node *node = add_block(root, "boxes", "A\n\nB\n");
    assert_int_equal(node->form->rows[1].at.line, node->at.line + 3);
}

static void test_grid_rows_may_be_a_range(void **state)
{
    (void)state;
    assert_string_equal(dump_of("grid g: Heads", "no.,pull / N *2\nfirst,1\n9..11,\n"),
                        "  caption Heads\n  row | first | 1\n  row | 9 | \n  row | 10 | \n"
                        "  row | 11 | \n");
    assert_string_equal(dump_of("grid g: Heads", "no.\n1..x\n1..2 and 3\n1..\n"),
                        "  caption Heads\n  row | 1..x\n  row | 1..2 and 3\n  row | 1..\n");
    struct node *root = node_new(arena, NODE_PAGE, (struct place){.file = "form.md"});
    struct table *table = add_block(root, "grid g: Heads", "a *3,b / N *2,c\n1,,\n")->table;
    assert_true(table->blank);
    assert_int_equal(table->columns[0].share, 3);
    assert_string_equal(table->columns[0].quantity, "a");
    assert_int_equal(table->columns[1].share, 2);
    assert_string_equal(table->columns[1].unit, "N");
    assert_int_equal(table->columns[2].share, 1);
}

/* ---- sheets ---- */

static size_t boxes_of(const struct print *print, double side)
{
    size_t count = 0;
    for (size_t i = 0; i < print->sheets[0].piece_count; i++) {
        const struct piece *piece = &print->sheets[0].pieces[i];
        count += piece->kind == PIECE_BOX && fabs(piece->width - side) < 0.01 &&
                 fabs(piece->height - side) < 0.01;
    }
    return count;
}

static void test_boxes_to_tick_have_6_mm(void **state)
{
    (void)state;
    assert_int_equal(boxes_of(forms_of(sample_form(), PAPER_A5), 6 * MM), 3);
}

/* Between lines over the whole width, as they come down the sheet. */
static void assert_rows(const struct print *print, size_t wanted)
{
    double before = 0;
    size_t rows = 0;
    for (size_t i = 0; i < print->sheets[0].piece_count; i++) {
        const struct piece *piece = &print->sheets[0].pieces[i];
        if (piece->kind != PIECE_LINE || piece->width < 150 * MM)
            continue;
        double height = piece->y - before;
        rows += before > 0 && height > 9 * MM - 0.01 && height < 13 * MM + 0.01;
        before = piece->y;
    }
    assert_int_equal(rows, wanted);
}

static struct page *grid_form(size_t rows)
{
    struct page *page = new_form("F2. A grid");
    add_block(page->root, "grid g: Rows", arena_format(arena, "a,b\n1..%zu,\n", rows));
    return page;
}

/* The height of the last row of a grid. */
static double last_row(const struct print *print)
{
    double above = 0, below = 0;
    for (size_t i = 0; i < print->sheets[0].piece_count; i++) {
        const struct piece *piece = &print->sheets[0].pieces[i];
        if (piece->kind == PIECE_LINE && piece->width > 150 * MM && piece->line > 0.4 &&
            piece->y < 280 * MM) {
            above = below;
            below = piece->y;
        }
    }
    return below - above;
}

/* Rows grow with the room that there is. */
static void test_rows_fill_their_sheet(void **state)
{
    (void)state;
    double few = last_row(forms_of(grid_form(2), PAPER_A5));
    double more = last_row(forms_of(grid_form(21), PAPER_A5));
    double most = last_row(forms_of(grid_form(24), PAPER_A5));
    assert_true(fabs(few - 13 * MM) < 0.01);
    assert_true(few > more + 0.1 && more > most + 0.1);
}

/* A row takes 9 mm at least, 13 at most: 24 of them fit a sheet of A4, 40 do not. */
static void test_rows_are_9_to_13_mm_high(void **state)
{
    (void)state;
    for (size_t rows = 2; rows <= 24; rows += 11)
        assert_rows(forms_of(grid_form(rows), PAPER_A5), rows);
    assert_int_equal(diags_count(diags), 0);
    forms_of(grid_form(40), PAPER_A5);
    assert_said("too long for one sheet");
}

/* The blank between blocks gives way before the form is refused. */
static void test_a_form_is_squeezed_onto_its_sheet(void **state)
{
    (void)state;
    size_t most = 1;
    while (forms_of(grid_form(most + 1), PAPER_A5)->sheet_count == 1 && diags_count(diags) == 0)
        most++;
    diags = diags_new(arena);
    struct page *page = grid_form(most);
    add_paragraph(page->root, "One line more.");
    struct print *print = forms_of(page, PAPER_A5);
    assert_int_equal(diags_count(diags), 0);
    assert_int_equal(print->sheet_count, 1);
}

static void test_sheets_are_a4_or_letter(void **state)
{
    (void)state;
    struct print *a4 = forms_of(sample_form(), PAPER_A5);
    struct print *letter = forms_of(sample_form(), PAPER_HALF_LETTER);
    assert_true(fabs(a4->sheets[0].width - 210 * MM) < 0.01);
    assert_true(fabs(a4->sheets[0].height - 297 * MM) < 0.01);
    assert_true(letter->sheets[0].width == 612 && letter->sheets[0].height == 792);
    assert_int_equal(a4->outline_count, 1);
    assert_string_equal(a4->outline[0].title, "F1. A form");
}

static void test_words_wider_than_their_place(void **state)
{
    (void)state;
    struct page *page = new_form("F3. Narrow");
    add_block(page->root, "boxes",
              "A \u25a1 words that are far too long for so narrow a box *1 | B *9\n");
    forms_of(page, PAPER_A5);
    assert_said("wider than their place");
    assert_int_equal(diags_count(diags), 1);
}

/* ---- graphs ---- */

static struct figure *graph_of(const struct shop *shop, const char *body)
{
    struct node *root = node_new(arena, NODE_PAGE, (struct place){.file = "form.md"});
    struct node *node = add_block(root, "graph g: A graph", body);
    struct text_meter meter = {text_width, fonts};
    return draw_blank_graph(arena, shop, node->graph, &meter);
}

/* y of the baseline of the text that begins so. */
static double height_of(const struct figure *figure, const char *begin)
{
    for (size_t i = 0; i < figure->text_count; i++)
        if (strncmp(figure->texts[i].text, begin, strlen(begin)) == 0)
            return figure->texts[i].y;
    fail_msg("no text begins with %s", begin);
    return 0;
}

/* Limits of 0.55 and 0.75: a window below and one above are 0.35 and 0.95; eight squares
 * of 0.1 from 0.3 on hold them, and a square is 5 mm. */
static void test_limits_stand_at_their_height(void **state)
{
    (void)state;
    struct shop shop = shop_with(NULL, 0);
    struct figure *figure = graph_of(&shop, "across: time / min\nwindow: yes\nsquares: 8\n");
    double low = height_of(figure, "low limit 0.55"),
           high = height_of(figure, "high limit 0.75");
    assert_true(fabs(low - high - 2 * 5 * MM) < 0.01);
    assert_true(fabs(height_of(figure, "0.3") - low - 2.5 * 5 * MM) < 0.01);
    assert_true(fabs(height_of(figure, "0.7") - high - 0.5 * 5 * MM) < 0.01);
    assert_true(figure->to_scale && figure->width < 174 * MM);
    assert_non_null(strstr(figure->description, "whole drag / N·m"));
}

static void check_inside(const struct figure *figure)
{
    for (size_t i = 0; i < figure->path_count; i++) {
        size_t count;
        const struct outline_point *points = path_outline(arena, &figure->paths[i], &count);
        for (size_t k = 0; k < count; k++)
            assert_true(points[k].x >= 0 && points[k].x <= figure->width && points[k].y >= 0 &&
                        points[k].y <= figure->height);
    }
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        double left = figure_text_left(text);
        assert_true(left >= 0 && left + text->width <= figure->width);
        assert_true(text->y - 0.76 * text->size >= 0 && text->y <= figure->height);
    }
}

/* Whatever the numbers are. A window of one value has a graph too. */
static void test_no_graph_leaves_its_box(void **state)
{
    (void)state;
    static const char *const set[][2] = {
        {"limits.bands.3.low=0.75 N.m", "limits.never-exceed=1 N.m"},
        {"limits.bands.3.low=0 N.m", "limits.never-exceed=2 N.m"},
        {"limits.bands.3.low=0.7499 N.m", "limits.never-exceed=3 N.m"}};
    for (size_t i = 0; i < 3; i++) {
        struct shop shop = shop_with(set[i], 2);
        check_inside(graph_of(&shop, "across: year, 0 to 20\nwindow: yes\nsquares: 4\n"));
    }
    check_inside(graph_of(NULL, "across: a, -1 to 999999\nup: b, 0.500 to 0.501\n"));
    check_inside(graph_of(NULL, "across: a, -99.99 to -99.9\nup: b, -999999 to 0\n"));
    check_inside(graph_of(NULL, "across: a / N\nup: b / mm\nsquares: 40\n"));
}

/* Every number that was asked for lies on the paper, at a line of it. */
static void test_numbers_reach_as_far_as_asked(void **state)
{
    (void)state;
    struct figure *figure = graph_of(NULL, "across: year, 1.9 to 31.8\nup: b\n");
    double last = 0;
    for (size_t i = 0; i < figure->text_count; i++)
        last = fmax(last, atof(figure->texts[i].text));
    assert_true(last >= 31.8);
}

/* ---- the site ---- */

static void test_places_on_the_site(void **state)
{
    (void)state;
    struct buffer out = {0};
    struct html_page page = {.out = &out};
    struct node *root = node_new(arena, NODE_PAGE, (struct place){.file = "form.md"});
    html_paint_node(&page, add_block(root, "boxes", "A & B = <1> *2 | C / N | D \u25a1 e\n"));
    assert_string_equal(
        out.bytes,
        "<div class=\"form boxes\">\n<dl>\n"
        "<div class=\"share-2\"><dt>A &amp; B</dt><dd>&lt;1&gt;</dd></div>\n"
        "<div><dt>C</dt><dd><span class=\"unit\">N</span></dd></div>\n"
        "<div><dt>D</dt><dd><span class=\"tick\"><span class=\"tick-box\">\u25a1</span> "
        "e</span> </dd></div>\n"
        "</dl>\n</div>\n");
    buffer_free(&out);
}

static const struct CMUnitTest tests[] = {
    TEST(test_places_are_read),
    TEST(test_a_row_of_places_knows_its_line),
    TEST(test_grid_rows_may_be_a_range),
    TEST(test_boxes_to_tick_have_6_mm),
    TEST(test_rows_fill_their_sheet),
    TEST(test_rows_are_9_to_13_mm_high),
    TEST(test_a_form_is_squeezed_onto_its_sheet),
    TEST(test_sheets_are_a4_or_letter),
    TEST(test_words_wider_than_their_place),
    TEST(test_limits_stand_at_their_height),
    TEST(test_no_graph_leaves_its_box),
    TEST(test_numbers_reach_as_far_as_asked),
    TEST(test_places_on_the_site),
};

GROUP(forms, NULL, NULL)
