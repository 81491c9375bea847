/* The log's last series that a new one compares with. */
#include "facts.h"
#include "report/report.h"
#include "told_fixture.h"

/* On the plain shop's drum, 1 N is 0.025 N.m; one pull of 20 N. */
static struct pull_series row(const struct shop *shop, const char *date)
{
    struct pull_series series = {.date = date,
                                 .lock = LOCK_AFTER,
                                 .drum = shop->drum.diameter.q,
                                 .cord = shop->cord.diameter.q,
                                 .pulls = room_for_pulls(),
                                 .pull_count = 1};
    series.pulls[0] = quantity_of("20 N", KIND_FORCE);
    return series;
}

/* Each row but the first differs in one thing. */
static void test_which_is_alike(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct pull_series rows[7];
    for (int i = 0; i < 7; i++)
        rows[i] = row(&shop, "2026-05-03");
    rows[1].lock = LOCK_BEFORE;
    rows[2].lock = LOCK_UNSAID;
    rows[3].warm = true;
    rows[4].other_way = true;
    rows[5].drum = quantity_of("60 mm", KIND_LENGTH);
    rows[6].cord = quantity_of("1 mm", KIND_LENGTH);
    struct pull_conditions unsaid = {LOCK_UNSAID, SAID_NOTHING, false};
    struct pull_conditions unlocked = {LOCK_BEFORE, SAID_COLD, false};
    struct pull_conditions warm = {LOCK_AFTER, SAID_WARM, false},
                           other = {LOCK_AFTER, SAID_COLD, true};
    assert_null(last_alike(results_for(&shop), NULL));
    shop.readings = (struct pull_series_log){rows, 7};
    assert_ptr_equal(last_alike(results_for(&shop), NULL)->series, &rows[0]);
    assert_ptr_equal(last_alike(results_for(&shop), &as_limits)->series, &rows[0]);
    assert_ptr_equal(last_alike(results_for(&shop), &unsaid)->series, &rows[0]);
    assert_ptr_equal(last_alike(results_for(&shop), &unlocked)->series, &rows[1]);
    assert_ptr_equal(last_alike(results_for(&shop), &warm)->series, &rows[3]);
    assert_ptr_equal(last_alike(results_for(&shop), &other)->series, &rows[4]);
    rows[3].warm = false;
    assert_ptr_equal(last_alike(results_for(&shop), NULL)->series, &rows[3]);
}

static void tell_of(const struct shop *shop, const char *pull)
{
    struct quantity pulls[] = {quantity_of(pull, KIND_FORCE), quantity_of(pull, KIND_FORCE),
                               quantity_of(pull, KIND_FORCE)};
    struct drum_setup setup = shop_drum_setup(shop);
    struct judgement judgement =
        judge_pulls(known_for(shop), NULL, &setup, &as_limits, pulls, 3);
    forget();
    report_last_alike(&rows_kept, results_for(shop), &judgement);
}

static void test_change_told(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct pull_series only = row(&shop, "2026-05-03");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    tell_of(&shop, "15 N");
    assert_string_equal(said(), "");
    shop.readings = (struct pull_series_log){&only, 1};
    tell_of(&shop, "15 N");
    assert_said(
        "last-alike=2026-05-03: 20.00\u00a0N, 0.500\u00a0N\u00b7m; now 25\u00a0% less |");
    tell_of(&shop, "25.2 N");
    assert_said("; now 26\u00a0% more |");
    tell_of(&shop, "19.9 N");
    assert_said("; now 1\u00a0% less, no more than its doubt |");
    only.pulls[0] = quantity_of("0 N", KIND_FORCE);
    tell_of(&shop, "15 N");
    assert_string_equal(said(), "");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_which_is_alike),
    cmocka_unit_test(test_change_told),
};

GROUP(last_alike, NULL, NULL)
