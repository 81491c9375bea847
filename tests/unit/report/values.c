/* The values and conditions that forms and the card name in braces, and what the aids say of
 * the nut. */
#include "report/values.h"
#include "book/stages.h"
#include "form_sample.h"
#include "shop_fixture.h"
#include "tables/tables.h"

/* No-break spaces are written as blanks here. */
static void assert_filled(const struct shop *shop, const char *text, const char *want)
{
    const char *got = form_values_fill(arena, diags, shop ? results_for(shop) : NULL, text,
                                       (struct place){.file = "form.md", .line = 5});
    char *plain = arena_text(arena, got), *to = plain;
    for (const char *at = got; *at; at++)
        if (strncmp(at, "\u00a0", 2) == 0)
            *to++ = ' ', at++;
        else
            *to++ = *at;
    *to = '\0';
    if (strcmp(plain, want) != 0)
        fail_msg("%s is '%s', not '%s'", text, plain, want);
}

/* Worked by hand: 8 and 12 lbf.in at 101.6/2 + 1/2 mm are 17.6195 and 26.4292 N, their middle
 * 22.0244 N; pulls up to 5 degrees askew read 1/0.998097 of it in the middle: 17.6531, 26.4796
 * and 22.0664 N; 1 kg weighs 9.80665 N x (1 - 1.2/8000) in air, so half of that is 1.13 kg, all
 * of it 2.2505 kg. */
static void test_values_worked_by_hand(void **state)
{
    (void)state;
    static const char *const set[] = {"drum.diameter=101.6 mm",
                                      "cord.diameter=1 mm",
                                      "gauge.step=0.1 N",
                                      "limits.bands.3.low=8 lbf.in",
                                      "limits.bands.3.high=12 lbf.in",
                                      "limits.bands.2.low=8 lbf.in",
                                      "limits.bands.2.high=12 lbf.in",
                                      "limits.bands.1.low=8 lbf.in",
                                      "limits.bands.1.high=12 lbf.in",
                                      "limits.never-exceed=20 lbf.in",
                                      "nut.outside-diameter=65 mm",
                                      "tables.drum-sizes=50 mm"};
    struct shop shop = shop_with(set, sizeof set / sizeof set[0]);
    assert_filled(&shop, "{low-pull} {aim} {high-pull}", "17.7 N 22.1 N 26.4 N");
    assert_filled(&shop, "{window}", "17.7 N to 26.4 N, aim 22.1 N");
    assert_filled(&shop, "{limits}, {drag-unit}", "8 lbf·in to 12 lbf·in, lbf·in");
    assert_filled(&shop, "{never-pull}", "44.1 N"); /* 20/12 of 26.4796: 44.1327 */
    assert_filled(&shop, "R = {radius}", "R = 51.300 mm");
    assert_filled(&shop, "{load-half}", "about 11.0 N (1.1 kg)");
    assert_filled(&shop, "{load-aim}", "about 22.1 N (2.3 kg)");
    assert_filled(&shop, "{load-more}", "about 33.1 N (3.4 kg)");
    /* pi x 65/360 mm; 1500/360 um */
    assert_filled(&shop, "{degree}", "0.57 mm at the rim, 4.2 µm along the spindle");
    assert_filled(&shop, "{drum}", "101.6 mm ± 0.1 mm");
    assert_filled(&shop, "{workshop}{slack-drag}", "");
    assert_filled(&shop, "{band}: {limit-kind}",
                  "1200–2000 r/min: running drag, whole drag, used bearings, cold");
    assert_filled(&shop, "{stage-10} {stage-1}", "1600 160");
}

/* In the units of the nut's rim and of its thread, each by itself. pi x 2.5/360 in; 1/18/360 in
 * and 1/16/360 in. */
