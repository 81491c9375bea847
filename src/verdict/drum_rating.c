#include "verdict/drum_rating.h"

#include "drag/drag.h"
#include "verdict/nut_place.h"
#include "verdict/radius.h"
#include "verdict/sure.h"

#include <math.h>

/* The bias counts half, since all else is doubled in the end. */
static double share(const struct doubt *doubts, int first, int last, double bias, double drag)
{
    double squares = 0;
    for (int i = first; i <= last; i++)
        squares += doubts[i].u * doubts[i].u;
    return 100 * (sqrt(squares) + bias / 2) / drag;
}

struct drum_rating drum_rating_of(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum)
{
    struct doubt doubts[DOUBT_SOURCES];
    struct rig rig = shop_rig(shop);
    double drag = nut_aim(shop, band);
    rig.drum = drum;
    struct drum_rating rating = {.drum = drum};
    rating.pull = drag_to_pull(drag, effective_radius(drum, rig.cord));
    rating.expanded = sure_of_pull(shop, &rig, rating.pull, NULL, NULL).expanded;
    rating.fitness = fitness_on(shop, band, drum);
    struct uncertainty sum = sure_evenly(shop, &rig, rating.pull, doubts);
    rating.whole = share(doubts, 0, DOUBT_SOURCES - 1, sum.bias, drag);
    rating.pulls = share(doubts, DOUBT_REPEAT, DOUBT_REPEAT, 0, drag);
    rating.gauge = share(doubts, DOUBT_STEP, DOUBT_GAUGE, sum.bias, drag);
    rating.radius = share(doubts, DOUBT_DRUM, DOUBT_CORD, 0, drag);
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

void rate_drums(const struct shop *shop, const struct band *band, struct drum_ratings *ratings)
{
    const struct quantity *drums[MOST_DRUMS];
    ratings->count = shop_drums(shop, drums);
    for (size_t i = 0; i < ratings->count; i++) {
        ratings->items[i] = drum_rating_of(shop, band, drums[i]);
        ratings->items[i].fitted = shop_drum_fitted(shop, drums[i]);
    }
    find_best(ratings);
}
