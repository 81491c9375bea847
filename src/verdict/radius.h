/* The effective radius: from the spindle's axis to the middle of the cord. */
#ifndef VERDICT_RADIUS_H
#define VERDICT_RADIUS_H

#include "number/show.h"
#include "shop/shop.h"

/* A cord on a drum, exactly: twice the effective radius in metres, D + d. */
struct decimal double_radius(const struct quantity *drum, const struct quantity *cord);

/* The effective radius as a double, through src/drag. */
double effective_radius(const struct quantity *drum, const struct quantity *cord);

/* That of the shop's own drum and cord. */
double shop_radius(const struct shop *shop);

/* The same as it is shown: five digits in the unit of the drum's diameter, alone and with the
 * unit behind them, "31.400 mm". */
struct shown radius_digits(const struct shop *shop);
struct shown radius_words(const struct shop *shop);

#endif
