/* Cells about a series of the log, the same in every table that shows one. */
#ifndef TABLES_SERIES_CELLS_H
#define TABLES_SERIES_CELLS_H

#include "tables/common.h"
#include "verdict/state.h"

/* "12°, locked", "before lock" or "not said". */
const char *series_nut_text(struct arena *arena, const struct pull_series *series);

/* The place of the nut, and the temperature of the cap; "not said". */
const char *series_place_text(struct arena *arena, const struct pull_series *series);
const char *series_cap_text(struct arena *arena, const struct pull_series *series);

/* "cold, 17 °C", without the way that it turned. */
const char *series_warmth_text(struct arena *arena, const struct pull_series *series);

/* "cold, 17 °C, other way". */
const char *series_spindle_text(struct arena *arena, const struct pull_series *series);

/* The mean pull in the gauge's unit, one place finer than its step. */
void put_series_mean(const struct table_ask *ask, struct cell *cell,
                     const struct judgement *judgement);

/* A drag, shown to the place of its own uncertainty, and that uncertainty beside it. */
void put_series_drag(const struct table_ask *ask, struct cell *cell,
                     const struct judgement *judgement);

/* note_reach() over all means of the log. */
void note_log_reach(struct table *table, const struct shop *shop);

/* "● good". */
void put_state_words(const struct table_ask *ask, struct cell *cell, enum state state);

#endif
