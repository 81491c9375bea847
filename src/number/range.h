/* Ranges that the program allows, written as a user would write their ends. */
#ifndef NUMBER_RANGE_H
#define NUMBER_RANGE_H

#include "number/quantity.h"

/* Whether it lies from least to most, both of its kind and belonging to the range. */
bool quantity_between(const struct quantity *quantity, const char *least, const char *most);

#endif
