/* Oil of a known grade, and what warming does in a shop; each against a value from
 * elsewhere, its source beside it, or worked out by hand. */
#include "judge/warmth.h"
#include "facts.h"
#include "judge/nut.h"
#include "physics/physics.h"
#include "shop/shop.h"
#include "shop_fixture.h"
#include "test.h"

#include <math.h>

/* ASTM D2270, from memory: table 1 gives 7.994 and 6.394 for 2, 40.23 and 28.49 for 5,
 * 147.7 and 82.87 for 10; its worked example has 119.94 and 69.48 for 8.86, so that an
 * oil of 73.30 at 40 degrees has an index of 92.43. */
static void test_index_against_the_standard(void **state)
{
    (void)state;
    static const double rows[][3] = {
        {2, 7.994, 6.394}, {5, 40.23, 28.49}, {10, 147.7, 82.87}, {8.86, 119.94, 69.48}};
    for (int i = 0; i < 4; i++) {
        assert_within(oil_index_zero(rows[i][0]), rows[i][1], 0.0006 * rows[i][1]);
        assert_within(oil_index_hundred(rows[i][0]), rows[i][2], 0.0006 * rows[i][2]);
    }
    assert_within(oil_hot_of_index(73.30, 92.43), 8.86, 0.005);
}

/* A data sheet's usual 5.4 mm2/s for a mineral oil of 32 (the pair of a published worked
 * sheet of ASTM D341); and back again through every grade. */
static void test_hot_of_grades(void **state)
{
    (void)state;
    assert_within(oil_hot_of_index(32, 95), 5.4, 0.15);
    for (int grade = 1; grade <= 9; grade++) {
        double warm = oil_grade_viscosity(grade), hot = oil_hot_of_index(warm, OIL_INDEX);
        double zero = oil_index_zero(hot), hundred = oil_index_hundred(hot);
        assert_within(zero - OIL_INDEX / 100 * (zero - hundred), warm, 1e-9 * warm);
    }
    assert_true(isnan(oil_hot_of_index(32, 101)) && isnan(oil_hot_of_index(32, -1)) &&
                isnan(oil_hot_of_index(5, 95)) && isnan(oil_hot_of_index(400, 95)) &&
                isnan(oil_index_zero(1.9)) && isnan(oil_index_hundred(22.1)) &&
                isnan(oil_index_zero(2000)) && isnan(oil_index_hundred(1.9)));
}

/* The parts of the standard's form meet: a figure remembered wrongly would make a step. */
static void test_parts_meet(void **state)
{
    (void)state;
    static const double ends[] = {3.8, 4.4, 5, 6.4, 7, 7.7, 9, 12, 15, 18};
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++) {
        double below = oil_index_zero(ends[i]), above = oil_index_zero(ends[i] + 1e-9);
        assert_within(above / below, 1, 0.002);
        below = oil_index_hundred(ends[i]), above = oil_index_hundred(ends[i] + 1e-9);
        assert_within(above / below, 1, 0.002);
    }
}

/* ISO 3448: the number of a grade is the middle of its range at 40 degrees. */
static void test_oil_of_a_shop(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    struct oil oil;
    assert_false(shop_oil(&shop, &oil));
    shop.oil.grade = 4; /* vg-32 */
    assert_true(shop_oil(&shop, &oil));
    assert_within(oil_viscosity(oil, 40), 32, 1e-9);
    shop.oil.grade = 0;
    shop.oil.first_viscosity = measure_of("5.4 cSt", KIND_VISCOSITY);
    assert_false(shop_oil(&shop, &oil));
    shop.oil.second_viscosity = measure_of("32 mm2/s", KIND_VISCOSITY);
    shop.oil.first_temperature = measure_of("212 degF", KIND_TEMPERATURE);
    shop.oil.second_temperature = measure_of("40 degC", KIND_TEMPERATURE);
    assert_true(shop_oil(&shop, &oil));
    assert_within(oil_viscosity(oil, 80), 8.53321469, 1e-7); /* as in physics/machine.c */
    shop.oil.second_temperature = measure_of("100 degC", KIND_TEMPERATURE);
    assert_true(shop_oil(&shop, &oil));
    assert_true(isnan(oil.b));
}

static struct shop with_bearings(void)
{
    struct shop shop = shop_empty();
    shop.spindle.span = measure_of("200 mm", KIND_LENGTH);
    shop.spindle.pitch_diameter = measure_of("80 mm", KIND_LENGTH);
    shop.spindle.rear_pitch_diameter = measure_of("60 mm", KIND_LENGTH);
    shop.spindle.contact_angle = measure_of("45 deg", KIND_ANGLE); /* its cotangent is 1 */
    return shop;
}

/* By hand: 40 and 30 mm across, 200 mm along, 12 parts in a million. */
static void test_bearings_of_a_shop(void **state)
{
    (void)state;
    struct shop shop = with_bearings();
    struct bearing_pair pair;
    assert_true(shop_bearings(&shop, true, &pair));
    assert_within(growth_end_play_lost(&pair, 12e-6, 1), 12e-6 * 0.270, 1e-15);
    assert_true(shop_bearings(&shop, false, &pair));
    assert_within(growth_end_play_lost(&pair, 12e-6, 1), 12e-6 * -0.130, 1e-15);
    shop.spindle.rear_pitch_diameter.q.unit = NULL;
    assert_within(shop_pitch_diameters(&shop).rear, 0.08, 0);
    shop.spindle.span.q.unit = NULL;
    assert_false(shop_bearings(&shop, false, &pair));
}

/* By hand: 6 x 160e-7 x (80^3 + 60^3) N.mm; from 2000 on 6 x 1e-7 x 8000^(2/3), which is
 * 400, x (80^3 + 60^3). With Y = 0.4: 2 x 0.4 x 100 N x 0.0004 x 0.14 m. */
