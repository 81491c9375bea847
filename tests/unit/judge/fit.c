/* Whether gauge and drum can decide. */
#include "judge/drums.h"
#include "report/words.h"
#include "told_fixture.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void test_the_steps_belong_to_the_better_word(void **state)
{
    (void)state;
    const struct {
        double ratio;
        enum fit fit;
        const char *word;
    } cases[] = {
        {4, FIT_SURE, "sure"},          {3.999, FIT_USABLE, "usable"},
        {2, FIT_USABLE, "usable"},      {1.999, FIT_BARELY, "barely"},
        {1, FIT_BARELY, "barely"},      {0.999, FIT_NONE, "cannot decide"},
        {0, FIT_NONE, "cannot decide"}, {-1, FIT_NONE, "cannot decide"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        assert_int_equal(fit_of(cases[i].ratio), cases[i].fit);
        assert_string_equal(fit_word(fit_of(cases[i].ratio)), cases[i].word);
    }
}

/* A number that is none proves nothing. */
static void test_not_a_number_cannot_decide(void **state)
{
    (void)state;
    assert_int_equal(fit_of(NAN), FIT_NONE);
}

/* An error of 8 N either way on a radius of 25 mm leaves 2 x 0.025 x 8 / sqrt(3) =
 * 0.231 N.m, and half the window is 0.1 N.m: by hand. */
static void test_half_the_window_by_hand(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.gauge.checked_error = measure_of("8 N", KIND_FORCE);
    double ratio = fitness_on(results_for(&shop), &band, &shop.drum.diameter.q).ratio;
    assert_true(ratio > 0.42 && ratio < 0.434);
}

static void tell_window_of(double error)
{
    char text[QUANTITY_TEXT];
    struct band band;
    struct shop shop = plain_shop(&band);
    snprintf(text, sizeof text, "%g N", error);
    shop.gauge.checked_error = measure_of(text, KIND_FORCE);
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
}

/* A window that can be read is not yet one that can be proved. */
static void test_a_window_says_when_it_cannot_be_proved(void **state)
{
    (void)state;
    tell_window_of(0.1);
    assert_not_said("fit=");
    tell_window_of(1.5); /* half the window is 2.3 times U */
    assert_not_said("fit=");
    tell_window_of(2.5); /* 1.4 times */
    assert_said("fit=barely: most of the window is in doubt |");
    tell_window_of(8);
    assert_said("fit=none: this gauge and drum cannot decide;");
}

/* The breakaway at 0.7 N.m is 1.5 times 28 N; never-exceed of 1.1 N.m is 44 N. */
static void test_beyond_the_gauge(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    const struct quantity *drum = &shop.drum.diameter.q;
    shop.gauge.capacity = measure_of("42 N", KIND_FORCE);
    assert_int_equal(fitness_on(results_for(&shop), &band, drum).fit, FIT_SURE);
    assert_true(fabs(fitness_on(results_for(&shop), &band, drum).most.force - 42) < 1e-9);
    shop.limits.never_exceed = measure_of("1.0 N.m", KIND_TORQUE); /* 40 N: less */
    assert_false(fitness_on(results_for(&shop), &band, drum).most.never);
    shop.limits.never_exceed = measure_of("1.1 N.m", KIND_TORQUE);
    assert_true(fitness_on(results_for(&shop), &band, drum).most.never);
    assert_int_equal(fitness_on(results_for(&shop), &band, drum).fit, FIT_BEYOND);
    assert_string_equal(fit_word(FIT_BEYOND), "beyond the gauge");
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
    assert_said("fit=beyond the gauge, which ends at 42 N: never-exceed is a pull of 44.0 N;");
    shop.gauge.capacity = measure_of("44 N", KIND_FORCE);
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
    assert_not_said("fit=");
    shop.gauge.capacity = measure_of("43 N", KIND_FORCE);
    shop.gauge.step = measure_of("15 N", KIND_FORCE); /* no step inside, and yet that is told */
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
    assert_said("fit=beyond the gauge,");
}

/* 0.79 N.m is 31.6 N, and one and a half times that 47.4 N: in doubles a hair more. */
static void test_just_the_capacity_is_not_beyond(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    band = band_of("0.50 N.m", "0.79 N.m");
    shop.gauge.capacity = measure_of("47.4 N", KIND_FORCE);
    assert_false(fitness_on(results_for(&shop), &band, &shop.drum.diameter.q).most.beyond);
    shop.gauge.capacity = measure_of("47.399 N", KIND_FORCE);
    assert_true(fitness_on(results_for(&shop), &band, &shop.drum.diameter.q).most.beyond);
}

/* The word on the fitted drum is one, wherever it is asked for. */
static void test_one_fit_for_a_drum(void **state)
{
    (void)state;
    static const char *const errors[] = {"0.1 N", "1.2 N", "1.5 N", "2 N",
                                         "2.5 N", "4 N",   "8 N"};
    for (size_t i = 0; i < sizeof errors / sizeof errors[0]; i++) {
        struct band band;
        static struct drum_ratings ratings;
        struct shop shop = plain_shop(&band);
        shop.gauge.checked_error = measure_of(errors[i], KIND_FORCE);
        rate_drums(results_for(&shop), &band, &ratings);
        struct fitness fitness = fitness_on(results_for(&shop), &band, &shop.drum.diameter.q);
        assert_int_equal(ratings.items[0].fitness.fit, fitness.fit);
        assert_true(fabs(0.1 / ratings.items[0].expanded / fitness.ratio - 1) < 1e-9);
        forget();
        report_drums(&rows_kept, results_for(&shop), &band);
        const char *word = fitness.fit < FIT_USABLE ? fit_word(fitness.fit) : "";
        char wanted[80];
        snprintf(wanted, sizeof wanted, "drum=%s fitted|", word);
        assert_said(wanted);
    }
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_the_steps_belong_to_the_better_word),
    cmocka_unit_test(test_not_a_number_cannot_decide),
    cmocka_unit_test(test_beyond_the_gauge),
    cmocka_unit_test(test_just_the_capacity_is_not_beyond),
    cmocka_unit_test(test_one_fit_for_a_drum),
    cmocka_unit_test(test_half_the_window_by_hand),
    cmocka_unit_test(test_a_window_says_when_it_cannot_be_proved),
};

GROUP(fit, NULL, NULL)
