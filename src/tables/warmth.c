#include "tables/warmth.h"

#include "tables/common.h"
#include "verdict/run_in.h"

#include <math.h>

static const struct unit *scale(const char *symbol)
{
    return unit_find_as(symbol, 4, KIND_TEMPERATURE);
}

static void put_whole(struct arena *arena, struct cell *cell, double value, int64_t whole)
{
    put_number(arena, cell, value, show_places((double)whole, 0).text);
}

void put_fahrenheit_down(struct arena *arena, struct cell *cell,
                         const struct decimal *fahrenheit)
{
    put_whole(arena, cell, decimal_to_double(fahrenheit), whole_fahrenheit(fahrenheit));
}

void put_celsius_down(struct arena *arena, struct cell *cell, const struct decimal *fahrenheit)
{
    put_whole(arena, cell, unit_from_base(decimal_to_double(fahrenheit), scale("degC")),
              whole_celsius(fahrenheit));
}

void note_stop(struct table *table, const struct shop *shop)
{
    struct arena *arena = table->arena;
    const struct run_in *run_in = &shop->run_in;
    table_note(table,
               "Stop at the lesser of two, rounded down: %s (%s), or %s (%s) above the "
               "room.",
               stop_text(arena, shop), given(&run_in->stop) ? "settings" : "practice",
               rise_text(arena, shop),
               given(&run_in->rise) ? "settings" : "a bearing maker, for precision spindles");
}

void put_estimate(struct arena *arena, struct cell *cell, double value, int digits)
{
    if (isfinite(value))
        put_number(arena, cell, value, show_significant(value, digits).text);
    else
        put_text(cell, "none");
}

void put_drag_estimate(const struct table_ask *ask, struct cell *cell, double drag)
{
    put_estimate(ask->arena, cell, unit_from_base(drag, shop_drag_unit(ask->shop)), 2);
}

void put_none_row(struct table *table)
{
    struct cell *row = table_row(table);
    for (size_t i = 0; i < table->column_count; i++)
        put_text(&row[i], "none");
}

const char *wanted_words(struct arena *arena, const struct wanted *wanted, size_t count)
{
    const char *words = "";
    size_t rest = 0;
    for (size_t i = 0; i < count; i++)
        rest += !wanted[i].is_there;
    for (size_t i = 0; i < count; i++)
        if (!wanted[i].is_there) {
            rest--;
            words = arena_format(arena, "%s%s%s", words, wanted[i].key,
                                 rest > 1    ? ", "
                                 : rest == 1 ? " and "
                                             : "");
        }
    return words;
}

void note_fingerprint(struct table *table, const struct shop *shop)
{
    table_note(table, "Settings %s.", shop->fingerprint);
}
