/* How fast src/drag works out windows: a window of drag as pulls at a drum, and the same
 * by the bare arithmetic of its formula, F = 2 T / (D + d). Prints both in millions of
 * windows a second, and the sum over all, so that nothing is left out by the compiler. */
#include "drag/drag.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

enum { WINDOWS = 20 * 1000 * 1000 };

static double now(void)
{
    struct timespec at;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
    return (double)at.tv_sec + (double)at.tv_nsec * 1e-9;
}

static double drum_of(int i)
{
    return 0.03 + (i & 1023) * 1e-4;
}

static double by_module(void)
{
    double sum = 0;
    for (int i = 0; i < WINDOWS; i++) {
        double radius = drag_radius(drum_of(i), 0.0015);
        struct drag_window pull = drag_window_as_pull(drag_window_of(0.30, 0.45), radius);
        sum += pull.low + pull.high;
    }
    return sum;
}

static double by_arithmetic(void)
{
    double sum = 0;
    for (int i = 0; i < WINDOWS; i++) {
        double sizes = drum_of(i) + 0.0015;
        sum += 2 * 0.30 / sizes + 2 * 0.45 / sizes;
    }
    return sum;
}

int main(void)
{
    double start = now(), a = by_module(), middle = now(), b = by_arithmetic(), end = now();
    printf("%.1f %.1f\n", WINDOWS / (middle - start) / 1e6, WINDOWS / (end - middle) / 1e6);
    return fabs(a - b) > 1e-9 * fabs(a);
}
