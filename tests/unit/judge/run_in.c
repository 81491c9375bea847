/* Stages of running in and the temperatures at which to stop. The stages are worked by
 * hand; the temperatures against GNU units (`units 'tempC(42.5)' tempF` and so on). */
#include "judge/warmth.h"
#include "shop_fixture.h"
#include "test.h"

static struct measure speeds_kept[8];

/* A lathe with a top speed and up to eight speeds, slow to fast; NULL ends them. */
static struct shop lathe_of(const char *top, const char *const *speeds)
{
    struct shop shop = {.lathe.top_speed = measure_of(top, KIND_SPEED)};
    shop.lathe.speeds.items = speeds_kept;
    for (size_t i = 0; speeds[i]; i++)
        speeds_kept[shop.lathe.speeds.count++] = measure_of(speeds[i], KIND_SPEED);
    return shop;
}

static void assert_stage(const struct run_in_stage *stage, int first, int last, double speed)
{
    assert_int_equal(stage->first, first);
    assert_int_equal(stage->last, last);
    assert_true(decimal_to_double(&stage->speed) == speed);
}

/* Top speed 1000: tenths 100, 200, ... A speed on a tenth belongs to it; 399 is below
 * the fourth and above the third. */
static void test_stages_of_given_speeds(void **state)
{
    (void)state;
    const char *const speeds[] = {"90 r/min",  "200 r/min",  "399 r/min", "650 r/min",
                                  "999 r/min", "1001 r/min", NULL};
    struct shop shop = lathe_of("1000 r/min", speeds);
    struct run_in_stage stages[RUN_IN_STAGES];
    assert_int_equal(run_in_stages(&shop, stages), 5);
    assert_stage(&stages[0], 1, 1, 90);
    assert_stage(&stages[1], 2, 3, 200);
    assert_stage(&stages[2], 4, 6, 399);
    assert_stage(&stages[3], 7, 9, 650);
    assert_stage(&stages[4], 10, 10, 999);
}

static void test_tenths_below_the_slowest_speed(void **state)
{
    (void)state;
    const char *const speeds[] = {"250 r/min", "700 r/min", "1000 r/min", NULL};
    struct shop shop = lathe_of("1000 r/min", speeds);
    struct run_in_stage stages[RUN_IN_STAGES];
    assert_int_equal(run_in_stages(&shop, stages), 3);
    assert_stage(&stages[0], 3, 6, 250);
    assert_stage(&stages[1], 7, 9, 700);
    assert_stage(&stages[2], 10, 10, 1000);
}

static void test_exact_tenths(void **state)
{
    (void)state;
    const char *const none[] = {NULL};
    struct shop shop = lathe_of("1234.5 r/min", none);
    struct run_in_stage stages[RUN_IN_STAGES];
    assert_int_equal(run_in_stages(&shop, stages), 10);
    assert_stage(&stages[0], 1, 1, 123.45);
    assert_stage(&stages[9], 10, 10, 1234.5);
    assert_null(stages[9].typed);
}

static struct decimal room(const char *text)
{
    return quantity_of(text, KIND_TEMPERATURE).exact;
}

static void assert_stop(const struct shop *shop, const char *at, int celsius, int fahrenheit)
{
    struct decimal in = room(at), stop = run_in_stop(shop, &in);
    assert_int_equal(whole_celsius(&stop), celsius);
    assert_int_equal(whole_fahrenheit(&stop), fahrenheit);
}

/* Common practice and a bearing maker's words: 60 degrees, 35 above the room. 42.5
 * degrees Celsius are 108.5 Fahrenheit, 60 are 140. */
static void test_stop_of_common_practice(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    assert_stop(&shop, "7.5 degC", 42, 108);
    assert_stop(&shop, "5 degC", 40, 104);
    assert_stop(&shop, "25 degC", 60, 140);
    assert_stop(&shop, "26 degC", 60, 140);
    assert_stop(&shop, "24.99 degC", 59, 139);
    assert_stop(&shop, "77 degF", 60, 140);
}

/* 131.9 F is 55.5 C. A rise of 33.3 F is 18.5 C, so that 21.5 C is 40 C exactly. */
static void test_stop_of_the_settings(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    shop.run_in.stop = measure_of("131.9 degF", KIND_TEMPERATURE);
    assert_stop(&shop, "30 degC", 55, 131);
    shop.run_in.rise = measure_of("33.3 degF", KIND_RISE);
    assert_stop(&shop, "21.5 degC", 40, 104);
    assert_stop(&shop, "21.4 degC", 39, 103);
}

static void test_look_closer(void **state)
{
    (void)state;
    struct shop shop = shop_empty();
    struct decimal in = room("20 degC"), look = run_in_look(&shop, &in);
    assert_int_equal(whole_celsius(&look), 40);
    shop.run_in.rise = measure_of("10 degC", KIND_RISE);
    look = run_in_look(&shop, &in);
    assert_int_equal(whole_celsius(&look), 30);
    assert_int_equal(whole_fahrenheit(&look), 86);
}

/* A rise has no zero of its own: 10 degrees Celsius are 18 of Fahrenheit, not 50. */
static void test_rises(void **state)
{
    (void)state;
    struct decimal rise = quantity_of("10 degC", KIND_RISE).exact;
    assert_int_equal(whole_fahrenheit(&rise), 18);
    assert_int_equal(whole_celsius_of_rise(&rise), 10);
    rise = quantity_of("17.9 degF", KIND_RISE).exact;
    assert_int_equal(whole_celsius_of_rise(&rise), 9);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_stages_of_given_speeds),
    cmocka_unit_test(test_tenths_below_the_slowest_speed),
    cmocka_unit_test(test_exact_tenths),
    cmocka_unit_test(test_stop_of_common_practice),
    cmocka_unit_test(test_stop_of_the_settings),
    cmocka_unit_test(test_look_closer),
    cmocka_unit_test(test_rises),
};

GROUP(run_in, NULL, NULL)
