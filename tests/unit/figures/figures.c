/* What the figures draw, over shops of many kinds: nothing leaves its box, texts are large
 * enough and clear of each other and of lines, and numbers are those of the tables. */
#include "figures/figures.h"
#include "doc/canvas.h"
#include "figure_texts.h"
#include "judge/measure.h"
#include "page_sample.h"
#include "shop/logs.h"
#include "shop/settings.h"
#include "shop_fixture.h"
#include "tables/tables.h"

#include <math.h>

static const char settings_file[] = "tests/faults/base/settings.yaml";

/* Each line replaces values of the settings: "key=value" and "key=value" or nothing. */
static const char *const shops[][4] = {
    {"nut.pitch=1/16 in", "nut.outside-diameter=2 1/2 in"},
    {"nut.outside-diameter=65 mm"},
    {"nut.outside-diameter=12 mm", "nut.pitch=0.5 mm"},
    {"nut.outside-diameter=400 mm"},
    {"drum.diameter=2 9/16 in", "gauge.step=0.01 lbf", "gauge.capacity=11 lbf"},
    {"drum.diameter=120 mm", "tables.drum-sizes=120 mm"},
    {"lathe.top-speed=400 r/min", "tables.drum-sizes=1 1/2 in, 50 mm, 100 mm",
     "gauge.checked-error=0.1 N", "pulls.scatter=5 %"},
    {"gauge.capacity=20 N"}, /* no drum is within its reach */
    {"drum.diameter=12 mm", "cord.diameter=4 mm", "gauge.capacity=500 N"},
    {"gauge.step=20 N", "gauge.capacity=100 N"}, /* no step inside the window */
    {"gauge.checked-error=4 N"},                 /* no pull is good for certain */
    {"gauge.checked-error=1.5 N", "pulls.scatter=10 %"},
    {"limits.torque=starting", "lathe.top-speed=300 r/min"},
    {"lathe.top-speed=500 r/min", "limits.never-exceed=9 N.m"},
    {"limits.basis=increase", "limits.slack-drag=0.3 N.m"},
    {"limits.bands.1.to=30 r/min", "limits.bands.2.from=30 r/min", "limits.bands.2.to=90 r/min",
     "limits.bands.3.from=90 r/min"},
    {NULL}, /* from here on with logs */
    {"gauge.capacity=200 N"},
    {"limits.basis=increase", "limits.slack-drag=0.1 N.m"},
    {"limits.warmth=warm"},
    {"drum.diameter=2 9/16 in", "gauge.step=0.01 lbf", "gauge.capacity=22 lbf"},
};

/* The logs of some: pulls and known weights. */
static const char *const logs[sizeof shops / sizeof shops[0]][2] = {
    [16] = {"tests/data/readings.csv", "tests/data/weighings.csv"},
    [17] = {"tests/data/logs/many-years.csv", "tests/data/logs/all-on-the-line.csv"},
    [18] = {"tests/data/logs/steep.csv", "tests/data/logs/one-load.csv"},
    [19] = {"tests/data/logs/one-closing.csv", "tests/data/weighings.csv"},
    [20] = {"content/readings.csv", "content/gauge-check.csv"},
};

enum { SHOPS = sizeof shops / sizeof shops[0] };

static struct shop read_shop(size_t index)
{
    struct shop shop;
    struct diags *faults = diags_new(arena);
    size_t count = 0;
    while (count < 4 && shops[index][count])
        count++;
    struct file_text text;
    settings_read(arena, faults, settings_file, shops[index], count, &shop);
    if (logs[index][0]) {
        pull_log_read(arena, faults, logs[index][0], &shop);
        gauge_log_read(arena, faults, logs[index][1], &text, &shop);
    }
    if (diags_count(faults))
        diags_print(faults, stderr);
    assert_int_equal(diags_count(faults), 0);
    return shop;
}

