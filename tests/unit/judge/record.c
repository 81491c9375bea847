/* The record of a setting: the calendar, a change and its doubt, the two ways round, the
 * lift test, the log taken apart into jobs, and what the log gives cause to look at. */
#include "facts.h"
#include "judge/series.h"
#include "physics/physics.h"
#include "record_fixture.h"
#include "report/remarks.h"
#include "shop/shop.h"

#include <stdio.h>
#include <string.h>

static void test_good_dates(void **state)
{
    (void)state;
    const char *const good[] = {"1900-01-01", "2199-12-31", "2024-02-29", "2000-02-29",
                                "2026-04-30"};
    const char *const bad[] = {"1899-12-31", "2200-01-01", "2026-02-29",  "1900-02-29",
                               "2026-04-31", "2026-00-10", "2026-13-10",  "2026-03-00",
                               "2026-3-09",  "2026/03/09", "2026-03-09 ", ""};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        assert_true(date_is_good(good[i]));
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(date_is_good(bad[i]));
}

static void assert_later(const char *date, const char *wanted)
{
    char later[DATE_TEXT];
    date_year_later(date, later);
    assert_string_equal(later, wanted);
}

static void test_year_later(void **state)
{
    (void)state;
    assert_later("2026-03-09", "2027-03-09");
    assert_later("2028-02-29", "2029-02-28");
    assert_later("2027-02-28", "2028-02-28");
    assert_later("2028-12-29", "2029-12-29");
    assert_later("1999-12-31", "2000-12-31");
    assert_later("2199-01-01", "2200-01-01");
}

/* 3, 4, 5. */
static void test_change_doubt(void **state)
{
    (void)state;
    assert_within(change_doubt(3, 4), 5, 1e-15);
    assert_within(change_doubt(0, 0.25), 0.25, 1e-15);
    assert_true(isnan(change_doubt(-1, 1)) && isnan(change_doubt(1, -1)));
}

/* Ranges 0.3 and 0.2; the wider decides. A step of the gauge is no difference. */
static void test_directions(void **state)
{
    (void)state;
    struct series usual = series_of((double[]){10.0, 10.3, 10.15}, 3);
    struct series same = series_of((double[]){10.35, 10.45, 10.55}, 3);
    struct series apart = series_of((double[]){10.36, 10.46, 10.56}, 3);
    struct series below = series_of((double[]){9.74, 9.84, 9.94}, 3);
    assert_false(directions_differ(&usual, &same, 0.1));
    assert_true(directions_differ(&usual, &apart, 0.1));
    assert_true(directions_differ(&apart, &usual, 0.1));
    assert_true(directions_differ(&usual, &below, 0.1));
    assert_false(directions_differ(&usual, &apart, 0.5));
    struct series one = series_of((double[]){20}, 1);
    assert_false(directions_differ(&usual, &one, 0.1));
    assert_false(directions_differ(&one, &usual, 0.1));
}

/* A spring of 4 a pull gives 4 and 8; with a clearance of 3 before it 7 and 11. */
static void test_lift(void **state)
{
    (void)state;
    assert_within(lift_clearance(4, 8), 0, 1e-15);
    assert_within(lift_clearance(7, 11), 3, 1e-15);
    assert_within(lift_clearance(3, 8), -2, 1e-15);
    assert_within(lift_doubt(0.01), 0.015, 1e-15);
    assert_true(isnan(lift_clearance(-1, 1)) && isnan(lift_clearance(1, -1)));
    assert_true(isnan(lift_doubt(0)));
}

/* ---- logs ---- */

