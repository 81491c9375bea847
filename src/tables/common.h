/* How a table is made. Its columns stand in one function, which is called for every row and
 * names them in turn: each call of a put_ function says what the column is called, in which
 * unit it stands, and what its cell in this row is. The first row makes the columns; every
 * further one must name the same. */
#ifndef TABLES_COMMON_H
#define TABLES_COMMON_H

#include "judge/window.h"
#include "number/show.h"
#include "shop/shop.h"
#include "tables/tables.h"

/* A table on its way, and what it is made from. */
struct builder {
    struct arena *arena;
    const struct results *results;
    const struct shop *shop;
    const struct band *band; /* at the speed of the option "speed", else at the top speed; NULL
                              * without limits on file */
    bool card;               /* option "show": few columns and short notes */
    bool none;               /* while it is set, every cell that is put says "none" */
    bool closed;             /* a window was put in which no step lies */
    struct table *table;
    size_t column; /* of the row: the next to put */
    size_t cell_count;
};

/* Begins a row. */
void next_row(struct builder *b);

/* Bold: the row's first cell, by which the reader finds it; or all that were put so far. */
void bold_head(struct builder *b, bool bold);
void bold_row(struct builder *b);

/* A column of texts. The text is not copied. Each put_ function gives the column, which holds
 * until the next. */
struct column *put_text(struct builder *b, const char *head, const char *text);

/* A column of numbers. unit: as it is printed; NULL where there is none. value: unrounded, in
 * that unit; where it is not finite the cell says "none". shown: its digits, which are copied.
 */
struct column *put_number(struct builder *b, const char *head, const char *unit, double value,
                          const char *shown);

/* A word where a number would stand. */
struct column *put_word(struct builder *b, const char *head, const char *unit,
                        const char *word);

/* The same by the ways of number/show.h: to nearest at a place, to so many significant digits,
 * away from zero at a place. */
struct column *put_places(struct builder *b, const char *head, const char *unit, double value,
                          int places);
struct column *put_significant(struct builder *b, const char *head, const char *unit,
                               double value, int digits);
struct column *put_up(struct builder *b, const char *head, const char *unit, double value,
                      int places);

/* An uncertainty with the digits by which it decided. */
struct column *put_uncertainty(struct builder *b, const char *head, const char *unit,
                               double value, const struct shown_uncertainty *u);

/* Pulls (N) in the gauge's unit: with the digits of so many of its steps; the ends of a
 * window, "none" where no step lies between; and means and errors, one place finer. */
struct column *put_steps(struct builder *b, const char *head, double pull, int64_t steps);
struct column *put_low(struct builder *b, const char *head, const struct pull_window *window);
struct column *put_high(struct builder *b, const char *head, const struct pull_window *window);
struct column *put_pull(struct builder *b, const char *head, double pull);
int finer_than_step(const struct shop *shop);

/* The unit of the gauge, as it is printed. */
const char *gauge_unit(const struct builder *b);

/* A table that has nothing to show: one cell that says "none", and the note why. */
void only_none(struct builder *b, const char *head, const char *why);

/* As the results have it; while b->none is set, one of the same unit that says nothing. */
struct judgement judgement_or_none(const struct builder *b, const struct pull_series *series);

/* What a log may leave out: the quantity, or "not said". */
const char *said_text(struct arena *arena, const struct quantity *quantity);

/* The drums to show side by side: the next smaller of the common sizes, the
 * fitted drum, the next larger. Returns how many, up to three; *fitted is the
 * index of the fitted one. */
size_t drum_and_neighbours(const struct shop *shop, const struct quantity *drums[3],
                           size_t *fitted);

/* "62 mm drum". */
const char *drum_text(struct arena *arena, const struct quantity *drum);

/* Drum and cord with their effective radius. */
void note_drum_and_cord(const struct builder *b);

/* The notes that every table of pulls carries. */
void note_inputs(const struct builder *b, bool with_drum);
void note_inward(const struct builder *b);

/* Why a window says "none", where one of the table does. */
void note_closed(const struct builder *b);

/* The fingerprint, for tables that rest on the settings but on no limits of drag. */
void note_fingerprint(const struct builder *b);

/* Of a table with U at pulls (N) from low to high: what U rests on where the known weights of
 * the gauge's check do not reach. No note where they do, or there are none. */
void note_reach(const struct builder *b, double low, double high);

/* The makers. */
void make_pull_windows(struct builder *b);
void make_sure_windows(struct builder *b);
void make_reading_to_drag(struct builder *b);
void make_drum_windows(struct builder *b);
void make_arm_equivalents(struct builder *b);
void make_drum_choice(struct builder *b);
void make_drum_loads(struct builder *b);
void make_drum_making(struct builder *b);
void make_cord_errors(struct builder *b);
void make_gauge_check(struct builder *b);
void make_gauge_correction(struct builder *b);
void make_pull_log(struct builder *b);
void make_record(struct builder *b);
void make_record_facts(struct builder *b);
void make_record_pulls(struct builder *b);
void make_record_steps(struct builder *b);
void make_history(struct builder *b);
void make_budget(struct builder *b);
void make_lift_test(struct builder *b);
void make_nut_map(struct builder *b);
void make_nut_travel(struct builder *b);
void make_run_in(struct builder *b);
void make_temperatures(struct builder *b);
void make_pull_speed(struct builder *b);
void make_chuck_left_on(struct builder *b);
void make_oil_warmth(struct builder *b);
void make_spindle_growth(struct builder *b);
void make_drag_estimate(struct builder *b);
void make_torque_units(struct builder *b);
void make_force_units(struct builder *b);
void make_length_units(struct builder *b);
void make_trusted_values(struct builder *b);

#endif
