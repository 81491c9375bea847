/* The window of a band on the shop's own drum and cord, and the side of a reading there. */
#ifndef TESTS_WINDOW_SAMPLE_H
#define TESTS_WINDOW_SAMPLE_H

#include "judge/window.h"
#include "shop_fixture.h"
#include "test.h"

static inline struct pull_window window_of(const struct shop *shop, const struct band *band)
{
    return pull_window_on(known_for(shop), band, shop_radius(shop));
}

static inline int side(const struct shop *shop, const struct band *band, int64_t steps)
{
    return reading_against_limits(known_for(shop), band, shop_radius(shop), steps);
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
