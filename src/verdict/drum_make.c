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

double breakaway_ratio(const struct shop *shop, bool *logged)
{
    double most = 0;
    for (size_t i = 0; i < shop->readings.count; i++) {
        const struct pull_series *series = &shop->readings.items[i];
        if (series->breakaway.unit)
            most = fmax(most, series->breakaway.base /
                                  series_of_pulls(series->pulls, series->pull_count).mean);
    }
    *logged = most > 0 && isfinite(most);
    return *logged ? most : BREAKAWAY_USUAL;
}