static const struct figure *draw(const struct shop *shop, const char *name)
{
    struct text_meter meter = {.width = text_width, .with = fonts};
    struct figure_ask ask = {.arena = arena,
                             .diags = diags,
                             .results = results_for(shop),
                             .meter = &meter,
                             .at = {.file = "sample.md", .line = 3, .column = 1}};
    return figures_make(name, &ask);
}

/* What is wrong with the drawings is all told before the test fails. */
static int complaints;

static void complain(const struct figure *figure, size_t shop, const char *text,
                     const char *what)
{
    print_error("%s of shop %zu: '%s' %s\n", figure->name, shop, text, what);
    complaints++;
}

/* Calls for every figure of every shop. */
static void for_each(void (*check)(const struct figure *figure, size_t shop))
{
    complaints = 0;
    for (size_t i = 0; i < SHOPS; i++) {
        struct shop shop = read_shop(i);
        for (size_t k = 0; figures_at(k); k++)
            check(draw(&shop, figures_at(k)->name), i);
    }
    assert_int_equal(complaints, 0);
}

/* Where a text has ink: from the height of its capitals to its deepest tail. */
struct extent {
    double left, top, right, bottom;
};

static struct extent extent_of(const struct figure_text *text)
{
    double left = figure_text_left(text);
    return (struct extent){left, text->y - 0.76 * text->size, left + text->width,
                           text->y + 0.24 * text->size};
}

static void check_whole(const struct figure *figure, size_t shop)
{
    assert_true(figure->title && figure->caption && figure->description);
    assert_true(strlen(figure->description) > 60);
    assert_true(figure->path_count > 3 && figure->text_count > 3);
    assert_int_equal(figure->at.line, 3);
    for (size_t i = 0; i < figure->text_count; i++)
        if (figure->texts[i].size < FIGURE_LEAST_TEXT)
            complain(figure, shop, figure->texts[i].text, "is too small");
    for (size_t i = 0; i < figure->text_count; i++)
        if (figure->texts[i].text[0] == ' ' || strstr(figure->texts[i].text, "  "))
            complain(figure, shop, figure->texts[i].text, "has blanks that a browser drops");
}

static void test_figures_are_whole(void **state)
{
    (void)state;
    for_each(check_whole);
}

static void check_path_within(const struct figure *figure, const struct figure_path *path,
                              size_t shop)
{
    size_t count;
    const struct outline_point *points = path_outline(arena, path, &count);
    double half = figure_line(path->stroke) / 2;
    for (size_t i = 0; i < count; i++)
        if (!(points[i].x >= half && points[i].x <= figure->width - half &&
              points[i].y >= half && points[i].y <= figure->height - half))
            complain(figure, shop,
                     arena_format(arena, "(%.1f, %.1f)", points[i].x, points[i].y),
                     "lies outside");
}

static void check_within(const struct figure *figure, size_t shop)
{
    for (size_t i = 0; i < figure->path_count; i++)
        check_path_within(figure, &figure->paths[i], shop);
    for (size_t i = 0; i < figure->text_count; i++) {
        struct extent at = extent_of(&figure->texts[i]);
        if (!(at.left >= 0 && at.top >= 0 && at.right <= figure->width &&
              at.bottom <= figure->height))
            complain(figure, shop, figure->texts[i].text, "reaches out");
    }
}

static void test_nothing_leaves_its_box(void **state)
{
    (void)state;
    for_each(check_within);
}

static void check_apart(const struct figure *figure, size_t shop)
{
    for (size_t i = 0; i < figure->text_count; i++)
        for (size_t k = 0; k < i; k++) {
            struct extent a = extent_of(&figure->texts[i]), b = extent_of(&figure->texts[k]);
            if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
                complain(figure, shop, figure->texts[i].text,
                         arena_format(arena, "lies on '%s'", figure->texts[k].text));
        }
}

static void test_texts_stand_clear_of_each_other(void **state)
{
    (void)state;
    for_each(check_apart);
}

