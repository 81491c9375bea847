#include "tables/warmth.h"

#include "judge/nut.h"
#include "judge/warmth.h"
#include "judge/window.h"
#include "physics/physics.h"
#include "shop/shop.h"
#include "tables/common.h"

#include <math.h>

/* What the tables of temperatures share. */

static const struct unit *scale(const char *symbol)
{
    return unit_find_as(symbol, 4, KIND_TEMPERATURE);
}

static void put_whole(struct arena *arena, struct cell *cell, double value, int64_t whole)
{
    put_number(arena, cell, value, show_places((double)whole, 0).text);
}

/* A limit given in degrees Fahrenheit, rounded down to a whole degree of either scale. */
static void put_fahrenheit_down(struct arena *arena, struct cell *cell,
                                const struct decimal *fahrenheit)
{
    put_whole(arena, cell, decimal_to_double(fahrenheit), whole_fahrenheit(fahrenheit));
}

static void put_celsius_down(struct arena *arena, struct cell *cell,
                             const struct decimal *fahrenheit)
{
    put_whole(arena, cell, unit_from_base(decimal_to_double(fahrenheit), scale("degC")),
              whole_celsius(fahrenheit));
}

/* Where the limits of temperature come from, and how they are rounded. */
static void note_stop(struct table *table, const struct shop *shop)
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

/* An estimate to so many significant digits; "none" where it is not finite. */
static void put_estimate(struct arena *arena, struct cell *cell, double value, int digits)
{
    if (isfinite(value))
        put_number(arena, cell, value, show_significant(value, digits).text);
    else
        put_text(cell, "none");
}

/* A drag (N.m) in the shop's unit of drags, to two digits; "none" where not finite. */
static void put_drag_estimate(const struct table_ask *ask, struct cell *cell, double drag)
{
    put_estimate(ask->arena, cell, unit_from_base(drag, shop_drag_unit(ask->shop)), 2);
}

/* The only row of a table for which the settings do not say enough. */
static void put_none_row(struct table *table)
{
    struct cell *row = table_row(table);
    for (size_t i = 0; i < table->column_count; i++)
        put_text(&row[i], "none");
}

/* The keys of those that are not there, "a, b and c". */
static const char *wanted_words(struct arena *arena, const struct wanted *wanted, size_t count)
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

/* Stages of running in, at speeds that the lathe has, with the temperature at which to
 * stop. */

struct builder {
    const struct table_ask *ask;
    struct table *table;
    struct run_in_stage stages[RUN_IN_STAGES];
    size_t count;
};

static void add_columns(struct table *table)
{
    table_column(table, COLUMN_NUMBER, "stage", NULL);
    table_column(table, COLUMN_TEXT, "tenths of top speed", NULL);
    table_column(table, COLUMN_NUMBER, "speed", "r/min")->strong = true;
    table_column(table, COLUMN_NUMBER, "of top speed", "%");
    table_column(table, COLUMN_NUMBER, "at least", "min");
    table_column(table, COLUMN_NUMBER, "look closer from", "°C");
    table_column(table, COLUMN_NUMBER, "look closer from", "°F");
    table_column(table, COLUMN_NUMBER, "stop at", "°C");
    table_column(table, COLUMN_NUMBER, "stop at", "°F");
    table_column(table, COLUMN_TEXT, "done", NULL);
}

static const char *tenths_text(struct arena *arena, const struct run_in_stage *stage)
{
    return stage->first == stage->last
               ? arena_format(arena, "%d", stage->first)
               : arena_format(arena, "%d to %d", stage->first, stage->last);
}

static void add_row(const struct builder *b, size_t index)
{
    const struct table_ask *ask = b->ask;
    const struct shop *shop = ask->shop;
    const struct run_in_stage *stage = &b->stages[index];
    double speed = decimal_to_double(&stage->speed);
    double share = 100 * speed / shop->lathe.top_speed.q.base;
    struct decimal room = shop_room(shop), stop = run_in_stop(shop, &room);
    struct decimal look = run_in_look(shop, &room);
    struct cell *cell = table_row(b->table);
    put_number(ask->arena, cell++, (double)(index + 1), show_places((double)index + 1, 0).text);
    put_text(cell++, tenths_text(ask->arena, stage));
    put_number(ask->arena, cell++, speed, run_in_speed(shop, stage).text);
    put_number(ask->arena, cell++, share, show_places(share, 0).text);
    double minutes = run_in_minutes(shop, index + 1 == b->count);
    put_number(ask->arena, cell++, minutes, show_up(minutes, 0).text);
    put_celsius_down(ask->arena, cell++, &look);
    put_fahrenheit_down(ask->arena, cell++, &look);
    put_celsius_down(ask->arena, cell++, &stop);
    put_fahrenheit_down(ask->arena, cell++, &stop);
    put_text(cell, "□");
}