static void test_job(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "20 deg", LOCK_AFTER, 28);
    add(&shop, "2026-03-07", "12 deg", LOCK_BEFORE, 18);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24)->other_way = true;
    add(&shop, "2026-03-08", "12 deg", LOCK_AFTER, 22)->warm = true;
    add(&shop, "2026-03-09", "", LOCK_AFTER, 24);
    add(&shop, "2026-04-07", "13 deg", LOCK_BEFORE, 19); /* 29 days: the same job */
    struct job job = results_for(&shop)->jobs[0];
    assert_int_equal(job.end, 7);
    assert_ptr_equal(job.found, &rows[0]);
    assert_ptr_equal(job.before, &rows[1]);
    assert_ptr_equal(job.other_way, &rows[3]);
    assert_ptr_equal(job.other_warmth, &rows[4]);
    assert_ptr_equal(job.left, &rows[5]);
    rows[6].date = "2026-04-08";
    job = results_for(&shop)->jobs[0];
    assert_int_equal(job.end, 6);
    job = results_for(&shop)->jobs[1];
    assert_int_equal(job.end, 7);
    assert_null(job.left);
    assert_null(job.found);
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[5]);
    rows[6].lock = LOCK_AFTER;
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[6]);
    assert_true(
        judged_row(&shop, &rows[5])->closes); /* 30 days: both close a job of their own */
}

/* What was taken before the nut was moved does not stand beside the closing series. */
static void test_job_of_a_moved_nut(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24)->other_way = true;
    add(&shop, "2026-03-07", "12 deg", LOCK_BEFORE, 18);
    add(&shop, "2026-03-07", "15 deg", LOCK_BEFORE, 20);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2026-03-07", "12 deg", LOCK_BEFORE, 24);
    struct job job = results_for(&shop)->jobs[0];
    assert_ptr_equal(job.left, &rows[3]);
    assert_null(job.found); /* the first row is the other way round */
    assert_null(job.before);
    assert_null(job.other_way);
    assert_null(job.other_warmth);
    rows[3].nut.unit = NULL; /* not said: not moved since the row before */
    job = results_for(&shop)->jobs[0];
    assert_ptr_equal(job.before, &rows[2]);
    assert_null(job.other_way);
    rows[2].lock = LOCK_AFTER; /* the rows at 12 deg belong to another place */
    rows[3].lock = LOCK_BEFORE;
    assert_null(results_for(&shop)->jobs[0].before);
    rows[2].lock = LOCK_BEFORE;
    rows[3].lock = LOCK_AFTER;
    rows[2].drum = quantity_of("60 mm", KIND_LENGTH);
    rows[3].nut = quantity_of("15 deg", KIND_ANGLE);
    assert_null(results_for(&shop)->jobs[0].before); /* another drum */
    rows[2].drum = shop.drum.diameter.q;
    assert_ptr_equal(results_for(&shop)->jobs[0].before, &rows[2]);
}

/* The closing series is as warm as the limits say. */
static void test_job_by_warmth(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 22)->warm = true;
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[0]);
    assert_ptr_equal(results_for(&shop)->last_job.other_warmth, &rows[1]);
    shop.limits.warmth = WARMTH_WARM;
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[1]);
    assert_ptr_equal(results_for(&shop)->last_job.other_warmth, &rows[0]);
    shop.readings.count = 0;
    assert_null(results_for(&shop)->last_job.left);
}

static void test_notes_of_one_row(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    struct pull_series *row = add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    note_on(&shop);
    assert_string_equal(said(), "No series has its like the other way round on the same day: "
                                "what drags one way alone was not looked for.|");
    row->breakaway = quantity_of("48 N", KIND_FORCE);
    note_on(&shop);
    assert_not_said("breakaway");
    row->breakaway = quantity_of("48.1 N", KIND_FORCE);
    note_on(&shop);
    assert_said("2026-03-07, line 2 of the log: the breakaway is more than twice");
    assert_not_said("more than the gauge");
    row->breakaway = quantity_of("50 N", KIND_FORCE); /* all that the gauge reads */
    note_on(&shop);
    assert_not_said("more than the gauge");
    row->breakaway = quantity_of("50.1 N", KIND_FORCE);
    note_on(&shop);
    assert_said("the breakaway is more than the gauge of the settings can read");
    row->breakaway = quantity_of("23.9 N", KIND_FORCE);
    note_on(&shop);
    assert_said("the breakaway is below the steady pull");
    row->pulls[1] = quantity_of("50.1 N", KIND_FORCE);
    note_on(&shop);
    assert_said("a pull is more than the gauge of the settings can read");
    assert_said("further apart than two steps");
    row->pull_count = 1;
    note_on(&shop);
    assert_said("one pull says nothing of the scatter");
    shop.readings.count = 0;
    note_on(&shop);
    assert_string_equal(said(), "");
}

