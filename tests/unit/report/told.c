/* What is said of pulls, windows and nut moves: the rows and their numbers, each
 * worked out by hand; the whole wording stands in tests/terminal.txt. */
#include "facts.h"
#include "judge/measure.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "report/typed.h"
#include "told_fixture.h"

/* U of the usual pulls with such a mean. */
static double u_at(const struct shop *shop, double reading)
{
    struct drum_setup setup = shop_drum_setup(shop);
    const struct known *known = known_for(shop);
    struct pull_mean pulls = usual_pulls(known, reading);
    return measure_pulls(known, &setup, &pulls, NULL).drag.sureness.expanded;
}

static void tell_of(struct shop *shop, double a1, double t1, double a2, double t2)
{
    tell_places(shop, a1, t1, a2, t2, &as_limits, 0.1); /* locked: no more */
}

/* The line says only how far, and only where the state asks to tighten: the limits are 0.5 and
 * 0.7, the aim is 0.6. */
static void test_nut(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_string_equal(said(),
                        "state=▼ clearly low |outside=100 %|aim=0.600 N·m|turn=2.5 °|"
                        "next=Free the lock and tighten by a small step from the loose side. "
                        "Turn the spindle ten times each way, lock, measure again. |");
    tell_of(&shop, 0, 0.3, 3, 0.56);
    assert_said("state=● good |outside=");
    assert_said("|next=Leave the nut alone");
    assert_not_said("turn=");
    tell_of(&shop, 0, 0.3, 3, 0.64);
    assert_said("|next=Good, above the aim: leave the nut alone");
    assert_not_said("next=Do not run");
    tell_of(&shop, 4, 0.5, 3, 0.4);
    assert_said("state=× backed off, not unloaded");
    assert_said("next=A nut turned back does not unload the bearings. Do not run it");
    assert_not_said("turn=");
    tell_of(&shop, 0, 0.3, 3, 0.3);
    assert_said("next=The drag did not rise with the nut");
    tell_of(&shop, 0, 0.3, 1, 0.35);
    assert_said("turn=2.0 °|note=no further at once");
}

/* 0.5 N.m is 20 N at 25 mm: its U is that of pulls of 20 N still to come. */
static void test_nut_points(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct nut_point point = nut_point_of_drag(known_for(&shop), 3, 0.5);
    struct quantity angles[] = {quantity_of("3 deg", KIND_ANGLE),
                                quantity_of("-27 deg", KIND_ANGLE)};
    struct quantity_fault wrong;
    assert_within(point.expanded, u_at(&shop, 20), 1e-12);
    assert_true(point.expanded > 0.001 && point.angle == 3 && point.drag == 0.5);
    assert_true(places_allowed(angles, &wrong));
    angles[1] = quantity_of("-27.1 deg", KIND_ANGLE);
    assert_false(places_allowed(angles, &wrong));
    assert_non_null(strstr(wrong.message, "more than 30 degrees apart"));
}

static void tell_nut_before_lock(struct shop *shop, double drag, double lock_added)
{
    struct pull_conditions taken = {LOCK_BEFORE, SAID_COLD, false};
    tell_places(shop, 0, 0.3, 3, drag, &taken, lock_added);
}

/* The aim of 0.6 less the 0.1 that the lock is going to add; a lock that eases adds
 * nothing to the aim. Not known: low enough for a lock that adds anything up to the drag
 * itself. */
