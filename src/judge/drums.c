/* Drums: the one to make, how far the gauge reaches on one, whether gauge and drum can decide
 * at all, and which of them decides best. */
#include "judge/drums.h"

#include "judge/nut.h"
#include "judge/results.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>

struct drum_to_make drum_to_make(const struct shop *shop)
{
    const struct drum *drum = &shop->drum;
    struct drum_to_make make = {.wanted = given(&drum->wanted_radius)};
    make.turns = drum->turns.number;
    make.cord = shop->cord.diameter.q.base;
    make.radius = make.wanted ? drum->wanted_radius.q.base
                              : effective_radius(&drum->diameter.q, &shop->cord.diameter.q);
    make.peg = drum_peg(make.cord);
    make.notch = drum_notch(make.peg);
    make.land = drum_land_diameter(make.radius, make.cord);
    make.land_width = drum_land_width(make.turns, make.cord, make.peg);
    make.flange_height = make.slope = drum_flange_height(make.cord);
    make.flange = make.land + 2 * make.flange_height;
    make.thickness = drum_flange_thickness;
    make.width = 2 * make.thickness + make.land_width + make.slope;
    make.bore = given(&drum->bore) ? drum->bore.q.base : NAN;
    make.turn = 2 * M_PI * make.radius;
    return make;
}

/* ---- the most pull that a window asks of the gauge ---- */

/* What doubles may round: a pull that is just the capacity is not beyond it. */
static const double rounding = 1e-12;

struct most_pull most_pull_of(const struct results *results, const struct pull_window *window)
{
    struct most_pull most = {.force = window->high * results->breakaway_ratio};
    if (window->never > most.force) { /* not where it is NAN */
        most.force = window->never;
        most.never = true;
    }
    double capacity = results->shop->gauge.capacity.q.base * (1 + rounding);
    most.beyond = !(most.force <= capacity);
    return most;
}

/* ---- whether a gauge on a drum can decide at all ---- */

enum fit fit_of(double ratio)
{
    return ratio >= 4 ? FIT_SURE : ratio >= 2 ? FIT_USABLE : ratio >= 1 ? FIT_BARELY : FIT_NONE;
}

/* How sure the usual pulls with such a mean (N, as read) are. */
static struct uncertainty measure_at(const struct results *results,
                                     const struct drum_setup *setup, double reading,
                                     struct doubt *budget)
{
    struct pull_mean pulls = usual_pulls(&results->known, reading);
    return measure_pulls(&results->known, setup, &pulls, budget).drag.sureness;
}

struct fitness fitness_on(const struct results *results, const struct band *band,
                          const struct quantity *drum)
{
    struct drum_setup setup = shop_drum_setup(results->shop);
    setup.drum = drum;
    struct pull_window window =
        pull_window_on(&results->known, band, effective_radius(drum, setup.cord));
    struct fitness fitness = {.most = most_pull_of(results, &window)};
    double half = (band->high.q.base - band->low.q.base) / 2;
    fitness.ratio = half / measure_at(results, &setup, window.aim, NULL).expanded;
    fitness.fit = fitness.most.beyond ? FIT_BEYOND : fit_of(fitness.ratio);
    return fitness;
}

/* ---- which drum ---- */

static double share(const struct doubt *budget, int first, int last, double drag)
{
    double squares = 0;
    for (int i = first; i <= last; i++)
        squares += budget[i].u * budget[i].u;
    return 100 * sqrt(squares) / drag;
}

struct drum_rating drum_rating_of(const struct results *results, const struct band *band,
                                  const struct quantity *drum)
{
    struct doubt budget[BUDGET_ROWS];
    struct drum_setup setup = shop_drum_setup(results->shop);
    double drag = nut_aim(&results->known, band);
    setup.drum = drum;
    struct drum_rating rating = {.drum = drum, .fitness = fitness_on(results, band, drum)};
    rating.pull = pull_window_on(&results->known, band, effective_radius(drum, setup.cord)).aim;
    rating.expanded = measure_at(results, &setup, rating.pull, budget).expanded;
    rating.whole = share(budget, 0, BUDGET_ROWS - 1, drag);
    rating.pulls = share(budget, BUDGET_SCATTER, BUDGET_BETWEEN, drag);
    rating.gauge = share(budget, BUDGET_STEP, BUDGET_ORIENTATION, drag);
    rating.radius = share(budget, BUDGET_DRUM, BUDGET_CORD, drag);
    return rating;
}

/* A best by a hair is none: a rule of thumb of ours. */
static void find_best(struct drum_ratings *ratings)
{
    double most = 0, least = INFINITY;
    size_t readable = 0;
    ratings->best = ratings->count;
    for (size_t i = 0; i < ratings->count; i++) {
        const struct fitness *fitness = &ratings->items[i].fitness;
        if (fitness->fit == FIT_BEYOND)
            continue;
        readable++;
        least = fmin(least, fitness->ratio);
        if (fitness->ratio > most)
            ratings->best = i;
        most = fmax(most, fitness->ratio);
    }
    ratings->alike = readable > 1 && most <= 1.1 * least;
    if (ratings->alike)
        ratings->best = ratings->count;
}

void rate_drums(const struct results *results, const struct band *band,
                struct drum_ratings *ratings)
{
    const struct quantity *drums[MOST_DRUMS];
    ratings->count = shop_drums(results->shop, drums);
    for (size_t i = 0; i < ratings->count; i++) {
        ratings->items[i] = drum_rating_of(results, band, drums[i]);
        ratings->items[i].fitted = shop_drum_fitted(results->shop, drums[i]);
    }
    find_best(ratings);
}
