/* What looks unwise in the settings, each remark from the first setting on that earns it. */
#include "report/remarks.h"
#include "told_fixture.h"

#include <string.h>

static void remark_on(const struct shop *shop)
{
    forget();
    remark_on_settings(&rows_kept, results_for(shop));
}

/* The top speed is 800 r/min. Told without limits too. */
static void test_speeds_without_the_top_speed(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct measure speeds[] = {measure_of("70 r/min", KIND_SPEED),
                               measure_of("800.0 r/min", KIND_SPEED)};
    shop.lathe.speeds = (struct measures){speeds, 2};
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.lathe.speeds.count = 1;
    remark_on(&shop);
    assert_string_equal(said(), "no speed of lathe.speeds is lathe.top-speed, 800 r/min; the "
                                "fastest is 70 r/min. Is one missing?|");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    remark_on(&shop);
    assert_said("Is one missing?|no limit on file");
}

/* A drum of 50 mm. */
static void test_lengths(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.cord.diameter = measure_of("2.5 mm", KIND_LENGTH);
    shop.drum.tolerance = measure_of("1 mm", KIND_LENGTH);
    shop.cord.tolerance = measure_of("0.5 mm", KIND_LENGTH);
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.cord.diameter = measure_of("2.51 mm", KIND_LENGTH);
    remark_on(&shop);
    assert_string_equal(said(),
                        "the cord, 2.51 mm, is thicker than a twentieth of the drum, 50 "
                        "mm; is its unit right?|");
    shop.cord.diameter = measure_of("0.8 mm", KIND_LENGTH);
    shop.drum.tolerance = measure_of("1.01 mm", KIND_LENGTH);
    remark_on(&shop);
    assert_string_equal(
        said(), "drum.tolerance, 1.01 mm, is more than a fiftieth of the drum; is it right?|");
    shop.drum.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.cord.tolerance = measure_of("0.51 mm", KIND_LENGTH);
    remark_on(&shop);
    assert_string_equal(
        said(), "cord.tolerance, 0.51 mm, is more than a hundredth of the drum; is it right?|");
}

/* The faster band is 1000 to 1200 r/min. */
static void test_limits_that_rise(void **state)
{
    (void)state;
    struct band bands[2];
    struct shop shop = plain_shop(bands);
    bands[1] = band_of("0.50 N.m", "0.70 N.m");
    bands[1].from = measure_of("1000 r/min", KIND_SPEED);
    bands[1].to = measure_of("1200 r/min", KIND_SPEED);
    shop.limits.band_count = 2;
    remark_on(&shop);
    assert_string_equal(said(), "");
    bands[1].high = measure_of("0.701 N.m", KIND_TORQUE);
    remark_on(&shop);
    assert_string_equal(said(), "band 1000-1200 r/min: its limits are higher than those of the "
                                "slower band before it; are rows exchanged?|");
    bands[1] = bands[0];
    bands[1].low = measure_of("0.501 N.m", KIND_TORQUE);
    remark_on(&shop);
    assert_said("are rows exchanged?|");
}

static void test_cut_texts(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct typed_text texts[] = {{"L", {.file = "s.yaml", .line = 2}, false},
                                 {"ply drum", {.file = "s.yaml", .line = 9}, true}};
    shop.texts = texts;
    shop.text_count = 1;
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.text_count = 2;
    remark_on(&shop);
    assert_string_equal(said(),
                        "s.yaml:9: what stands behind # is not read; if it belongs to the "
                        "text, put all of it in quotes|");
}

