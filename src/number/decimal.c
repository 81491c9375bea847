/* Limbs of nine digits, least first, as one adds and multiplies on paper. Two numbers are
 * brought to the smaller exponent before they are added; a difference's sign compares them. */
#include "number/decimal.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LIMB_DIGITS = 9, LIMB_BASE = 1000000000 };

static void trim(struct decimal *a)
{
    while (a->limbs > 0 && a->limb[a->limbs - 1] == 0)
        a->limbs--;
    if (a->limbs == 0)
        *a = (struct decimal){0};
}

struct decimal decimal_of(int64_t integer, int exponent)
{
    struct decimal a = {.exponent = exponent, .negative = integer < 0};
    uint64_t rest = integer < 0 ? 0 - (uint64_t)integer : (uint64_t)integer;
    for (; rest; rest /= LIMB_BASE)
        a.limb[a.limbs++] = (uint32_t)(rest % LIMB_BASE);
    trim(&a);
    return a;
}

static void multiply_small(struct decimal *a, uint32_t factor)
{
    uint64_t carry = 0;
    for (int i = 0; i < a->limbs; i++) {
        carry += (uint64_t)a->limb[i] * factor;
        a->limb[i] = (uint32_t)(carry % LIMB_BASE);
        carry /= LIMB_BASE;
    }
    if (carry) {
        assert(a->limbs < DECIMAL_LIMBS);
        a->limb[a->limbs++] = (uint32_t)carry;
    }
}

/* The same value written with a smaller exponent, so that two can be added. */
static void lower_exponent(struct decimal *a, int exponent)
{
    for (; a->limbs && a->exponent > exponent; a->exponent--)
        multiply_small(a, 10);
    a->exponent = exponent;
}

static int compare_limbs(const struct decimal *a, const struct decimal *b)
{
    if (a->limbs != b->limbs)
        return a->limbs < b->limbs ? -1 : 1;
    for (int i = a->limbs - 1; i >= 0; i--)
        if (a->limb[i] != b->limb[i])
            return a->limb[i] < b->limb[i] ? -1 : 1;
    return 0;
}

static void add_limbs(struct decimal *a, const struct decimal *b)
{
    uint32_t carry = 0;
    for (int i = 0; i < a->limbs || i < b->limbs || carry; i++) {
        assert(i < DECIMAL_LIMBS);
        uint32_t sum = a->limb[i] + b->limb[i] + carry;
        carry = sum >= LIMB_BASE;
        a->limb[i] = carry ? sum - LIMB_BASE : sum;
        if (i >= a->limbs)
            a->limbs = i + 1;
    }
}

/* a -= b, where the limbs of a are not below those of b. */
static void subtract_limbs(struct decimal *a, const struct decimal *b)
{
    uint32_t borrow = 0;
    for (int i = 0; i < a->limbs; i++) {
        uint32_t take = b->limb[i] + borrow;
        borrow = a->limb[i] < take;
        a->limb[i] = borrow ? a->limb[i] + LIMB_BASE - take : a->limb[i] - take;
    }
}

struct decimal decimal_add(const struct decimal *a, const struct decimal *b)
{
    struct decimal sum = *a, other = *b;
    int exponent = a->exponent < b->exponent ? a->exponent : b->exponent;
    lower_exponent(&sum, exponent);
    lower_exponent(&other, exponent);
    if (sum.negative == other.negative) {
        add_limbs(&sum, &other);
    } else if (compare_limbs(&sum, &other) >= 0) {
        subtract_limbs(&sum, &other);
    } else {
        subtract_limbs(&other, &sum);
        sum = other;
    }
    trim(&sum);
    return sum;
}

static struct decimal negated(const struct decimal *a)
{
    struct decimal minus = *a;
    minus.negative = !a->negative;
    return minus;
}

struct decimal decimal_subtract(const struct decimal *a, const struct decimal *b)
{
    struct decimal minus = negated(b);
    return decimal_add(a, &minus);
}

