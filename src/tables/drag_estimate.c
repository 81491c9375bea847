/* Where no limit is on file: the order of magnitude of a drag, by Palmgren's model. An
 * estimate, and never a limit. */
#include "drag/drag.h"
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/radius.h"
#include "verdict/warmth.h"

#include <math.h>

static const int preloads[] = {50, 100, 200, 500, 1000, 2000, 5000}; /* N */
enum { PRELOADS = sizeof preloads / sizeof preloads[0] };

static const double hand = 12; /* r/min: a turn in five seconds */
static const double apart = 3; /* the estimate may be wrong so many times either way */

/* So thin that the model's branch for slow speeds holds: the one for every oil. */
static const double any_oil = 32; /* mm2/s */

static void add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_NUMBER, "axial preload", "N");
    table_column(table, COLUMN_NUMBER, "axial preload", "lbf");
    table_column(table, COLUMN_NUMBER, "of the load", drag);
    table_column(table, COLUMN_NUMBER, "of the oil", drag);
    table_column(table, COLUMN_NUMBER, "perhaps from", drag);
    table_column(table, COLUMN_NUMBER, "perhaps to", drag);
    table_column(table, COLUMN_NUMBER, "pull, middle", ask->shop->gauge.step.q.unit->shown);
}

/* Churning in the oil of the settings at room temperature, by hand. */
static double oil_part(const struct shop *shop)
{
    struct oil oil;
    struct decimal room = shop_room(shop);
    double celsius =
        unit_from_base(decimal_to_double(&room), unit_find_as("degC", 4, KIND_TEMPERATURE));
    double viscosity = shop_oil(shop, &oil) ? oil_viscosity(oil, celsius) : any_oil;
    return churning_drag(shop, viscosity, hand);
}

static void add_row(const struct table_ask *ask, struct table *table, int preload)
{
    const struct shop *shop = ask->shop;
    double load = preload_drag(shop, preload), oil = oil_part(shop), both = load + oil;
    double radius = shop_radius(shop);
    double pounds = unit_from_base(preload, unit_find("lbf", 3));
    struct cell *cell = table_row(table);
    put_number(ask->arena, cell, preload, show_places(preload, 0).text);
    put_estimate(ask->arena, cell + 1, pounds, 2);
    put_drag_estimate(ask, cell + 2, load);
    put_drag_estimate(ask, cell + 3, oil);
    put_drag_estimate(ask, cell + 4, both / apart);
    put_drag_estimate(ask, cell + 5, both * apart);
    put_estimate(ask->arena, cell + 6,
                 unit_from_base(drag_to_pull(both, radius), shop->gauge.step.q.unit), 2);
}

static void add_notes(struct table *table, const struct shop *shop)
{
    struct oil oil;
    table_note(
        table,
        "AN ESTIMATE OF THE ORDER OF SIZE, NEVER A LIMIT. Set no nut by it. It says only "
        "whether a drag you measured is of a kind that two bearings can have.");
    table_note(table,
               "Palmgren's model from memory, for a turn in five seconds: f1 = 0.0004, "
               "P1 = 2\u00a0Y\u00a0Fa and f0 = 6 for tapered rollers, front and rear added "
               "up. It was made for running speeds. Perhaps from a third to three times "
               "it (our rule). Seals, gears and a dry rib are not in it.");
    table_note(table, shop_oil(shop, &oil)
                          ? "The oil's part is for the oil of the settings in the room's "
                            "temperature."
                          : "The oil's part is the model's figure for slow turning, the same "
                            "for every oil: the settings name none.");
    note_rig(table, shop);
    note_fingerprint(table, shop);
}

static void note_wanted(struct table *table, const struct spindle *spindle)
{
    const struct wanted wanted[] = {{"spindle.pitch-diameter", given(&spindle->pitch_diameter)},
                                    {"spindle.contact-angle", given(&spindle->contact_angle)}};
    table_note(table,
               "none: the settings do not say enough. Wanted: %s. It would be an estimate, "
               "never a limit.",
               wanted_words(table->arena, wanted, 2));
}

struct table *make_drag_estimate(const struct table_ask *ask)
{
    struct table *table =
        table_new(ask->arena, "drag-estimate", "Estimate, not a limit: drag against preload");
    add_columns(ask, table);
    if (isnan(preload_drag(ask->shop, 1))) {
        put_none_row(table);
        note_wanted(table, &ask->shop->spindle);
        return table;
    }
    for (int i = 0; i < PRELOADS; i++)
        add_row(ask, table, preloads[i]);
    add_notes(table, ask->shop);
    return table;
}
