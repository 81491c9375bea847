/* A workshop made by hand, from the words that a user would type. */
#ifndef TESTS_SHOP_FIXTURE_H
#define TESTS_SHOP_FIXTURE_H

#include "judge/results.h"
#include "shop/fields.h"

#include <stdio.h>
#include <stdlib.h>

static inline struct quantity quantity_of(const char *text, enum kind kind)
{
    struct quantity quantity;
    struct quantity_fault wrong;
    if (!quantity_parse(text, kind, &quantity, &wrong)) {
        fprintf(stderr, "the test's own '%s' is not read: %s\n", text, wrong.message);
        exit(1);
    }
    return quantity;
}

static inline struct measure measure_of(const char *text, enum kind kind)
{
    return (struct measure){.q = quantity_of(text, kind)};
}

static inline struct band band_of(const char *low, const char *high)
{
    return (struct band){.from = measure_of("0 r/min", KIND_SPEED),
                         .to = measure_of("1000 r/min", KIND_SPEED),
                         .low = measure_of(low, KIND_TORQUE),
                         .high = measure_of(high, KIND_TORQUE)};
}

/* Nothing but what stands in for what is left out; and of drums the fitted one alone. */
static inline struct shop shop_empty(void)
{
    static struct arena *kept; /* for the lists that stand in */
    struct shop shop = {0};
    kept = kept ? kept : arena_new();
    fields_fill(kept, &shop);
    shop.drum_sizes = (struct measures){0};
    return shop;
}

/* Whole-drag limits; without tolerances, skew, never-exceed or gauge errors. */
static inline struct shop shop_of(const char *drum, const char *cord, const char *step)
{
    struct shop shop = shop_empty();
    shop.drum.diameter = measure_of(drum, KIND_LENGTH);
    shop.cord.diameter = measure_of(cord, KIND_LENGTH);
    shop.gauge.step = measure_of(step, KIND_FORCE);
    shop.pulls.skew = measure_of("0 deg", KIND_ANGLE);
    return shop;
}

/* Room for the pulls of a series that is made by hand; the next four hundred have others. */
static inline struct quantity *room_for_pulls(void)
{
    static struct quantity rooms[400][4];
    static size_t next;
    return rooms[next++ % 400];
}

/* What follows for it, until that is asked for the next time. */
static inline const struct results *results_for(const struct shop *shop)
{
    static struct arena *results_arena;
    arena_free(results_arena);
    results_arena = arena_new();
    return results_of(results_arena, shop);
}

/* What is known in it after its log. */
static inline const struct known *known_for(const struct shop *shop)
{
    return &results_for(shop)->known;
}

/* What became of a row of its log. */
static inline const struct judged *judged_row(const struct shop *shop,
                                              const struct pull_series *series)
{
    return results_row(results_for(shop), series);
}

/* A series as the limits of most test shops ask: locked, cold, turned the usual way. */
static const struct pull_conditions as_limits = {LOCK_AFTER, SAID_COLD, false};

#endif
