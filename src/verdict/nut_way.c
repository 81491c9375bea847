#include "verdict/nut_way.h"

#include "drag/inch.h"
#include "drag/nut.h"

#include <math.h>

static bool in_inches(const struct measure *measure)
{
    return given(measure) && measure->q.unit->system == SYSTEM_IMPERIAL;
}

double nut_pitch_given(const struct nut *nut)
{
    if (given(&nut->pitch))
        return nut->pitch.q.base;
    return given(&nut->threads) ? nut_pitch_of_threads(nut->threads.q.base) : 0;
}

bool nut_rim_in_inches(const struct nut *nut)
{
    return in_inches(&nut->outside_diameter);
}

bool nut_thread_in_inches(const struct nut *nut)
{
    return given(&nut->threads) || in_inches(&nut->pitch);
}

struct nut_way nut_rim_way(const struct nut *nut, double degrees)
{
    const struct measure *diameter = &nut->outside_diameter;
    double rim = given(diameter) ? nut_rim(diameter->q.base, degrees) : NAN;
    return nut_rim_in_inches(nut) ? (struct nut_way){rim / INCH, 3, "in", true}
                                  : (struct nut_way){1000 * rim, 1, "mm", false};
}

static const double micrometres = 1e6; /* in a metre */

static struct nut_way travel_in(const struct nut *nut, double degrees, bool inches)
{
    double travel = micrometres * nut_travel(nut_pitch_given(nut), degrees);
    return inches ? (struct nut_way){travel / (micrometres * INCH), 4, "in", true}
                  : (struct nut_way){travel, 1, "µm", false};
}

struct nut_way nut_travel_way(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, nut_thread_in_inches(nut));
}

struct nut_way nut_travel_other(const struct nut *nut, double degrees)
{
    return travel_in(nut, degrees, !nut_thread_in_inches(nut));
}

struct shown show_way(const struct nut_way *way, int more)
{
    return show_places(way->value, way->places + more);
}