static bool covers(const struct figure_path *path, const struct extent *at)
{
    size_t count;
    const struct outline_point *points = path_outline(arena, path, &count);
    struct extent box = {INFINITY, INFINITY, -INFINITY, -INFINITY};
    for (size_t i = 0; path->fill == FILL_PAPER && i < count; i++) {
        box.left = fmin(box.left, points[i].x);
        box.right = fmax(box.right, points[i].x);
        box.top = fmin(box.top, points[i].y);
        box.bottom = fmax(box.bottom, points[i].y);
    }
    return box.left <= at->left && box.right >= at->right && box.top <= at->top &&
           box.bottom >= at->bottom;
}

static bool crosses(const struct figure_path *path, const struct extent *at)
{
    size_t count;
    const struct outline_point *points = path_outline(arena, path, &count);
    if (!path->stroke && path->fill != FILL_INK)
        return false;
    for (size_t i = 1; i < count; i++) {
        const struct outline_point *a = &points[i - 1], *b = &points[i];
        double pieces = ceil(hypot(b->x - a->x, b->y - a->y) / 0.4) + 1;
        for (double k = 0; k <= pieces && !b->begins; k++) {
            double x = a->x + (b->x - a->x) * k / pieces, y = a->y + (b->y - a->y) * k / pieces;
            if (x > at->left && x < at->right && y > at->top && y < at->bottom)
                return true;
        }
    }
    return false;
}

/* A line below paper that was laid over it does not count. */
static void check_clear(const struct figure *figure, size_t shop)
{
    for (size_t i = 0; i < figure->text_count; i++) {
        struct extent at = extent_of(&figure->texts[i]);
        for (size_t k = figure->path_count; k-- > 0 && !covers(&figure->paths[k], &at);)
            if (crosses(&figure->paths[k], &at)) {
                complain(figure, shop, figure->texts[i].text, "has a line through it");
                break;
            }
    }
}

static void test_no_line_runs_through_a_text(void **state)
{
    (void)state;
    for_each(check_clear);
}

static const struct table *make_table(const struct shop *shop, const char *name)
{
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_for(shop)};
    return tables_make(name, &ask);
}

static const char *cell_in(const struct table *table, size_t row, const char *quantity)
{
    for (size_t i = 0; i < table->column_count; i++)
        if (strcmp(table->columns[i].quantity, quantity) == 0)
            return table_cell(table, row, i)->shown;
    fail_msg("%s has no column '%s'", table->name, quantity);
    return NULL;
}

static size_t strong_row(const struct table *table)
{
    size_t row = 0;
    while (!table_cell(table, row, 0)->strong)
        row++;
    return row;
}

/* The number below a name: the text in bold that follows it. */
static const char *number_of(const struct figure *figure, const char *name)
{
    for (size_t i = 0; i + 1 < figure->text_count; i++)
        if (strcmp(figure->texts[i].text, name) == 0)
            return figure->texts[i + 1].text;
    fail_msg("%s does not name '%s'", figure->name, name);
    return NULL;
}

static void test_the_window_line_shows_the_tables_numbers(void **state)
{
    (void)state;
    static const char *const plain[] = {"low pull", "aim", "high pull", "never exceed"};
    static const char *const sure[] = {"good from", "good to"};
    int none = 0;
    for (size_t i = 0; i < SHOPS; i++) {
        struct shop shop = read_shop(i);
        const struct figure *figure = draw(&shop, "window-line");
        const struct table *pulls = make_table(&shop, "pull-windows");
        const struct table *good = make_table(&shop, "sure-windows");
        for (size_t k = 0; k < 4; k++)
            assert_string_equal(number_of(figure, plain[k]),
                                cell_in(pulls, strong_row(pulls), plain[k]));
        for (size_t k = 0; k < 2; k++)
            assert_string_equal(number_of(figure, sure[k]),
                                cell_in(good, strong_row(good), sure[k]));
        bool closed = strcmp(number_of(figure, "good from"), "none") == 0;
        struct drum_setup setup = shop_drum_setup(&shop);
        struct guarded_window window =
            guarded_window_on(known_for(&shop), shop_own_band(&shop), &setup);
        assert_int_equal(shows(figure, "◇"), window.none);
        assert_int_equal(shows(figure, "●"), !shows(figure, "◇"));
        none += closed;
    }
    assert_true(none >= 2 && none < SHOPS / 2);
}

