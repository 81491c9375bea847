/* A trace of the user's, read with the gauge, drum and cord of the settings. */
#ifndef JUDGE_TRACE_H
#define JUDGE_TRACE_H

#include "physics/physics.h"
#include "shop/shop.h"
#include "shop/trace_text.h"

/* The turn that was said, s, by the spindle's speed or by the cord's on a drum of that
 * effective radius (m); NaN: neither. */
double trace_said_turn(const struct trace_facts *facts, double radius);

struct trace judge_trace(const struct shop *shop, const struct trace_text *text, double radius);

#endif
