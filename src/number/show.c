/* The C library prints the digits; here a half is moved past itself first, and a minus is made
 * ready for print. */
#include "number/show.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Plain digits with '-' made ready for print. */
static struct shown finish(const char *digits)
{
    struct shown shown;
    bool minus = digits[0] == '-';
    bool nothing = strspn(digits + minus, "0.") == strlen(digits + minus);
    int length = snprintf(shown.text, sizeof shown.text, "%s%s",
                          minus && !nothing ? "\xE2\x88\x92" : "", digits + minus);
    assert(length < DECIMAL_TEXT); /* a decimal's limbs have 108 digits */
    return shown;
}

/* A half goes away from zero, also where the double of a decimal lies a hair beside it: such
 * a value is moved past the half. Doubles of so many digits that noise would be a half of a
 * place stay as they are. */
static double past_a_half(double value, int places)
{
    double scale = pow(10, places), whole, part = modf(fabs(value) * scale, &whole);
    if (whole > 1e12 || fabs(part - 0.5) > 1e-13 * fmax(1, whole))
        return value;
    return copysign((whole + 0.75) / scale, value);
}

struct shown show_places(double value, int places)
{
    char digits[DECIMAL_TEXT / 2];
    if (!isfinite(value) || fabs(value) > 1e60)
        return finish("none");
    int length = snprintf(digits, sizeof digits, "%.*f", places, past_a_half(value, places));
    assert(length < DECIMAL_TEXT / 2); /* 61 digits before the point, some 20 behind it */
    return finish(digits);
}

enum { ALL_DIGITS = 17 };

/* Power of ten of the leading digit once a finite value is rounded to `digits`. */
static int leading_power(double value, int digits)
{
    char text[64];
    snprintf(text, sizeof text, "%.*e", digits - 1, value);
    return (int)strtol(strchr(text, 'e') + 1, NULL, 10);
}

struct shown show_significant(double value, int digits)
{
    if (!isfinite(value))
        return finish("none");
    value = past_a_half(value, digits - 1 - leading_power(value, ALL_DIGITS));
    int places = digits - 1 - leading_power(value, digits);
    if (places < 0) { /* to nearest ten, hundred, ...: without false digits */
        double scale = pow(10, -places);
        value = round(value / scale) * scale;
        places = 0;
    }
    return show_places(value, places);
}

struct shown show_up(double value, int places)
{
    double scale = pow(10, places);
    double steps = fabs(value) * scale;
    steps = ceil(steps - 1e-12 * fmax(1, steps));
    return show_places(copysign(steps / scale, value), places);
}

struct shown show_steps(int64_t count, const struct decimal *step)
{
    char digits[DECIMAL_TEXT];
    struct decimal many = decimal_of(count, 0);
    many = decimal_multiply(&many, step);
    decimal_print(&many, decimal_places(step), digits);
    return finish(digits);
}

struct decimal step_of_digits(double value, int digits)
{
    return decimal_of(1, (int)floor(log10(fabs(value))) - digits + 1);
}