/* x on the scale of a window line, from the first and the last of its own ticks: the
 * numbers in one row that are not bold. */
static double x_on_scale(const struct figure *figure, double value)
{
    const struct figure_text *first = NULL, *last = NULL;
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        bool number = !text->bold && strspn(text->text, "0123456789.−") == strlen(text->text);
        if (number && !first)
            first = text;
        if (number)
            last = text;
    }
    double from = strtod(first->text, NULL), to = strtod(last->text, NULL);
    assert_true(to > from && first->y == last->y);
    return first->x + (value - from) * (last->x - first->x) / (to - from);
}

static bool begins_at(const struct figure *figure, double x)
{
    for (size_t i = 0; i < figure->path_count; i++)
        if (figure->paths[i].step_count == 2 && fabs(figure->paths[i].steps[0].x - x) < 0.05 &&
            fabs(figure->paths[i].steps[1].x - x) < 0.05)
            return true;
    return false;
}

/* Each number has an upright line at its very place on the scale. */
static void test_the_window_line_is_to_scale(void **state)
{
    (void)state;
    static const char *const names[] = {"low pull", "good from", "aim", "good to", "high pull"};
    int lines = 0;
    for (size_t shop_index = 0; shop_index < SHOPS; shop_index++) {
        struct shop shop = read_shop(shop_index);
        const struct figure *figure = draw(&shop, "window-line");
        for (size_t i = 0; i < 5; i++) {
            const char *number = number_of(figure, names[i]);
            if (strcmp(number, "none") == 0)
                continue;
            if (!begins_at(figure, x_on_scale(figure, strtod(number, NULL))))
                fail_msg("shop %zu: no line at %s %s", shop_index, names[i], number);
            lines++;
        }
    }
    assert_true(lines > 50);
}

static void test_speed_bands_show_the_limits(void **state)
{
    (void)state;
    struct shop shop = read_shop(0);
    const struct figure *figure = draw(&shop, "speed-bands");
    assert_shows(figure, "0.60–0.95");
    assert_shows(figure, "0.60–0.85");
    assert_shows(figure, "0.55–0.75");
    assert_shows(figure, "never exceed 1.10");
    assert_shows(figure, "your top speed, 1600");
    assert_non_null(strstr(figure->caption, "1200–2000"));
}

/* In the units that the table has first: inches for the first of the shops. */
static void check_rim(size_t at, const char *first)
{
    struct shop shop = read_shop(at);
    const struct figure *figure = draw(&shop, "nut-rim");
    const struct table *table = make_table(&shop, "nut-travel");
    for (size_t i = 0; i < 5; i++) /* rows of 1, 2, 3, 5, 10 degrees */
        assert_shows(figure,
                     arena_format(arena, "%s: %s\u00a0%s of rim, %s\u00a0%s axially",
                                  table_cell(table, i, 0)->shown,
                                  table_cell(table, i, 1)->shown, table->columns[1].unit,
                                  table_cell(table, i, 2)->shown, table->columns[2].unit));
    assert_shows(figure, first);
    assert_true(figure->to_scale);
}

static void test_the_rim_shows_the_tables_numbers(void **state)
{
    (void)state;
    check_rim(0, "10°: 0.218\u00a0in of rim, 0.00174\u00a0in");
    check_rim(1, "10°: 5.7\u00a0mm of rim, 41.7\u00a0µm");
    for (size_t i = 2; i < 4; i++) {
        struct shop shop = read_shop(i);
        assert_false(draw(&shop, "nut-rim")->to_scale);
        assert_non_null(strstr(draw(&shop, "nut-rim")->caption, "Not to scale"));
    }
}