static void test_nut_before_its_lock(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    tell_nut_before_lock(&shop, 0.39, 0.1);
    assert_said("aim=0.600 N·m|aim-before-lock=0.500 N·m|turn=3.3 °|"
                "next=Do not lock yet. Tighten by a small step");
    tell_nut_before_lock(&shop, 0.5, 0.1);
    assert_said("next=Lock, and measure again");
    tell_nut_before_lock(&shop, 0.65, 0.1);
    assert_said("next=Do not lock: too much is to be expected");
    tell_nut_before_lock(&shop, 0.45, -0.1);
    assert_said("aim-before-lock=0.600 N·m|turn=2.5 °|");
    tell_nut_before_lock(&shop, 0.31, NAN); /* 0.8 * 0.7 / (1.5 + 1.2816 / sqrt(12)) = 0.299 */
    assert_said("next=What the lock adds is not known: lock");
    tell_nut_before_lock(&shop, 0.34, NAN);
    assert_said("next=What the lock adds is not known: lock");
    tell_nut_before_lock(&shop, 0.38, NAN); /* 0.374 is the most */
    assert_said("next=Do not lock: what the lock adds is not known");
    struct pull_conditions open = {LOCK_BEFORE, SAID_COLD, false};
    tell_places(&shop, 0, 0.1, 3, 0.2, &open, NAN);
    assert_said("lock-added=not known |aim=0.600 N·m|aim-before-lock=0.299 N·m|turn=");
    assert_said("next=Do not lock yet.");
}

/* 1.5 mm at 2.55 degrees is 10.6 micrometres; 18 tpi at 2.55 degrees 10.0; a rim of 60 mm
 * passes by 1.33 mm. */
static void test_nut_in_other_words(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.nut.pitch = measure_of("1.5 mm", KIND_LENGTH);
    shop.nut.outside_diameter = measure_of("60 mm", KIND_LENGTH);
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_said("turn=2.5 °|rim=1.3 mm|travel=10.6 µm|");
    shop.nut.pitch.q.unit = NULL;
    shop.nut.threads = measure_of("18 tpi", KIND_THREADS);
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_said("travel=0.00039 in|travel-metric=10.0 µm|");
    shop.nut.outside_diameter = measure_of("2.5 in", KIND_LENGTH); /* 0.0555 in */
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_said("rim=0.055 in|");
    shop.limits.basis = BASIS_INCREASE; /* 0.1 more on both limits */
    shop.limits.slack_drag = measure_of("0.1 N.m", KIND_TORQUE);
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_said("aim=0.700 N·m|");
}

static void judge(struct shop *shop, const char *const *texts, size_t count)
{
    struct quantity pulls[3];
    struct drum_setup setup = shop_drum_setup(shop);
    for (size_t i = 0; i < count; i++)
        pulls[i] = quantity_of(texts[i], KIND_FORCE);
    struct judgement found =
        judge_pulls(known_for(shop), shop->limits.bands, &setup, &as_limits, pulls, count);
    struct quantity breakaway = quantity_of("36 N", KIND_FORCE);
    forget();
    report_judgement(&rows_kept, results_for(shop), &found, pulls, 0.1);
    report_good_drags(&rows_kept, &found);
    report_breakaway(&rows_kept, &found, &breakaway);
}

/* By hand, for a mean of 24 N, the stated 2 % and steps of 0.1 N: Fisher's ratio at 1 in 1,000
 * is 61.25 for three pulls and 74.14 for two, so that standard deviations of 3.763 and 4.140 N
 * are the most; 20.2, 24.0, 27.8 N have 3.8, and 21.0, 27.0 N have 4.243 N. */
static void test_judgement(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    judge(&shop, (const char *const[]){"23.9 N", "24.0 N", "24.1 N"}, 3);
    assert_said("pulls=3 |mean=24.00 N|range=0.2 N|drag=0.600");
    assert_said(
        "low=0.50 N·m|high=0.70 N·m|limits-for=running drag, whole drag, new bearings, cold |"
        "band-from=0 r/min|band-to=1000 r/min|state=● good |");
    assert_said("breakaway-ratio=1.50 |");
    assert_not_said("note=");
    assert_not_said("never-exceed=");
    assert_not_said("slack-drag=");
    judge(&shop, (const char *const[]){"24 N"}, 1);
    assert_said("note=one pull says nothing of the scatter");
    judge(&shop, (const char *const[]){"20.3 N", "24.0 N", "27.7 N"}, 3);
    assert_not_said("next=Do not use these pulls");
    judge(&shop, (const char *const[]){"20.2 N", "24.0 N", "27.8 N"}, 3);
    assert_said("next=Do not use these pulls");
    judge(&shop, (const char *const[]){"21.1 N", "26.9 N"}, 2);
    assert_not_said("next=Do not use these pulls");
    judge(&shop, (const char *const[]){"21.0 N", "27.0 N"}, 2);
    assert_said("next=Do not use these pulls");
    assert_not_said("lies apart"); /* of two none is the odd one */
    assert_said("state=× rejected: find the cause, take all again |");
    assert_not_said("good"); /* neither what would be good */
    shop.limits.never_exceed = measure_of("0.61 N.m", KIND_TORQUE);
    shop.limits.basis = BASIS_INCREASE;
    shop.limits.slack_drag = measure_of("0.1 N.m", KIND_TORQUE);
    judge(&shop, (const char *const[]){"23.9 N", "24.0 N", "24.1 N"}, 3);
    assert_said("increase=0.500 N·m|slack-drag=0.100 N·m|low-whole=0.600 N·m|high-whole=0.800");
    assert_not_said("never-exceed="); /* the increase is 0.50 */
    judge(&shop, (const char *const[]){"28.9 N", "29.0 N", "29.1 N"}, 3);
    assert_said("never-exceed=passed, or not surely below it");
}

