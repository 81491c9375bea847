/* Sessions of the gauge's check: told apart, told complete, agreeing, and which one holds. */
#include "judge/checks.h"
#include "facts.h"
#include "shop_fixture.h"
#include "test.h"

#include <string.h>

enum { MOST_ROWS = 60 };
static struct weighing rows[MOST_ROWS];
static struct shop shop;
static struct arena *arena;

static int begin(void **state)
{
    (void)state;
    shop = shop_of("62 mm", "0.8 mm", "0.05 N");
    shop.weighings = (struct weighings){rows, 0};
    arena = arena_new();
    return 0;
}

static int end(void **state)
{
    (void)state;
    arena_free(arena);
    return 0;
}

static void hang(const char *date, const char *by, bool down, double load, double reading)
{
    char text[64];
    struct weighing *row = &rows[shop.weighings.count++];
    *row = (struct weighing){.date = date, .by = by, .note = "", .down = down};
    snprintf(text, sizeof text, "%g N", load);
    row->load = quantity_of(text, KIND_FORCE);
    snprintf(text, sizeof text, "%g N", reading);
    row->reading = quantity_of(text, KIND_FORCE);
}

/* 10, 20, 30 N up and 20, 10 N down. */
static void hang_all(const char *date, double slope)
{
    for (int i = 1; i <= 3; i++)
        hang(date, "", false, 10 * i, slope * 10 * i);
    for (int i = 2; i >= 1; i--)
        hang(date, "", true, 10 * i, slope * 10 * i + 0.1);
}

static struct check_in_force on(const char *date)
{
    static struct check_sessions sessions;
    sessions = check_sessions_of(arena, &shop);
    return check_in_force_on(&sessions, date_days(date));
}

static void test_sessions_apart(void **state)
{
    (void)state;
    hang_all("2026-03-01", 1);
    hang("2026-03-01", "A", false, 10, 10);
    hang("2026-03-01", "A", false, 20, 20.5);
    hang("2025-03-01", "", false, 10, 9);
    struct check_sessions sessions = check_sessions_of(arena, &shop);
    assert_int_equal(sessions.count, 2); /* one load gives no line */
    assert_true(sessions.items[0].complete && !sessions.items[1].complete);
    assert_within(sessions.items[0].least, 10, 1e-12);
    assert_within(sessions.items[0].most, 30, 1e-12);
    assert_within(sessions.items[0].hysteresis, 0.05, 1e-12);
    assert_true(isnan(sessions.items[1].hysteresis));
    assert_within(sessions.items[1].line.slope, 1.05, 1e-12);
    assert_string_equal(sessions.items[1].last->by, "A");
    assert_false(sessions.items[0].masses);
}

static void test_none_yet(void **state)
{
    (void)state;
    assert_null(on("2026-01-01").check);
    hang_all("2026-03-01", 1);
    assert_null(on("2026-02-28").check);
    assert_non_null(on("2026-03-01").check);
}

static void test_latest_complete(void **state)
{
    (void)state;
    hang("2025-01-01", "", false, 10, 10);
    hang("2025-01-01", "", false, 30, 30);
    assert_within(on("2025-06-01").check->line.slope, 1, 1e-12);
    hang_all("2026-01-01", 0.995);
    hang_all("2027-01-01", 0.997);
    struct check_in_force force = on("2026-06-01");
    assert_within(force.check->line.slope, 0.995, 5e-3);
    assert_true(force.check->complete && !force.other);
    assert_string_equal(on("2027-01-01").check->last->date, "2027-01-01");
}

/* The gauge was dropped: the newest line is 8 % low. */
static void test_disagreement_waits(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    hang_all("2027-01-01", 0.92);
    struct check_in_force force = on("2027-02-01");
    assert_string_equal(force.check->last->date, "2027-01-01");
    assert_string_equal(force.other->last->date, "2026-01-01");
    hang_all("2027-03-01", 0.922); /* agrees with the new */
    force = on("2027-03-01");
    assert_string_equal(force.check->last->date, "2027-03-01");
    assert_null(force.other);
    hang_all("2027-04-01", 1); /* and this with none since */
    assert_string_equal(on("2027-04-01").other->last->date, "2027-03-01");
}

static void test_later_incomplete(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    hang("2026-05-01", "", false, 10, 9.2);
    hang("2026-05-01", "", false, 20, 18.4);
    struct check_in_force force = on("2026-06-01");
    assert_string_equal(force.check->last->date, "2026-01-01");
    assert_string_equal(force.other->last->date, "2026-05-01");
    hang("2026-07-01", "", false, 10, 10);
    hang("2026-07-01", "", false, 20, 20);
    assert_null(on("2026-07-01").other);
}

static void test_reach(void **state)
{
    (void)state;
    hang_all("2026-01-01", 1);
    const struct check_session *check = on("2026-01-01").check;
    assert_true(check_reaches(check, 5) && check_reaches(check, 37.5));
    assert_false(check_reaches(check, 4.99) || check_reaches(check, 37.6));
}

#define TEST(test) cmocka_unit_test_setup_teardown(test, begin, end)
static const struct CMUnitTest tests[] = {
    TEST(test_sessions_apart),     TEST(test_none_yet),         TEST(test_latest_complete),
    TEST(test_disagreement_waits), TEST(test_later_incomplete), TEST(test_reach),
};
GROUP(checks, NULL, NULL)
