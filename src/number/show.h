/* Numbers as they are printed: one place decides how every digit looks, for the
 * site, the booklet, the card and the CSV alike. */
#ifndef NUMBER_SHOW_H
#define NUMBER_SHOW_H

#include "number/decimal.h"

struct shown {
    char text[DECIMAL_TEXT];
};

/* To nearest, a half away from zero, with that many digits behind the point: 0.1875 and
 * 9.525, whose double lies below it, are 0.188 and 9.53. U+2212 for minus; a number
 * that rounds to nothing has no sign. Not finite, or beyond 1e60: "none". */
struct shown show_places(double value, int places);

/* The same with that many significant digits, written out without exponent. */
struct shown show_significant(double value, int digits);

/* Away from zero at the given place: for errors and uncertainties. Noise of a
 * part in 10^12 is not rounded up. */
struct shown show_up(double value, int places);

/* So many whole steps, exactly, with the digits that the step itself needs. */
struct shown show_steps(int64_t count, const struct decimal *step);

/* A power of ten as a step: the place of the last of `digits` significant digits
 * of the value. value != 0. */
struct decimal step_of_digits(double value, int digits);

#endif
