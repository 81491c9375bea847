/* What is known of gauge, drum and hand goes into src/physics' measuring, once by the check in
 * force and, where two checks do not agree, once more by the other. */
#include "judge/measure.h"

#include <math.h>

struct drum_setup shop_drum_setup(const struct shop *shop)
{
    return (struct drum_setup){&shop->drum.diameter.q, &shop->drum.tolerance.q,
                               &shop->cord.diameter.q, &shop->cord.tolerance.q};
}

double effective_radius(const struct quantity *drum, const struct quantity *cord)
{
    return drag_radius(drum->base, cord->base);
}

double shop_radius(const struct shop *shop)
{
    return effective_radius(&shop->drum.diameter.q, &shop->cord.diameter.q);
}

/* ---- what is known ---- */

/* Of a scatter that the settings call none something is left. A rule of ours. */
static const double least_scatter = 0.001;

struct known known_at_first(const struct shop *shop)
{
    double sd = shop->pulls.scatter.q.base / 100;
    return (struct known){.shop = shop,
                          .scatter = scatter_before_any(fmax(sd, least_scatter)),
                          .between = between_before_any()};
}

static double force_by(const struct gauge_check *check, double reading)
{
    return check ? gauge_line_force(&check->line, reading) : reading;
}

double force_of_reading(const struct known *known, double reading)
{
    return force_by(known->gauge.check, reading);
}

/* The radius at which a force counts, less the middle of what skew pulls lose. */
static double arm_of(const struct known *known, double radius)
{
    return radius * (1 + drag_correction_for_skew(known->shop->pulls.skew.q.base) / 2);
}

/* At that radius: the smaller, the more. */
static double slack_force(const struct known *known, double radius)
{
    return known->slack.count
               ? force_of_reading(known, known->slack.reading) * known->slack_radius / radius
               : 0;
}

void known_on_day(struct known *known, const struct gauge_checks *checks, long day,
                  const struct pull_mean *slack, double radius)
{
    const struct shop *shop = known->shop;
    known->gauge = gauge_in_force_on(checks, day);
    known->slack.count = 0;
    known->slack_radius = slack ? radius : shop_radius(shop);
    if (shop->limits.basis == BASIS_INCREASE)
        known->slack =
            slack ? *slack
                  : usual_pulls(known, reading_of_whole(known, shop->limits.slack_drag.q.base));
}

static double known_slack_drag(const struct known *known)
{
    double radius = shop_radius(known->shop);
    return slack_force(known, radius) * arm_of(known, radius);
}

double whole_limit(const struct known *known, const struct measure *limit)
{
    return limit->q.base + known_slack_drag(known);
}

void known_learn(struct known *known, const double *pulls, size_t count)
{
    scatter_learn(&known->scatter, pulls, count, known->shop->gauge.step.q.base);
}

struct pull_mean usual_pulls(const struct known *known, double reading)
{
    double sd = scatter_of_mean(&known->scatter, 1).sd;
    return (struct pull_mean){(size_t)known->shop->pulls.count.number, reading,
                              2 * sd * reading, 0};
}

static double reading_of_force(const struct known *known, double force)
{
    const struct gauge_check *check = known->gauge.check;
    return check ? gauge_line_reading(&check->line, force) : force;
}

double reading_of_drag(const struct known *known, double radius, double drag)
{
    return reading_of_force(known, drag / arm_of(known, radius) + slack_force(known, radius));
}

double reading_of_whole(const struct known *known, double drag)
{
    return reading_of_force(known, drag / arm_of(known, shop_radius(known->shop)));
}

double drag_of_reading(const struct known *known, double radius, double reading)
{
    return (force_of_reading(known, reading) - slack_force(known, radius)) *
           arm_of(known, radius);
}

/* ---- a drag ---- */

static double or_else(const struct measure *measure, double otherwise)
{
    return given(measure) ? measure->q.base : otherwise;
}

static void add_gauge(const struct shop *shop, const struct gauge_check *check,
                      struct measuring *m)
{
    double force = force_by(check, m->pulls.reading);
    double stated = gauge_stated_error(shop, force);
    m->zero = or_else(&shop->gauge.zero_error, m->step);
    if (!gauge_check_covers(check, force))
        m->stated = stated;
    if (!check)
        return;
    m->check = &check->line;
    m->masses = check->tolerance;
    m->gravity = check->masses && !given(&shop->site.latitude) ? GAUGE_GRAVITY : 0;
    m->drift = check->drift;
    m->hysteresis = isnan(check->hysteresis) ? stated : check->hysteresis;
    m->orientation = or_else(&shop->gauge.orientation_error, m->step / 2);
}

