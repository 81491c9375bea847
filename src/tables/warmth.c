/* Warmth: running in and where to stop, and what it may do to the oil, to the play of the
 * bearings and to the drag. */
#include "judge/warmth.h"
#include "judge/nut.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>

static double celsius_of(const struct decimal *fahrenheit, enum kind kind)
{
    return unit_from_base(decimal_to_double(fahrenheit), unit_find_as("degC", 4, kind));
}

/* A limit of temperature given in degrees Fahrenheit, rounded down to a whole degree of either
 * scale. */
static void put_limits(struct builder *b, const char *head, const struct decimal *limit,
                       bool strong)
{
    put_number(b, head, "°C", celsius_of(limit, KIND_TEMPERATURE),
               show_places((double)whole_celsius(limit), 0).text)
        ->strong = strong;
    put_number(b, head, "°F", decimal_to_double(limit),
               show_places((double)whole_fahrenheit(limit), 0).text)
        ->strong = strong;
}

/* Where the limits of temperature come from, and how they are rounded. */
static void note_stop(const struct builder *b)
{
    const struct run_in *run_in = &b->shop->run_in;
    table_note(b->table,
               "Stop at the lesser of two, rounded down: %s (%s), or %s (%s) above the "
               "room.",
               quantity_text(b->arena, &run_in->stop.q),
               is_typed(&run_in->stop.at) ? "settings" : "practice",
               quantity_text(b->arena, &run_in->rise.q),
               is_typed(&run_in->rise.at) ? "settings"
                                          : "a bearing maker, for precision spindles");
}

/* An estimate of a drag (N.m), to two digits. */
static void put_drag(struct builder *b, const char *head, double drag)
{
    const struct unit *unit = shop_drag_unit(b->shop);
    put_significant(b, head, unit->shown, unit_from_base(drag, unit), 2);
}

/* A setting that a table needs. */
struct wanted {
    const char *key;
    bool is_there;
};

/* The keys of those that are not there, "a, b and c". */
static const char *wanted_words(const struct builder *b, const struct wanted *wanted,
                                size_t count)
{
    static const char *const joints[] = {"", " and ", ", "}; /* by how many keys follow */
    const char *words = "";
    for (size_t i = count, found = 0; i > 0; i--)
        if (!wanted[i - 1].is_there) {
            words = arena_format(b->arena, "%s%s%s", wanted[i - 1].key, joints[found], words);
            found += found < 2;
        }
    return words;
}

/* ---- stages of running in, at speeds that the lathe has, with the temperature at which to
 * stop ---- */

static void add_stage(struct builder *b, const struct run_in_stage *stage, size_t number,
                      bool last)
{
    const struct shop *shop = b->shop;
    double speed = decimal_to_double(&stage->speed);
    struct decimal room = shop->run_in.room.q.exact;
    struct decimal look = run_in_look(shop, &room), stop = run_in_stop(shop, &room);
    next_row(b);
    put_places(b, "stage", NULL, (double)number, 0);
    put_text(b, "tenths of top speed",
             stage->first == stage->last
                 ? arena_format(b->arena, "%d", stage->first)
                 : arena_format(b->arena, "%d to %d", stage->first, stage->last));
    put_number(b, "speed", "r/min", speed, run_in_speed(shop, stage).text)->strong = true;
    put_places(b, "of top speed", "%", 100 * speed / shop->lathe.top_speed.q.base, 0);
    put_up(b, "at least", "min", run_in_minutes(shop, last), 0);
    put_limits(b, "look closer from", &look, false);
    put_limits(b, "stop at", &stop, false);
    put_text(b, "done", "□");
}

