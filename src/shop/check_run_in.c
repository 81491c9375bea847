/* Speeds and temperatures of running in. */
#include "shop/check_parts.h"

#include <stdlib.h>

static int by_speed(const void *left, const void *right)
{
    const struct measure *a = left, *b = right;
    return decimal_compare(&a->q.exact, &b->q.exact);
}

/* The band is that of the top speed: a speed above it would run outside the limits. */
static void check_speeds(const struct lathe *lathe, struct diags *diags)
{
    bool top_told = !given(&lathe->top_speed); /* a fault of its own */
    for (size_t i = 0; i < lathe->speeds.count && !top_told; i++) {
        const struct measure *speed = &lathe->speeds.items[i];
        if (decimal_compare(&speed->q.exact, &lathe->top_speed.q.exact) > 0)
            fault(
                diags, speed->at,
                "lathe.speeds has %s r/min, above lathe.top-speed, %s r/min; the band must be "
                "that of the fastest speed: correct one of the two",
                speed->q.digits, lathe->top_speed.q.digits);
    }
}

/* A stop at or below the room would never let the spindle start. */
static void check_stop(const struct shop *shop, struct diags *diags)
{
    const struct run_in *run_in = &shop->run_in;
    struct decimal room = shop_room(shop), stop = shop_stop(shop);
    const struct measure *wrong = given(&run_in->stop) ? &run_in->stop : &run_in->room;
    if (decimal_compare(&stop, &room) <= 0)
        fault(diags, wrong->at,
              "the temperature at which to stop is not above that of the room; correct "
              "run-in.stop or run-in.room");
}

void shop_check_run_in(struct shop *shop, struct diags *diags)
{
    struct measures *speeds = &shop->lathe.speeds;
    if (speeds->count) {
        qsort(speeds->items, speeds->count, sizeof *speeds->items, by_speed);
        check_speeds(&shop->lathe, diags);
    }
    check_stop(shop, diags);
}
