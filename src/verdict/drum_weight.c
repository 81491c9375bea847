#include "verdict/drum_weight.h"

#include "drag/drag.h"
#include "verdict/drum_make.h"
#include "verdict/nut_place.h"
#include "verdict/radius.h"
#include "verdict/window.h"

#include <math.h>

static double half_window(const struct band *band)
{
    return (band->high.q.base - band->low.q.base) / 2;
}

/* The bias counts half, since all else is doubled in the end. */
static double share(const struct doubt *doubts, int first, int last, double bias, double drag)
{
    double squares = 0;
    for (int i = first; i <= last; i++)
        squares += doubts[i].u * doubts[i].u;
    return 100 * (sqrt(squares) + bias / 2) / drag;
}

struct drum_weight drum_weight_of(const struct shop *shop, const struct band *band,
                                  const struct quantity *drum)
{
    struct doubt doubts[DOUBT_SOURCES];
    struct rig rig = shop_rig(shop);
    double drag = nut_aim(shop, band);
    rig.drum = drum;
    struct drum_weight weight = {.drum = drum};
    weight.pull = drag_to_pull(drag, effective_radius(drum, rig.cord));
    struct uncertainty sum = sure_of_pull(shop, &rig, weight.pull, NULL, doubts);
    weight.u = 2 * sum.standard + sum.bias;
    weight.whole = share(doubts, 0, DOUBT_SOURCES - 1, sum.bias, drag);
    weight.pulls = share(doubts, DOUBT_REPEAT, DOUBT_REPEAT, 0, drag);
    weight.gauge = share(doubts, DOUBT_STEP, DOUBT_GAUGE, sum.bias, drag);
    weight.radius = share(doubts, DOUBT_DRUM, DOUBT_CORD, 0, drag);
    weight.ratio = half_window(band) / weight.u;
    struct pull_window window = pull_window_on(shop, band, drum, rig.cord);
    bool logged;
    double most = window.high * breakaway_ratio(shop, &logged);
    if (!isnan(window.never))
        most = fmax(most, window.never);
    weight.readable = most <= shop->gauge.capacity.q.base;
    return weight;
}

static void weigh(const struct shop *shop, const struct band *band, const struct quantity *drum,
                  bool fitted, struct drum_weights *weights)
{
    struct drum_weight *weight = &weights->items[weights->count++];
    *weight = drum_weight_of(shop, band, drum);
    weight->fitted = fitted;
}

/* A best by a hair is none: a rule of thumb of ours. */
static void find_best(struct drum_weights *weights)
{
    double most = 0, least = INFINITY;
    size_t readable = 0;
    weights->best = weights->count;
    for (size_t i = 0; i < weights->count; i++) {
        const struct drum_weight *weight = &weights->items[i];
        if (!weight->readable)
            continue;
        readable++;
        least = fmin(least, weight->ratio);
        if (weight->ratio > most)
            weights->best = i;
        most = fmax(most, weight->ratio);
    }
    weights->alike = readable > 1 && most <= 1.1 * least;
    if (weights->alike)
        weights->best = weights->count;
}

void weigh_drums(const struct shop *shop, const struct band *band, struct drum_weights *weights)
{
    const struct quantity *own = &shop->drum.diameter.q;
    bool shown = false;
    weights->count = 0;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order > 0 && !shown)
            weigh(shop, band, own, true, weights);
        shown = shown || order >= 0;
        weigh(shop, band, size, order == 0, weights);
    }
    if (!shown)
        weigh(shop, band, own, true, weights);
    find_best(weights);
}
