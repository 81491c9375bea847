/* A figure made by hand: drawn on the canvas, put on a page, painted as SVG. */
#include "doc/canvas.h"
#include "html/svg.h"
#include "page_sample.h"
#include "pdf/draw.h"
#include "tenth.h"

#include <math.h>

/* Half the size for each sign: enough to tell where texts go. */
static double half_width(const void *with, bool bold, double size, const char *text)
{
    (void)with;
    return (bold ? 0.6 : 0.5) * size * (double)strlen(text);
}

static const struct text_meter meter = {.width = half_width};

static struct canvas new_canvas(double height)
{
    struct canvas canvas = canvas_new(arena, &meter, height);
    canvas.figure->name = "sample";
    canvas.figure->title = "A sample";
    canvas.figure->caption = "What to see in the sample.";
    canvas.figure->description = "A box & a text.";
    canvas.figure->at = (struct place){.file = "sample.md", .line = 9, .column = 1};
    return canvas;
}

static const struct figure *sample(double height)
{
    struct canvas canvas = new_canvas(height);
    canvas_box(&canvas, 10, 10, 40, 20, &ink_sheet);
    canvas_line(&canvas, 5, 5, 60, 5, &ink_centre);
    canvas_text(&canvas, 30, 22, ALIGN_MIDDLE, "abcd");
    return canvas.figure;
}

/* One line a mark, rounded to 0.1 pt. */
static void dump_path(struct buffer *out, const struct figure_path *path)
{
    static const char *const strokes[] = {"none", "thin", "thick"};
    static const char *const dashes[] = {"", " hidden", " centre"};
    static const char *const fills[] = {"", " paper", " ink"};
    static const char letters[] = "MLCZ";
    buffer_print(out, "path %s%s%s:", strokes[path->stroke], dashes[path->dash],
                 fills[path->fill]);
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        buffer_print(out, " %c", letters[step->kind]);
        if (step->kind == STEP_CURVE)
            buffer_print(out, " %.1f %.1f %.1f %.1f", tenth(step->x1), tenth(step->y1),
                         tenth(step->x2), tenth(step->y2));
        if (step->kind != STEP_CLOSE)
            buffer_print(out, " %.1f %.1f", tenth(step->x), tenth(step->y));
    }
    buffer_text(out, "\n");
}

static void figure_dump(struct buffer *out, const struct figure *figure)
{
    buffer_print(out, "figure %s %.1f x %.1f%s\n", figure->name, figure->width, figure->height,
                 figure->to_scale ? " to scale" : "");
    for (size_t i = 0; i < figure->path_count; i++)
        dump_path(out, &figure->paths[i]);
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        buffer_print(out, "text %.1f %.1f %.1f size %.1f%s \"%s\"\n",
                     tenth(figure_text_left(text)), tenth(text->y), text->width, text->size,
                     text->bold ? " bold" : "", text->text);
    }
}

static void test_dump(void **state)
{
    (void)state;
    struct buffer out = {0};
    figure_dump(&out, sample(50));
    assert_string_equal(out.bytes,
                        "figure sample 316.0 x 50.0\n"
                        "path thick paper: M 10.0 10.0 L 50.0 10.0 L 50.0 30.0 L 10.0 30.0 Z\n"
                        "path thin centre: M 5.0 5.0 L 60.0 5.0\n"
                        "text 22.5 22.0 15.0 size 7.5 \"abcd\"\n");
    buffer_free(&out);
}

static void test_words_are_broken(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    double last = canvas_words(&canvas, 0, 10, 40, ALIGN_LEFT, "four five sixteen-or-more x");
    assert_int_equal(canvas.figure->text_count, 3);
    assert_string_equal(canvas.figure->texts[0].text, "four five");
    assert_string_equal(canvas.figure->texts[1].text, "sixteen-or-more");
    assert_string_equal(canvas.figure->texts[2].text, "x");
    assert_true(fabs(last - (10 + 2 * FIGURE_LEAD)) < 1e-9);
}

/* A circle by curves stays within a part in 3000 of its radius. */
static void test_circles_are_round(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    canvas_circle(&canvas, 30, 20, 15, &ink_thin);
    size_t count;
    const struct outline_point *points = path_outline(arena, &canvas.figure->paths[0], &count);
    assert_true(count > 60);
    for (size_t i = 0; i < count; i++)
        assert_true(fabs(hypot(points[i].x - 30, points[i].y - 20) - 15) < 0.005);
}

