/* Each change is tried by itself: the series is measured once more with that one input better,
 * and asked for its verdict. */
#include "judge/improvement.h"

#include "judge/drums.h"

#include <math.h>

/* What is tried, all of it with the mean that was found. */
struct trial {
    const struct known *known; /* with the series' own pulls */
    const struct judgement *judgement;
    struct drum_setup setup;
    struct pull_mean pulls;
    struct measuring measuring; /* as it was judged */
    struct improvement found;
};

static bool decides(struct trial *trial, const struct measuring *measuring)
{
    struct doubt unused[BUDGET_ROWS];
    const struct band *band = trial->judgement->band;
    struct measured measured = {.drag = measure_drag(measuring, unused)};
    enum verdict then = decide(&measured, band->low.q.base, band->high.q.base).verdict;
    trial->found.then = then;
    return then == VERDICT_GOOD || then == VERDICT_LOW || then == VERDICT_HIGH;
}

static bool by_site(struct trial *trial)
{
    struct measuring with = trial->measuring;
    with.gravity = 0;
    return trial->measuring.gravity > 0 && decides(trial, &with);
}

static bool by_more_pulls(struct trial *trial)
{
    struct measuring with = trial->measuring;
    double usual = usual_pulls(trial->known, with.pulls.reading).range;
    with.pulls.range = fmax(with.pulls.range, usual);
    while (with.pulls.count < SERIES_PULLS) {
        trial->found.count = (int)++with.pulls.count;
        if (decides(trial, &with))
            return true;
    }
    return false;
}

static bool by_square_pulls(struct trial *trial)
{
    struct measuring with = trial->measuring;
    with.skew /= 2;
    return with.skew > 0 && decides(trial, &with);
}

enum { MOST_SETUPS = 5 };

/* They are thought to differ as they have so far: of the same doubt more is known. */
static bool by_setups(struct trial *trial)
{
    struct between known = trial->measuring.between;
    struct measuring with = trial->measuring;
    for (int i = 1; i <= MOST_SETUPS; i++) {
        with.between.df = known.df + i;
        with.between.squares = known.squares / known.df * with.between.df;
        trial->found.count = i;
        if (decides(trial, &with))
            return true;
    }
    return false;
}

/* A check of ten weighings about this pull that finds the line that is used now. */
static void check_with(const struct trial *trial, double tolerance, struct measuring *with,
                       struct gauge_line *line)
{
    enum { WEIGHINGS = 10 };
    static const double loads[WEIGHINGS] = {0.5, 1, 1.5, 1, 0.5, 0.5, 1, 1.5, 1, 0.5};
    const struct known *known = trial->known;
    double force = force_of_reading(known, with->pulls.reading);
    double forces[WEIGHINGS], readings[WEIGHINGS];
    for (int i = 0; i < WEIGHINGS; i++) {
        forces[i] = loads[i] * force;
        readings[i] = with->check ? gauge_line_reading(with->check, forces[i]) : forces[i];
    }
    *line = gauge_line_through(forces, readings, WEIGHINGS, with->step);
    line->sd = doubt_of_step(with->step);
    if (!with->check) {
        with->gravity = given(&known->shop->site.latitude) ? 0 : GAUGE_GRAVITY;
        with->hysteresis = with->orientation = with->step / 2;
    }
    with->check = line;
    with->stated = 0;
    with->masses = tolerance;
    with->drift = GAUGE_DRIFT;
}

static bool by_weights(struct trial *trial)
{
    struct gauge_line line;
    struct measuring with = trial->measuring;
    check_with(trial, GAUGE_MASSES, &with, &line);
    return decides(trial, &with);
}

static bool by_sure_weights(struct trial *trial)
{
    struct gauge_line line;
    struct measuring with = trial->measuring;
    check_with(trial, IMPROVE_TOLERANCE, &with, &line);
    return decides(trial, &with);
}

