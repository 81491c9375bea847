/* What is said of a drag that was measured before locking, each number worked out by hand. */
#include "facts.h"
#include "report/report.h"
#include "told_fixture.h"

/* Two like pulls; 1 N is 0.025 N.m. */
static void judge_lock(struct shop *shop, const char *pull, enum lock when, double added)
{
    struct quantity pulls[2] = {quantity_of(pull, KIND_FORCE), quantity_of(pull, KIND_FORCE)};
    struct drum_setup setup = shop_drum_setup(shop);
    struct pull_conditions taken = {when, SAID_COLD, false};
    struct judgement found =
        judge_pulls(known_for(shop), shop->limits.bands, &setup, &taken, pulls, 2);
    forget();
    report_judgement(&rows_kept, results_for(shop), &found, pulls, added);
}

/* The limits are 0.50 and 0.70 N.m; 0.1 N.m is 4 N. */
static void test_judged_before_its_lock(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    judge_lock(&shop, "20 N", LOCK_BEFORE, 0.1);
    assert_said("state=– not judged: not locked |lock=not locked yet, so no verdict");
    assert_said("lock-added=0.100 N·m|expected-drag=0.600");
    assert_said("expected-state=● good: expected, not measured |next=Lock, and measure again");
    judge_lock(&shop, "24 N", LOCK_BEFORE, 0.2);
    assert_said("state=– not judged: not locked |lock=not locked yet, so no verdict");
    assert_said("expected-drag=0.80 ");
    assert_said("expected-state=△ high or in doubt: expected, not measured |next=Do not lock");
    assert_not_said("note=");
    judge_lock(&shop, "10 N", LOCK_BEFORE, 0.05);
    assert_said("expected-state=▼ clearly low: expected, not measured |next=Do not lock yet");
    judge_lock(&shop, "24 N", LOCK_BEFORE, -0.3); /* eased once: counts as nothing */
    assert_said("expected-drag=0.600");
    judge_lock(&shop, "24 N", LOCK_BEFORE, NAN);
    assert_said("lock-added=not known |next=Do not lock: what the lock adds is not known");
    assert_not_said("expected");
}

/* What is not said to be locked is not judged. */
static void test_judged_without_a_word_of_the_lock(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    judge_lock(&shop, "24 N", LOCK_UNSAID, 0.1);
    assert_said("state=– not judged: lock not said |next=Say whether");
    assert_not_said("lock-added=");
    judge_lock(&shop, "16 N", LOCK_UNSAID, 0.1);
    assert_said("state=– not judged: lock not said |next=Say whether");
    judge_lock(&shop, "24 N", LOCK_AFTER, 0.1);
    assert_said("state=● good |outside=0.034 %|next=");
}

/* Its doubt has those of the two series whose difference the lock's share is, and a fifth of
 * it; a share that is not known is anything up to the drag itself. */
static void test_expected_doubt(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct quantity pulls[2] = {quantity_of("20 N", KIND_FORCE),
                                quantity_of("20 N", KIND_FORCE)};
    struct drum_setup setup = shop_drum_setup(&shop);
    struct judgement found =
        judge_pulls(known_for(&shop), shop.limits.bands, &setup, &as_limits, pulls, 2);
    struct expected expected = expected_once_locked(&found, 0.1);
    const struct uncertainty *now = &found.measured.drag.sureness,
                             *then = &expected.measured.drag.sureness;
    double own = own_doubt(found.budget);
    assert_within(expected.drag, 0.6, 1e-12);
    assert_within(then->standard * then->standard,
                  now->standard * now->standard + 2 * own * own + 0.02 * 0.02, 1e-12);
    assert_within(then->expanded, now->factor * then->standard + found.measured.drag.askew,
                  1e-12);
    expected = expected_once_locked(&found, NAN);
    assert_within(expected.drag, 0.75, 1e-12);
    assert_within(expected.measured.drag.sureness.standard,
                  hypot(now->standard, 0.25 / sqrt(3)), 1e-12);
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_judged_before_its_lock),
    cmocka_unit_test(test_judged_without_a_word_of_the_lock),
    cmocka_unit_test(test_expected_doubt),
};

GROUP(lock, NULL, NULL)