/* Ranges of 0.2 N. */
static void test_notes_of_directions(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    struct pull_series *turned = add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24.1);
    turned->other_way = true;
    note_on(&shop);
    assert_said("warmth): 1; ");
    assert_said("ranges: 0 (");
    assert_not_said("seal lip");
    shop.readings.count = 1;
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24.4)->other_way = true;
    note_on(&shop);
    assert_said("2026-03-07, line 3 of the log: the other way round the mean lies further off "
                "than the pulls of line 2");
    assert_said("ranges: 1 (");
    rows[1].date = "2026-03-08";
    note_on(&shop);
    assert_said("No series has its like");
    rows[1].date = rows[0].date;
    rows[1].nut = quantity_of("13 deg", KIND_ANGLE);
    note_on(&shop);
    assert_said("No series has its like");
    rows[0].nut.unit = rows[1].nut.unit = NULL; /* not said of both: alike */
    note_on(&shop);
    assert_said("warmth): 1; ");
}

/* 24 N is 0.6 N.m with a U of some 0.005; 2 N less is clear, 0.1 N is not. */
static void test_notes_of_change(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 23.9);
    note_on(&shop);
    assert_not_said("clearly");
    shop.readings.count = 1;
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 22);
    note_on(&shop);
    assert_said("2027-03-07, line 3 of the log: clearly less drag than on 2026-03-07, line 2");
    assert_said("Used bearings have bedded in already");
    shop.limits.bearings = BEARINGS_NEW;
    note_on(&shop);
    assert_said("New bearings bed in: that alone is no lost preload");
    shop.readings.count = 1;
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 26);
    note_on(&shop);
    assert_said("clearly more drag than on 2026-03-07, line 2");
    assert_not_said("bed in");
    add(&shop, "2027-03-07", "13 deg", LOCK_AFTER, 22);
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 22); /* moved between */
    note_on(&shop);
    assert_not_said("line 4 of the log");
    assert_not_said("line 5 of the log: clearly");
    assert_said("line 5 of the log: the nut was backed off from 13\u00b0, line 4,");
    rows[3] = rows[1]; /* line 3 again, with 26: like line 2 but not locked */
    rows[1].lock = LOCK_BEFORE;
    shop.readings.count = 2;
    note_on(&shop);
    assert_not_said("clearly");
    rows[0].lock = LOCK_BEFORE; /* alike, but the nut was not locked */
    note_on(&shop);
    assert_not_said("clearly");
}

static void test_notes_without_limits(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 22);
    note_on(&shop);
    assert_said("If the bearings are new, they bed in");
}

/* ---- the same as remarks, and those on the gauge's check ---- */

static void remark_on(const struct shop *shop)
{
    forget();
    remark_on_pulls(&rows_kept, results_for(shop));
    if (rows_kept.count) /* the last says how often both ways were compared */
        rows_kept.count--;
    remark_on_weighings(&rows_kept, results_for(shop));
}

static void test_remarks_on_the_log(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    remark_on(&shop);
    assert_string_equal(said(), "");
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    struct pull_series *row = add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 24);
    remark_on(&shop);
    assert_string_equal(said(), "");
    row->at.file = "shop/readings.csv";
    row->breakaway = quantity_of("23 N", KIND_FORCE);
    remark_on(&shop);
    assert_string_equal(said(),
                        "shop/readings.csv:3: 2027-03-07: the breakaway is below the "
                        "steady pull. Were the two exchanged, or was the spindle turning "
                        "already?|");
}

static struct weighing weighed(int line, const char *date, const char *load, enum kind kind,
                               const char *reading)
{
    return (struct weighing){.by = "",
                             .note = "",
                             .at = {.file = "gauge-check.csv", .line = line},
                             .date = date,
                             .load = quantity_of(load, kind),
                             .reading = quantity_of(reading, KIND_FORCE)};
}