/* What makes one wonder where the pulls came from. */
static void test_notes(void **state)
{
    (void)state;
    struct band bands[2];
    struct shop shop = plain_shop(bands);
    judge(&shop, (const char *const[]){"23.9 N", "24.0 N", "24.15 N"}, 3);
    assert_said("note=a pull is no whole step of this gauge");
    bands[1] = band_of("0.4 N.m", "0.6 N.m");
    bands[1].from = measure_of("1000 r/min", KIND_SPEED);
    bands[1].to = measure_of("2000 r/min", KIND_SPEED);
    shop.limits.band_count = 2;
    judge(&shop, (const char *const[]){"24 N", "24.1 N"}, 2);
    assert_not_said("note=");
    shop.lathe.top_speed = measure_of("1500 r/min", KIND_SPEED);
    judge(&shop, (const char *const[]){"24 N", "24.1 N"}, 2);
    assert_said("note=THIS IS NOT THE BAND OF YOUR TOP SPEED");
}

static void tell_good_drags(struct judgement *judgement, double u)
{
    judgement->measured.drag.sureness = (struct uncertainty){.standard = u, .nu = INFINITY};
    judgement->shown_u = uncertainty_shown_in(2 * u, judgement->unit);
    forget();
    report_good_drags(&rows_kept, judgement);
}

/* Limits of 0.5 and 0.7 N.m moved in until the chance of lying outside is 2.5 %, 1.95996 times
 * the doubt, 0.01254 N.m; at the place of U's last digit. */
static void test_good_drags_are_told_inward(void **state)
{
    (void)state;
    struct band band = band_of("0.5 N.m", "0.7 N.m");
    struct judgement judgement = {
        .band = &band, .unit = band.high.q.unit, .drag = 0.6, .measured.drag.drag = 0.6};
    tell_good_drags(&judgement, 0.0064);
    assert_string_equal(said(), "good-from=0.513 N·m|good-to=0.687 N·m|");
    band.low = measure_of("0.5006 N.m", KIND_TORQUE); /* 0.51314 */
    band.high = measure_of("0.6994 N.m", KIND_TORQUE);
    tell_good_drags(&judgement, 0.0064);
    assert_string_equal(said(), "good-from=0.514 N·m|good-to=0.686 N·m|");
    judgement.drag = 1.6; /* with 1 N.m slack */
    tell_good_drags(&judgement, 0.0064);
    assert_string_equal(said(), "good-from=1.514 N·m|good-to=1.686 N·m|");
    tell_good_drags(&judgement, 0.06); /* 1.67 of it to either side: 4.8 % each */
    assert_string_equal(said(), "good=none: this gauge and drum cannot decide |");
    judgement.drag = 0.6;
    band.low = measure_of("0.48 N.m", KIND_TORQUE); /* 0.601 to 0.609: no hundredth */
    band.high = measure_of("0.73 N.m", KIND_TORQUE);
    tell_good_drags(&judgement, 0.0556);
    assert_string_equal(said(), "good=none: this gauge and drum cannot decide |");
}

