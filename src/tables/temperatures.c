/* Temperatures of the cap for rooms from cool to hot: where to look closer, where to
 * stop. */
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/run_in.h"

/* 41 to 95 degrees Fahrenheit by 4.5: 5 to 35 degrees Celsius by 2.5. Both scales are
 * then finite decimals. In tenths of a degree. */
enum { COOLEST = 410, HOTTEST = 950, STEP = 45 };

static void add_columns(struct table *table)
{
    table_column(table, COLUMN_NUMBER, "room", "°C");
    table_column(table, COLUMN_NUMBER, "room", "°F");
    table_column(table, COLUMN_NUMBER, "look closer from", "°C");
    table_column(table, COLUMN_NUMBER, "look closer from", "°F");
    table_column(table, COLUMN_NUMBER, "stop at", "°C")->strong = true;
    table_column(table, COLUMN_NUMBER, "stop at", "°F")->strong = true;
    table_column(table, COLUMN_NUMBER, "most rise", "°C");
    table_column(table, COLUMN_NUMBER, "most rise", "°F");
}

/* The room itself is no limit: it ends within one place. */
static void put_room(struct arena *arena, struct cell *cell, int tenths)
{
    double fahrenheit = tenths / 10.0;
    double celsius = unit_from_base(fahrenheit, unit_find_as("degC", 4, KIND_TEMPERATURE));
    put_number(arena, cell, celsius, show_places(celsius, 1).text);
    put_number(arena, cell + 1, fahrenheit, show_places(fahrenheit, 1).text);
}

static void put_rise(struct arena *arena, struct cell *cell, const struct decimal *rise)
{
    double fahrenheit = decimal_to_double(rise);
    double celsius = unit_from_base(fahrenheit, unit_find_as("degC", 4, KIND_RISE));
    put_number(arena, cell, celsius, show_places((double)whole_celsius_of_rise(rise), 0).text);
    put_number(arena, cell + 1, fahrenheit,
               show_places((double)whole_fahrenheit(rise), 0).text);
}

static void add_row(const struct table_ask *ask, struct table *table, int tenths)
{
    struct decimal room = decimal_of(tenths, -1), stop = run_in_stop(ask->shop, &room);
    struct decimal look = run_in_look(ask->shop, &room), rise = decimal_subtract(&stop, &room);
    struct cell *cell = table_row(table);
    put_room(ask->arena, cell, tenths);
    if (rise.negative || rise.limbs == 0) {
        for (int i = 2; i < 8; i++)
            put_text(&cell[i], "none");
        return;
    }
    put_celsius_down(ask->arena, cell + 2, &look);
    put_fahrenheit_down(ask->arena, cell + 3, &look);
    put_celsius_down(ask->arena, cell + 4, &stop);
    put_fahrenheit_down(ask->arena, cell + 5, &stop);
    put_rise(ask->arena, cell + 6, &rise);
}

struct table *make_temperatures(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct table *table =
        table_new(ask->arena, "temperatures", "Temperatures of the cap while running");
    add_columns(table);
    for (int tenths = COOLEST; tenths <= HOTTEST; tenths += STEP)
        add_row(ask, table, tenths);
    table_note(table, "The manual comes first. Between two rows the upper one holds: the "
                      "cooler room stops sooner.");
    table_note(
        table,
        "Look closer from %d\u00a0°C (%d\u00a0°F) above the room on (a bearing "
        "maker, for precision spindles). Everything is rounded down, each scale by itself.",
        RUN_IN_LOOK_CELSIUS, RUN_IN_LOOK);
    note_stop(table, shop);
    note_fingerprint(table, shop);
    return table;
}
