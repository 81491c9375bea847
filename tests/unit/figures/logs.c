/* The figures drawn from the logs: marks stand where the numbers of the logs put them. */
#include "shop/logs.h"
#include "doc/canvas.h"
#include "figure_texts.h"
#include "figures/figures.h"
#include "judge/advice.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "page_sample.h"
#include "shop/settings.h"
#include "shop/shop.h"
#include "shop_fixture.h"
#include "tables/tables.h"

#include <math.h>
#include <time.h>

static struct shop shop;

static void read_shop(const char *readings, const char *weighings)
{
    struct file_text text;
    struct diags *faults = diags_new(arena);
    settings_read(arena, faults, "tests/faults/base/settings.yaml", NULL, 0, &shop);
    pull_log_read(arena, faults, readings, &shop);
    gauge_log_read(arena, faults, weighings, &text, &shop);
    assert_int_equal(diags_count(faults), 0);
}

static const struct figure *draw(const char *name)
{
    struct text_meter meter = {.width = text_width, .with = fonts};
    struct figure_ask ask = {
        .arena = arena, .diags = diags, .results = results_for(&shop), .meter = &meter};
    const struct figure *figure = figures_make(name, &ask);
    assert_non_null(figure);
    return figure;
}

/* ---- where things stand ---- */

struct scale {
    double at_zero, per_unit; /* points */
};

/* From the numbers beside an axis: those right-aligned stand left of the y axis, those in
 * the middle of their tick below the x axis. */
static struct scale scale_of(const struct figure *figure, enum align align)
{
    double first = NAN, first_at = NAN, last = NAN, last_at = NAN;
    for (size_t i = 0; i < figure->text_count; i++) {
        const struct figure_text *text = &figure->texts[i];
        const char *digits = text->text;
        bool minus = strncmp(digits, "−", strlen("−")) == 0;
        digits += minus ? strlen("−") : 0;
        if (text->align != align || !*digits || strspn(digits, "0123456789.") != strlen(digits))
            continue;
        last = strtod(digits, NULL) * (minus ? -1 : 1);
        last_at = align == ALIGN_RIGHT ? text->y - 2.6 : text->x;
        if (isnan(first)) {
            first = last;
            first_at = last_at;
        }
    }
    double per_unit = (last_at - first_at) / (last - first);
    assert_true(isfinite(per_unit) && per_unit != 0);
    return (struct scale){first_at - first * per_unit, per_unit};
}

static double at(struct scale scale, double value)
{
    return scale.at_zero + value * scale.per_unit;
}

/* The middle of a path's box, where it is small: a mark. */
static bool is_mark_at(const struct figure_path *path, double x, double y)
{
    size_t count;
    const struct outline_point *points = path_outline(arena, path, &count);
    double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        left = fmin(left, points[i].x);
        right = fmax(right, points[i].x);
        top = fmin(top, points[i].y);
        bottom = fmax(bottom, points[i].y);
    }
    return right - left < 9 && bottom - top < 9 && fabs((left + right) / 2 - x) < 0.1 &&
           fabs((top + bottom) / 2 - y) < 0.1;
}

static bool marked(const struct figure *figure, double x, double y)
{
    for (size_t i = 0; i < figure->path_count; i++)
        if (is_mark_at(&figure->paths[i], x, y))
            return true;
    return false;
}

static bool has_line(const struct figure *figure, double x1, double y1, double x2, double y2)
{
    for (size_t i = 0; i < figure->path_count; i++) {
        const struct path_step *steps = figure->paths[i].steps;
        if (figure->paths[i].step_count == 2 && fabs(steps[0].x - x1) < 0.1 &&
            fabs(steps[0].y - y1) < 0.1 && fabs(steps[1].x - x2) < 0.1 &&
            fabs(steps[1].y - y2) < 0.1)
            return true;
    }
    return false;
}

/* ---- dates and closings ---- */

