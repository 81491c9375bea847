/* Fractions of an inch, to 1/64, as decimals and in millimetres: exact. */
#include "tables/common.h"

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
