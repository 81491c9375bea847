/* How fast to pull: whole turns in so many seconds, and the speed of the cord. */
#include "judge/window.h"
#include "physics/physics.h"
#include "tables/common.h"
#include "tables/warmth.h"

#include <math.h>

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

/* What a chuck that was left on costs: the pull that goes into speeding it up, beside the
 * window. */

/* From memory: carbon steel. Cast iron is a tenth lighter. */
static const double steel = 7850; /* kg/m3 */

/* Examples of ours, as solid cylinders: diameter and length in mm, or in 1/8 in. */
struct body {
    const char *name, *size;
    double diameter, length;
};

static const struct body metric[] = {{"spindle", "60\u00a0×\u00a0500\u00a0mm", 60, 500},
                                     {"large gear", "200\u00a0×\u00a025\u00a0mm", 200, 25},
                                     {"chuck", "125\u00a0×\u00a055\u00a0mm", 125, 55},
                                     {"chuck", "160\u00a0×\u00a065\u00a0mm", 160, 65},
                                     {"chuck", "200\u00a0×\u00a080\u00a0mm", 200, 80},
                                     {"faceplate", "250\u00a0×\u00a020\u00a0mm", 250, 20}};

static const struct body inch[] = {{"spindle", "2\u00a01/2\u00a0×\u00a020\u00a0in", 20, 160},
                                   {"large gear", "8\u00a0×\u00a01\u00a0in", 64, 8},
                                   {"chuck", "5\u00a0×\u00a02\u00a01/4\u00a0in", 40, 18},
                                   {"chuck", "6\u00a0×\u00a02\u00a01/2\u00a0in", 48, 20},
                                   {"chuck", "8\u00a0×\u00a03\u00a01/4\u00a0in", 64, 26},
                                   {"faceplate", "10\u00a0×\u00a03/4\u00a0in", 80, 6}};

enum { BODIES = sizeof metric / sizeof metric[0] };

/* Speeding up from rest to the usual turn in 5 s, and by a tenth of it; in r/min. */
static const double start = 12, uneven = 1.2, within = 1; /* s */

struct builder {
    const struct table_ask *ask;
    struct table *table;
    double radius;
    double span; /* of the window, N.m; NaN without limits, or where they are one */
    int places;  /* of a pull */
};

static void add_columns(const struct builder *b)
{
    const char *pull = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "left on", NULL);
    table_column(b->table, COLUMN_NUMBER, "mass", "kg");
    table_column(b->table, COLUMN_NUMBER, "inertia", "kg·m²");
    table_column(b->table, COLUMN_NUMBER, "extra at start", pull);
    table_column(b->table, COLUMN_NUMBER, "of window, start", "%");
    table_column(b->table, COLUMN_NUMBER, "extra when uneven", pull);
    table_column(b->table, COLUMN_NUMBER, "of window, uneven", "%");
}

static void put_share(const struct builder *b, struct cell *cell, double drag)
{
    double share = 100 * drag / b->span;
    if (isfinite(share))
        put_number(b->ask->arena, cell, share, show_up(share, 1).text);
    else
        put_text(cell, "none");
}

/* The pull that a change of speed takes, and its share of the window. */
static void put_change(const struct builder *b, struct cell *cell, double inertia,
                       double change)
{
    double drag = turning_drag_of_change(inertia, change, within);
    double pull =
        unit_from_base(drag_to_pull(drag, b->radius), b->ask->shop->gauge.step.q.unit);
    put_number(b->ask->arena, cell, pull, show_up(pull, b->places).text);
    put_share(b, cell + 1, drag);
}

static void chuck_left_on_add_row(const struct builder *b, const struct body *body, double unit)
{
    struct arena *arena = b->ask->arena;
    double diameter = body->diameter * unit, length = body->length * unit;
    double mass = turning_mass(steel, diameter, length);
    double inertia = turning_inertia(steel, diameter, length);
    struct cell *cell = table_row(b->table);
    put_text(cell, arena_format(arena, "%s, %s", body->name, body->size));
    put_number(arena, cell + 1, mass, show_places(mass, 1).text);
    put_number(arena, cell + 2, inertia, show_places(inertia, 3).text);
    put_change(b, cell + 3, inertia, start);
    put_change(b, cell + 5, inertia, uneven);
}

static void add_notes(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    table_note(b->table, "The sizes are examples of ours, worked out as solid steel cylinders "
                         "of 7850\u00a0kg/m³ (from memory). A real chuck is hollow, and has "
                         "somewhat less.");
    table_note(b->table,
               "Starting: from rest to a turn in five seconds, within one second. Uneven: a "
               "tenth of that speed more within one second. So much the gauge shows too much; "
               "as much too little while slowing down. Rounded up.");
    table_note(b->table,
               "Of the window: of the whole way from the low to the high pull of your "
               "band. none: there is no window, or no way between its limits.");
    note_inputs(b->table, shop, true);
}

/* One place more than the gauge's step. */
static int pull_places(const struct shop *shop)
{
    return decimal_places(&shop->gauge.step.q.typed) + 1;
}

struct table *make_chuck_left_on(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    const struct band *own = shop_own_band(shop);
    bool inches = shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
    struct builder b = {.ask = ask, .places = pull_places(shop)};
    b.radius = shop_radius(shop);
    b.span = own ? own->high.q.base - own->low.q.base : NAN;
    b.table = table_new(ask->arena, "chuck-left-on",
                        "Extra pull needed to speed up what was left on the spindle");
    add_columns(&b);
    for (int i = 0; i < BODIES; i++)
        chuck_left_on_add_row(&b, inches ? &inch[i] : &metric[i], inches ? INCH / 8 : 0.001);
    add_notes(&b);
    return b.table;
}