struct measuring measuring_of(const struct known *known, const struct drum_setup *setup,
                              const struct pull_mean *pulls, const struct gauge_check *check)
{
    struct measuring m = {.pulls = *pulls,
                          .slack = known->slack,
                          .scatter = known->scatter,
                          .between = known->between,
                          .step = known->shop->gauge.step.q.base,
                          .drum = setup->drum->base,
                          .drum_tolerance = setup->drum_tolerance->base,
                          .cord = setup->cord->base,
                          .cord_tolerance = setup->cord_tolerance->base,
                          .skew = known->shop->pulls.skew.q.base};
    add_gauge(known->shop, check, &m);
    double scale = known->slack_radius / effective_radius(setup->drum, setup->cord);
    if (m.slack.count && scale != 1) { /* as it would be read on this drum */
        double force = force_by(check, m.slack.reading) * scale;
        m.slack.reading = check ? gauge_line_reading(&check->line, force) : force;
    }
    return m;
}

static struct drag_measured measure_by(const struct known *known,
                                       const struct drum_setup *setup,
                                       const struct pull_mean *pulls,
                                       const struct gauge_check *check, struct doubt *budget)
{
    struct measuring measuring = measuring_of(known, setup, pulls, check);
    return measure_drag(&measuring, budget);
}

/* Without U. */
static struct measured measure(const struct known *known, const struct drum_setup *setup,
                               const struct pull_mean *pulls, struct doubt *budget)
{
    struct doubt unused[BUDGET_ROWS];
    const struct gauge_in_force *gauge = &known->gauge;
    struct measured measured = {.two = gauge->other != NULL};
    measured.drag = measure_by(known, setup, pulls, gauge->check, budget ? budget : unused);
    if (measured.two)
        measured.other = measure_by(known, setup, pulls, gauge->other, unused);
    if (gauge->check && !gauge->confirmed && pulls->reading > 0) {
        double force = force_of_reading(known, pulls->reading);
        double sheet = gauge_sheet_error(known->shop, force);
        measured.far = fabs(force / pulls->reading - 1);
        measured.beyond_sheet = sheet > 0 && fabs(force - pulls->reading) > 2 * sheet;
    }
    return measured;
}

struct measured measure_pulls(const struct known *known, const struct drum_setup *setup,
                              const struct pull_mean *pulls, struct doubt *budget)
{
    struct measured measured = measure(known, setup, pulls, budget);
    drag_expand(&measured.drag);
    return measured;
}

/* ---- what it is against limits ---- */

const double risk_taken = 0.025;

static enum verdict verdict_of(struct chance below, struct chance above)
{
    if (below.least >= 1 - risk_taken)
        return VERDICT_LOW;
    if (above.least >= 1 - risk_taken)
        return VERDICT_HIGH;
    if (below.most + above.most <= risk_taken)
        return VERDICT_GOOD;
    if (below.most > risk_taken && above.most <= risk_taken)
        return VERDICT_LOW_IN_DOUBT;
    return above.most > risk_taken && below.most <= risk_taken ? VERDICT_HIGH_IN_DOUBT
                                                               : VERDICT_NONE;
}

static struct decision decide_by(const struct drag_measured *drag, double low, double high)
{
    struct chance below = {0}, above = chance_above(drag, high);
    if (low > 0) /* no drag is below none */
        below = chance_below(drag, low);
    return (struct decision){verdict_of(below, above), below.most, above.most, WITHHELD_NOT};
}

static bool is_low(enum verdict verdict)
{
    return verdict == VERDICT_LOW || verdict == VERDICT_LOW_IN_DOUBT;
}

static bool is_high(enum verdict verdict)
{
    return verdict == VERDICT_HIGH || verdict == VERDICT_HIGH_IN_DOUBT;
}

/* Of two checks that do not agree: what either calls high is; low is what both call so; good is
 * nothing. */
static enum verdict worse_of(enum verdict a, enum verdict b)
{
    if (a == VERDICT_HIGH || b == VERDICT_HIGH)
        return VERDICT_HIGH;
    if (a == b && a != VERDICT_GOOD)
        return a;
    if (is_low(a) || is_low(b))
        return is_low(a) && is_low(b) ? VERDICT_LOW_IN_DOUBT : VERDICT_NONE;
    return is_high(a) || is_high(b) ? VERDICT_HIGH_IN_DOUBT : VERDICT_NONE;
}

/* Of pulls that rise or fall steadily the mean is not where the drag is now: only what is high
 * is still said. */
