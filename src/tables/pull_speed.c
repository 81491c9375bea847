/* How fast to pull: whole turns in so many seconds, and the speed of the cord. */
#include "drag/inch.h"
#include "drag/turning.h"
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/radius.h"

/* Seconds for one whole turn. */
static const int turns[] = {15, 12, 10, 8, 6, 5, 4, 3, 2, 1};

enum { TURNS = sizeof turns / sizeof turns[0], USUAL = 5 };

static bool in_inches(const struct table_ask *ask)
{
    return ask->shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
}

static void put_digits(const struct table_ask *ask, struct cell *cell, double value, int digits)
{
    put_number(ask->arena, cell, value, show_significant(value, digits).text);
}

/* The system of the drum comes first. */
static void add_row(const struct table_ask *ask, struct table *table, int seconds)
{
    const struct shop *shop = ask->shop;
    double speed = turning_speed(seconds);
    double radius = shop_radius(shop);
    double cord = turning_cord_speed(radius, speed);
    bool inches = in_inches(ask);
    struct cell *row = table_row(table);
    row->strong = seconds == USUAL;
    put_number(ask->arena, row, seconds, show_places(seconds, 0).text);
    put_number(ask->arena, row + 1, speed, show_places(speed, 1).text);
    put_digits(ask, row + 2 + inches, 1000 * cord, 3);
    put_digits(ask, row + 2 + !inches, cord / INCH, 3);
}

/* What one turn pays out: to mark on the bed, or along a rule. */
static void note_turn(struct table *table, const struct shop *shop)
{
    double radius = shop_radius(shop);
    double turn = turning_cord_speed(radius, turning_speed(1));
    double pull = 1.5 * turn; /* half to start, a whole one to read */
    table_note(table,
               "One whole turn pays out %s\u00a0mm (%s\u00a0in) of cord; a pull of one and a "
               "half turns %s\u00a0mm (%s\u00a0in).",
               show_places(1000 * turn, 1).text, show_places(turn / INCH, 2).text,
               show_places(1000 * pull, 0).text, show_places(pull / INCH, 1).text);
}

struct table *make_pull_speed(const struct table_ask *ask)
{
    bool inches = in_inches(ask);
    struct table *table =
        table_new(ask->arena, "pull-speed",
                  arena_format(ask->arena, "How fast the cord runs, %s",
                               drum_text(ask->arena, &ask->shop->drum.diameter.q)));
    table_column(table, COLUMN_NUMBER, "one turn in", "s");
    table_column(table, COLUMN_NUMBER, "spindle", "r/min");
    table_column(table, COLUMN_NUMBER, "cord", inches ? "in/s" : "mm/s");
    table_column(table, COLUMN_NUMBER, "cord", inches ? "mm/s" : "in/s");
    for (int i = 0; i < TURNS; i++)
        add_row(ask, table, turns[i]);
    table_note(table, "The heavy row is our rule. A speed that the manual gives comes first.");
    note_turn(table, ask->shop);
    note_rig(table, ask->shop);
    note_fingerprint(table, ask->shop);
    return table;
}
