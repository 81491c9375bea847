/* What others allow a spindle nose to run out and to slip, each with its source. Limits are
 * rounded down in the system that the source does not use. */
#include "tables/common.h"

#include <stdlib.h>

#define HOBBY_RECORD "an inspection record of a hobby lathe (source 15)"
#define STANDARD     "ISO 1708, from memory"
#define CHECK_LIST   "a monthly check list (source 16)"

static const struct limit {
    const char *test, *most, *from;
} limits[] = {
    {"axial slip of the spindle", "0.015 mm", HOBBY_RECORD},
    {"run-out of the nose", "0.01 mm", HOBBY_RECORD},
    {"run-out of the taper, at the nose", "0.01 mm", HOBBY_RECORD},
    {"run-out of the taper, 300 mm out", "0.02 mm", HOBBY_RECORD},
    {"run-out of the centre", "0.015 mm", HOBBY_RECORD},
    {"axial slip of the spindle", "0.01 mm", STANDARD},
    {"camming of the face, slip included", "0.02 mm", STANDARD},
    {"run-out of the nose", "0.01 mm", STANDARD},
    {"run-out of the taper, at the nose", "0.01 mm", STANDARD},
    {"run-out of the taper, 300 mm out", "0.02 mm", STANDARD},
    {"run-out, general turning", "0.001 in", CHECK_LIST},
    {"run-out, precision shafts", "0.0005 in", CHECK_LIST},
};

enum { LIMITS = sizeof limits / sizeof limits[0], MM_PLACES = 3, INCH_PLACES = 4 };

/* As the source has it; in the other system down to a whole step. */
static void put_limit(const struct table_ask *ask, struct cell *cell,
                      const struct quantity *most, const struct unit *unit, int places)
{
    struct decimal place = decimal_of(1, -places), factor = unit_factor(unit);
    struct decimal step = decimal_multiply(&place, &factor);
    struct shown down = show_steps(decimal_steps_not_above(&most->exact, &step), &place);
    put_number(ask->arena, cell, quantity_in(most, unit),
               most->unit == unit ? most->digits : down.text);
}

static void add_row(const struct table_ask *ask, struct table *table, const struct limit *limit)
{
    struct quantity most;
    struct quantity_fault ignored;
    if (!quantity_parse(limit->most, KIND_LENGTH, &most, &ignored))
        abort(); /* the list above is wrong */
    struct cell *cell = table_row(table);
    put_text(cell, limit->test);
    put_limit(ask, cell + 1, &most, unit_find("mm", 2), MM_PLACES);
    put_limit(ask, cell + 2, &most, unit_find("in", 2), INCH_PLACES);
    put_text(cell + 3, limit->from);
}

struct table *make_run_out_limits(const struct table_ask *ask)
{
    struct table *table =
        table_new(ask->arena, "run-out-limits", "What others allow: run-out and axial slip");
    table_column(table, COLUMN_TEXT, "test", NULL);
    table_column(table, COLUMN_NUMBER, "not above", "mm");
    table_column(table, COLUMN_NUMBER, "not above", "in");
    table_column(table, COLUMN_TEXT, "from", NULL);
    for (size_t i = 0; i < LIMITS; i++)
        add_row(ask, table, &limits[i]);
    table_note(table, "None of these is your maker's: the limits of your manual come first.");
    table_note(table,
               "As each source has it; in the other system rounded down, to "
               "0.001\u00a0mm or 0.0001\u00a0in. The inspection record itself rounds up: "
               "0.01\u00a0mm to 0.0004\u00a0in, 0.015\u00a0mm to 0.0006\u00a0in.");
    table_note(table, "ISO 1708: general lathes up to 800\u00a0mm of swing. Its text was not "
                      "seen: look it up before you rely on it.");
    return table;
}
