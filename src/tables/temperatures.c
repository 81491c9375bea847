/* Temperatures of the cap for rooms from cool to hot: where to look closer, where to
 * stop. */
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/run_in.h"

/* Rooms by round degrees of the scale in which the room of the settings is given, in tenths
 * of a degree Fahrenheit: 5 to 35 degrees Celsius by 2.5, or 40 to 95 degrees Fahrenheit by 5.
 * All are finite decimals in both scales, or shown to one place. */
struct rooms {
    int coolest, hottest, step;
};

static const struct rooms by_celsius = {410, 950, 45}, by_fahrenheit = {400, 950, 50};

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

/* The room itself is no limit: to nearest. */
static void put_room(struct arena *arena, struct cell *cell, const struct decimal *room)
{
    double fahrenheit = decimal_to_double(room);
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

static void add_row(const struct table_ask *ask, struct table *table, struct decimal room,
                    bool own)
{
    struct decimal stop = run_in_stop(ask->shop, &room);
    struct decimal look = run_in_look(ask->shop, &room), rise = decimal_subtract(&stop, &room);
    struct cell *cell = table_row(table);
    cell->strong = own;
    put_room(ask->arena, cell, &room);
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

/* The room of the settings has a row of its own in its place, or stands in the row of its
 * round degree. */
static void add_rows(const struct table_ask *ask, struct table *table)
{
    const struct rooms *rooms = shop_in_fahrenheit(ask->shop) ? &by_fahrenheit : &by_celsius;
    struct decimal own = shop_room(ask->shop);
    bool placed = false;
    for (int tenths = rooms->coolest; tenths <= rooms->hottest; tenths += rooms->step) {
        struct decimal room = decimal_of(tenths, -1);
        int order = decimal_compare(&own, &room);
        if (!placed && order < 0)
            add_row(ask, table, own, true);
        placed = placed || order <= 0;
        add_row(ask, table, room, order == 0);
    }
    if (!placed)
        add_row(ask, table, own, true);
}

struct table *make_temperatures(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct table *table =
        table_new(ask->arena, "temperatures", "Temperatures of the cap while running");
    add_columns(table);
    add_rows(ask, table);
    table_note(table,
               "The manual comes first. The row in bold is for a room of %s, as in the stages. "
               "Between two rows the upper one holds: the cooler room stops sooner.",
               room_text(ask->arena, shop));
    table_note(
        table,
        "Look closer from %d\u00a0°C (%d\u00a0°F) above the room on (a bearing "
        "maker, for precision spindles). Everything is rounded down, each scale by itself.",
        RUN_IN_LOOK_CELSIUS, RUN_IN_LOOK);
    note_stop(table, shop);
    note_fingerprint(table, shop);
    return table;
}
