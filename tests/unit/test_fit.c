/* Whether gauge and drum can decide. */
#include "verdict/fit.h"
#include "verdict/told.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "told_fixture.h"

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
    double ratio = fit_ratio(&shop, &band, 24);
    assert_true(ratio > 0.42 && ratio < 0.434);
}

static void tell_window_of(double error)
{
    char text[QUANTITY_TEXT];
    struct band band;
    struct shop shop = plain_shop(&band);
    snprintf(text, sizeof text, "%g N", error);
    shop.gauge.checked_error = measure_of(text, KIND_FORCE);
    said[0] = '\0';
    tell_window(&teller, &shop, &band);
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_steps_belong_to_the_better_word),
        cmocka_unit_test(test_not_a_number_cannot_decide),
        cmocka_unit_test(test_half_the_window_by_hand),
        cmocka_unit_test(test_a_window_says_when_it_cannot_be_proved),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
