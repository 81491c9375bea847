/* What the tests of properties share: made-up amounts, numbers as a reader of the page
 * has them, and a count of the cases that were tried. */
#ifndef TESTS_PROPERTIES_H
#define TESTS_PROPERTIES_H

#include "facts.h"
#include "number/quantity.h"
#include "number/show.h"
#include "shop_fixture.h"
#include "test.h"

#include <stdint.h>
#include <stdio.h>

/* ---- made-up quantities: each as the text that a user would type and as a whole number, so
 * that a test can decide by whole numbers what the program decides in decimals ---- */

/* Everything is a whole number of 10^-11 m, 10^-20 N and 10^-31 N.m. */
__extension__ typedef __int128 wide;

static uint64_t seed = 20261125;

/* Xorshift, Marsaglia (2003). */
static inline uint64_t draw(uint64_t below)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed % below;
}

static inline wide power(int exponent)
{
    wide value = 1;
    while (exponent-- > 0)
        value *= 10;
    return value;
}

/* A number in thousandths (or fewer decimals) of a unit, as text and whole number. */
struct made {
    char text[48];
    wide value;
};

struct made_unit {
    const char *symbol;
    int64_t factor;
    int exponent; /* of one thousandth of it, over the whole number's unit */
};

static const struct made_unit lengths[] = {
    {"mm", 1, 11 - 6}, {"cm", 1, 11 - 5}, {"in", 254, 11 - 7}, {"ft", 3048, 11 - 7}};
static const struct made_unit forces[] = {{"N", 1, 20 - 3},
                                          {"kgf", 980665, 20 - 8},
                                          {"gf", 980665, 20 - 11},
                                          {"lbf", (int64_t)45359237 * 980665, 20 - 16},
                                          {"ozf", (int64_t)45359237 * 980665 * 625, 20 - 20}};
static const struct made_unit torques[] = {
    {"N.m", 1, 31 - 3},
    {"N.mm", 1, 31 - 6},
    {"kgf.cm", 980665, 31 - 10},
    {"lbf.in", (int64_t)45359237 * 980665 * 254, 31 - 20},
    {"lbf.ft", (int64_t)45359237 * 980665 * 3048, 31 - 20}};

static inline struct made make(const struct made_unit *unit, uint64_t thousandths)
{
    struct made made;
    snprintf(made.text, sizeof made.text, "%d.%03d %s", (int)(thousandths / 1000),
             (int)(thousandths % 1000), unit->symbol);
    made.value = (wide)thousandths * unit->factor * power(unit->exponent);
    return made;
}

static inline struct made make_fraction(uint64_t parts_of_64)
{
    struct made made;
    snprintf(made.text, sizeof made.text, "%d %d/64 in", (int)(parts_of_64 / 64),
             (int)(parts_of_64 % 64));
    made.value = (wide)parts_of_64 * 254 * 15625 * power(11 - 4 - 6);
    return made;
}

/* ---- properties ---- */

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