/* Every line of the hatching begins and ends on an edge, and none crosses the hole. */
static void test_hatching_keeps_to_its_shape(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(100);
    canvas_arc(&canvas, 50, 50, 40, 0, 360);
    canvas_close(&canvas);
    canvas_move(&canvas, 70, 50);
    canvas_arc(&canvas, 50, 50, 20, 0, 360);
    canvas_close(&canvas);
    canvas_ink(&canvas, &ink_hatch);
    assert_int_equal(canvas.figure->path_count, 1);
    const struct figure_path *hatch = &canvas.figure->paths[0];
    double length = 0;
    for (size_t i = 0; i < hatch->step_count; i += 2) {
        const struct path_step *a = &hatch->steps[i], *b = &hatch->steps[i + 1];
        double x = (a->x + b->x) / 2 - 50, y = (a->y + b->y) / 2 - 50;
        assert_true(hypot(x, y) > 19.9 && hypot(x, y) < 40.1);
        assert_true(fabs(hypot(a->x - 50, a->y - 50) - 40) < 0.3 ||
                    fabs(hypot(a->x - 50, a->y - 50) - 20) < 0.3);
        length += hypot(b->x - a->x, b->y - a->y);
    }
    double area = M_PI * (40 * 40 - 20 * 20); /* lines 3 points apart */
    assert_true(fabs(length * 3 - area) < 0.03 * area);
}

static struct page *page_with(const struct figure *figure, int lines, bool lead)
{
    struct page *page = new_page("figure.md", "Figures");
    for (int i = 0; i < lines; i++)
        add_paragraph(page->root, "A line.");
    add_paragraph(page->root, lead ? "It looks as follows:" : "It looks.");
    add(page->root, NODE_FIGURE)->figure = figure;
    add_paragraph(page->root, "After it.");
    return page;
}

static const struct piece *first_path(const struct print *print, size_t sheet)
{
    for (size_t i = 0; i < print->sheets[sheet].piece_count; i++)
        if (print->sheets[sheet].pieces[i].kind == PIECE_PATH)
            return &print->sheets[sheet].pieces[i];
    return NULL;
}

/* The drawing is as wide as the column, and no smaller than drawn. */
static void test_a_figure_fills_the_column(void **state)
{
    (void)state;
    const double column = (148 - 13 - 16) * 72 / 25.4;
    struct print *print = booklet_with(page_with(sample(50), 0, true));
    const struct piece *path = first_path(print, 2);
    assert_non_null(path);
    assert_true(fabs(path->scale * FIGURE_WIDTH - column) < 0.01);
    assert_true(path->filled && path->grey > 0.99);
    size_t sheet = 2;
    const struct piece *text = find_text(print, "abcd", &sheet);
    assert_true(fabs(text->size - FIGURE_TEXT * path->scale) < 1e-9);
    assert_int_equal(kind_of(print, text), TAG_FIGURE);
    assert_string_equal(print->tags[text->tag].alternative, "A box & a text.");
    assert_int_equal(kind_of(print, find_text(print, "What to see", &sheet)), TAG_CAPTION);
    assert_int_equal(diags_count(diags), 0);
}

static void test_a_figure_to_scale_is_not_scaled(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    canvas_box(&canvas, 10, 10, 72, 20, &ink_thick);
    canvas_text(&canvas, 30, 22, ALIGN_MIDDLE, "abcd");
    canvas.figure->to_scale = true;
    struct print *print = booklet_with(page_with(canvas.figure, 0, true));
    assert_true(fabs(first_path(print, 2)->scale - 1) < 1e-12);
}

/* Wherever it falls on the sheets, drawing, caption and lead-in are on one. */
static void test_a_figure_is_kept_whole(void **state)
{
    (void)state;
    int moved = 0;
    for (int lines = 0; lines < 40; lines++) {
        struct print *print = booklet_with(page_with(sample(150), lines, true));
        size_t sheet = sheet_with(print, "abcd");
        assert_int_equal(sheet_with(print, "What to see"), sheet);
        assert_int_equal(sheet_with(print, "It looks as follows"), sheet);
        assert_non_null(first_path(print, sheet));
        moved += sheet > 2;
    }
    assert_true(moved > 5 && moved < 35);
}

