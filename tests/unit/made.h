/* Made-up quantities from a seed: each as the text that a user would type and as a
 * whole number, so that a test can decide by whole numbers what the program decides
 * in decimals. */
#ifndef TESTS_MADE_H
#define TESTS_MADE_H

#include <stdint.h>
#include <stdio.h>

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

#endif