/* 0.5 and 0.7 N.m on drums of 30, 50 and 60 mm: 33.3 to 46.7, 20 to 28, 16.7 to 23.3. */
static void test_drums(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct measure sizes[] = {measure_of("30 mm", KIND_LENGTH),
                              measure_of("60 mm", KIND_LENGTH)};
    shop.drum_sizes = (struct measures){sizes, 2};
    shop.gauge.capacity = measure_of("42 N", KIND_FORCE);
    forget();
    report_drums(&rows_kept, results_for(&shop), &band);
    assert_string_equal(said(), "drum=beyond the gauge |"
                                "low=33.4 N|high=46.6 N|drum= fitted|low=20.0 N|high=28.0 N|"
                                "drum= |low=16.7 N|high=23.3 N|");
    shop.drum_sizes.count = 0;
    shop.gauge.step = measure_of("15 N", KIND_FORCE);
    forget();
    report_drums(&rows_kept, results_for(&shop), &band);
    assert_string_equal(said(),
                        "drum=none: no step of this gauge lies between the limits fitted|");
}

/* 0.5 and 0.7 N.m are 20 and 28 N; never more than 1 N.m, 40 N. */
static void test_window(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
    assert_string_equal(
        said(), "drum=50 mm|cord=0 mm|radius=25.000 mm|"
                "limits-for=running drag, whole drag, new bearings, cold |"
                "band-from=0 r/min|band-to=1000 r/min|low=20.0 N|aim=24.0 N|high=28.0 N|");
    shop.limits.never_exceed = measure_of("1 N.m", KIND_TORQUE);
    shop.gauge.step = measure_of("15 N", KIND_FORCE);
    forget();
    report_window(&rows_kept, results_for(&shop), &band);
    assert_said("window=none: no step of this gauge");
    assert_not_said("low=");
    assert_said("never-exceed=30 N|");
}

/* A drag within U of the one that no spindle may have counts as beyond it. */
static void test_the_nut_near_never_exceed(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    shop.limits.never_exceed = measure_of("0.75 N.m", KIND_TORQUE);
    tell_of(&shop, 0, 0.3, 2, 0.72);
    assert_not_said("never-exceed=");
    tell_of(&shop, 0, 0.3, 2, 0.749);
    assert_said("never-exceed=passed, or not surely below it: do not run the spindle |");
}

static void test_pulls_and_speeds(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct quantity_fault wrong;
    struct quantity pull = quantity_of("0 N", KIND_FORCE),
                    less = quantity_of("-1 N", KIND_FORCE);
    assert_true(pull_allowed(&shop, &pull, 0, &wrong));
    assert_true(pull_allowed(&shop, &pull, MOST_PULLS - 1, &wrong));
    assert_false(pull_allowed(&shop, &pull, MOST_PULLS, &wrong));
    assert_non_null(strstr(wrong.message, "too many pulls"));
    assert_false(pull_allowed(&shop, &less, 0, &wrong));
    assert_non_null(strstr(wrong.message, "below zero"));
    pull = quantity_of("50 N", KIND_FORCE);
    assert_true(pull_allowed(&shop, &pull, 0, &wrong));
    pull = quantity_of("50.1 N", KIND_FORCE);
    assert_false(pull_allowed(&shop, &pull, 0, &wrong));
    assert_non_null(strstr(wrong.message, "more than the gauge can read"));
    assert_true(pull_allowed(NULL, &pull, 0, &wrong));
    const struct band *found;
    assert_true(band_read(&shop, "1000 r/min", &found, &wrong));
    assert_ptr_equal(found, &band);
    assert_false(band_read(&shop, "1001 r/min", &found, &wrong));
    assert_null(found);
    assert_non_null(strstr(wrong.message, "1001 r/min lies in no speed band"));
    assert_false(band_read(&shop, "fast", &found, &wrong));
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    assert_true(band_read(&shop, "1001 r/min", &found, &wrong));
    assert_null(found);
}

/* Where the gauge's error is a share of the reading, each limit has the U of its own
 * pull. */
