#include "verdict/drum_make.h"

#include "drag/drum.h"
#include "verdict/radius.h"
#include "verdict/state.h"

#include <math.h>

struct drum_to_make drum_to_make(const struct shop *shop)
{
    const struct drum *drum = &shop->drum;
    struct drum_to_make make = {.wanted = given(&drum->wanted_radius)};
    make.turns = drum->turns ? drum->turns : DRUM_TURNS;
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

/* 0 where there is no breakaway, or no pull to compare it with. */
static double ratio_of(const struct pull_series *series)
{
    double mean = series_of_pulls(series->pulls, series->pull_count).mean;
    return series->breakaway.unit && mean > 0 ? series->breakaway.base / mean : 0;
}

const struct pull_series *hardest_breakaway(const struct shop *shop)
{
    const struct pull_series *hardest = NULL;
    double most = 0;
    for (size_t i = 0; i < shop->readings.count; i++) {
        double ratio = ratio_of(&shop->readings.items[i]);
        if (ratio > most) {
            hardest = &shop->readings.items[i];
            most = ratio;
        }
    }
    return hardest;
}

double breakaway_ratio(const struct shop *shop, bool *logged)
{
    const struct pull_series *hardest = hardest_breakaway(shop);
    *logged = hardest != NULL;
    return hardest ? ratio_of(hardest) : BREAKAWAY_USUAL;
}