/* The rim's arc at scale 1:1 stands half its diameter from its middle. */
static void test_the_rim_is_true(void **state)
{
    (void)state;
    const double radius = 65.0 / 2 * MM;
    struct shop shop = read_shop(1);
    const struct figure *figure = draw(&shop, "nut-rim");
    size_t count;
    const struct outline_point *arc = path_outline(arena, &figure->paths[0], &count);
    assert_int_equal(figure->paths[0].stroke, STROKE_THICK);
    double top = INFINITY, x = 96;
    for (size_t i = 0; i < count; i++)
        top = fmin(top, arc[i].y);
    for (size_t i = 0; i < count; i++)
        assert_true(fabs(hypot(arc[i].x - x, arc[i].y - top - radius) - radius) < 0.05);
    assert_shows(figure, "30 mm");
}

static void test_drum_error_marks_the_tables_drums(void **state)
{
    (void)state;
    for (size_t i = 0; i < SHOPS; i++) {
        struct shop shop = read_shop(i);
        const struct figure *figure = draw(&shop, "drum-error");
        const struct table *table = make_table(&shop, "drum-choice");
        bool any = false;
        for (size_t row = 0; row < table->row_count; row++) {
            bool best = strstr(cell_in(table, row, "fit"), "best here") != NULL;
            bool fitted = table_cell(table, row, 0)->strong;
            const char *drum = table_cell(table, row, 0)->shown;
            drum = arena_slice(arena, drum, strcspn(drum, ","));
            any |= best;
            if (best && fitted)
                assert_shows(figure, arena_format(arena, "fitted, and best: %s", drum));
            else if (best || fitted)
                assert_shows(figure,
                             arena_format(arena, "%s: %s", best ? "best" : "fitted", drum));
        }
        assert_int_equal(any, shows_part(figure, "best: "));
    }
}

static void test_starting_limits_read_the_breakaway(void **state)
{
    (void)state;
    struct shop running = read_shop(0), starting = read_shop(12);
    assert_shows(draw(&running, "force-time"), "Read here: whole turns, steady pull");
    assert_shows(draw(&starting, "force-time"), "Read here: the highest");
    assert_false(shows_part(draw(&starting, "force-time"), "whole turns, steady"));
    assert_shows(draw(&running, "set-up"), "slow, steady pull");
    assert_shows(draw(&starting, "set-up"), "slow pull until it turns");
    assert_false(shows_part(draw(&starting, "set-up"), "steady"));
    assert_null(strstr(draw(&starting, "set-up")->caption, "evenly"));
}

static void test_unknown_figures_are_faults(void **state)
{
    (void)state;
    struct shop shop = read_shop(0);
    assert_null(draw(&shop, "window"));
    assert_said("sample.md:3:1: there is no figure 'window'; the figures are ");
    assert_said(", window-line, ");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_figures_are_whole),
    cmocka_unit_test(test_nothing_leaves_its_box),
    cmocka_unit_test(test_texts_stand_clear_of_each_other),
    cmocka_unit_test(test_no_line_runs_through_a_text),
    cmocka_unit_test(test_the_window_line_shows_the_tables_numbers),
    cmocka_unit_test(test_the_window_line_is_to_scale),
    cmocka_unit_test(test_speed_bands_show_the_limits),
    cmocka_unit_test(test_the_rim_shows_the_tables_numbers),
    cmocka_unit_test(test_the_rim_is_true),
    cmocka_unit_test(test_drum_error_marks_the_tables_drums),
    cmocka_unit_test(test_starting_limits_read_the_breakaway),
    cmocka_unit_test(test_unknown_figures_are_faults),
};

GROUP(figures, setup, teardown)
