/* What a dump prints to one place: without a minus sign before zero, which would depend on
 * noise. */
#ifndef TESTS_TENTH_H
#define TESTS_TENTH_H

static inline double tenth(double value)
{
    return value > -0.05 && value < 0.05 ? 0 : value;
}

#endif
