/* What the makers of tables share: cells, words for quantities, notes. */
#ifndef TABLES_COMMON_H
#define TABLES_COMMON_H

#include "judge/window.h"
#include "number/show.h"
#include "shop/shop.h"
#include "tables/tables.h"

/* Puts a computed number into a cell. value: unrounded, in the column's unit. */
void put_number(struct arena *arena, struct cell *cell, double value, const char *shown);
void put_text(struct cell *cell, const char *text);

/* The value of an option, or NULL; *at is then its place. */
const char *option_value(const struct table_ask *ask, const char *key, struct place *at);

/* The band that a table is for: the one at the speed of its option "speed", else
 * the one for the lathe's top speed; *band is NULL without limits on file. False after
 * a fault. */
bool asked_band(const struct table_ask *ask, const struct band **band);

/* "500–1200 r/min", or that there is no limit on file. */
const char *band_or_none(struct arena *arena, const struct band *band);

/* The drums to show side by side: the next smaller of the common sizes, the
 * fitted drum, the next larger. Returns how many, up to three; *fitted is the
 * index of the fitted one. */
size_t drum_and_neighbours(const struct shop *shop, const struct quantity *drums[3],
                           size_t *fitted);

/* "62 mm drum". */
const char *drum_text(struct arena *arena, const struct quantity *drum);

/* Puts a limit of a pull window into a cell of gauge steps. */
void put_steps(const struct table_ask *ask, struct cell *cell, double pull, int64_t steps);

/* Low and high pull into two cells; "none" into both, and false, where no step lies
 * between. */
bool put_pulls(const struct table_ask *ask, struct cell *low, const struct pull_window *window);

/* Drum and cord with their effective radius. */
void note_rig(struct table *table, const struct shop *shop);

/* The notes that every table of pulls carries. */
void note_inputs(struct table *table, const struct shop *shop, bool with_drum);
void note_inward(struct table *table, const struct shop *shop);
void note_closed(struct table *table);

/* Of a table with windows of all bands: the most of what is beyond the gauge, where some is. */
void note_bands_beyond(struct table *table, const struct shop *shop);

/* Of a table with U at pulls (N) from low to high: what U rests on where the known weights of
 * the gauge's check do not reach. No note where they do, or there are none. */
void note_reach(struct table *table, const struct shop *shop, double low, double high);

/* Of a table about the closing series of the log, which has none. */
void note_no_closing(struct table *table);

#endif
