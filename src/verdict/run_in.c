#include "verdict/run_in.h"

#include <stdio.h>

/* The fastest speed of the lathe that is not above a speed, or NULL. */
static const struct quantity *next_below(const struct measures *speeds,
                                         const struct decimal *most)
{
    const struct quantity *found = NULL;
    for (size_t i = 0; i < speeds->count; i++)
        if (decimal_compare(&speeds->items[i].q.exact, most) <= 0)
            found = &speeds->items[i].q;
    return found;
}

static struct decimal tenth_of(const struct shop *shop, int tenth)
{
    struct decimal factor = decimal_of(tenth, -1);
    return decimal_multiply(&shop->lathe.top_speed.q.exact, &factor);
}

size_t run_in_stages(const struct shop *shop, struct run_in_stage stages[RUN_IN_STAGES])
{
    const struct measures *speeds = &shop->lathe.speeds;
    size_t count = 0;
    for (int tenth = 1; tenth <= RUN_IN_STAGES; tenth++) {
        struct decimal most = tenth_of(shop, tenth);
        const struct quantity *speed = next_below(speeds, &most);
        if (speeds->count && !speed)
            continue;
        if (count && speed &&
            decimal_compare(&speed->exact, &stages[count - 1].typed->exact) == 0) {
            stages[count - 1].last = tenth;
            continue;
        }
        stages[count++] = (struct run_in_stage){.first = tenth,
                                                .last = tenth,
                                                .speed = speed ? speed->exact : most,
                                                .typed = speed};
    }
    return count;
}

struct shown run_in_speed(const struct shop *shop, const struct run_in_stage *stage)
{
    struct shown shown = {.text = ""};
    struct decimal tenth = tenth_of(shop, 1);
    if (stage->typed)
        snprintf(shown.text, sizeof shown.text, "%s", stage->typed->digits);
    else
        decimal_print(&stage->speed, decimal_places(&tenth), shown.text);
    return shown;
}

double run_in_minutes(const struct shop *shop, bool last)
{
    const struct measure *time = last ? &shop->run_in.top_time : &shop->run_in.stage_time;
    return (given(time) ? time->q.base : last ? RUN_IN_TOP : RUN_IN_STAGE) / 60;
}

static struct decimal lesser(struct decimal a, struct decimal b)
{
    return decimal_compare(&a, &b) <= 0 ? a : b;
}

struct decimal run_in_stop(const struct shop *shop, const struct decimal *room)
{
    struct decimal rise = shop_rise(shop);
    return lesser(shop_stop(shop), decimal_add(room, &rise));
}

struct decimal run_in_look(const struct shop *shop, const struct decimal *room)
{
    struct decimal look = decimal_of(RUN_IN_LOOK, 0);
    return lesser(run_in_stop(shop, room), decimal_add(room, &look));
}

int64_t whole_fahrenheit(const struct decimal *fahrenheit)
{
    struct decimal one = decimal_of(1, 0);
    return decimal_steps_not_above(fahrenheit, &one);
}

int64_t whole_celsius_of_rise(const struct decimal *fahrenheit)
{
    struct decimal degree = decimal_of(18, -1);
    return decimal_steps_not_above(fahrenheit, &degree);
}

int64_t whole_celsius(const struct decimal *fahrenheit)
{
    struct decimal freezing = decimal_of(32, 0);
    struct decimal above = decimal_subtract(fahrenheit, &freezing);
    return whole_celsius_of_rise(&above);
}
