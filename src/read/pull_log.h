/* content/readings.csv: the log of pulls, kept by the user, one series a row.
 *
 *   date,drum,cord,nut,lock,direction,warmth,temperature,breakaway,pulls,note
 *
 * Needed: date, direction (usual or other), warmth (cold or warm), pulls (with blanks
 * between them, each with its unit, or one unit behind the last). */
#ifndef READ_PULL_LOG_H
#define READ_PULL_LOG_H

#include "shop/shop.h"

/* Fills shop->readings, in order of date. The file need not be there. No row is passed
 * over: what cannot be read is a fault. The shop's settings may have faults: a drum or a
 * cord that they lack is then lacking in the series too. */
void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop);

#endif
