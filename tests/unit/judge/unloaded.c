/* The nut turned back: unloaded, or crept back and no good setting. 24 N are good, 40 N are
 * clearly high. */
#include "judge/nut.h"
#include "judge/series.h"
#include "record_fixture.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define DAY "2026-03-07"

static struct shop shop;

static void begin(void)
{
    shop = shop_with_log();
}

static enum state state_at(size_t row)
{
    return judged_row(&shop, followed(&shop, &rows[row]))->judgement.state;
}

static void test_crept_back(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
    add(&shop, DAY, "-6 deg", LOCK_AFTER, 24);
    assert_ptr_equal(followed(&shop, &rows[1])->backed_off, &rows[0]);
    assert_null(followed(&shop, &rows[0])->backed_off);
    assert_int_equal(state_at(0), STATE_CLEARLY_HIGH);
    assert_int_equal(state_at(1), STATE_BACKED_OFF);
    note_on(&shop);
    assert_said("line 3 of the log: the nut was backed off from 0\u00b0, line 2, and not "
                "unloaded");
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[1]);
    shop.limits.on_file = ON_FILE_NONE;
    assert_int_equal(state_at(1), STATE_BACKED_OFF);
    begin(); /* still too high: that is worse */
    add(&shop, DAY, "0 deg", LOCK_AFTER, 44);
    add(&shop, DAY, "-1 deg", LOCK_AFTER, 40);
    assert_int_equal(state_at(1), STATE_CLEARLY_HIGH);
}

/* Told once for a place; the place that a row does not say is the last one. */
static void test_before_then_after(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
    add(&shop, DAY, "-6 deg", LOCK_BEFORE, 22);
    add(&shop, DAY, "-6 deg", LOCK_AFTER, 24);
    add(&shop, DAY, "", LOCK_AFTER, 24);
    add(&shop, DAY, "-6 deg", LOCK_AFTER, 24)->warm = true;
    for (size_t row = 1; row < 4; row++)
        assert_int_equal(state_at(row), STATE_BACKED_OFF);
    assert_int_equal(state_at(4), STATE_BACKED_OFF);
    note_on(&shop);
    assert_said("line 3 of the log: the nut was backed off");
    assert_not_said("line 4 of the log: the nut was backed off");
    assert_not_said("line 5 of the log: the nut was backed off");
    assert_not_said("line 6 of the log: the nut was backed off");
}

static void test_unloaded_between(void **state)
{
    (void)state;
    static const char *const places[] = {"-20 deg", ""};
    for (size_t i = 0; i < 2; i++) {
        begin();
        add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
        add(&shop, DAY, places[i], LOCK_UNLOADED, 3);
        add(&shop, DAY, "-6 deg", LOCK_AFTER, 24);
        assert_true(followed(&shop, &rows[1])->unloaded);
        assert_false(followed(&shop, &rows[2])->unloaded);
        assert_false(nut_may_steer(&shop, &rows[1]));
        assert_int_equal(state_at(1), STATE_UNLOADED);
        assert_int_equal(state_at(2), STATE_GOOD);
        note_on(&shop);
        assert_not_said("backed off");
    }
    add(&shop, DAY, "-7 deg", LOCK_AFTER, 24);
    assert_ptr_equal(followed(&shop, &rows[3])->backed_off, &rows[2]);
}

/* A quarter turn back unloads, in one step or more; a hair less does not. */
static void test_quarter_turn(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
    add(&shop, DAY, "-90 deg", LOCK_BEFORE, 3);
    add(&shop, DAY, "-6 deg", LOCK_AFTER, 24);
    assert_true(followed(&shop, &rows[1])->unloaded);
    assert_false(followed(&shop, &rows[2])->unloaded);
    assert_int_equal(state_at(2), STATE_GOOD);
    rows[1].nut = quantity_of("-89.9 deg", KIND_ANGLE);
    assert_false(followed(&shop, &rows[1])->unloaded);
    assert_ptr_equal(followed(&shop, &rows[1])->backed_off, &rows[0]);
    assert_ptr_equal(followed(&shop, &rows[2])->backed_off, &rows[0]);
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
    add(&shop, DAY, "-50 deg", LOCK_BEFORE, 9);
    add(&shop, DAY, "-95 deg", LOCK_BEFORE, 3);
    add(&shop, DAY, "-10 deg", LOCK_BEFORE, 20);
    add(&shop, DAY, "-12 deg", LOCK_AFTER, 24);
    assert_ptr_equal(followed(&shop, &rows[1])->backed_off, &rows[0]);
    assert_true(followed(&shop, &rows[2])->unloaded);
    assert_null(followed(&shop, &rows[3])->backed_off);
    assert_ptr_equal(followed(&shop, &rows[4])->backed_off, &rows[3]);
}