struct decimal decimal_multiply(const struct decimal *a, const struct decimal *b)
{
    struct decimal product = {.exponent = a->exponent + b->exponent,
                              .negative = a->negative != b->negative};
    assert(a->limbs + b->limbs <= DECIMAL_LIMBS);
    for (int i = 0; i < a->limbs; i++) {
        uint64_t carry = 0;
        for (int j = 0; j < b->limbs || carry; j++) {
            uint64_t more = j < b->limbs ? (uint64_t)a->limb[i] * b->limb[j] : 0;
            carry += product.limb[i + j] + more;
            product.limb[i + j] = (uint32_t)(carry % LIMB_BASE);
            carry /= LIMB_BASE;
        }
    }
    product.limbs = a->limbs + b->limbs;
    trim(&product);
    return product;
}

int decimal_compare(const struct decimal *a, const struct decimal *b)
{
    struct decimal difference = decimal_subtract(a, b);
    return difference.limbs == 0 ? 0 : difference.negative ? -1 : 1;
}

/* All digits, most significant first, without leading zeros; returns how many. */
static int digits_of(const struct decimal *a, char *out)
{
    int length = 0;
    for (int i = a->limbs - 1; i >= 0; i--)
        length += sprintf(out + length, i == a->limbs - 1 ? "%u" : "%09u", a->limb[i]);
    return length;
}

/* Digits and power of ten are doubles without rounding up to these. */
#define EXACT_DIGITS (INT64_C(1) << 53)
enum { EXACT_POWER = 22 };

/* Most numbers need but one rounding, in one product or quotient of two exact doubles. */
double decimal_to_double(const struct decimal *a)
{
    int power = a->exponent < 0 ? -a->exponent : a->exponent;
    int64_t whole = a->limb[0] + (int64_t)a->limb[1] * LIMB_BASE;
    if (a->limbs <= 2 && whole <= EXACT_DIGITS && power <= EXACT_POWER) {
        double ten = 1, value = (double)(a->negative ? -whole : whole);
        while (power-- > 0)
            ten *= 10;
        return a->exponent < 0 ? value / ten : value * ten;
    }
    char text[DECIMAL_TEXT + 16];
    int length = digits_of(a, text + 1);
    text[0] = a->negative ? '-' : '+';
    snprintf(text + 1 + length, 16, "e%d", a->exponent);
    return strtod(text, NULL);
}

int decimal_places(const struct decimal *a)
{
    char digits[DECIMAL_TEXT];
    int length = digits_of(a, digits);
    int exponent = a->exponent;
    while (length > 0 && digits[length - 1] == '0' && exponent < 0) {
        length--;
        exponent++;
    }
    return length > 0 && exponent < 0 ? -exponent : 0;
}

/* The digits of a number written with exactly `places` of them behind the
 * point, and at least one before it; returns how many. */
static int padded_digits(const struct decimal *a, int places, char *out)
{
    struct decimal shown = *a;
    if (shown.limbs == 0 || shown.exponent > -places)
        lower_exponent(&shown, -places);
    char digits[DECIMAL_TEXT];
    int length = digits_of(&shown, digits);
    /* digits beyond `places` are zeros: the caller promised it */
    length -= -places - shown.exponent;
    int zeros = length <= places ? places + 1 - length : 0;
    memset(out, '0', (size_t)zeros);
    memcpy(out + zeros, digits, (size_t)length);
    return zeros + length;
}

void decimal_print(const struct decimal *a, int places, char *out)
{
    char digits[DECIMAL_TEXT];
    int whole = padded_digits(a, places, digits) - places;
    out += sprintf(out, "%s%.*s", a->negative ? "-" : "", whole, digits);
    if (places > 0)
        sprintf(out, ".%.*s", places, digits + whole);
}

static bool steps_reach(int64_t count, const struct decimal *step, const struct decimal *amount)
{
    struct decimal many = decimal_of(count, 0);
    many = decimal_multiply(&many, step);
    return decimal_compare(&many, amount) >= 0;
}

int64_t decimal_steps_not_below(const struct decimal *amount, const struct decimal *step)
{
    int64_t count = (int64_t)ceil(decimal_to_double(amount) / decimal_to_double(step));
    while (!steps_reach(count, step, amount))
        count++;
    while (steps_reach(count - 1, step, amount))
        count--;
    return count;
}

int64_t decimal_steps_not_above(const struct decimal *amount, const struct decimal *step)
{
    struct decimal mirrored = negated(amount);
    return -decimal_steps_not_below(&mirrored, step);
}