static void test_a_degree_of_a_nut_in_inches(void **state)
{
    (void)state;
    static const char *const set[] = {"nut.outside-diameter=2.5 in", "nut.pitch=1/16 in"};
    struct shop shop = shop_with(set, 2);
    assert_filled(&shop, "{degree}", "0.022 in at the rim, 0.00017 in along the spindle");
    shop.nut.outside_diameter = measure_of("65 mm", KIND_LENGTH);
    shop.nut.pitch = (struct measure){0};
    shop.nut.threads = measure_of("18 tpi", KIND_THREADS);
    assert_filled(&shop, "{degree}", "0.57 mm at the rim, 0.00015 in along the spindle");
    shop.nut.threads = (struct measure){0};
    assert_filled(&shop, "{degree}", "0.57 mm at the rim");
    shop.nut.outside_diameter = (struct measure){0};
    assert_filled(&shop, "{degree}", "");
}

/* 10 degrees of 1/16 in are 0.001736 in. */
static void test_the_strip_tells_the_way_in_the_thread_s_units(void **state)
{
    (void)state;
    size_t count;
    struct text_meter meter = {text_width, fonts};
    static const char *const set[] = {"nut.outside-diameter=65 mm", "nut.pitch=1/16 in"};
    struct shop shop = shop_with(set, 2);
    const struct aid *strip = &book_aids(arena, &shop, &meter, PAPER_A5, &count)[1];
    bool said = false;
    for (size_t i = 0; i < strip->word_count; i++)
        said = said || strstr(strip->words[i], "the nut moves along by 0.0017\u00a0in.");
    assert_true(said);
    said = false; /* which way is up, for the log */
    for (size_t i = 0; i < strip->word_count; i++)
        said = said || strstr(strip->words[i], "write 360 less the figure");
    assert_true(said);
}

/* A load that the gauge cannot bear is left to the pencil, and pounds stay pounds. */
static void test_loads_of_a_gauge_in_pounds(void **state)
{
    (void)state;
    static const char *const set[] = {"gauge.step=0.05 lbf", "gauge.capacity=6.5 lbf"};
    struct shop shop = shop_with(set, 2);
    /* the aim: 0.65 N.m / 31.4 mm = 20.7 N = 4.6538 lbf; once and a half is 6.98 */
    assert_filled(&shop, "{load-aim}", "about 4.65 lbf (4.7 lb)");
    assert_filled(&shop, "{load-more}", "");
}

/* Every value is words or nothing; and without limits no number of them. */
static void test_every_value_without_limits(void **state)
{
    (void)state;
    struct shop shop;
    settings_read(arena, diags, "tests/data/no-limit.yaml", NULL, 0, &shop);
    assert_int_equal(diags_count(diags), 0);
    for (size_t i = 0; form_value_at(i); i++) {
        const char *text = arena_format(arena, "{%s}", form_value_at(i)->name);
        if (form_value_at(i)->of_limits)
            assert_filled(&shop, text, "no limit on file");
        else
            assert_non_null(
                form_values_fill(arena, diags, results_for(&shop), text, (struct place){0}));
    }
    assert_filled(&shop, "{load-half}", "");
    assert_int_equal(diags_count(diags), 0);
}

/* What a form carries of the windows is what the table of them shows. */
static void test_values_are_those_of_the_tables(void **state)
{
    (void)state;
    struct shop shop = shop_with(NULL, 0);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results_for(&shop)};
    const struct table *windows = tables_make("pull-windows", &ask);
    const struct table *stages = tables_make("run-in", &ask);
    const struct table *sure =
        tables_make("sure-windows", &ask); /* all before others' results */
    for (size_t row = 0; row < windows->row_count; row++)
        if (table_cell(windows, row, 0)->strong)
            assert_filled(&shop, "{low-pull} {aim} {high-pull}",
                          arena_format(arena, "%s N %s N %s N",
                                       table_cell(windows, row, 1)->shown,
                                       table_cell(windows, row, 2)->shown,
                                       table_cell(windows, row, 3)->shown));
    for (size_t row = 0; row < sure->row_count; row++)
        if (table_cell(sure, row, 0)->strong)
            assert_filled(
                &shop, "{good-from} {good-to} {u-low} {u-high}",
                arena_format(arena, "%s N %s N %s N·m %s N·m", table_cell(sure, row, 2)->shown,
                             table_cell(sure, row, 3)->shown, table_cell(sure, row, 5)->shown,
                             table_cell(sure, row, 6)->shown));
    assert_filled(&shop, "{stage-2}", table_cell(stages, 1, 2)->shown);
    assert_filled(&shop, "{stage-time} {top-time}",
                  arena_format(arena, "%s %s", table_cell(stages, 0, 4)->shown,
                               table_cell(stages, stages->row_count - 1, 4)->shown));
    assert_string_not_equal(table_cell(stages, 0, 4)->shown,
                            table_cell(stages, stages->row_count - 1, 4)->shown);
}

