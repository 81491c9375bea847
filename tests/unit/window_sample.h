/* The side of a reading on the shop's own drum and cord. */
#ifndef TESTS_WINDOW_SAMPLE_H
#define TESTS_WINDOW_SAMPLE_H

#include "judge/window.h"
#include "test.h"

static inline int side(const struct shop *shop, const struct band *band, int64_t steps)
{
    return reading_against_limits(shop, band, &shop->drum.diameter.q, &shop->cord.diameter.q,
                                  steps);
}

/* The reading on each limit's inner and outer side. */
static inline void assert_sides(const struct shop *shop, const struct band *band, int64_t low,
                                int64_t high)
{
    assert_int_equal(side(shop, band, low - 1), -1);
    assert_int_equal(side(shop, band, low), 0);
    assert_int_equal(side(shop, band, high), 0);
    assert_int_equal(side(shop, band, high + 1), 1);
}

#endif