static void test_what_does_not_fit_is_a_fault(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    canvas_text(&canvas, 30, 22, ALIGN_MIDDLE, "abcd");
    canvas.figure->texts[0].size = 6;
    booklet_with(page_with(sample(440), 0, false));
    assert_int_equal(diags_count(diags), 0);
    booklet_with(page_with(sample(480), 0, false));
    assert_int_equal(diags_count(diags), 1);
    assert_said("sample.md:9:1: the figure 'sample' does not fit the page");
    booklet_with(page_with(canvas.figure, 0, false));
    assert_int_equal(diags_count(diags), 2);
}

static void test_signs_of_figures_are_checked(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    canvas_text(&canvas, 30, 22, ALIGN_MIDDLE, "漢");
    const struct page *pages[] = {page_with(canvas.figure, 0, false)};
    compose_check(pages[0], fonts, diags);
    assert_said("the character '漢'");
}

static void test_svg(void **state)
{
    (void)state;
    struct buffer out = {0};
    svg_paint(&out, sample(50));
    assert_string_equal(out.bytes,
                        "<svg role=\"img\" fill=\"currentColor\" viewBox=\"0 0 316 50\">\n"
                        "<title>A sample</title>\n<desc>A box &amp; a text.</desc>\n"
                        "<path class=\"paper\" stroke=\"currentColor\" stroke-width=\"1\" "
                        "d=\"M10 10L50 10L50 30L10 30Z\"/>\n"
                        "<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.4\" "
                        "stroke-dasharray=\"8 2 1.5 2\" d=\"M5 5L60 5\"/>\n"
                        "<text x=\"30\" y=\"22\" font-size=\"7.5\" textLength=\"15\" "
                        "lengthAdjust=\"spacingAndGlyphs\" text-anchor=\"middle\">abcd</text>\n"
                        "</svg>\n");
    buffer_free(&out);
}

/* Twice as large, its corner at (10, 20) of a sheet 100 high: y turns over. */
static void test_paths_in_the_pdf(void **state)
{
    (void)state;
    struct canvas canvas = new_canvas(50);
    canvas_move(&canvas, 0, 0);
    canvas_to(&canvas, 5, 0);
    canvas_curve(&canvas, 6, 1, 7, 2, 8, 4);
    canvas_close(&canvas);
    canvas_ink(&canvas, &ink_hidden);
    struct piece dashed = {.kind = PIECE_PATH,
                           .tag = -1,
                           .x = 10,
                           .y = 20,
                           .line = 0.8,
                           .path = canvas.figure->paths,
                           .scale = 2};
    struct piece line = {
        .kind = PIECE_LINE, .tag = -1, .x = 1, .y = 1, .width = 2, .line = 0.8};
    struct piece filled = dashed;
    filled.filled = true;
    filled.grey = 1;
    struct piece pieces[] = {dashed, line, filled};
    struct sheet sheet = {.width = 100, .height = 100, .pieces = pieces, .piece_count = 3};
    struct buffer out = {0};
    pdf_draw_sheet(&out, &sheet, NULL);
    assert_string_equal(out.bytes, "[6 4 ] 0 d\n0.8 w\n"
                                   "10 80 m 20 80 l 22 78 24 76 26 72 c h S\n"
                                   "[] 0 d\n1 99 m 3 99 l S\n"
                                   "1 g\n10 80 m 20 80 l 22 78 24 76 26 72 c h f\n");
    buffer_free(&out);
}

static int fresh(void **state)
{
    (void)state;
    diags = diags_new(arena);
    return 0;
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_dump),
    cmocka_unit_test(test_words_are_broken),
    cmocka_unit_test(test_circles_are_round),
    cmocka_unit_test(test_hatching_keeps_to_its_shape),
    cmocka_unit_test_setup(test_a_figure_fills_the_column, fresh),
    cmocka_unit_test_setup(test_a_figure_to_scale_is_not_scaled, fresh),
    cmocka_unit_test_setup(test_a_figure_is_kept_whole, fresh),
    cmocka_unit_test_setup(test_what_does_not_fit_is_a_fault, fresh),
    cmocka_unit_test_setup(test_signs_of_figures_are_checked, fresh),
    cmocka_unit_test(test_svg),
    cmocka_unit_test(test_paths_in_the_pdf),
};

GROUP(by_hand, setup, teardown)
