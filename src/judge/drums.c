/* Drums: the one to make, how far the gauge reaches on one, whether gauge and drum can decide
 * at all, and which of them decides best. */
#include "judge/drums.h"

#include "judge/nut.h"
#include "judge/results.h"
#include "judge/window.h"
#include "physics/physics.h"

#include <math.h>

/* ---- the drum to make ---- */

/* A drum without a given bore has one of this share of its land, to be bored out. */
static const double SOME_BORE = 0.4;

/* What of the flange's thickness the peg stands on, above the loop's leg. */
static const double PEG_LEDGE = 0.0015;

static double or_given(const struct measure *measure, double otherwise)
{
    return given(measure) ? measure->q.base : otherwise;
}

/* A height of whole layers; as it is where no layer is given. */
static double in_layers(const struct drum *drum, double height)
{
    static const double NOISE = 1e-9;
    double layer = or_given(&drum->layer, 0);
    return layer > 0 ? layer * ceil(height / layer - NOISE) : height;
}

static void choose_fitting(struct drum_to_make *make, const struct drum *drum)
{
    make->bore = or_given(&drum->bore, NAN);
    make->opening = given(&drum->bore)            ? make->bore
                    : given(&drum->plug_diameter) ? 0
                                                  : SOME_BORE * make->land;
    if (given(&drum->plug_diameter)) {
        make->post = drum->plug_diameter.q.base;
        make->post_length = in_layers(drum, or_given(&drum->plug_length, 0));
    }
    if (given(&drum->cap_depth)) {
        double deep = in_layers(drum, drum->cap_depth.q.base), all = deep + make->thickness;
        make->post_length = all > make->width ? all - make->width : 0;
        make->post = make->post_length > 0 ? make->opening + 2 * LEAST_DRUM_WALL : 0;
        make->closed = fmax(all, make->width) - deep;
    }
    make->holes = drum->holes.number;
    make->hole = or_given(&drum->hole_diameter, 0);
    make->hole_circle = or_given(&drum->hole_circle, 0);
}

struct drum_to_make drum_to_make(const struct shop *shop)
{
    static const double EDGE = 0.0005, EDGE_SHARE = 0.0125; /* of the land */
    const struct drum *drum = &shop->drum;
    struct drum_to_make make = {.wanted = given(&drum->wanted_radius)};
    make.turns = drum->turns.number;
    make.cord = shop->cord.diameter.q.base;
    make.radius = make.wanted ? drum->wanted_radius.q.base
                              : effective_radius(&drum->diameter.q, &shop->cord.diameter.q);
    make.peg_height = drum_peg(make.cord);
    make.peg = or_given(&drum->peg, (drum->material == DRUM_PRINTED ? 2 : 1) * make.peg_height);
    make.notch = drum_notch(make.peg, make.cord);
    make.land = drum_land_diameter(make.radius, make.cord);
    make.land_width = in_layers(drum, drum_land_width(make.turns, make.cord, make.peg));
    make.flange_height = or_given(&drum->flange, drum_flange_height(make.cord));
    make.slope = in_layers(drum, make.flange_height);
    make.flange = make.land + 2 * make.flange_height;
    make.thickness = in_layers(drum, drum_flange_thickness(make.cord));
    make.peg_foot = make.thickness - PEG_LEDGE;
    make.width = 2 * make.thickness + make.land_width + make.slope;
    make.edge = fmin(EDGE, EDGE_SHARE * make.land);
    make.allowance = 1 / (1 - or_given(&drum->shrinkage, 0) / 100);
    make.turn = 2 * M_PI * make.radius;
    choose_fitting(&make, drum);
    return make;
}

struct peg_load peg_load_of(const struct results *results, const struct drum_to_make *drum)
{
    /* Pa: what printed plastic bears in its layers, less than is measured of bars of it; the
     * yield of soft aluminium and of mild steel, rounded down. From memory. */
    static const double strengths[] = {
        [DRUM_PRINTED] = 20e6, [DRUM_ALUMINIUM] = 100e6, [DRUM_STEEL] = 200e6};
    const struct shop *shop = results->shop;
    const struct limits *limits = &shop->limits;
    struct peg_load load = {.strength = strengths[shop->drum.material]};
    for (size_t i = 0; i < limits->band_count; i++) {
        struct pull_window window =
            pull_window_on(&results->known, &limits->bands[i], drum->radius);
        load.pull = fmax(load.pull, most_pull_of(results, &window).force);
    }
    if (!(load.pull > 0))
        load.pull = shop->gauge.capacity.q.base;
    load.stress = drum_peg_stress(load.pull, drum->peg_height, drum->peg,
                                  drum->thickness + drum->peg - drum->peg_foot);
    load.factor = load.strength / load.stress;
    load.enough = load.factor >= PEG_FACTOR;
    return load;
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