static void test_each_limit_has_its_own_u(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    shop.gauge.checked_error.q.unit = NULL;
    shop.gauge.reading_error = measure_of("5 %", KIND_RATIO);
    struct guarded_window window = guarded_window_on(known_for(&shop), &band, &setup);
    double low = u_at(&shop, 20);
    double high = u_at(&shop, 28);
    struct shown_uncertainty low_u = uncertainty_shown_in(low, band.low.q.unit);
    struct shown_uncertainty high_u = uncertainty_shown_in(high, band.high.q.unit);
    assert_true(high > 1.3 * low);
    assert_int_equal(decimal_compare(&window.low_u.exact, &low_u.exact), 0);
    assert_int_equal(decimal_compare(&window.high_u.exact, &high_u.exact), 0);
}

/* A doubt larger than the low limit leaves a high pull below zero, and no window. */
static void test_guarded_beyond_nothing(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    shop.gauge.checked_error = measure_of("50 N", KIND_FORCE);
    struct guarded_window window = guarded_window_on(known_for(&shop), &band, &setup);
    assert_true(window.closed && window.none && u_at(&shop, 28) > 0.7);
    assert_within(window.high, (0.7 - u_at(&shop, 28)) / 0.025, 1e-9);
    assert_within(window.low, (0.5 + u_at(&shop, 20)) / 0.025, 1e-9);
}

/* The manual is lost: no window, aim or state, and no number that could pass for one.
 * 20 N on 25 mm is 0.5 N.m; 0.15 N.m in 3 degrees is 0.05 a degree. */
static void test_without_limits(void **state)
{
    (void)state;
    struct band band;
    struct shop shop = plain_shop(&band);
    struct drum_setup setup = shop_drum_setup(&shop);
    struct quantity pulls[] = {quantity_of("20 N", KIND_FORCE),
                               quantity_of("20 N", KIND_FORCE)};
    shop.limits = (struct limits){.on_file = ON_FILE_NONE};
    struct pull_conditions unlocked = {LOCK_BEFORE, SAID_WARM,
                                       true}; /* nothing is expected either */
    forget();
    struct judgement judgement =
        judge_pulls(known_for(&shop), NULL, &setup, &unlocked, pulls, 2);
    report_judgement(&rows_kept, results_for(&shop), &judgement, pulls, 0.1);
    report_good_drags(&rows_kept, &judgement);
    assert_int_equal(judgement.state, STATE_NO_LIMIT);
    assert_said("drag=0.500 N·m|uncertainty=");
    assert_said("|state=– no limit on file: trend only |next=Write it down");
    assert_not_said("low=");
    assert_not_said("band-from=");
    assert_not_said("good");
    forget();
    report_window(&rows_kept, results_for(&shop), NULL);
    assert_said("radius=25.000 mm|window=no limit on file: trend only |");
    assert_not_said("aim=");
    forget();
    report_drums(&rows_kept, results_for(&shop), NULL);
    assert_string_equal(said(), "drum=no limit on file: trend only fitted|");
    tell_of(&shop, 0, 0.3, 3, 0.45);
    assert_said("aim=no limit on file: trend only |slope=0.050 N·m/°|state=– no limit on file");
    assert_said("Set it by end play and temperature");
    assert_not_said("turn=");
    tell_of(&shop, 3, 0.3, 3, 0.45);
    assert_not_said("slope=");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_nut),
    cmocka_unit_test(test_nut_points),
    cmocka_unit_test(test_nut_before_its_lock),
    cmocka_unit_test(test_nut_in_other_words),
    cmocka_unit_test(test_judgement),
    cmocka_unit_test(test_notes),
    cmocka_unit_test(test_good_drags_are_told_inward),
    cmocka_unit_test(test_drums),
    cmocka_unit_test(test_window),
    cmocka_unit_test(test_the_nut_near_never_exceed),
    cmocka_unit_test(test_pulls_and_speeds),
    cmocka_unit_test(test_each_limit_has_its_own_u),
    cmocka_unit_test(test_guarded_beyond_nothing),
    cmocka_unit_test(test_without_limits),
};

GROUP(told, NULL, NULL)
