/* What the tests of properties share: made-up amounts, numbers as a reader of the page
 * has them, and a count of the cases that were tried. */
#ifndef TESTS_PROPERTIES_H
#define TESTS_PROPERTIES_H

#include "facts.h"
#include "made.h"
#include "number/quantity.h"
#include "number/show.h"
#include "shop_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

static int cases;

#define HOLDS(what)                                                                            \
    do {                                                                                       \
        if (!(what))                                                                           \
            fail_msg("case %d: not so: %s", cases, #what);                                     \
    } while (0)

/* 0..1, ends excluded. */
static inline double share(void)
{
    return ((double)draw(1000000) + 0.5) / 1000000;
}

/* Spread evenly over its powers of ten. */
static inline double between(double low, double high)
{
    return low * pow(high / low, share());
}

static inline struct quantity made_quantity(const struct made_unit *unit, uint64_t most,
                                            enum kind kind)
{
    return quantity_of(make(unit, 1 + draw(most)).text, kind);
}

/* Printed digits as a decimal: what a reader of the page has. */
static inline struct decimal decimal_of_shown(struct shown shown)
{
    static const char minus[] = "\u2212";
    bool below = strncmp(shown.text, minus, strlen(minus)) == 0;
    const char *digits = shown.text + (below ? strlen(minus) : 0);
    const char *point = strchr(digits, '.');
    int places = point ? (int)strlen(point + 1) : 0;
    int64_t whole = strtoll(digits, NULL, 10), part = point ? strtoll(point + 1, NULL, 10) : 0;
    for (int i = 0; i < places; i++)
        whole *= 10;
    return decimal_of(below ? -whole - part : whole + part, -places);
}

/* The distance of two decimals is not above a third. */
static inline bool apart_at_most(const struct decimal *a, const struct decimal *b,
                                 const struct decimal *most)
{
    struct decimal apart = decimal_subtract(a, b);
    struct decimal turned = decimal_subtract(b, a);
    return decimal_compare(&apart, most) <= 0 && decimal_compare(&turned, most) <= 0;
}

struct property {
    void (*check)(void);
    int times;
};

static inline void try_properties(const struct property *properties, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (int j = 0; j < properties[i].times; j++) {
            properties[i].check();
            cases++;
        }
    print_message("%d made-up cases\n", cases);
}

#endif
