/* The turn follows from what was said of it; all else is physics. */
#include "judge/trace.h"

double trace_said_turn(const struct trace_facts *facts, double radius)
{
    if (facts->speed.unit)
        return 60 / facts->speed.base;
    if (facts->cord_speed.unit) /* the cord's way in a turn, at 60 a minute its speed */
        return turning_cord_speed(radius, 60) / facts->cord_speed.base;
    return NAN;
}

struct trace judge_trace(const struct shop *shop, const struct trace_text *text, double radius)
{
    return trace_of(&(struct trace_given){.times = text->times,
                                          .forces = text->forces,
                                          .count = text->count,
                                          .turn = trace_said_turn(&text->facts, radius),
                                          .step = shop->gauge.step.q.base,
                                          .capacity = shop->gauge.capacity.q.base});
}
