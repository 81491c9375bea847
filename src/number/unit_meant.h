/* Ways to write a unit that are common and not taken here. */
#ifndef NUMBER_UNIT_MEANT_H
#define NUMBER_UNIT_MEANT_H

#include <stddef.h>

/* How the unit that was probably meant is written: "lbf.in" for "in-lb". NULL where the
 * text is like none. Only for a message: the number is never read as if it were right. */
const char *unit_meant(const char *text, size_t length);

#endif