/* The scale of the room first; the other from the figure that is shown, never above it.
 * 20 degC and 35: 131 degF. 71.5 degF and 63: 134.5, shown as 134, which is 56.7 degC. */
static void test_scales(void **state)
{
    (void)state;
    static const char *const cool[] = {"run-in.room=18 degC", "run-in.rise=33.3 degF"};
    static const char *const warm[] = {"run-in.room=71.5 degF"};
    static const char *const stop[] = {"run-in.room=71 degF", "run-in.stop=123 degF"};
    static const char *const same[] = {"run-in.room=20 degC", "run-in.stop=123 degF"};
    struct shop metric = shop_with(cool, 2), inch = shop_with(warm, 1);
    assert_filled(&metric, "{stop}|{temperature-unit}", "36 °C (96 °F)|°C");
    assert_filled(&metric, "{look}", "36 °C (96 °F)"); /* never above the stop */
    assert_filled(&inch, "{look}", "107 °F (41 °C)");
    assert_filled(&inch, "{stop}|{temperature-unit}", "134 °F (56 °C)|°F");
    assert_null(condition_take(&inch, "{in-celsius}a"));
    assert_null(condition_take(&metric, "{in-fahrenheit}a"));
    assert_string_equal(condition_take(&inch, "{in-fahrenheit}a"), "a");
    assert_string_equal(condition_take(&metric, "{in-celsius}a"), "a");
    struct shop high = shop_with(stop, 2), low = shop_with(same, 2);
    assert_filled(&high, "{stop}", "123 °F (50 °C)");
    assert_filled(&low, "{stop}", "50 °C (122 °F)");
}

static void test_conditions(void **state)
{
    (void)state;
    static const char *const starting[] = {"limits.torque=starting"};
    struct shop running = shop_with(NULL, 0), start = shop_with(starting, 1), none;
    settings_read(arena, diags, "tests/data/no-limit.yaml", NULL, 0, &none);
    assert_string_equal(condition_take(&running, "State"), "State");
    assert_string_equal(condition_take(&running, "{aim}"), "{aim}");
    assert_string_equal(condition_take(&running, "{with-limits}State"), "State");
    assert_null(condition_take(&none, "{with-limits}State"));
    assert_string_equal(condition_take(&none, "{without-limits}Last"), "Last");
    assert_null(condition_take(&running, "{without-limits}Last"));
    assert_string_equal(condition_take(&running, "{if-running}{aim}"), "{aim}");
    assert_string_equal(condition_take(&none, "{if-running}a"), "a");
    assert_null(condition_take(&start, "{if-running}a"));
    assert_string_equal(condition_take(&start, "{if-starting}a"), "a");
    assert_null(condition_take(&running, "{if-starting}a"));
    assert_string_equal(condition_take(NULL, "{if-starting}a"), "a");
}

static void test_a_name_that_is_not_known(void **state)
{
    (void)state;
    struct shop shop = shop_with(NULL, 0);
    assert_filled(&shop, "{aims}", "{aims}");
    assert_said("form.md:5");
    assert_said("'{aims' names no value");
    assert_filled(NULL, "an {aim}", "an ");
    assert_filled(NULL, "an {aim", "an {aim");
    assert_int_equal(diags_count(diags), 2);
}

static const struct CMUnitTest tests[] = {
    TEST(test_values_worked_by_hand),
    TEST(test_a_degree_of_a_nut_in_inches),
    TEST(test_the_strip_tells_the_way_in_the_thread_s_units),
    TEST(test_loads_of_a_gauge_in_pounds),
    TEST(test_every_value_without_limits),
    TEST(test_values_are_those_of_the_tables),
    TEST(test_scales),
    TEST(test_conditions),
    TEST(test_a_name_that_is_not_known),
};

GROUP(values, NULL, NULL)