static void note_speeds(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const char *top = quantity_text(b->ask->arena, &shop->lathe.top_speed.q);
    if (!shop->lathe.speeds.count) {
        table_note(b->table,
                   "These are the exact tenths of the top speed of %s, since the settings give "
                   "no lathe.speeds. Take the next speed that the lathe has, never one above.",
                   top);
        return;
    }
    table_note(b->table,
               "Each tenth of the top speed of %s takes the fastest speed of the lathe that is "
               "not above it. Tenths with the same speed are one stage.",
               top);
    if (b->stages[0].first > 1)
        table_note(b->table,
                   "The slowest speed is above the first tenth: begin with short spells, and "
                   "let the spindle stand between them (our rule).");
}

/* What note_times() says. */
_Static_assert(RUN_IN_STAGE == 10 * 60 && RUN_IN_TOP == 20 * 60, "ten minutes, and twenty");

static void note_times(const struct builder *b)
{
    const struct run_in *run_in = &b->ask->shop->run_in;
    bool both = given(&run_in->stage_time) && given(&run_in->top_time);
    table_note(b->table,
               "At least: %s. Go on only when the cap has changed by less than 1\u00a0°C "
               "(1.8\u00a0°F) in ten minutes (practice).",
               both ? "as the settings say"
                    : "where the settings give no time, the ten minutes over which the cap is "
                      "watched, and twice that at the last stage (our rule)");
}

struct table *make_run_in(const struct table_ask *ask)
{
    struct builder b = {.ask = ask};
    b.count = run_in_stages(ask->shop, b.stages);
    b.table = table_new(ask->arena, "run-in", "Stages of running in");
    add_columns(b.table);
    for (size_t i = 0; i < b.count; i++)
        add_row(&b, i);
    table_note(b.table, "The manual comes first: where it gives speeds, times or temperatures, "
                        "those hold.");
    note_speeds(&b);
    note_times(&b);
    note_stop(b.table, ask->shop);
    table_note(b.table,
               "The room is taken at %s. For another room, see the table of temperatures.",
               room_text(ask->arena, ask->shop));
    note_fingerprint(b.table, ask->shop);
    return b.table;
}

/* Temperatures of the cap for rooms from cool to hot: where to look closer, where to
 * stop. */

/* Rooms by round degrees of the scale in which the room of the settings is given, in tenths
 * of a degree Fahrenheit: 5 to 35 degrees Celsius by 2.5, or 40 to 95 degrees Fahrenheit by 5.
 * All are finite decimals in both scales, or shown to one place. */
struct rooms {
    int coolest, hottest, step;
};

static const struct rooms by_celsius = {410, 950, 45}, by_fahrenheit = {400, 950, 50};

static void temperatures_add_columns(struct table *table)
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

static void temperatures_add_row(const struct table_ask *ask, struct table *table,
                                 struct decimal room, bool own)
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
            temperatures_add_row(ask, table, own, true);
        placed = placed || order <= 0;
        temperatures_add_row(ask, table, room, order == 0);
    }
    if (!placed)
        temperatures_add_row(ask, table, own, true);
}

struct table *make_temperatures(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct table *table =
        table_new(ask->arena, "temperatures", "Temperatures of the cap while running");
    temperatures_add_columns(table);
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

/* The oil from a cold morning to a hot cap: how thick it is, and what churning it may take.
 * An estimate, never a limit. */

/* Degrees Celsius. */
enum { COLDEST = 5, HOTTEST = 65, STEP = 5 };

/* A pull by hand: one turn in five seconds. */
static const double hand = 12; /* r/min */

static void oil_warmth_add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_NUMBER, "oil at", "°C");
    table_column(table, COLUMN_NUMBER, "oil at", "°F");
    table_column(table, COLUMN_NUMBER, "viscosity", "mm²/s");
    table_column(table, COLUMN_NUMBER, "churning by hand", drag);
    table_column(table, COLUMN_NUMBER, "churning at top speed", drag);
}

