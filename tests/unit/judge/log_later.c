/* What the log says of a setting in later years: the check since, drags beyond what any
 * spindle may have, caps of another temperature. */
#include "facts.h"
#include "judge/nut.h"
#include "record_fixture.h"
#include "tables/tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static struct arena *arena;

/* A check in a later year does not wipe the setting that it checks. */
static void test_checked_since(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "11 deg", LOCK_AFTER, 24);
    add(&shop, "2027-03-07", "11 deg", LOCK_AFTER, 24);
    assert_ptr_equal(results_for(&shop)->last_job.left,
                     &rows[1]); /* the log knows of no setting */
    assert_null(results_for(&shop)->last_job.since);
    add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2028-03-07", "12 deg", LOCK_AFTER, 24);
    add(&shop, "2029-03-07", "", LOCK_AFTER, 24);
    struct job job = results_for(&shop)->last_job;
    assert_ptr_equal(job.left, &rows[2]);
    assert_ptr_equal(job.since, &rows[4]);
    assert_true(job.set);
    rows[3].lock = LOCK_BEFORE; /* unlocked, and not closed: the next is its setting */
    job = results_for(&shop)->last_job;
    assert_ptr_equal(job.left, &rows[4]);
    assert_null(job.since);
    rows[3].lock = LOCK_AFTER;
    rows[3].warm = true; /* moved, and not closed */
    rows[3].nut = quantity_of("13 deg", KIND_ANGLE);
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[4]);
    rows[3].nut = rows[2].nut;
    assert_ptr_equal(results_for(&shop)->last_job.left, &rows[2]);
}

/* The limits are 0.50 and 0.70 N.m on 25 mm: never-exceed of 0.75 is 30 N. */
static void test_notes_of_never_exceed(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    shop.limits.never_exceed = measure_of("0.75 N.m", KIND_TORQUE);
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    note_on(&shop);
    assert_not_said("never-exceed");
    add(&shop, "2026-03-08", "12 deg", LOCK_BEFORE, 31)->warm = true;
    note_on(&shop);
    assert_said("2026-03-08, line 3 of the log: above never-exceed, or not surely below it");
    assert_said("2026-03-08, line 3 of the log: not judged, but by its number");
}

/* Caps of 18 and 13 degrees are alike; beyond that the shop is made as warm as it was. */
static void test_notes_of_caps(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24)->temperature =
        quantity_of("18 degC", KIND_TEMPERATURE);
    struct pull_series *row = add(&shop, "2027-03-07", "12 deg", LOCK_AFTER, 24);
    note_on(&shop);
    assert_not_said("the cap is");
    row->temperature = quantity_of("13 degC", KIND_TEMPERATURE);
    note_on(&shop);
    assert_not_said("the cap is");
    row->temperature = quantity_of("12 degC", KIND_TEMPERATURE);
    note_on(&shop);
    assert_said("the cap is 6\u00a0°C colder than on 2026-03-07, line 2,");
    assert_said("The oil alone makes more drag then");
    row->temperature = quantity_of("75.2 degF", KIND_TEMPERATURE); /* 24 degrees Celsius */
    note_on(&shop);
    assert_said("the cap is 11\u00a0°F warmer than on 2026-03-07");
    assert_said("The oil alone makes less drag then");
}

static const char *next_check(const struct shop *shop)
{
    struct table_ask ask = {.arena = arena, .results = results_for(shop)};
    const struct table *table = tables_make("record-facts", &ask);
    for (size_t i = 0; i < table->row_count; i++)
        if (strcmp(table_cell(table, i, 0)->shown, "next check not after") == 0)
            return table_cell(table, i, 1)->shown;
    return "";
}

/* A year after the last check, not after the setting; none where it was not good. */
static void test_next_check(void **state)
{
    (void)state;
    arena = arena_new();
    struct shop shop = shop_with_log();
    add(&shop, "2026-03-07", "11 deg", LOCK_AFTER, 20);
    add(&shop, "2026-03-08", "12 deg", LOCK_AFTER, 24);
    assert_string_equal(next_check(&shop), "2027-03-08");
    add(&shop, "2027-04-01", "12 deg", LOCK_AFTER, 24);
    assert_string_equal(next_check(&shop), "2028-04-01");
    add(&shop, "2028-04-01", "12 deg", LOCK_AFTER, 29);
    assert_string_equal(next_check(&shop), "none: not good");
    struct pull_series *last = add(&shop, "2029-04-01", "12 deg", LOCK_AFTER, 24);
    assert_string_equal(next_check(&shop), "2030-04-01");
    last->temperature = quantity_of("40 degC", KIND_TEMPERATURE);
    assert_string_equal(next_check(&shop), "none: cap and warmth do not fit");
    last->temperature = (struct quantity){0};
    last->pull_count = 2;
    assert_string_equal(next_check(&shop), "none: good by too few pulls");
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    assert_string_equal(next_check(&shop), "2030-04-01");
    arena_free(arena);
}

/* A place of the nut has the U of the row that says it. */
static void test_doubt_of_a_place(void **state)
{
    (void)state;
    struct shop shop = shop_with_log();
    struct pull_series *row = add(&shop, "2026-03-07", "12 deg", LOCK_AFTER, 24);
    const struct judged *judged = judged_row(&shop, row);
    struct nut_point point = nut_point_of_row(judged);
    assert_true(point.expanded == judged->judgement.measured.drag.sureness.expanded);
    assert_true(point.expanded > 0 && point.drag == judged->judgement.drag);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_checked_since),    cmocka_unit_test(test_notes_of_never_exceed),
    cmocka_unit_test(test_notes_of_caps),    cmocka_unit_test(test_next_check),
    cmocka_unit_test(test_doubt_of_a_place),
};

GROUP(log_later, NULL, NULL)
