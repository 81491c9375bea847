/* What the log is asked of that was likely meant otherwise: warmth against the room, a year far
 * ahead, unloaded in words alone, a drag below the slack drag. */
#include "record_fixture.h"

#include <stdio.h>
#include <string.h>

#define DAY "2026-03-07"

static struct shop shop;

static void note_cap(const char *cap, bool warm)
{
    shop.readings.count = 0;
    struct pull_series *row = add(&shop, DAY, "12 deg", LOCK_AFTER, 24);
    row->warm = warm;
    row->temperature = quantity_of(cap, KIND_TEMPERATURE);
    note_on(&shop);
}

/* Of a room of 20 degC, when none is given. */
static void test_warmth_of_the_room(void **state)
{
    (void)state;
    shop = shop_with_log();
    note_cap("60 degC", false);
    assert_said("the row says cold, but its cap is at 60\u00a0°C and the room (run-in.room) at "
                "20\u00a0°C");
    static const char *const cold[] = {"5 degC", "20 degC", "35 degC", "59 degF"};
    for (size_t i = 0; i < 4; i++) {
        note_cap(cold[i], false);
        assert_not_said("the row says");
    }
    note_cap("4.9 degC", false);
    assert_said("the row says cold");
    note_cap("35.1 degC", false);
    assert_said("the row says cold");
    note_cap("22 degC", true);
    assert_said("the row says warm, but its cap is at 22");
    note_cap("22.1 degC", true);
    assert_not_said("the row says");
    shop.run_in.room = measure_of("32 degF", KIND_TEMPERATURE);
    note_cap("20 degC", false);
    assert_said("(run-in.room) at 32\u00a0°F");
    note_cap("20 degC", true);
    assert_not_said("the row says");
}

/* 2026-03-07 and 1830 days are 2031-03-11. */
static void test_a_year_far_ahead(void **state)
{
    (void)state;
    shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2031-03-11", "12 deg", LOCK_AFTER, 24);
    note_on(&shop);
    assert_not_said("five years");
    rows[1].date = "2031-03-12";
    note_on(&shop);
    assert_said(
        "2031-03-12, line 3 of the log: more than five years later than the row before, "
        "line 2, 2026-03-07");
}

static void test_unloaded_in_words(void **state)
{
    (void)state;
    shop = shop_with_log();
    add(&shop, DAY, "-60 deg", LOCK_BEFORE, 3)->note = "unloaded; end play";
    note_on(&shop);
    assert_said("the note says unloaded, the column lock does not");
    static const enum lock locks[] = {LOCK_AFTER, LOCK_UNLOADED};
    for (size_t i = 0; i < 2; i++) {
        rows[0].lock = locks[i];
        note_on(&shop);
        assert_not_said("the note says");
    }
    rows[0].lock = LOCK_UNSAID;
    rows[0].note = "unload it";
    note_on(&shop);
    assert_not_said("the note says");
}

/* 4 N are 0.1 N.m. */
static void test_below_slack(void **state)
{
    (void)state;
    shop = shop_with_log();
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag = measure_of("0.11 N.m", KIND_TORQUE);
    add(&shop, DAY, "0 deg", LOCK_AFTER, 4);
    note_on(&shop);
    assert_said("the drag is below the slack drag");
    shop.limits.slack_drag = measure_of("0.09 N.m", KIND_TORQUE);
    note_on(&shop);
    assert_not_said("slack drag");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_warmth_of_the_room), cmocka_unit_test(test_a_year_far_ahead),
    cmocka_unit_test(test_unloaded_in_words), cmocka_unit_test(test_below_slack)};

GROUP(log_meant, NULL, NULL)