/* Every day of three hundred years, against the C library's calendar. */
static void test_dates_count_days(void **state)
{
    (void)state;
    struct tm first = {.tm_mday = 1};
    time_t begin = timegm(&first);
    long days = 0;
    for (time_t at = begin; days < 109572; at += 86400, days++) {
        struct tm day;
        gmtime_r(&at, &day);
        char text[32];
        strftime(text, sizeof text, "%Y-%m-%d", &day);
        if (date_days(text) != days)
            fail_msg("%s is day %ld, not %ld", text, days, date_days(text));
        if (day.tm_yday == 0)
            assert_int_equal(date_year_days(day.tm_year + 1900), days);
    }
}

static void assert_closings(const char *expected)
{
    struct buffer said = {0};
    buffer_text(&said, "");
    for (size_t i = 0; i < shop.readings.count; i++)
        buffer_text(&said, judged_row(&shop, &shop.readings.items[i])->closes ? "x" : ".");
    assert_string_equal(said.bytes, expected);
    buffer_free(&said);
}

static void test_a_job_closes_before_the_log_rests(void **state)
{
    (void)state;
    read_shop("tests/data/logs/many-years.csv", "tests/data/weighings.csv");
    assert_closings("x..."  /* 29 days on: the same job */
                    "xx"    /* 30 days on: another, and again */
                    "..x"); /* before the lock, or rejected: none */
    read_shop("tests/data/logs/one-closing.csv", "tests/data/weighings.csv");
    assert_closings("x..");
    shop.limits.warmth = WARMTH_WARM;
    assert_closings("..x");
    shop.readings.items[2].lock = LOCK_UNSAID; /* not said to be locked: not judged */
    assert_closings("...");
    read_shop("tests/data/readings.csv", "tests/data/weighings.csv");
    assert_closings(".....");
}

/* ---- the figures ---- */

static void test_residuals_stand_off_the_line(void **state)
{
    (void)state;
    read_shop("tests/data/readings.csv", "tests/data/weighings.csv");
    const struct figure *figure = draw("gauge-residuals");
    struct scale x = scale_of(figure, ALIGN_MIDDLE), y = scale_of(figure, ALIGN_RIGHT);
    assert_true(shop.weighings.count >= 6);
    /* of each load the mean of its marks is the table's column */
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_for(&shop)};
    const struct table *table = tables_make("gauge-check", &ask);
    for (size_t row = 0; row < table->row_count; row++) {
        double force = table_cell(table, row, 1)->value, sum = 0, count = 0;
        double off = table_cell(table, row, 7)->value, mean = table_cell(table, row, 2)->value;
        for (size_t i = 0; i < shop.weighings.count; i++) {
            const struct weighing *weighing = &shop.weighings.items[i];
            bool mass = weighing->load.unit->kind == KIND_MASS;
            double pulls = mass ? 9.80665 * (1 - 0.00015) : 1;
            if (fabs(weighing->load.base * pulls - force) > 1e-6)
                continue;
            double residual = weighing->reading.base - mean + off;
            if (!marked(figure, at(x, force), at(y, residual)))
                fail_msg("no mark at %g N, %g N", force, residual);
            sum += residual;
            count++;
        }
        assert_true(count >= 1 && fabs(sum / count - off) < 1e-9);
    }
    assert_false(marked(figure, at(x, 7), at(y, 0)));
}

static void test_without_a_line_the_figure_says_what_is_wanted(void **state)
{
    (void)state;
    read_shop("tests/data/logs/steep.csv", "tests/data/logs/one-load.csv");
    assert_shows(draw("gauge-residuals"), "three different loads");
    assert_false(shows_part(draw("gauge-residuals"), "known within"));
    assert_shows(draw("years"), "closes a job yet");
    read_shop("/tmp/there-is-no-such.csv", "/tmp/there-is-no-such.csv");
    assert_shows(draw("gauge-residuals"), "three different loads");
    assert_shows(draw("nut-drag"), "No row of the log that may be judged");
    assert_shows(draw("years"), "closes a job yet");
}

static void assert_place(const struct figure *figure, size_t row, double angle, double drag)
{
    struct scale x = scale_of(figure, ALIGN_MIDDLE), y = scale_of(figure, ALIGN_RIGHT);
    const struct pull_series *series = &shop.readings.items[row];
    assert_true(fabs(series->nut.base - angle) < 1e-12);
    assert_true(marked(figure, at(x, angle), at(y, drag)));
}

