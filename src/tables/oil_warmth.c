/* The oil from a cold morning to a hot cap: how thick it is, and what churning it may take.
 * An estimate, never a limit. */
#include "shop/oil_grade.h"
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/warmth.h"

#include <math.h>

/* Degrees Celsius. */
enum { COLDEST = 5, HOTTEST = 65, STEP = 5 };

/* A pull by hand: one turn in five seconds. */
static const double hand = 12; /* r/min */

static void add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_NUMBER, "oil at", "°C");
    table_column(table, COLUMN_NUMBER, "oil at", "°F");
    table_column(table, COLUMN_NUMBER, "viscosity", "mm²/s");
    table_column(table, COLUMN_NUMBER, "churning by hand", drag);
    table_column(table, COLUMN_NUMBER, "churning at top speed", drag);
}

static void add_row(const struct table_ask *ask, struct table *table, const struct oil *oil,
                    int celsius)
{
    const struct shop *shop = ask->shop;
    double viscosity = oil_viscosity(*oil, celsius), fahrenheit = celsius * 1.8 + 32;
    struct cell *cell = table_row(table);
    put_number(ask->arena, cell, celsius, show_places(celsius, 0).text);
    put_number(ask->arena, cell + 1, fahrenheit, show_places(fahrenheit, 0).text);
    put_estimate(ask->arena, cell + 2, viscosity, 2);
    put_drag_estimate(ask, cell + 3, churning_drag(shop, viscosity, hand));
    put_drag_estimate(ask, cell + 4,
                      churning_drag(shop, viscosity, shop->lathe.top_speed.q.base));
}

static void note_oil(struct table *table, const struct shop *shop)
{
    if (shop->oil.grade)
        table_note(
            table,
            "Oil of grade ISO VG %.0f, taken in the middle of its grade and for a plain "
            "mineral oil of viscosity index %.0f (practice; ASTM D2270 from memory). Two "
            "viscosities of the data sheet are better.",
            oil_grade_viscosity(shop->oil.grade), OIL_INDEX);
    else
        table_note(table, "Viscosity through the two points of the settings.");
    table_note(table, "Between the points by ASTM D341, which holds above 2\u00a0mm²/s. none: "
                      "below that, or the settings do not say enough.");
}

static void note_churning(struct table *table, const struct shop *shop)
{
    if (isnan(shop_pitch_diameters(shop).front)) {
        table_note(table, "Wanted for the churning drag: spindle.pitch-diameter.");
        return;
    }
    table_note(table,
               "Churning drag of both bearings by Palmgren's model for tapered rollers in "
               "an oil bath or grease, f0 = 6 (from memory). It may be wrong by two or "
               "three times either way: it shows the way drag goes, and is never a limit.");
    table_note(table, "By hand: a turn in five seconds. Where viscosity times speed is below "
                      "2000\u00a0mm²/s·r/min the model gives one figure for every oil: "
                      "it was made for running speeds, and knows no more down there.");
}

struct table *make_oil_warmth(const struct table_ask *ask)
{
    struct oil oil;
    struct table *table = table_new(ask->arena, "oil-warmth", "What warmth does to the oil");
    add_columns(ask, table);
    if (!shop_oil(ask->shop, &oil)) {
        put_none_row(table);
        table_note(table, "none: the settings do not say enough. Wanted: oil.grade, or "
                          "oil.first-viscosity and oil.second-viscosity.");
        return table;
    }
    for (int celsius = COLDEST; celsius <= HOTTEST; celsius += STEP)
        add_row(ask, table, &oil, celsius);
    note_oil(table, ask->shop);
    note_churning(table, ask->shop);
    note_fingerprint(table, ask->shop);
    return table;
}
