/* What is said next of pulls and places: too high whatever was not said, good by too few, both
 * drags locked; and rows that go with it. Limits 0.5 to 0.7 N.m; 1 N is 0.025 N.m. */
#include "told_fixture.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define AWAY  "next=Do not lock, do not run: unload until there is end play"
#define AGAIN "next=Do not run it: unload until there is end play"

static struct shop shop;
static struct band band;

static void begin(void)
{
    shop = plain_shop(&band);
}

/* So many pulls about a mean, each a step from the last. */
static void judge(double mean, int count, struct pull_conditions taken, double lock_added)
{
    struct quantity pulls[5];
    char text[40];
    for (int i = 0; i < count; i++) {
        snprintf(text, sizeof text, "%.2f N", mean + 0.1 * (i % 2));
        pulls[i] = quantity_of(text, KIND_FORCE);
    }
    struct drum_setup setup = shop_drum_setup(&shop);
    struct judgement judgement =
        judge_pulls(known_for(&shop), &band, &setup, &taken, pulls, (size_t)count);
    forget();
    report_judgement(&rows_kept, results_for(&shop), &judgement, pulls, lock_added);
}

static void test_too_high_whatever_was_not_said(void **state)
{
    (void)state;
    begin();
    for (enum lock lock = LOCK_UNSAID; lock <= LOCK_BEFORE; lock++) {
        judge(40, 3, (struct pull_conditions){lock, SAID_NOTHING, false}, NAN);
        assert_said(AWAY);
        assert_not_said("If before: lock");
    }
    judge(40, 3, (struct pull_conditions){LOCK_AFTER, SAID_COLD, false}, NAN);
    assert_said(AGAIN);
    judge(40, 3, (struct pull_conditions){LOCK_AFTER, SAID_WARM, false},
          NAN); /* it may be the warmth */
    assert_said("next=Do not run it. Let the spindle cool");
    judge(40, 3, (struct pull_conditions){LOCK_AFTER, SAID_COLD, true}, NAN);
    assert_said("next=Do not run it. Measure the usual way round");
    judge(24, 3, (struct pull_conditions){LOCK_UNSAID, SAID_NOTHING, false}, NAN);
    assert_said("next=Say whether you pulled before or after");
    shop.limits.never_exceed = measure_of("0.8 N.m", KIND_TORQUE);
    judge(40, 3, (struct pull_conditions){LOCK_AFTER, SAID_WARM, false}, NAN);
    assert_said(AGAIN);
    judge(40, 3, (struct pull_conditions){LOCK_BEFORE, SAID_WARM, true}, NAN);
    assert_said(AWAY);
}

static void test_good_by_few(void **state)
{
    (void)state;
    static const struct pull_conditions locked = {LOCK_AFTER, SAID_COLD, false};
    begin();
    for (int count = 1; count <= 2; count++) {
        judge(23, count, locked, NAN);
        assert_said("state=\u25cf good");
        assert_said("next=Good, but by too few pulls: take more");
        assert_not_said("eave the nut");
    }
    judge(23, 3, locked, NAN);
    assert_said("next=Leave the nut alone");
    judge(15, 1, locked, NAN);
    assert_said("next=Free the lock and tighten");
}

static void nut(double drag, enum lock lock, double lock_added)
{
    struct pull_conditions taken = {lock, SAID_COLD, false};
    tell_places(&shop, 0, 0.3, 3, drag, &taken, lock_added);
}

/* The places say what pulls of that drag say, and how far. */
static void test_places_say_what_pulls_say(void **state)
{
    (void)state;
    static const double drags[] = {0.34, 0.36, 0.4, 0.54, 0.61, 0.66, 0.8};
    begin();
    for (size_t i = 0; i < sizeof drags / sizeof drags[0]; i++)
        for (enum lock lock = LOCK_UNSAID; lock <= LOCK_AFTER; lock++)
            for (int known = 0; known < 2; known++) {
                judge(drags[i] / 0.025, 4, (struct pull_conditions){lock, SAID_COLD, false},
                      known ? 0.08 : NAN);
                const char *next = strstr(said(), "next=");
                char by_pulls[400];
                snprintf(by_pulls, sizeof by_pulls, "%.*s", (int)strcspn(next, "|"), next);
                nut(drags[i], lock, known ? 0.08 : NAN);
                assert_said(by_pulls);
            }
    shop.limits.never_exceed = measure_of("0.61 N.m", KIND_TORQUE);
    nut(0.605, LOCK_BEFORE, NAN); /* at the aim, and within U of never-exceed */
    assert_said(AWAY);
}

static void test_a_lock_that_eased(void **state)
{
    (void)state;
    begin();
    nut(0.4, LOCK_BEFORE, -0.1);
    assert_said("note=a lock that eased the nut is not counted on");
    nut(0.4, LOCK_BEFORE, 0.1);
    assert_not_said("eased");
    judge(20, 3, (struct pull_conditions){LOCK_BEFORE, SAID_COLD, false}, -0.1);
    assert_said("note=a lock that eased the nut is not counted on");
}

/* Off the gauge's steps the range has digits of its own. */
static void test_range(void **state)
{
    (void)state;
    begin();
    shop.gauge.step = measure_of("1 N", KIND_FORCE);
    judge(20.1, 2, (struct pull_conditions){LOCK_AFTER, SAID_COLD, false}, NAN);
    assert_said("range=0.10 N");
    judge(20.1, 1, (struct pull_conditions){LOCK_AFTER, SAID_COLD, false}, NAN);
    assert_said("range=0 N");
    shop.gauge.step = measure_of("0.1 N", KIND_FORCE);
    judge(20.1, 2, (struct pull_conditions){LOCK_AFTER, SAID_COLD, false}, NAN);
    assert_said("range=0.1 N");
}

/* Whole limits of an increase are rounded inward: 0.5 and 0.7 and 0.123456 N.m. */
static void test_slack_drag(void **state)
{
    (void)state;
    static const struct pull_conditions locked = {LOCK_AFTER, SAID_COLD, false};
    begin();
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag = measure_of("0.120 N.m", KIND_TORQUE);
    judge(23, 3, locked, NAN);
    assert_said("slack-drag=0.120");
    assert_said("low-whole=0.620");
    assert_said("high-whole=0.820");
    shop.limits.slack_drag = measure_of("1.1 lbf.in", KIND_TORQUE); /* 0.12428... N.m */
    judge(23, 3, locked, NAN);
    assert_said("low-whole=0.625");
    assert_said("high-whole=0.824");
    assert_not_said("below the slack drag");
    judge(4.8, 3, locked, NAN); /* 0.1208 */
    assert_said("note=the drag is below the slack drag");
    judge(4.8, 3, (struct pull_conditions){LOCK_UNLOADED, SAID_COLD, false}, NAN);
    assert_not_said("below the slack drag");
    shop.limits.basis = BASIS_ABSOLUTE;
    judge(4.8, 3, locked, NAN);
    assert_not_said("slack");
}

static const struct CMUnitTest tests[] = {cmocka_unit_test(test_too_high_whatever_was_not_said),
                                          cmocka_unit_test(test_good_by_few),
                                          cmocka_unit_test(test_places_say_what_pulls_say),
                                          cmocka_unit_test(test_a_lock_that_eased),
                                          cmocka_unit_test(test_range),
                                          cmocka_unit_test(test_slack_drag)};

GROUP(next, NULL, NULL)