struct decision decide(const struct measured *measured, double low, double high)
{
    struct decision decision = decide_by(&measured->drag, low, high);
    if (measured->two) {
        struct decision other = decide_by(&measured->other, low, high);
        if (decision.verdict == VERDICT_GOOD || other.verdict == VERDICT_GOOD)
            decision.withheld = WITHHELD_CHECKS_DIFFER;
        decision.verdict = worse_of(decision.verdict, other.verdict);
        decision.below = fmax(decision.below, other.below);
        decision.above = fmax(decision.above, other.above);
    }
    if (decision.verdict == VERDICT_GOOD && measured->far > FAR_OFF) {
        decision.verdict = VERDICT_NONE;
        decision.withheld = WITHHELD_FAR_OFF;
    }
    if (measured->trend && !is_high(decision.verdict)) {
        decision.verdict = VERDICT_NONE;
        decision.withheld = WITHHELD_TREND;
    }
    return decision;
}

double chance_over(const struct measured *measured, double never)
{
    double chance = chance_above(&measured->drag, never).most;
    return measured->two ? fmax(chance, chance_above(&measured->other, never).most) : chance;
}

/* ---- the readings and the drags that are good ---- */

/* What is looked along, and whether a place along it is good. */
struct search {
    bool (*good)(const struct search *search, double at);
    const struct known *known;
    const struct drum_setup *setup;
    const struct measured *measured;
    double low, high;
};

/* The last good place on the way from one that is to one that is not, by halving what lies
 * between until it is no more than `near`. */
static double last_good(const struct search *search, double good, double bad, double near)
{
    while (fabs(good - bad) > near) {
        double middle = (good + bad) / 2;
        if (search->good(search, middle))
            good = middle;
        else
            bad = middle;
    }
    return good;
}

/* U grows with the pull, so that the best place need not be the middle: where none of so many
 * places is good, none is taken to be. */
enum { PLACES = 64 };

static bool range_of_good(const struct search *search, double from, double to, double near,
                          double *least, double *most)
{
    for (int i = 1; i < PLACES; i++) {
        double at = from + (to - from) * i / PLACES;
        if (search->good(search, at)) {
            *least = search->low > 0 ? last_good(search, at, from, near) : 0;
            *most = last_good(search, at, to, near);
            return true;
        }
    }
    return false;
}

static bool reading_is_good(const struct search *search, double reading)
{
    struct pull_mean pulls = usual_pulls(search->known, reading);
    struct measured measured = measure(search->known, search->setup, &pulls, NULL);
    return decide(&measured, search->low, search->high).verdict == VERDICT_GOOD;
}

bool good_readings(const struct known *known, const struct drum_setup *setup, double low,
                   double high, double *least, double *most)
{
    struct search search = {reading_is_good, known, setup, NULL, low, high};
    double radius = effective_radius(setup->drum, setup->cord);
    double near = known->shop->gauge.step.q.base / 1000;
    return range_of_good(&search, reading_of_drag(known, radius, low),
                         reading_of_drag(known, radius, high), near, least, most);
}

static bool drag_is_good(const struct search *search, double drag)
{
    struct measured moved = *search->measured;
    double by = drag - moved.drag.drag;
    moved.drag.drag += by;
    moved.drag.whole += by;
    moved.other.drag += by;
    moved.other.whole += by;
    return decide(&moved, search->low, search->high).verdict == VERDICT_GOOD;
}

bool good_drags(const struct measured *measured, double low, double high, double *least,
                double *most)
{
    struct search search = {drag_is_good, NULL, NULL, measured, low, high};
    return range_of_good(&search, low, high, (high - low) / 1e6, least, most);
}

/* ---- as it is shown ---- */

enum { UNCERTAINTY_DIGITS = 2 };

struct shown_uncertainty uncertainty_shown_in(double base, const struct unit *unit)
{
    double value = unit_from_base(base, unit);
    if (!(value > 0))
        return (struct shown_uncertainty){.places = 0};
    struct decimal place = step_of_digits(value, UNCERTAINTY_DIGITS);
    static const double hair = 1e-9; /* what doubles may have rounded: 0.14 is not 0.15 */
    int64_t count = (int64_t)ceil(value / decimal_to_double(&place) * (1 - hair));
    if (count == 100) { /* 0.0999 is 0.10, not 0.100 */
        count = 10;
        place = decimal_of(1, place.exponent + 1);
    }
    struct decimal factor = unit_factor(unit), many = decimal_of(count, 0);
    struct shown_uncertainty sureness = {.typed = decimal_multiply(&many, &place),
                                         .places = decimal_places(&place)};
    sureness.exact = decimal_multiply(&sureness.typed, &factor);
    return sureness;
}
