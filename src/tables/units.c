/* Units of one kind against each other, and fractions of an inch. */
#include "tables/common.h"

#include <string.h>

enum { FACTOR_DIGITS = 6 };

static const struct unit *unit_of(const char *symbol)
{
    return unit_find(symbol, strlen(symbol));
}

/* A square table: how many of the unit at the head make one of the unit at the
 * left. symbols: NULL-ended. */
static void unit_matrix(struct builder *b, const char *const *symbols)
{
    for (const char *const *left = symbols; *left; left++) {
        const struct unit *one = unit_of(*left);
        next_row(b);
        put_text(b, "this much", arena_format(b->arena, "1\u00a0%s", one->shown));
        for (const char *const *head = symbols; *head; head++) {
            const struct unit *unit = unit_of(*head);
            double value = unit_from_base(unit_to_base(1, one), unit);
            struct shown shown = show_significant(value, FACTOR_DIGITS);
            put_number(b, "is", unit->shown, value, unit == one ? "1" : shown.text);
        }
    }
    table_note(b->table,
               "%d significant digits, to the nearest; the factors behind them are exact.",
               FACTOR_DIGITS);
}

void make_torque_units(struct builder *b)
{
    static const char *const symbols[] = {"N.m",    "N.cm",   "kgf.cm", "lbf.in",
                                          "lbf.ft", "ozf.in", NULL};
    unit_matrix(b, symbols);
}

void make_force_units(struct builder *b)
{
    static const char *const symbols[] = {"N", "kgf", "gf", "lbf", "ozf", NULL};
    unit_matrix(b, symbols);
}

/* ---- fractions of an inch, to 1/64, as decimals and in millimetres: exact ---- */

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

static void put_exact(struct builder *b, const char *head, const char *unit,
                      const struct decimal *length)
{
    char digits[DECIMAL_TEXT];
    decimal_print(length, PLACES, digits);
    put_number(b, head, unit, decimal_to_double(length), digits);
}

void make_length_units(struct builder *b)
{
    const struct decimal millimetres_to_the_inch = decimal_of(254, -1);
    for (int part = 1; part <= PARTS; part++) {
        struct decimal inches = decimal_of((int64_t)part * 15625, -6); /* a 64th is 0.015625 */
        struct decimal millimetres = decimal_multiply(&inches, &millimetres_to_the_inch);
        next_row(b);
        put_text(b, "fraction", fraction_text(b->arena, part))->unit = "in";
        put_exact(b, "decimal", "in", &inches);
        put_exact(b, "length", "mm", &millimetres);
    }
    table_note(b->table, "All digits are shown: 1\u00a0in is 25.4\u00a0mm exactly.");
}