static void test_drags_of_a_shop(void **state)
{
    (void)state;
    struct shop shop = with_bearings();
    assert_within(churning_drag(&shop, 10, 12), 6 * 160e-7 * 728000 / 1000, 1e-12);
    assert_within(churning_drag(&shop, 10, 800), 6 * 1e-7 * 400 * 728000 / 1000, 1e-12);
    assert_within(preload_drag(&shop, 100), 80 * 0.0004 * 0.14, 1e-15);
    shop.spindle.contact_angle.q.unit = NULL;
    assert_true(isnan(preload_drag(&shop, 100)));
    shop.spindle.pitch_diameter.q.unit = shop.spindle.rear_pitch_diameter.q.unit = NULL;
    assert_true(isnan(churning_drag(&shop, 10, 12)));
}

static struct pull_series series_at(const char *nut, const char *pull, enum lock lock)
{
    struct pull_series series = {
        .date = "2026-03-07", .lock = lock, .pulls = room_for_pulls(), .pull_count = 1};
    series.drum = quantity_of("99 mm", KIND_LENGTH); /* with the cord 50 mm of radius */
    series.cord = quantity_of("1 mm", KIND_LENGTH);
    series.nut = quantity_of(nut, KIND_ANGLE);
    series.pulls[0] = quantity_of(pull, KIND_FORCE);
    return series;
}

static struct shop with_log(struct pull_series *series, size_t count)
{
    static struct band band;
    struct shop shop = shop_of("99 mm", "1 mm", "0.1 N");
    band = band_of("0.5 N.m", "1 N.m");
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    shop.lathe.top_speed = measure_of("900 r/min", KIND_SPEED);
    shop.readings.items = series;
    shop.readings.count = count;
    return shop;
}

/* 2 N more over 4 degrees, on a radius of 50 mm: 0.025 N.m a degree. The last series is
 * of another lock, and has no like before it. */
static void test_slope_of_the_nut(void **state)
{
    (void)state;
    struct pull_series log[] = {series_at("8 deg", "10 N", LOCK_BEFORE),
                                series_at("12 deg", "12 N", LOCK_BEFORE),
                                series_at("12 deg", "15 N", LOCK_AFTER)};
    struct shop shop = with_log(log, 3);
    assert_within(nut_slope(results_for(&shop)), 0.025, 1e-12);
    log[1].pulls[0] = quantity_of("9 N", KIND_FORCE); /* the drag fell */
    assert_true(isnan(nut_slope(results_for(&shop))));
    shop.readings.count = 1;
    assert_true(isnan(nut_slope(results_for(&shop))));
}

/* A row further on than the one behind it in time: the nut was unloaded between them. Left
 * at 12 degrees and locked, unloaded, come again to 13 and locked: the two locked places
 * are no pair, and of the last way up the two before locking are (3 N over 2 degrees). */
static void test_slope_since_the_unloading(void **state)
{
    (void)state;
    struct pull_series log[] = {
        series_at("12 deg", "15 N", LOCK_AFTER), series_at("3 deg", "6 N", LOCK_BEFORE),
        series_at("11 deg", "10 N", LOCK_BEFORE), series_at("13 deg", "13 N", LOCK_BEFORE),
        series_at("13 deg", "19 N", LOCK_AFTER)};
    struct shop shop = with_log(log, 5);
    assert_null(looser_place(judged_row(&shop, &log[4])));
    assert_ptr_equal(looser_place(judged_row(&shop, &log[3]))->series, &log[2]);
    assert_within(nut_slope(results_for(&shop)), 0.075, 1e-12);
    shop.readings.count = 2; /* unloaded last: what the nut did earlier counts no longer */
    assert_true(isnan(nut_slope(results_for(&shop))));
    assert_null(looser_place(judged_row(&shop, &log[1])));
}

/* 30 degrees may be; a hair more is no line. */
static void test_places_far_apart(void **state)
{
    (void)state;
    struct pull_series log[] = {series_at("3 deg", "6 N", LOCK_BEFORE),
                                series_at("33 deg", "10 N", LOCK_BEFORE)};
    struct shop shop = with_log(log, 2);
    assert_ptr_equal(looser_place(judged_row(&shop, &log[1]))->series, &log[0]);
    log[1].nut = quantity_of("33.1 deg", KIND_ANGLE);
    assert_null(looser_place(judged_row(&shop, &log[1])));
}

/* A pitch of 1.8 mm moves 5 um for a degree; 25.4 tpi is 1 mm, 2.777... um. */
static void test_degrees_of_the_nut(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    assert_true(isnan(nut_degrees(&shop, 1e-5)));
    shop.nut.pitch = measure_of("1.8 mm", KIND_LENGTH);
    assert_within(nut_degrees(&shop, 1e-5), 2, 1e-12);
    shop.nut.pitch.q.unit = NULL;
    shop.nut.threads = measure_of("25.4 tpi", KIND_THREADS);
    assert_within(nut_degrees(&shop, 1e-5), 3.6, 1e-12);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_index_against_the_standard),
    cmocka_unit_test(test_hot_of_grades),
    cmocka_unit_test(test_parts_meet),
    cmocka_unit_test(test_oil_of_a_shop),
    cmocka_unit_test(test_bearings_of_a_shop),
    cmocka_unit_test(test_drags_of_a_shop),
    cmocka_unit_test(test_slope_of_the_nut),
    cmocka_unit_test(test_slope_since_the_unloading),
    cmocka_unit_test(test_places_far_apart),
    cmocka_unit_test(test_degrees_of_the_nut),
};

GROUP(warmth, NULL, NULL)