/* A capacity of 50 N; 5.1 kg weigh 50.01 N where gravity is standard, 5.09 kg 49.92 N. */
static void test_remarks_on_the_capacity(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    struct weighing weighings[] = {weighed(2, "2026-03-01", "50 N", KIND_FORCE, "50 N"),
                                   weighed(3, "2026-03-01", "5.09 kg", KIND_MASS, "50 N"),
                                   weighed(4, "2026-03-02", "50.001 N", KIND_FORCE, "50 N"),
                                   weighed(5, "2026-03-02", "5.1 kg", KIND_MASS, "50 N"),
                                   weighed(6, "2026-03-02", "5 kg", KIND_MASS, "50.1 N")};
    shop.weighings = (struct weighings){weighings, 5};
    remark_on(&shop);
    assert_not_said("gauge-check.csv:2: 2026");
    assert_not_said("gauge-check.csv:3: 2026-03-01: this");
    assert_said(
        "gauge-check.csv:3: 2026-03-01: the weighings of this day by this person give no "
        "line, by one load alone or by readings that fall as the load grows");
    assert_said("gauge-check.csv:4: 2026-03-02: this load is more than the gauge of the "
                "settings can read, 50 N. Was it another gauge?|");
    assert_said("gauge-check.csv:5: 2026-03-02: this load is more");
    assert_said("gauge-check.csv:6: 2026-03-02: this reading is more");
}

/* Three loads whose readings grow by so much for each newton. */
static const char *slope_said(double slope)
{
    struct shop shop = shop_with_log();
    struct weighing weighings[3];
    for (int i = 0; i < 3; i++) {
        char load[40], reading[40];
        snprintf(load, sizeof load, "%d N", i + 1);
        snprintf(reading, sizeof reading, "%.6f N", slope * (i + 1) + 0.25);
        weighings[i] = weighed(i + 2, "2026-03-01", load, KIND_FORCE, reading);
    }
    shop.weighings = (struct weighings){weighings, 3};
    remark_on(&shop);
    return said();
}

static void test_remarks_on_the_slope(void **state)
{
    (void)state;
    assert_string_equal(slope_said(0.9001), "");
    assert_string_equal(slope_said(1.0999), "");
    assert_string_equal(
        slope_said(0.4536),
        "gauge-check.csv:2: the gauge reads 0.45 times the load: are the loads in "
        "lb, not kg, or the readings in kgf, not lbf?|");
    assert_non_null(
        strstr(slope_said(2.205), "2.21 times the load: are the loads in kg, not lb"));
    assert_non_null(
        strstr(slope_said(9.8), "9.80 times the load: are the readings in N, not kgf?"));
    assert_non_null(
        strstr(slope_said(0.102), "0.10 times the load: are the readings in kgf, not"));
    assert_non_null(
        strstr(slope_said(0.8999), "0.90 times the load: look for a wrong unit, or a"));
    assert_non_null(
        strstr(slope_said(1.1001), "1.10 times the load: look for a wrong unit, or a"));
    assert_non_null(strstr(slope_said(0.51), "look for a wrong unit"));
}

/* Told of the day's last row: that was measured last. */
static void test_remarks_on_an_old_check(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    struct weighing weighings[] = {weighed(2, "2025-03-01", "1 kg", KIND_MASS, "9.8 N"),
                                   weighed(3, "2026-03-01", "2 kg", KIND_MASS, "19.6 N"),
                                   weighed(4, "2026-03-01", "1 kg", KIND_MASS, "9.8 N"),
                                   weighed(5, "2026-02-01", "3 kg", KIND_MASS, "29.4 N"),
                                   weighed(6, "2026-02-01", "2 kg", KIND_MASS, "19.6 N"),
                                   weighed(7, "2025-03-01", "2 kg", KIND_MASS, "19.6 N")};
    shop.weighings = (struct weighings){weighings, 6};
    remark_on(&shop);
    assert_string_equal(said(), "");
    add(&shop, "2027-03-01", "12 deg", LOCK_AFTER, 24);
    remark_on(&shop);
    assert_string_equal(said(), "");
    add(&shop, "2027-03-02", "13 deg", LOCK_AFTER, 24);
    remark_on(&shop);
    assert_string_equal(said(),
                        "gauge-check.csv:4: 2026-03-01: the gauge's last check is more than a "
                        "year older than the log's last series, 2027-03-02. Check the gauge "
                        "with weights before you trust it.|");
    shop.weighings.count = 0;
    remark_on(&shop);
    assert_string_equal(said(), "");
}

