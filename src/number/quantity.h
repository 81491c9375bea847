/* A quantity as a person writes it: a number and a unit, in one word or two.
 *
 *   60mm   2.5 in   2 9/16 in   12 lbf.in   0.25 N.m   1.2 kgf   18 tpi
 *
 * The number is plain digits with at most one decimal point, or an inch-style
 * fraction whose denominator is 2, 4, 8, 16, 32, 64 or 128. A comma is a point where
 * one or two digits follow it. The unit is never guessed; unit_of_kind() knows the ways
 * to write one. */
#ifndef NUMBER_QUANTITY_H
#define NUMBER_QUANTITY_H

#include "number/unit.h"

enum { QUANTITY_DIGITS = 16, QUANTITY_KEPT = 40, QUANTITY_TEXT = 64 };

struct quantity {
    char digits[QUANTITY_KEPT + 1]; /* the number as typed: "2 9/16", "0.240" */
    bool reworded; /* it was written with a comma, or its unit in another way */
    const struct unit *unit;
    struct decimal typed; /* in `unit`, exactly */
    struct decimal exact; /* in the base unit of its kind, exactly */
    double base;          /* the same as the nearest double */
};

struct quantity_fault {
    size_t offset;     /* byte of the text at which it goes wrong */
    char message[256]; /* what is wrong; what would be right */
};

/* Reads the whole text as a quantity of the given kind. Blanks at both ends are
 * passed over. On a fault: false, with *fault filled; *quantity is then unset. */
bool quantity_parse(const char *text, enum kind kind, struct quantity *quantity,
                    struct quantity_fault *fault);

/* Fills a fault; false. And adds to its message. Who repeats in it what was typed repeats at
 * most QUOTED bytes: no message may be longer than its room. */
enum { QUOTED = 40 };

bool quantity_wrong(struct quantity_fault *fault, size_t offset, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void quantity_wrong_too(struct quantity_fault *fault, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Bytes of the minus sign at the start of a text, as typed or as printed; 0: none. */
size_t quantity_minus(const char *text);

/* The amount in another unit of its kind, at full precision. */
double quantity_in(const struct quantity *quantity, const struct unit *unit);

/* "2 9/16 in" with no-break spaces and U+2212 for minus, ready to print. out has
 * QUANTITY_TEXT bytes. */
void quantity_show(const struct quantity *quantity, char *out);

/* Ranges that the program allows, written as a user would write their ends. */

/* An end of such a range, exactly, in the base unit of its kind. */
struct decimal quantity_bound(const char *text, enum kind kind);

/* Whether it lies from least to most, both of its kind and belonging to the range. */
bool quantity_between(const struct quantity *quantity, const char *least, const char *most);

#endif