/* The nearest to the one that was used: it fits the spindle most likely. */
static bool by_drum(struct trial *trial)
{
    const struct known *known = trial->known;
    const struct quantity *drums[MOST_DRUMS], *cord = trial->setup.cord;
    size_t count = shop_drums(known->shop, drums);
    double radius = effective_radius(trial->setup.drum, cord), nearest = INFINITY;
    enum verdict then = VERDICT_NONE;
    for (size_t i = 0; i < count; i++) {
        struct drum_setup setup = trial->setup;
        struct pull_mean pulls = trial->pulls;
        double there = effective_radius(drums[i], cord), away = fabs(there - radius);
        setup.drum = drums[i];
        pulls.reading =
            reading_of_drag(known, there, drag_of_reading(known, radius, pulls.reading));
        pulls.range *= pulls.reading / trial->pulls.reading;
        struct measuring with = measuring_of(known, &setup, &pulls, known->gauge.check);
        bool reads = pulls.reading * BREAKAWAY_USUAL <= known->shop->gauge.capacity.q.base;
        if (!reads || away >= nearest || !decides(trial, &with))
            continue;
        nearest = away;
        then = trial->found.then;
        trial->found.drum = drums[i];
    }
    trial->found.then = then;
    return isfinite(nearest);
}

static bool by_gauge(struct trial *trial)
{
    struct gauge_line line;
    struct measuring with = trial->measuring;
    double usual = usual_pulls(trial->known, with.pulls.reading).range;
    with.pulls.range = fmax(with.pulls.range, usual);
    with.step /= 5;
    with.zero /= 5;
    with.hysteresis /= 5;
    with.orientation /= 5;
    check_with(trial, GAUGE_MASSES, &with, &line);
    return decides(trial, &with);
}

/* Whether good waits for a further check that agrees. */
static bool waits_for_check(const struct judgement *judgement)
{
    return judgement->measured.two || judgement->measured.far > FAR_OFF ||
           judgement->decision.withheld == WITHHELD_FAR_OFF;
}

struct improvement improvement_of(const struct known *known, const struct judgement *judgement,
                                  const struct quantity *pulls)
{
    static const struct {
        bool (*decides)(struct trial *trial);
        enum improvement_kind kind;
    } changes[] = {{by_site, IMPROVE_SITE},           {by_more_pulls, IMPROVE_PULLS},
                   {by_square_pulls, IMPROVE_SQUARE}, {by_setups, IMPROVE_SETUPS},
                   {by_weights, IMPROVE_WEIGHTS},     {by_sure_weights, IMPROVE_SURE_WEIGHTS},
                   {by_drum, IMPROVE_DRUM},           {by_gauge, IMPROVE_GAUGE}};
    enum state state = judgement->state;
    bool undecided = state == STATE_LOW_IN_DOUBT || state == STATE_HIGH_IN_DOUBT ||
                     state == STATE_UNDECIDED || state == STATE_SCATTERED;
    if (!undecided || judgement->decision.withheld == WITHHELD_TREND)
        return (struct improvement){.kind = IMPROVE_NOT_ASKED};
    if (waits_for_check(judgement))
        return (struct improvement){.kind = IMPROVE_CHECK};
    double values[MOST_PULLS];
    struct known with = *known;
    const struct series *series = &judgement->pulls;
    for (size_t i = 0; i < series->count; i++)
        values[i] = pulls[i].base;
    known_learn(&with, values, series->count);
    struct trial trial = {
        .known = &with,
        .judgement = judgement,
        .setup = shop_drum_setup(known->shop),
        .pulls = {series->count, series->mean, series->most - series->least,
                  judgement->budget[BUDGET_TRACES].u / judgement->measured.drag.per_newton}};
    trial.measuring = measuring_of(&with, &trial.setup, &trial.pulls, with.gauge.check);
    for (size_t i = 0; i < sizeof changes / sizeof changes[0]; i++)
        if (changes[i].decides(&trial)) {
            trial.found.kind = changes[i].kind;
            return trial.found;
        }
    return (struct improvement){.kind = IMPROVE_NOTHING};
}
