/* A spindle that is warmer than its headstock: end play lost in the two arrangements, and
 * what that is at the nut and in drag. */
#include "tables/common.h"
#include "tables/warmth.h"
#include "verdict/nut_way.h"
#include "verdict/warmth.h"

#include <math.h>

static const double steel = STEEL_EXPANSION, cast_iron = CAST_IRON_EXPANSION;

static const int rises[] = {1, 2, 3, 5, 10, 15, 20}; /* degrees Celsius */
enum { RISES = sizeof rises / sizeof rises[0], EXAMPLE = 10 };

struct builder {
    const struct table_ask *ask;
    struct table *table;
    struct bearing_pair back, face;
    double slope; /* N.m for a degree of the nut; NaN where not known */
};

static void add_columns(const struct builder *b)
{
    int own = b->ask->shop->spindle.arrangement;
    const char *drag = shop_drag_unit(b->ask->shop)->shown;
    table_column(b->table, COLUMN_NUMBER, "spindle warmer by", "°C");
    table_column(b->table, COLUMN_NUMBER, "spindle warmer by", "°F");
    table_column(b->table, COLUMN_NUMBER, "at first", "µm");
    table_column(b->table, COLUMN_NUMBER, "back to back", "µm")->strong = own == BACK_TO_BACK;
    table_column(b->table, COLUMN_NUMBER, "face to face", "µm")->strong = own == FACE_TO_FACE;
    table_column(b->table, COLUMN_NUMBER, "as much as the nut by", "°");
    table_column(b->table, COLUMN_NUMBER, "drag", drag);
}

/* Radial growth comes first: the span has not grown yet. */
static double lost_at_first(const struct builder *b, double rise)
{
    struct bearing_pair pair = b->back;
    pair.spread = 0;
    return growth_end_play_lost(&pair, steel, rise);
}

static double lost_in_own(const struct builder *b, double rise)
{
    int own = b->ask->shop->spindle.arrangement;
    if (own == ARRANGEMENT_UNKNOWN)
        return NAN;
    return growth_end_play_lost(own == BACK_TO_BACK ? &b->back : &b->face, steel, rise);
}

static void put_micrometres(const struct builder *b, struct cell *cell, double way)
{
    put_number(b->ask->arena, cell, 1e6 * way, show_places(1e6 * way, 1).text);
}

static void add_row(const struct builder *b, int rise)
{
    double fahrenheit = rise * 1.8, degrees = nut_degrees(b->ask->shop, lost_in_own(b, rise));
    struct cell *cell = table_row(b->table);
    put_number(b->ask->arena, cell, rise, show_places(rise, 0).text);
    put_number(b->ask->arena, cell + 1, fahrenheit, show_places(fahrenheit, 1).text);
    put_micrometres(b, cell + 2, lost_at_first(b, rise));
    put_micrometres(b, cell + 3, growth_end_play_lost(&b->back, steel, rise));
    put_micrometres(b, cell + 4, growth_end_play_lost(&b->face, steel, rise));
    put_estimate(b->ask->arena, cell + 5, degrees, 2);
    put_drag_estimate(b->ask, cell + 6, degrees * b->slope);
}

static void note_nut_wanted(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct wanted wanted[] = {
        {"spindle.arrangement", shop->spindle.arrangement != ARRANGEMENT_UNKNOWN},
        {"nut.pitch or nut.threads", nut_pitch_given(&shop->nut) > 0}};
    table_note(b->table, "Wanted for the nut: %s.", wanted_words(b->ask->arena, wanted, 2));
}

static void note_nut(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct unit *unit = shop_drag_unit(shop);
    if (isnan(nut_degrees(shop, lost_in_own(b, 1))))
        note_nut_wanted(b);
    else if (isnan(b->slope))
        table_note(b->table, "Wanted for the drag: two places of the nut in the log, taken "
                             "alike since it was last unloaded, the second one tighter and "
                             "with more drag.");
    else
        table_note(
            b->table,
            "Nut and drag for your own arrangement, once the spindle is warm through. By "
            "your log since the nut was last unloaded, the drag changes by %s\u00a0%s for a "
            "degree of the nut.",
            show_significant(unit_from_base(b->slope, unit), 2).text, unit->shown);
}

static void add_notes(const struct builder *b)
{
    double span = b->back.spread;
    double alike = growth_difference(steel, EXAMPLE, cast_iron, EXAMPLE, span);
    table_note(b->table, "Above zero: end play is lost and preload grows. Below zero: preload "
                         "is lost. At first: bearings grow across before the spindle has grown "
                         "in length.");
    table_note(b->table,
               "By geometry for steel, 12 parts in a million for a degree Celsius, the "
               "headstock at one temperature. The pitch diameters stand in for the "
               "cups, which are a little larger. An estimate, never a limit.");
    table_note(
        b->table,
        "Where spindle and a cast-iron headstock warm alike by %d\u00a0°C, the spindle "
        "still outgrows it by %s\u00a0µm over the span: this takes end play away when the "
        "bearings are face to face, and adds it back to back.",
        EXAMPLE, show_places(1e6 * alike, 1).text);
    note_nut(b);
    note_fingerprint(b->table, b->ask->shop);
}

static void note_bearings_wanted(const struct builder *b)
{
    const struct spindle *spindle = &b->ask->shop->spindle;
    const struct wanted wanted[] = {{"spindle.span", given(&spindle->span)},
                                    {"spindle.pitch-diameter", given(&spindle->pitch_diameter)},
                                    {"spindle.contact-angle", given(&spindle->contact_angle)}};
    table_note(b->table, "none: the settings do not say enough. Wanted: %s.",
               wanted_words(b->ask->arena, wanted, 3));
}

struct table *make_spindle_growth(const struct table_ask *ask)
{
    struct builder b = {.ask = ask, .slope = nut_slope(ask->shop)};
    b.table = table_new(ask->arena, "spindle-growth",
                        "What a spindle warmer than its headstock does to the end play");
    add_columns(&b);
    if (!shop_bearings(ask->shop, false, &b.back) || !shop_bearings(ask->shop, true, &b.face)) {
        put_none_row(b.table);
        note_bearings_wanted(&b);
        return b.table;
    }
    for (int i = 0; i < RISES; i++)
        add_row(&b, rises[i]);
    add_notes(&b);
    return b.table;
}
