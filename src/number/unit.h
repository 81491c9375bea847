/* The units that may be written, each with its exact factor to the base unit of
 * its kind. Sources: inch, pound, and standard gravity are exact by definition
 * (international yard and pound agreement of 1959; 3rd CGPM 1901); NIST SP 811
 * appendix B prints the factors that follow from them. tests/ compares every
 * line with GNU units. */
#ifndef NUMBER_UNIT_H
#define NUMBER_UNIT_H

#include "number/decimal.h"

#include <stddef.h>

enum kind {
    KIND_LENGTH,      /* base m */
    KIND_FORCE,       /* base N */
    KIND_TORQUE,      /* base N.m */
    KIND_SPEED,       /* turning speed; base r/min, the unit of the trade */
    KIND_ANGLE,       /* base degree */
    KIND_RATIO,       /* base %: a share, not a fraction of 1 */
    KIND_THREADS,     /* base threads per inch */
    KIND_MASS,        /* base kg */
    KIND_TEMPERATURE, /* base degree Fahrenheit, in which both scales are finite decimals */
    KIND_RISE,        /* a difference of two temperatures; base degree Fahrenheit */
    KIND_TIME,        /* base s */
    KIND_VISCOSITY,   /* kinematic; base mm2/s */
    KIND_COUNT,
    KIND_NONE /* of what is no quantity */
};

enum system { SYSTEM_EITHER, SYSTEM_METRIC, SYSTEM_IMPERIAL };

struct unit {
    const char *symbol; /* as typed: lbf.in */
    const char *shown;  /* as printed: lbf·in */
    enum kind kind;
    enum system system;
    int64_t factor; /* factor * 10^exponent base units in one of this unit */
    int exponent;
    int zero; /* what 0 of this unit is in base units: only temperatures have one */
};

/* The unit with this symbol, or NULL. "·" counts as ".". */
const struct unit *unit_find(const char *symbol, size_t length);

/* The same, where one symbol stands in two kinds (degC: a temperature or a rise): that of
 * the wanted kind, else any. */
const struct unit *unit_find_as(const char *symbol, size_t length, enum kind kind);

/* Every unit in turn, from 0 on; NULL at the end. */
const struct unit *unit_at(size_t index);
struct decimal unit_factor(const struct unit *unit);
double unit_from_base(double base, const struct unit *unit);
double unit_to_base(double value, const struct unit *unit);

/* "length", "torque", ..., the article before it, and an example of each, to show in
 * a message. */
const char *kind_name(enum kind kind);
const char *kind_article(enum kind kind);
const char *kind_example(enum kind kind);

/* The unit to show beside a given one for a reader who thinks in the other
 * system: lbf·in for any metric torque, N·m for any imperial one, and so on. */
const struct unit *unit_other_system(const struct unit *unit);

/* The unit of that kind that a text means, written in one of the ways that are common: "in-lb"
 * is lbf.in, "Nm" N.m, and where a force is wanted kg is kgf. NULL where it means none. */
const struct unit *unit_of_kind(const char *text, size_t length, enum kind kind);

#endif
