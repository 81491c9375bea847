/* Units of one kind against each other. */
#include "tables/common.h"
#include "tables/tables.h"

#include <string.h>

enum { FACTOR_DIGITS = 6 };

static const struct unit *unit_of(const char *symbol)
{
    return unit_find(symbol, strlen(symbol));
}

static void add_row(const struct table_ask *ask, struct table *table, const struct unit *unit,
                    const char *const *symbols)
{
    struct cell *cell = table_row(table);
    put_text(cell, arena_format(ask->arena, "1\u00a0%s", unit->shown));
    for (size_t i = 0; symbols[i]; i++) {
        double value = unit_from_base(unit_to_base(1, unit), unit_of(symbols[i]));
        struct shown shown = show_significant(value, FACTOR_DIGITS);
        put_number(ask->arena, cell + 1 + i, value,
                   unit_of(symbols[i]) == unit ? "1" : shown.text);
    }
}

/* A square table: how many of the unit at the head make one of the unit at the
 * left. symbols: NULL-ended. */
static struct table *unit_matrix(const struct table_ask *ask, const char *name,
                                 const char *caption, const char *const *symbols)
{
    struct table *table = table_new(ask->arena, name, caption);
    table_column(table, COLUMN_TEXT, "this much", NULL);
    for (size_t i = 0; symbols[i]; i++)
        table_column(table, COLUMN_NUMBER, "is", unit_of(symbols[i])->shown);
    for (size_t i = 0; symbols[i]; i++)
        add_row(ask, table, unit_of(symbols[i]), symbols);
    table_note(table,
               "%d significant digits, to the nearest; the factors behind them are exact.",
               FACTOR_DIGITS);
    return table;
}

/* Torque units against each other. */

struct table *make_torque_units(const struct table_ask *ask)
{
    static const char *const symbols[] = {"N.m",    "N.cm",   "kgf.cm", "lbf.in",
                                          "lbf.ft", "ozf.in", NULL};
    return unit_matrix(ask, "torque-units", "Units of torque", symbols);
}

/* Force units against each other. */

struct table *make_force_units(const struct table_ask *ask)
{
    static const char *const symbols[] = {"N", "kgf", "gf", "lbf", "ozf", NULL};
    return unit_matrix(ask, "force-units", "Units of force", symbols);
}

/* Fractions of an inch, to 1/64, as decimals and in millimetres: exact. */

enum { PARTS = 64, PLACES = 6 };

static const char *fraction_text(struct arena *arena, int part)
{
    int whole = PARTS;
    while (part % 2 == 0 && whole > 1) {
        part /= 2;
        whole /= 2;
    }
    return whole == 1 ? "1" : arena_format(arena, "%d/%d", part, whole);
}

/* part/64 in = part * 15625 * 10^-6 in, exactly; 25.4 mm to the inch. */
static void put_exact(const struct table_ask *ask, struct cell *cell, int part,
                      const struct decimal *per_inch)
{
    struct decimal length = decimal_of((int64_t)part * 15625, -6);
    length = decimal_multiply(&length, per_inch);
    char digits[DECIMAL_TEXT];
    decimal_print(&length, PLACES, digits);
    put_number(ask->arena, cell, decimal_to_double(&length), digits);
}

struct table *make_length_units(const struct table_ask *ask)
{
    struct decimal inches = decimal_of(1, 0), millimetres = decimal_of(254, -1);
    struct table *table =
        table_new(ask->arena, "length-units", "Fractions of an inch, decimals and millimetres");
    table_column(table, COLUMN_TEXT, "fraction", "in");
    table_column(table, COLUMN_NUMBER, "decimal", "in");
    table_column(table, COLUMN_NUMBER, "length", "mm");
    for (int part = 1; part <= PARTS; part++) {
        struct cell *cell = table_row(table);
        put_text(cell, fraction_text(ask->arena, part));
        put_exact(ask, cell + 1, part, &inches);
        put_exact(ask, cell + 2, part, &millimetres);
    }
    table_note(table, "All digits are shown: 1\u00a0in is 25.4\u00a0mm exactly.");
    return table;
}