static void note_speeds(const struct builder *b, bool slowest_is_fast)
{
    const char *top = quantity_text(b->arena, &b->shop->lathe.top_speed.q);
    if (!b->shop->lathe.speeds.count) {
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
    if (slowest_is_fast)
        table_note(b->table,
                   "The slowest speed is above the first tenth: begin with short spells, and "
                   "let the spindle stand between them (our rule).");
}

void make_run_in(struct builder *b)
{
    const struct run_in *run_in = &b->shop->run_in;
    bool both = is_typed(&run_in->stage_time.at) && is_typed(&run_in->top_time.at);
    struct run_in_stage stages[RUN_IN_STAGES];
    size_t count = run_in_stages(b->shop, stages);
    for (size_t i = 0; i < count; i++)
        add_stage(b, &stages[i], i + 1, i + 1 == count);
    table_note(b->table,
               "The manual comes first: where it gives speeds, times or temperatures, "
               "those hold.");
    note_speeds(b, stages[0].first > 1);
    table_note(b->table,
               "At least: %s. Go on only when the cap has changed by less than 1\u00a0°C "
               "(1.8\u00a0°F) in ten minutes (practice).",
               both ? "as the settings say"
                    : "where the settings give no time, the ten minutes over which the cap is "
                      "watched, and twice that at the last stage (our rule)");
    note_stop(b);
    table_note(b->table,
               "The room is taken at %s. For another room, see the table of temperatures.",
               quantity_text(b->arena, &b->shop->run_in.room.q));
    note_fingerprint(b);
}

/* ---- temperatures of the cap for rooms from cool to hot: where to look closer, where to
 * stop ---- */

/* Rooms by round degrees of the scale in which the room of the settings is given, in tenths
 * of a degree Fahrenheit: 5 to 35 degrees Celsius by 2.5, or 40 to 95 degrees Fahrenheit by 5.
 * All are finite decimals in both scales, or shown to one place. */
struct rooms {
    int coolest, hottest, step;
};

static const struct rooms by_celsius = {410, 950, 45}, by_fahrenheit = {400, 950, 50};

/* The room itself is no limit: to nearest. */
static void add_room(struct builder *b, struct decimal room, bool own)
{
    struct decimal look = run_in_look(b->shop, &room), stop = run_in_stop(b->shop, &room);
    struct decimal rise = decimal_subtract(&stop, &room);
    next_row(b);
    put_places(b, "room", "°C", celsius_of(&room, KIND_TEMPERATURE), 1);
    bold_head(b, own);
    put_places(b, "room", "°F", decimal_to_double(&room), 1);
    b->none = rise.negative || rise.limbs == 0;
    put_limits(b, "look closer from", &look, false);
    put_limits(b, "stop at", &stop, true);
    put_number(b, "most rise", "°C", celsius_of(&rise, KIND_RISE),
               show_places((double)whole_celsius_of_rise(&rise), 0).text);
    put_number(b, "most rise", "°F", decimal_to_double(&rise),
               show_places((double)whole_fahrenheit(&rise), 0).text);
    b->none = false;
}

/* The room of the settings has a row of its own in its place, or stands in the row of its
 * round degree. */
static void add_rooms(struct builder *b)
{
    const struct rooms *rooms = shop_in_fahrenheit(b->shop) ? &by_fahrenheit : &by_celsius;
    struct decimal own = b->shop->run_in.room.q.exact;
    bool placed = false;
    for (int tenths = rooms->coolest; tenths <= rooms->hottest; tenths += rooms->step) {
        struct decimal room = decimal_of(tenths, -1);
        int order = decimal_compare(&own, &room);
        if (!placed && order < 0)
            add_room(b, own, true);
        placed = placed || order <= 0;
        add_room(b, room, order == 0);
    }
    if (!placed)
        add_room(b, own, true);
}

void make_temperatures(struct builder *b)
{
    add_rooms(b);
    table_note(b->table,
               "The manual comes first. The row in bold is for a room of %s, as in the stages. "
               "Between two rows the upper one holds: the cooler room stops sooner.",
               quantity_text(b->arena, &b->shop->run_in.room.q));
    table_note(
        b->table,
        "Look closer from %d\u00a0°C (%d\u00a0°F) above the room on (a bearing "
        "maker, for precision spindles). Everything is rounded down, each scale by itself.",
        RUN_IN_LOOK_CELSIUS, RUN_IN_LOOK);
    note_stop(b);
    note_fingerprint(b);
}

/* ---- the oil from a cold morning to a hot cap: how thick it is, and what churning it may
 * take; an estimate, never a limit ---- */

/* Degrees Celsius. */
enum { COLDEST = 5, HOTTEST = 65, STEP = 5 };

/* A pull by hand: one turn in five seconds. */
static const double by_hand = 12; /* r/min */

static void add_oil(struct builder *b, const struct oil *oil, int celsius)
{
    double viscosity = b->none ? NAN : oil_viscosity(*oil, celsius);
    double top_speed = b->shop->lathe.top_speed.q.base;
    next_row(b);
    put_places(b, "oil at", "°C", celsius, 0);
    put_places(b, "oil at", "°F", celsius * 1.8 + 32, 0);
    put_significant(b, "viscosity", "mm²/s", viscosity, 2);
    put_drag(b, "churning by hand", churning_drag(b->shop, viscosity, by_hand));
    put_drag(b, "churning at top speed", churning_drag(b->shop, viscosity, top_speed));
}

static void note_oil(const struct builder *b)
{
    if (b->shop->oil.grade)
        table_note(
            b->table,
            "Oil of grade ISO VG %.0f, taken in the middle of its grade and for a plain "
            "mineral oil of viscosity index %.0f (practice; ASTM D2270 from memory). Two "
            "viscosities of the data sheet are better.",
            oil_grade_viscosity(b->shop->oil.grade), OIL_INDEX);
    else
        table_note(b->table, "Viscosity through the two points of the settings.");
    table_note(b->table, "Between the points by ASTM D341, which holds above 2\u00a0mm²/s. "
                         "none: below that, or the settings do not say enough.");
}

static void note_churning(const struct builder *b)
{
    if (isnan(shop_pitch_diameters(b->shop).front)) {
        table_note(b->table, "Wanted for the churning drag: spindle.pitch-diameter.");
        return;
    }
    table_note(b->table,
               "Churning drag of both bearings by Palmgren's model for tapered rollers in "
               "an oil bath or grease, f0 = 6 (from memory). It may be wrong by two or "
               "three times either way: it shows the way drag goes, and is never a limit.");
    table_note(b->table,
               "By hand: a turn in five seconds. Where viscosity times speed is below "
               "2000\u00a0mm²/s·r/min the model gives one figure for every oil: "
               "it was made for running speeds, and knows no more down there.");
}

void make_oil_warmth(struct builder *b)
{
    struct oil oil;
    b->none = !shop_oil(b->shop, &oil);
    if (b->none) {
        add_oil(b, NULL, COLDEST);
        table_note(b->table, "none: the settings do not say enough. Wanted: oil.grade, or "
                             "oil.first-viscosity and oil.second-viscosity.");
        return;
    }
    for (int celsius = COLDEST; celsius <= HOTTEST; celsius += STEP)
        add_oil(b, &oil, celsius);
    note_oil(b);
    note_churning(b);
    note_fingerprint(b);
}

/* ---- a spindle that is warmer than its headstock: end play lost in the two arrangements, and
 * what that is at the nut and in drag ---- */

static const double steel = STEEL_EXPANSION, cast_iron = CAST_IRON_EXPANSION;

struct growth {
    struct bearing_pair back, face;
    double slope; /* N.m for a degree of the nut; NaN where not known */
};

/* How far the nut would be turned for the end play that a rise takes from the shop's own
 * arrangement, degrees; NaN where that or the thread is not known. */
static double nut_turn(const struct shop *shop, const struct growth *growth, double rise)
{
    int own = shop->spindle.arrangement;
    if (own == ARRANGEMENT_UNKNOWN)
        return NAN;
    const struct bearing_pair *pair = own == BACK_TO_BACK ? &growth->back : &growth->face;
    return nut_degrees(shop, growth_end_play_lost(pair, steel, rise));
}

static struct column *put_micrometres(struct builder *b, const char *head, double way)
{
    return put_places(b, head, "µm", 1e6 * way, 1);
}

static void add_rise(struct builder *b, const struct growth *growth, int rise)
{
    int own = b->shop->spindle.arrangement;
    double degrees = nut_turn(b->shop, growth, rise);
    struct bearing_pair at_first = growth->back;
    at_first.spread = 0; /* bearings grow across before the span has grown */
    next_row(b);
    put_places(b, "spindle warmer by", "°C", rise, 0);
    put_places(b, "spindle warmer by", "°F", rise * 1.8, 1);
    put_micrometres(b, "at first", growth_end_play_lost(&at_first, steel, rise));
    put_micrometres(b, "back to back", growth_end_play_lost(&growth->back, steel, rise))
        ->strong = own == BACK_TO_BACK;
    put_micrometres(b, "face to face", growth_end_play_lost(&growth->face, steel, rise))
        ->strong = own == FACE_TO_FACE;
    put_significant(b, "as much as the nut by", "°", degrees, 2);
    put_drag(b, "drag", degrees * growth->slope);
}

static void note_nut(const struct builder *b, const struct growth *growth)
{
    const struct shop *shop = b->shop;
    const struct unit *unit = shop_drag_unit(shop);
    const struct wanted wanted[] = {
        {"spindle.arrangement", shop->spindle.arrangement != ARRANGEMENT_UNKNOWN},
        {"nut.pitch or nut.threads", nut_pitch_given(&shop->nut) > 0}};
    if (isnan(nut_turn(shop, growth, 1)))
        table_note(b->table, "Wanted for the nut: %s.", wanted_words(b, wanted, 2));
    else if (isnan(growth->slope))
        table_note(b->table, "Wanted for the drag: two places of the nut in the log, taken "
                             "alike since it was last unloaded, the second one tighter and "
                             "with more drag.");
    else
        table_note(
            b->table,
            "Nut and drag for your own arrangement, once the spindle is warm through. By "
            "your log since the nut was last unloaded, the drag changes by %s\u00a0%s for a "
            "degree of the nut.",
            show_significant(unit_from_base(growth->slope, unit), 2).text, unit->shown);
}

void make_spindle_growth(struct builder *b)
{
    static const int rises[] = {1, 2, 3, 5, 10, 15, 20}; /* degrees Celsius */
    enum { EXAMPLE = 10 };
    const struct spindle *spindle = &b->shop->spindle;
    const struct wanted wanted[] = {{"spindle.span", given(&spindle->span)},
                                    {"spindle.pitch-diameter", given(&spindle->pitch_diameter)},
                                    {"spindle.contact-angle", given(&spindle->contact_angle)}};
    struct growth growth = {.slope = nut_slope(b->results)};
    b->none = !shop_bearings(b->shop, false, &growth.back) ||
              !shop_bearings(b->shop, true, &growth.face);
    if (b->none) {
        add_rise(b, &growth, EXAMPLE);
        table_note(b->table, "none: the settings do not say enough. Wanted: %s.",
                   wanted_words(b, wanted, 3));
        return;
    }
    for (size_t i = 0; i < sizeof rises / sizeof rises[0]; i++)
        add_rise(b, &growth, rises[i]);
    table_note(b->table, "Above zero: end play is lost and preload grows. Below zero: preload "
                         "is lost. At first: bearings grow across before the spindle has grown "
                         "in length.");
    table_note(b->table,
               "By geometry for steel, 12 parts in a million for a degree Celsius, the "
               "headstock at one temperature. The pitch diameters stand in for the "
               "cups, which are a little larger. An estimate, never a limit.");
    double alike = growth_difference(steel, EXAMPLE, cast_iron, EXAMPLE, growth.back.spread);
    table_note(
        b->table,
        "Where spindle and a cast-iron headstock warm alike by %d\u00a0°C, the spindle "
        "still outgrows it by %s\u00a0µm over the span: this takes end play away when the "
        "bearings are face to face, and adds it back to back.",
        EXAMPLE, show_places(1e6 * alike, 1).text);
    note_nut(b, &growth);
    note_fingerprint(b);
}

/* ---- where no limit is on file: the order of magnitude of a drag, by Palmgren's model; an
 * estimate, and never a limit ---- */

static const double apart = 3; /* the estimate may be wrong so many times either way */

/* So thin that the model's branch for slow speeds holds: the one for every oil. */
static const double any_oil = 32; /* mm2/s */

/* Churning in the oil of the settings at room temperature, by hand. */
static double oil_part(const struct shop *shop)
{
    struct oil oil;
    struct decimal room = shop->run_in.room.q.exact;
    double viscosity = shop_oil(shop, &oil)
                           ? oil_viscosity(oil, celsius_of(&room, KIND_TEMPERATURE))
                           : any_oil;
    return churning_drag(shop, viscosity, by_hand);
}

static void add_preload(struct builder *b, int preload)
{
    const struct shop *shop = b->shop;
    const struct unit *gauge = shop->gauge.step.q.unit;
    double load = preload_drag(shop, preload), oil = oil_part(shop), both = load + oil;
    next_row(b);
    put_places(b, "axial preload", "N", preload, 0);
    put_significant(b, "axial preload", "lbf", unit_from_base(preload, unit_find("lbf", 3)), 2);
    put_drag(b, "of the load", load);
    put_drag(b, "of the oil", oil);
    put_drag(b, "perhaps from", both / apart);
    put_drag(b, "perhaps to", both * apart);
    put_significant(b, "pull, middle", gauge->shown,
                    unit_from_base(drag_to_pull(both, shop_radius(shop)), gauge), 2);
}

void make_drag_estimate(struct builder *b)
{
    static const int preloads[] = {50, 100, 200, 500, 1000, 2000, 5000}; /* N */
    const struct spindle *spindle = &b->shop->spindle;
    const struct wanted wanted[] = {{"spindle.pitch-diameter", given(&spindle->pitch_diameter)},
                                    {"spindle.contact-angle", given(&spindle->contact_angle)}};
    struct oil oil;
    b->none = isnan(preload_drag(b->shop, 1));
    if (b->none) {
        add_preload(b, preloads[0]);
        table_note(b->table,
                   "none: the settings do not say enough. Wanted: %s. It would be an estimate, "
                   "never a limit.",
                   wanted_words(b, wanted, 2));
        return;
    }
    for (size_t i = 0; i < sizeof preloads / sizeof preloads[0]; i++)
        add_preload(b, preloads[i]);
    table_note(
        b->table,
        "AN ESTIMATE OF THE ORDER OF SIZE, NEVER A LIMIT. Set no nut by it. It says only "
        "whether a drag you measured is of a kind that two bearings can have.");
    table_note(b->table,
               "Palmgren's model from memory, for a turn in five seconds: f1 = 0.0004, "
               "P1 = 2\u00a0Y\u00a0Fa and f0 = 6 for tapered rollers, front and rear added "
               "up. It was made for running speeds. Perhaps from a third to three times "
               "it (our rule). Seals, gears and a dry rib are not in it.");
    table_note(b->table,
               shop_oil(b->shop, &oil)
                   ? "The oil's part is for the oil of the settings in the room's "
                     "temperature."
                   : "The oil's part is the model's figure for slow turning, the same "
                     "for every oil: the settings name none.");
    note_drum_and_cord(b);
    note_fingerprint(b);
}