static void oil_warmth_add_row(const struct table_ask *ask, struct table *table,
                               const struct oil *oil, int celsius)
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
    oil_warmth_add_columns(ask, table);
    if (!shop_oil(ask->shop, &oil)) {
        put_none_row(table);
        table_note(table, "none: the settings do not say enough. Wanted: oil.grade, or "
                          "oil.first-viscosity and oil.second-viscosity.");
        return table;
    }
    for (int celsius = COLDEST; celsius <= HOTTEST; celsius += STEP)
        oil_warmth_add_row(ask, table, &oil, celsius);
    note_oil(table, ask->shop);
    note_churning(table, ask->shop);
    note_fingerprint(table, ask->shop);
    return table;
}

/* A spindle that is warmer than its headstock: end play lost in the two arrangements, and
 * what that is at the nut and in drag. */

static const double steel = STEEL_EXPANSION, cast_iron = CAST_IRON_EXPANSION;

static const int rises[] = {1, 2, 3, 5, 10, 15, 20}; /* degrees Celsius */

enum { RISES = sizeof rises / sizeof rises[0], EXAMPLE = 10 };

struct spindle_growth_builder {
    const struct table_ask *ask;
    struct table *table;
    struct bearing_pair back, face;
    double slope; /* N.m for a degree of the nut; NaN where not known */
};

static void spindle_growth_add_columns(const struct spindle_growth_builder *b)
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
static double lost_at_first(const struct spindle_growth_builder *b, double rise)
{
    struct bearing_pair pair = b->back;
    pair.spread = 0;
    return growth_end_play_lost(&pair, steel, rise);
}

static double lost_in_own(const struct spindle_growth_builder *b, double rise)
{
    int own = b->ask->shop->spindle.arrangement;
    if (own == ARRANGEMENT_UNKNOWN)
        return NAN;
    return growth_end_play_lost(own == BACK_TO_BACK ? &b->back : &b->face, steel, rise);
}

static void put_micrometres(const struct spindle_growth_builder *b, struct cell *cell,
                            double way)
{
    put_number(b->ask->arena, cell, 1e6 * way, show_places(1e6 * way, 1).text);
}

static void spindle_growth_add_row(const struct spindle_growth_builder *b, int rise)
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

static void note_nut_wanted(const struct spindle_growth_builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct wanted wanted[] = {
        {"spindle.arrangement", shop->spindle.arrangement != ARRANGEMENT_UNKNOWN},
        {"nut.pitch or nut.threads", nut_pitch_given(&shop->nut) > 0}};
    table_note(b->table, "Wanted for the nut: %s.", wanted_words(b->ask->arena, wanted, 2));
}

static void note_nut(const struct spindle_growth_builder *b)
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

static void add_notes(const struct spindle_growth_builder *b)
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

static void note_bearings_wanted(const struct spindle_growth_builder *b)
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
    struct spindle_growth_builder b = {.ask = ask, .slope = nut_slope(ask->shop)};
    b.table = table_new(ask->arena, "spindle-growth",
                        "What a spindle warmer than its headstock does to the end play");
    spindle_growth_add_columns(&b);
    if (!shop_bearings(ask->shop, false, &b.back) || !shop_bearings(ask->shop, true, &b.face)) {
        put_none_row(b.table);
        note_bearings_wanted(&b);
        return b.table;
    }
    for (int i = 0; i < RISES; i++)
        spindle_growth_add_row(&b, rises[i]);
    add_notes(&b);
    return b.table;
}

/* Where no limit is on file: the order of magnitude of a drag, by Palmgren's model. An
 * estimate, and never a limit. */

static const int preloads[] = {50, 100, 200, 500, 1000, 2000, 5000}; /* N */

enum { PRELOADS = sizeof preloads / sizeof preloads[0] };

static const double drag_estimate_hand = 12; /* r/min: a turn in five seconds */

static const double apart = 3; /* the estimate may be wrong so many times either way */

/* So thin that the model's branch for slow speeds holds: the one for every oil. */
static const double any_oil = 32; /* mm2/s */

static void drag_estimate_add_columns(const struct table_ask *ask, struct table *table)
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
    return churning_drag(shop, viscosity, drag_estimate_hand);
}

static void drag_estimate_add_row(const struct table_ask *ask, struct table *table, int preload)
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

static void drag_estimate_add_notes(struct table *table, const struct shop *shop)
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
    drag_estimate_add_columns(ask, table);
    if (isnan(preload_drag(ask->shop, 1))) {
        put_none_row(table);
        note_wanted(table, &ask->shop->spindle);
        return table;
    }
    for (int i = 0; i < PRELOADS; i++)
        drag_estimate_add_row(ask, table, preloads[i]);
    drag_estimate_add_notes(table, ask->shop);
    return table;
}
