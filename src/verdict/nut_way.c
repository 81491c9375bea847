#include "verdict/nut_way.h"

#include "drag/nut.h"

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