/* Each remark from the first setting on that earns it, and not just before. */
static void test_gauge_and_bands(void **state)
{
    (void)state;
    struct band bands[2];
    struct shop shop = plain_shop(bands);
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.drum.diameter = measure_of("1 m", KIND_LENGTH);
    shop.gauge.capacity = measure_of("1.5 N", KIND_FORCE);
    bands[0] = band_of("0.30 N.m", "0.50 N.m"); /* 1.5 N at breakaway: doubles must not tell */
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop = plain_shop(bands);
    shop.gauge.capacity = measure_of("41.9 N", KIND_FORCE);
    remark_on(&shop);
    assert_string_equal(said(),
                        "band 0-1000 r/min: beyond the gauge, which ends at 41.9 N: the "
                        "breakaway at the high limit may be 42.0 N; take a larger drum or a "
                        "larger gauge|");
    shop.gauge.capacity = measure_of("100 N", KIND_FORCE); /* 20 N is a fifth */
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.gauge.capacity = measure_of("100.1 N", KIND_FORCE);
    remark_on(&shop);
    assert_said("the low pull is below a fifth of the gauge's capacity");
    shop.gauge.capacity = measure_of("48 N", KIND_FORCE);
    shop.limits.never_exceed = measure_of("1.2 N.m", KIND_TORQUE); /* 48 N */
    remark_on(&shop);
    assert_string_equal(said(), "");
    shop.limits.never_exceed = measure_of("1.21 N.m", KIND_TORQUE);
    remark_on(&shop);
    assert_string_equal(
        said(), "beyond the gauge, which ends at 48 N: never-exceed is a pull of 48.4 N; "
                "take a larger drum or a larger gauge|");
    bands[1] = band_of("0.1 N.m", "0.11 N.m");
    bands[1].from = measure_of("1000 r/min", KIND_SPEED);
    bands[1].to = measure_of("1200 r/min", KIND_SPEED);
    shop.limits.band_count = 2; /* 0.7 is more than 6 times 0.11, less than 6 times 0.12 */
    remark_on(&shop);
    assert_said("the high limits of the bands lie far apart");
    bands[1].high = measure_of("0.12 N.m", KIND_TORQUE);
    remark_on(&shop);
    assert_not_said("far apart");
}

/* A gauge that reads in steps may close the window, and its doubt may. */
static void test_closed_windows(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.gauge.step = measure_of("15 N", KIND_FORCE);
    remark_on(&shop);
    assert_said("band 0-1000 r/min: no step of the gauge lies between the limits|");
    assert_not_said("cannot decide"); /* said once is enough */
    shop.gauge.step = measure_of("0.1 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("8 N", KIND_FORCE);
    remark_on(&shop);
    assert_string_equal(
        said(), "your band: this gauge and drum cannot decide; see the table sure-windows|");
}

static void test_unused_slack_drag(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.limits.slack_drag = measure_of("0.1 N.m", KIND_TORQUE);
    shop.limits.basis = BASIS_INCREASE;
    remark_on(&shop);
    assert_not_said("slack-drag");
    shop.limits.basis = BASIS_ABSOLUTE;
    remark_on(&shop);
    assert_said("limits.slack-drag is not used, since limits.basis is absolute");
}

static void test_without_limits(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    remark_on(&shop);
    assert_said("no limit on file: trend only. There are no windows");
}

/* Two tapered rollers of 75 mm drag some tenths of a newton-metre. */
static void test_remarks_on_the_order_of_size(void **state)
{
    (void)state;
    static const struct {
        const char *low, *high;
        bool said;
    } limits[] = {{"30 ozf.in", "45 ozf.in", false},
                  {"30 lbf.in", "45 lbf.in", true},
                  {"0.45 N.m", "0.70 N.m", false},
                  {"0.45 N.cm", "0.70 N.cm", true}};
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        struct band band;
        struct shop shop = plain_shop(&band);
        band.low = measure_of(limits[i].low, KIND_TORQUE);
        band.high = measure_of(limits[i].high, KIND_TORQUE);
        remark_on(&shop);
        assert_not_said("bearings of this size"); /* no size is given */
        shop.spindle.pitch_diameter = measure_of("75 mm", KIND_LENGTH);
        remark_on(&shop);
        if (limits[i].said)
            assert_said("than bearings of this size drag when they are turned by hand");
        else
            assert_not_said("bearings of this size");
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_speeds_without_the_top_speed),
    cmocka_unit_test(test_lengths),
    cmocka_unit_test(test_limits_that_rise),
    cmocka_unit_test(test_cut_texts),
    cmocka_unit_test(test_gauge_and_bands),
    cmocka_unit_test(test_closed_windows),
    cmocka_unit_test(test_unused_slack_drag),
    cmocka_unit_test(test_without_limits),
    cmocka_unit_test(test_remarks_on_the_order_of_size),
};

GROUP(remarks, NULL, NULL)