/* By hand: what pulls up to 5 degrees askew lose in the middle, (1 - cos 5 deg) / 2, is taken
 * off; R = (62 + 0.8) / 2 mm = 31.4 mm; the six weighings of one day leave the line
 * 0.016832 N + 1.0064392 times the force. */
#define NOT_LOST 0.9980973

static double weighed_drag(double pull)
{
    return (pull - 0.016832) / 1.0064392 * 0.0314 * NOT_LOST;
}

static void test_the_nut_goes_where_the_line_points(void **state)
{
    (void)state;
    read_shop("tests/data/readings.csv", "tests/data/weighings.csv");
    const struct figure *figure = draw("nut-drag");
    struct scale x = scale_of(figure, ALIGN_MIDDLE), y = scale_of(figure, ALIGN_RIGHT);
    assert_place(figure, 0, 15, weighed_drag(15.05));
    assert_place(figure, 2, 4, weighed_drag(9.05));
    assert_place(figure, 3, 8, weighed_drag(12.05));
    assert_place(figure, 4, 10, weighed_drag(15.05));
    assert_false(
        marked(figure, at(x, -80), at(y, weighed_drag(2.05)))); /* unloaded: on no line */
    /* what the lock adds is not known, and 0.47 N.m is too much to learn it from */
    assert_shows(figure,
                 "Next: do not lock: unload, come again lower, lock there to learn what "
                 "it adds");
    assert_true(has_line(figure, at(x, 4), at(y, weighed_drag(9.05)), at(x, 8),
                         at(y, weighed_drag(12.05))));
    assert_false(has_line(figure, at(x, 15), at(y, weighed_drag(15.05)), at(x, 4),
                          at(y, weighed_drag(9.05))));
    for (size_t i = 2; i < 5; i++)
        shop.readings.items[i].lock = LOCK_AFTER;
    figure = draw("nut-drag");
    x = scale_of(figure, ALIGN_MIDDLE);
    y = scale_of(figure, ALIGN_RIGHT);
    const struct results *results = results_of(arena, &shop);
    struct nut_move move = advise_on_row(results, results->latest).move;
    double straight =
        (0.65 - weighed_drag(15.05)) / ((weighed_drag(15.05) - weighed_drag(12.05)) / 2);
    assert_true(fabs(move.angle - straight) < straight / 4);
    assert_true(shows_part(figure, arena_format(arena, "Next: tighten by %.1f°", move.angle)));
    assert_true(move.risky || move.capped ||
                marked(figure, at(x, 10 + move.angle), at(y, 0.65)));
    read_shop("content/readings.csv", "tests/data/weighings.csv");
    shop.readings.count = 1;
    assert_shows(draw("nut-drag"),
                 "Next: do not run it: unload, begin again from the loose side");
}

/* What may not be judged moves no nut, and is not drawn. */
static void test_the_nut_goes_by_what_is_judged(void **state)
{
    (void)state;
    read_shop("tests/data/readings.csv", "tests/data/weighings.csv");
    struct pull_series *last = &shop.readings.items[4];
    last->warm = true;
    const struct figure *figure = draw("nut-drag");
    struct scale x = scale_of(figure, ALIGN_MIDDLE), y = scale_of(figure, ALIGN_RIGHT);
    assert_false(marked(figure, at(x, 10), at(y, weighed_drag(15.05))));
    assert_shows(figure, "Next: leave the nut: cap and warmth do not fit");
    last->nut = last[-1].nut; /* 8 deg, as the one before */
    assert_shows(draw("nut-drag"), "Next: lock, to learn what it adds");
    last->warm = false;
    last->other_way = true;
    assert_shows(draw("nut-drag"), "Next: lock, to learn what it adds");
    last->other_way = false;
    last->pulls[0].base = 22.5;
    last->pulls[0].exact = decimal_of(225, -1);
    assert_shows(draw("nut-drag"), "take the last series again: it says nothing");
    assert_false(shows_part(draw("nut-drag"), "tighten"));
    for (size_t i = 0; i < 3; i++) { /* 20 N at 31.4 mm is 0.63 N.m, good once locked */
        last->pulls[i] = shop.readings.items[0].pulls[i];
        last->pulls[i].exact = decimal_of(2000 + (int64_t)i, -2);
        last->pulls[i].base = 20 + 0.01 * (double)i;
    }
    assert_false(shows_part(draw("nut-drag"), "good: leave it"));
    last->lock = LOCK_AFTER;
    assert_shows(draw("nut-drag"), "Next: the last in the log is good: leave it");
}