/* The doubt is rounded up as it is shown, and a change of just that much is not clear. */
static void test_change(void **state)
{
    (void)state;
    struct judgement before = {.drag = 0.5, .unit = unit_find("N.m", 3)};
    struct judgement now = {.drag = 0.5501, .unit = before.unit};
    before.shown_u = uncertainty_shown_in(0.03, before.unit);
    now.shown_u = uncertainty_shown_in(0.04, before.unit);
    struct drag_change change = drag_change_of(&before, &now);
    assert_within(change.change, 0.0501, 1e-12);
    assert_within(decimal_to_double(&change.u.exact), 0.05, 1e-12);
    assert_true(change.clear);
    now.drag = 0.45 + 1e-9;
    assert_false(drag_change_of(&before, &now).clear);
    now.drag = 0.4499;
    change = drag_change_of(&before, &now);
    assert_true(change.clear && change.change < 0);
    now.shown_u = uncertainty_shown_in(0.041, before.unit); /* 0.0508 is 0.051 */
    change = drag_change_of(&before, &now);
    assert_within(decimal_to_double(&change.u.exact), 0.051, 1e-12);
}

/* What is written twice, or the wrong way round. */
static void test_remarks_on_slips(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    remark_on(&shop);
    assert_said("the same pulls in the same way as line 2: was the row copied?");
    shop.readings.items[1].pulls[0] = quantity_of("24.2 N", KIND_FORCE);
    remark_on(&shop);
    assert_not_said("copied");
    for (int turned = 0; turned < 2; turned++) {
        shop = shop_with_log();
        add(&shop, "2026-03-07", "12 deg", LOCK_BEFORE, turned ? 20 : 30);
        add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, turned ? 30 : 20);
        remark_on(&shop);
        if (turned)
            assert_not_said("exchanged");
        else
            assert_said("Were before and after exchanged?");
    }
    struct weighing weighings[6];
    shop = shop_with_log();
    for (int i = 0; i < 6; i++) {
        static const char *const loads[] = {"1 kg", "2 kg", "3 kg"};
        static const char *const readings[] = {"9.8 N", "19.6 N", "29.4 N"};
        weighings[i] = weighed(i + 2, "2026-03-01", loads[i % 3], KIND_MASS, readings[i % 3]);
    }
    shop.weighings = (struct weighings){weighings, 6};
    remark_on(&shop);
    assert_said("every weighing of this check stands in the log twice");
    weighings[5].reading = quantity_of("29.5 N", KIND_FORCE);
    remark_on(&shop);
    assert_not_said("twice");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_good_dates),
    cmocka_unit_test(test_year_later),
    cmocka_unit_test(test_change_doubt),
    cmocka_unit_test(test_directions),
    cmocka_unit_test(test_lift),
    cmocka_unit_test(test_job),
    cmocka_unit_test(test_job_of_a_moved_nut),
    cmocka_unit_test(test_job_by_warmth),
    cmocka_unit_test(test_notes_of_one_row),
    cmocka_unit_test(test_notes_of_directions),
    cmocka_unit_test(test_notes_of_change),
    cmocka_unit_test(test_notes_without_limits),
    cmocka_unit_test(test_remarks_on_the_log),
    cmocka_unit_test(test_remarks_on_the_capacity),
    cmocka_unit_test(test_remarks_on_the_slope),
    cmocka_unit_test(test_remarks_on_an_old_check),
    cmocka_unit_test(test_change),
    cmocka_unit_test(test_remarks_on_slips),
};

GROUP(record, NULL, NULL)
