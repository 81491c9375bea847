#include "tables/unit_tables.h"

#include "tables/common.h"

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

struct table *unit_matrix(const struct table_ask *ask, const char *name, const char *caption,
                          const char *const *symbols)
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