/* Of many-years.csv: the drags of its closings, on a scale of days; the gauge was checked only
 * behind them. */
static void test_the_years_show_the_closings(void **state)
{
    (void)state;
    static const struct {
        double days, drag; /* from the first of January 1998; N.m */
    } points[] = {{58, 2.1 * 0.0314 * NOT_LOST},
                  {818, 31.1 * 0.0314 * NOT_LOST},
                  {848, 30.1 * 0.0314 * NOT_LOST},
                  {9861, 17.1 * (0.075 + 0.0008) / 2 * NOT_LOST}};
    read_shop("tests/data/logs/many-years.csv", "tests/data/weighings.csv");
    const struct figure *figure = draw("years");
    struct scale y = scale_of(figure, ALIGN_RIGHT);
    for (size_t i = 0; i < 4; i++) {
        double x = 34 + (252.0 - 34) * points[i].days / 9862;
        if (!marked(figure, x, at(y, points[i].drag)))
            fail_msg("no mark at day %g, drag %g", points[i].days, points[i].drag);
    }
    assert_shows(figure, "The last: ");
    assert_shows(figure, "on 2024-12-31, ");
    read_shop("tests/data/logs/one-closing.csv", "tests/data/weighings.csv");
    assert_shows(draw("years"), "One is no trend");
}

/* The window's limits in the maker's own digits, at their place. */
static void test_limits_stand_at_their_place(void **state)
{
    (void)state;
    static const char *const names[] = {"nut-drag", "years"};
    read_shop("tests/data/logs/many-years.csv", "tests/data/weighings.csv");
    for (size_t i = 0; i < 2; i++) {
        const struct figure *figure = draw(names[i]);
        struct scale y = scale_of(figure, ALIGN_RIGHT);
        assert_true(has_line(figure, 34, at(y, 0.55), 252, at(y, 0.55)));
        assert_true(has_line(figure, 34, at(y, 0.75), 252, at(y, 0.75)));
        assert_true(has_line(figure, 34, at(y, 0.65), 252, at(y, 0.65)));
        assert_shows(figure, "high 0.75");
        assert_shows(figure, "low 0.55");
    }
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag = shop.limits.bands[0].low; /* 0.60 N.m */
    const struct figure *figure = draw("years");
    struct scale y = scale_of(figure, ALIGN_RIGHT);
    assert_true(has_line(figure, 34, at(y, 1.15), 252, at(y, 1.15)));
    assert_false(shows_part(figure, "low 0.55"));
}

/* A shop without limits: drags to compare, no window and no move. */
static void test_without_limits_the_drags_remain(void **state)
{
    (void)state;
    read_shop("tests/data/readings.csv", "tests/data/weighings.csv");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    shop.readings.items[4].lock = LOCK_AFTER;
    assert_place(draw("nut-drag"), 3, 8, weighed_drag(12.05));
    assert_true(shows_part(draw("nut-drag"), NO_LIMIT_ON_FILE));
    assert_false(shows_part(draw("nut-drag"), "tighten"));
    assert_shows(draw("years"), "One is no trend");
    assert_false(shows_part(draw("years"), "high"));
    assert_non_null(strstr(draw("years")->caption, "no limit on file"));
    assert_shows(draw("gauge-residuals"), "known within");
    assert_false(shows_part(draw("gauge-residuals"), "window"));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_dates_count_days),
    cmocka_unit_test(test_a_job_closes_before_the_log_rests),
    cmocka_unit_test(test_residuals_stand_off_the_line),
    cmocka_unit_test(test_without_a_line_the_figure_says_what_is_wanted),
    cmocka_unit_test(test_the_nut_goes_where_the_line_points),
    cmocka_unit_test(test_the_nut_goes_by_what_is_judged),
    cmocka_unit_test(test_the_years_show_the_closings),
    cmocka_unit_test(test_limits_stand_at_their_place),
    cmocka_unit_test(test_without_limits_the_drags_remain),
};

GROUP(logs, setup, teardown)