/* From the furthest place on it has come from the loose side again. */
static void test_come_on_again(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 20);
    add(&shop, DAY, "-6 deg", LOCK_BEFORE, 14);
    add(&shop, DAY, "-3 deg", LOCK_AFTER, 24);
    add(&shop, DAY, "0 deg", LOCK_AFTER, 24);
    assert_int_equal(state_at(2), STATE_BACKED_OFF);
    assert_int_equal(state_at(3), STATE_GOOD);
}

/* Of another job the mark may be another; a nut that stays is what it was. */
static void test_other_jobs(void **state)
{
    (void)state;
    begin();
    add(&shop, "2026-03-07", "0 deg", LOCK_AFTER, 40);
    add(&shop, "2026-04-06", "-6 deg", LOCK_AFTER, 24); /* 30 days on */
    assert_int_equal(state_at(1), STATE_GOOD);
    rows[1].date = "2026-04-05";
    assert_int_equal(state_at(1), STATE_BACKED_OFF);
    add(&shop, "2027-04-05", "-6 deg", LOCK_AFTER, 24);
    assert_int_equal(state_at(2), STATE_BACKED_OFF);
    note_on(&shop);
    assert_not_said("line 4 of the log: the nut was backed off");
    add(&shop, "2027-04-05", "-7 deg", LOCK_AFTER, 24);
    assert_ptr_equal(followed(&shop, &rows[3])->backed_off, &rows[2]);
}

/* The lock added nothing to a setting that was unloaded since; and that is a move. */
static void test_unloaded_before_the_lock(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "12 deg", LOCK_BEFORE, 20);
    add(&shop, DAY, "", LOCK_UNLOADED, 3);
    add(&shop, DAY, "12 deg", LOCK_AFTER, 24);
    assert_true(isnan(judged_row(&shop, &rows[2])->lock_added));
    assert_true(series_nut_moved(&rows[0], &rows[1]));
    assert_false(series_nut_moved(&rows[0], &rows[2]));
}

/* Where no row says a place, the lock alone tells that the nut was set. */
static void test_set_without_a_place(void **state)
{
    (void)state;
    static const enum lock locks[] = {LOCK_BEFORE, LOCK_UNLOADED};
    for (size_t i = 0; i < 2; i++) {
        begin();
        add(&shop, "2026-03-07", "", LOCK_BEFORE, 20);
        add(&shop, "2026-03-07", "", LOCK_AFTER, 24);
        add(&shop, "2027-03-07", "", locks[i], 20);
        add(&shop, "2027-03-07", "", LOCK_AFTER, 24);
        struct job job = results_for(&shop)->last_job;
        assert_ptr_equal(job.left, &rows[3]);
        assert_null(job.since);
        assert_null(job.found);
    }
}

/* The slack place is on no line: from -90 to -12 nothing is learnt of a degree there. */
static void test_no_line_from_slack(void **state)
{
    (void)state;
    begin();
    add(&shop, DAY, "0 deg", LOCK_AFTER, 40);
    add(&shop, DAY, "-30 deg", LOCK_UNLOADED, 3);
    add(&shop, DAY, "-12 deg", LOCK_BEFORE, 8);
    add(&shop, DAY, "-10 deg", LOCK_BEFORE, 12);
    assert_null(looser_place(judged_row(&shop, followed(&shop, &rows[2]))));
    assert_ptr_equal(looser_place(judged_row(&shop, &rows[3]))->series, &rows[2]);
    rows[1].lock = LOCK_BEFORE; /* a quarter turn says it too */
    rows[0].nut = quantity_of("60 deg", KIND_ANGLE);
    assert_null(looser_place(judged_row(&shop, followed(&shop, &rows[2]))));
    shop.readings.count = 2;
    rows[1].lock = LOCK_UNLOADED;
    rows[1].nut.unit = NULL; /* unloaded since, wherever it stands */
    assert_null(results_for(&shop)->steering);
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_crept_back),
                                          cmocka_unit_test(test_before_then_after),
                                          cmocka_unit_test(test_unloaded_between),
                                          cmocka_unit_test(test_quarter_turn),
                                          cmocka_unit_test(test_come_on_again),
                                          cmocka_unit_test(test_other_jobs),
                                          cmocka_unit_test(test_no_line_from_slack),
                                          cmocka_unit_test(test_set_without_a_place),
                                          cmocka_unit_test(test_unloaded_before_the_lock)};

GROUP(unloaded, NULL, NULL)
