/* Which single change would decide: 0.45 to 0.70 N.m, 1 N is 0.0314 N.m. */
#include "judge/improvement.h"
#include "judge/results.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

enum { MOST = 5 };
static struct shop shop;
static struct band band;
static struct quantity pulls[MOST];

static int begin(void **state)
{
    (void)state;
    static struct measure sizes[2];
    shop = shop_of("62 mm", "0.8 mm", "0.05 N");
    band = band_of("0.45 N.m", "0.70 N.m");
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    shop.lathe.top_speed = measure_of("800 r/min", KIND_SPEED);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.gauge.capacity = measure_of("60 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("0.05 N", KIND_FORCE);
    sizes[0] = measure_of("40 mm", KIND_LENGTH);
    sizes[1] = measure_of("100 mm", KIND_LENGTH);
    shop.drum_sizes.items = sizes;
    shop.drum_sizes.count = 2;
    return 0;
}

static struct judgement judge(const char *text, size_t *count)
{
    char words[80], pull[20];
    struct drum_setup setup = shop_drum_setup(&shop);
    *count = 0;
    snprintf(words, sizeof words, "%s", text);
    for (char *word = strtok(words, " "); word; word = strtok(NULL, " ")) {
        assert_true(*count < MOST);
        snprintf(pull, sizeof pull, "%s N", word);
        pulls[(*count)++] = quantity_of(pull, KIND_FORCE);
    }
    return judge_pulls(known_for(&shop), &band, &setup, &as_limits, pulls, *count);
}

static struct improvement improve(const char *text)
{
    size_t count;
    struct judgement found = judge(text, &count);
    return improvement_of(known_for(&shop), &found, pulls);
}

/* As many pulls as are said decide, and one less does not. */
static void test_more_pulls(void **state)
{
    (void)state;
    size_t count;
    shop.pulls.scatter = measure_of("20 %", KIND_RATIO);
    struct judgement found = judge("18.3 17.3 18.4 19.3", &count);
    struct improvement change = improvement_of(known_for(&shop), &found, pulls);
    assert_int_equal(found.state, STATE_SCATTERED);
    assert_int_equal(change.kind, IMPROVE_PULLS);
    assert_int_equal(change.then, VERDICT_GOOD);
    struct known known = *known_for(&shop);
    const double seen[] = {18.3, 17.3, 18.4, 19.3};
    struct drum_setup setup = shop_drum_setup(&shop);
    known_learn(&known, seen, 4);
    for (int less = 0; less < 2; less++) {
        struct pull_mean mean = {(size_t)(change.count - less), 18.325, 2, 0};
        struct measured measured = measure_pulls(&known, &setup, &mean, NULL);
        assert_int_equal(decide(&measured, 0.45, 0.70).verdict == VERDICT_GOOD, !less);
    }
}

/* Each with one thing that is bad enough, in turn. */
static void test_what_is_bad_is_what_helps(void **state)
{
    (void)state;
    static const char near_middle[] = "18.3 18.4 18.3 18.35 18.3";
    assert_int_equal(improve(near_middle).kind, IMPROVE_NOT_ASKED); /* it is good */
    shop.gauge.checked_error = measure_of("4 N", KIND_FORCE);
    assert_int_equal(improve(near_middle).kind, IMPROVE_WEIGHTS);
    begin(state);
    shop.gauge.zero_error = measure_of("4 N", KIND_FORCE);
    struct improvement change = improve(near_middle); /* more pull for the same drag */
    assert_int_equal(change.kind, IMPROVE_DRUM);
    assert_string_equal(change.drum->digits, "40");
    shop.drum_sizes.count = 0;
    assert_int_equal(improve(near_middle).kind, IMPROVE_GAUGE);
    begin(state);
    shop.drum.tolerance = measure_of("11 mm", KIND_LENGTH);
    change = improve(near_middle); /* the tolerance of a larger one is a smaller share */
    assert_int_equal(change.kind, IMPROVE_DRUM);
    assert_string_equal(change.drum->digits, "100");
    shop.drum_sizes.count = 0;
    assert_int_equal(improve(near_middle).kind, IMPROVE_NOTHING);
    begin(state);
    shop.pulls.skew = measure_of("36 deg", KIND_ANGLE);
    assert_int_equal(improve("16.0 16.1 16.0 16.05 16.0").kind, IMPROVE_SQUARE);
}

/* Where good waits for a check that agrees nothing else is of use. */
static void test_a_check_is_waited_for(void **state)
{
    (void)state;
    struct weighing weighings[5];
    static const char *const loads[] = {"10 N", "20 N", "30 N", "20 N", "10 N"};
    static const char *const readings[] = {"7.7 N", "15.4 N", "23.1 N", "15.4 N", "7.7 N"};
    for (int i = 0; i < 5; i++)
        weighings[i] = (struct weighing){.date = "2026-03-01",
                                         .by = "",
                                         .note = "",
                                         .down = i > 2,
                                         .load = quantity_of(loads[i], KIND_FORCE),
                                         .reading = quantity_of(readings[i], KIND_FORCE)};
    shop.weighings = (struct weighings){weighings, 5};
    assert_int_equal(improve("14.1 14.15 14.1 14.05 14.1").kind, IMPROVE_CHECK);
    assert_int_equal(improve("17.2 17.25 17.2 17.15 17.2").kind, IMPROVE_CHECK);
    assert_int_equal(improve("25 25.05 25 25.05 25").kind, IMPROVE_NOT_ASKED); /* high */
}

#define TEST(name) cmocka_unit_test_setup(name, begin)

static const struct CMUnitTest tests[] = {
    TEST(test_more_pulls),
    TEST(test_what_is_bad_is_what_helps),
    TEST(test_a_check_is_waited_for),
};

GROUP(improvement, NULL, NULL)
