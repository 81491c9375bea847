/* Exact decimal numbers: the judge in every question of "inside or outside".
 *
 * Every unit factor here is a finite decimal (an inch is 25.4 mm, a pound-force
 * is 4.4482216152605 N), and so is everything a person types. Products and sums
 * of them can therefore be compared without any rounding at all. Doubles guess;
 * decimals decide.
 *
 * A decimal holds 108 digits. Numbers that come through quantity_parse() have at most 16 digits
 * and exponents of -15..0, unit factors at most 18 digits, so that a product of two quantities
 * in base units and a count of steps fits, which is the most that is made. Past the limit the
 * program stops at an assertion rather than answer wrongly. */
#ifndef NUMBER_DECIMAL_H
#define NUMBER_DECIMAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { DECIMAL_LIMBS = 12, DECIMAL_TEXT = 200 };

/* value = (-1)^negative * sum(limb[i] * 10^(9 i)) * 10^exponent */
struct decimal {
    uint32_t limb[DECIMAL_LIMBS]; /* base 10^9, least first */
    int limbs;                    /* how many count; 0 is zero */
    int exponent;
    bool negative;
};

/* integer * 10^exponent */
struct decimal decimal_of(int64_t integer, int exponent);
struct decimal decimal_add(const struct decimal *a, const struct decimal *b);
struct decimal decimal_subtract(const struct decimal *a, const struct decimal *b);
struct decimal decimal_multiply(const struct decimal *a, const struct decimal *b);
int decimal_compare(const struct decimal *a, const struct decimal *b); /* -1, 0, 1 */

/* The double nearest to the decimal. */
double decimal_to_double(const struct decimal *a);

/* Digits behind the decimal point that the number needs: 0.50 needs 1. */
int decimal_places(const struct decimal *a);

/* Plain digits with '-' where negative and exactly `places` digits behind the
 * point; places must be at least decimal_places(a). out has DECIMAL_TEXT bytes. */
void decimal_print(const struct decimal *a, int places, char *out);

/* How many whole steps lie in an amount: the least count with count * step not
 * below the amount, and the greatest with count * step not above it. Decided
 * exactly. step > 0; |amount / step| < 10^15. */
int64_t decimal_steps_not_below(const struct decimal *amount, const struct decimal *step);
int64_t decimal_steps_not_above(const struct decimal *amount, const struct decimal *step);

#endif
