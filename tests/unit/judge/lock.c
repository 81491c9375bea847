/* What locking added, found in a log of pulls. Drum 49 mm and cord 1 mm: an effective
 * radius of 25 mm, so that 4 N more are 0.1 N·m more. */
#include "facts.h"
#include "judge/nut.h"
#include "shop_fixture.h"
#include "test.h"

#include <math.h>

enum { MOST_SERIES = 6 };

static struct band band;
static struct pull_series log_of_pulls[MOST_SERIES];

static struct shop empty_shop(void)
{
    struct shop shop = shop_of("49 mm", "1 mm", "0.1 N");
    band = band_of("0.50 N.m", "0.70 N.m");
    shop.limits.bands = &band;
    shop.limits.band_count = 1;
    shop.lathe.top_speed = measure_of("800 r/min", KIND_SPEED);
    shop.drum.tolerance = shop.cord.tolerance = measure_of("0 mm", KIND_LENGTH);
    shop.gauge.capacity = measure_of("50 N", KIND_FORCE);
    shop.gauge.checked_error = measure_of("0.1 N", KIND_FORCE);
    shop.readings.items = log_of_pulls;
    return shop;
}

static struct pull_series *add(struct shop *shop, const char *nut, enum lock lock,
                               const char *pull)
{
    struct pull_series *series = &log_of_pulls[shop->readings.count++];
    *series = (struct pull_series){.date = "2026-03-07",
                                   .drum = shop->drum.diameter.q,
                                   .cord = shop->cord.diameter.q,
                                   .lock = lock,
                                   .pulls = room_for_pulls(),
                                   .pull_count = 2};
    if (nut)
        series->nut = quantity_of(nut, KIND_ANGLE);
    series->pulls[0] = series->pulls[1] = quantity_of(pull, KIND_FORCE);
    return series;
}

static void test_lock_adds(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    add(&shop, "9 deg", LOCK_BEFORE, "12 N");
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    struct pull_series *locked = add(&shop, "12 deg", LOCK_AFTER, "22 N");
    assert_within(judged_row(&shop, locked)->lock_added, 0.1, 1e-12);
    assert_within(results_for(&shop)->lock_added, 0.1, 1e-12);
    assert_true(isnan(judged_row(&shop, locked - 1)->lock_added));
}

/* Series without a place of the nut say nothing of the lock. */
static void test_lock_eases(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    add(&shop, NULL, LOCK_UNSAID, "30 N");
    assert_within(judged_row(&shop, add(&shop, "12 deg", LOCK_AFTER, "16 N"))->lock_added,
                  -0.05, 1e-12);
    assert_true(isnan(judged_row(&shop, add(&shop, NULL, LOCK_AFTER, "16 N"))->lock_added));
    assert_within(results_for(&shop)->lock_added, -0.05, 1e-12);
}

/* Only the first series behind the locking tells what the lock did. */
static void test_only_the_first_locked(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    struct pull_series *other = add(&shop, "12 deg", LOCK_AFTER, "22.4 N");
    other->other_way = true;
    assert_true(isnan(judged_row(&shop, other)->lock_added));
    struct pull_series *warm = add(&shop, "12 deg", LOCK_AFTER, "20 N");
    warm->warm = true;
    assert_true(isnan(judged_row(&shop, warm)->lock_added));
    struct pull_series *first = add(&shop, "12 deg", LOCK_AFTER, "22 N");
    assert_within(judged_row(&shop, first)->lock_added, 0.1, 1e-12);
    assert_true(isnan(judged_row(&shop, add(&shop, "12 deg", LOCK_AFTER, "21 N"))->lock_added));
    assert_within(results_for(&shop)->lock_added, 0.1, 1e-12);
}

static void test_nut_moved_between(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    add(&shop, "4 deg", LOCK_BEFORE, "9 N");
    assert_true(isnan(judged_row(&shop, add(&shop, "12 deg", LOCK_AFTER, "22 N"))->lock_added));
    assert_true(isnan(results_for(&shop)->lock_added));
}

/* A series that does not say its lock is neither before nor after. */
static void test_lock_not_said(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    assert_true(
        isnan(judged_row(&shop, add(&shop, "12 deg", LOCK_UNSAID, "20 N"))->lock_added));
    assert_within(judged_row(&shop, add(&shop, "12 deg", LOCK_AFTER, "22 N"))->lock_added, 0.1,
                  1e-12);
}

/* What the program prints of it is what it goes by. */
static void test_as_it_is_printed(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    assert_null(results_for(&shop)->lock_share.unit);
    add(&shop, "12 deg", LOCK_BEFORE, "18 N");
    add(&shop, "12 deg", LOCK_AFTER, "22.013 N"); /* 0.100325 N.m */
    assert_string_equal(results_for(&shop)->lock_share.digits, "0.100");
    assert_within(results_for(&shop)->lock_added, 0.1, 1e-12);
}

static void test_empty_log(void **state)
{
    (void)state;
    struct shop shop = empty_shop();
    assert_true(isnan(results_for(&shop)->lock_added));
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_lock_adds),
    cmocka_unit_test(test_lock_eases),
    cmocka_unit_test(test_only_the_first_locked),
    cmocka_unit_test(test_nut_moved_between),
    cmocka_unit_test(test_lock_not_said),
    cmocka_unit_test(test_as_it_is_printed),
    cmocka_unit_test(test_empty_log),
};

GROUP(lock, NULL, NULL)
