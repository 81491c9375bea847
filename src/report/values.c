#include "report/values.h"

#include "base/buffer.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/uncertainty.h"
#include "judge/warmth.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"
#include "report/words.h"
#include "shop/shop.h"

#include <math.h>
#include <string.h>

/* When a text is printed: on forms and on the card it may begin with a condition in braces,
 * as in "{with-limits}State". */

static bool with_limits(const struct shop *shop)
{
    return shop_has_limits(shop);
}

static bool without_limits(const struct shop *shop)
{
    return !shop_has_limits(shop);
}

/* Without limits the steady pull is read: it is what later drags are compared with. */
static bool if_starting(const struct shop *shop)
{
    return shop_has_limits(shop) && shop->limits.torque == TORQUE_STARTING;
}

static bool if_running(const struct shop *shop)
{
    return !if_starting(shop);
}

static bool in_celsius(const struct shop *shop)
{
    return !shop_in_fahrenheit(shop);
}

static const struct condition conditions[] = {
    {"with-limits", "limits are on file", with_limits},
    {"without-limits", "no limit is on file", without_limits},
    {"in-celsius", "run-in.room is in degrees Celsius, or left out", in_celsius},
    {"in-fahrenheit", "run-in.room is in degrees Fahrenheit", shop_in_fahrenheit},
    {"if-running", "the limits are for the running drag, or there are none", if_running},
    {"if-starting", "the limits are for the starting drag", if_starting},
};

enum { CONDITIONS = sizeof conditions / sizeof conditions[0] };

const struct condition *condition_at(size_t index)
{
    return index < CONDITIONS ? &conditions[index] : NULL;
}

const char *condition_take(const struct shop *shop, const char *text)
{
    for (size_t i = 0; i < CONDITIONS; i++) {
        size_t length = strlen(conditions[i].name);
        if (text[0] == '{' && strncmp(text + 1, conditions[i].name, length) == 0 &&
            text[1 + length] == '}')
            return !shop || conditions[i].holds(shop) ? text + length + 2 : NULL;
    }
    return text;
}

/* Values that a form carries already when it is printed: each has a name, to be written
 * in braces. All come from the records of the shop by way of src/judge and src/physics. */

static const char *given_text(struct arena *arena, const struct measure *measure)
{
    return given(measure) ? quantity_text(arena, &measure->q) : "";
}

static const char *or_blank(const char *text)
{
    return text ? text : "";
}

/* ---- lathe and limits ---- */

static const char *lathe(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return or_blank(shop->lathe.name);
}

static const char *workshop(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return or_blank(shop->lathe.workshop);
}

static const char *top_speed(struct arena *arena, const struct shop *shop)
{
    return given_text(arena, &shop->lathe.top_speed);
}

static const char *own_band(struct arena *arena, const struct shop *shop)
{
    return band_text(arena, shop_own_band(shop));
}

static const char *source(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return or_blank(shop->limits.source);
}

static const char *limit_kind(struct arena *arena, const struct shop *shop)
{
    char text[LIMIT_KIND_TEXT];
    shop_limit_kind(shop, text);
    return arena_text(arena, text);
}

static const char *low_limit(struct arena *arena, const struct shop *shop)
{
    return given_text(arena, &shop_own_band(shop)->low);
}

static const char *high_limit(struct arena *arena, const struct shop *shop)
{
    return given_text(arena, &shop_own_band(shop)->high);
}

static const char *never_exceed(struct arena *arena, const struct shop *shop)
{
    return given_text(arena, &shop->limits.never_exceed);
}

static const char *limits(struct arena *arena, const struct shop *shop)
{
    return arena_format(arena, "%s to %s", low_limit(arena, shop), high_limit(arena, shop));
}

static const char *slack_drag(struct arena *arena, const struct shop *shop)
{
    return given_text(arena, &shop->limits.slack_drag);
}

static const char *drag_unit(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return shop_drag_unit(shop)->shown;
}

/* ---- drum, cord, gauge ---- */

static const char *with_tolerance(struct arena *arena, const char *name,
                                  const struct measure *size, const struct measure *tolerance)
{
    return arena_format(arena, "%s%s%s ± %s", or_blank(name), name ? ", " : "",
                        given_text(arena, size), given_text(arena, tolerance));
}

static const char *drum(struct arena *arena, const struct shop *shop)
{
    return with_tolerance(arena, shop->drum.name, &shop->drum.diameter, &shop->drum.tolerance);
}

static const char *cord(struct arena *arena, const struct shop *shop)
{
    return with_tolerance(arena, shop->cord.name, &shop->cord.diameter, &shop->cord.tolerance);
}

static const char *length_unit(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return shop->drum.diameter.q.unit->shown;
}

static const char *radius(struct arena *arena, const struct shop *shop)
{
    return arena_text(arena, radius_words(shop).text);
}

static const char *gauge(struct arena *arena, const struct shop *shop)
{
    const char *name = shop->gauge.name;
    return arena_format(arena, "%s%s%s in steps of %s", or_blank(name), name ? ", " : "",
                        given_text(arena, &shop->gauge.capacity),
                        given_text(arena, &shop->gauge.step));
}

static const char *force_unit(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return shop->gauge.step.q.unit->shown;
}

/* ---- what the gauge may read ---- */

static struct pull_window own_window(const struct shop *shop)
{
    return pull_window_of(shop, shop_own_band(shop));
}

static const char *steps_text(struct arena *arena, const struct shop *shop, int64_t steps)
{
    const struct quantity *step = &shop->gauge.step.q;
    return arena_format(arena, "%s\u00a0%s", show_steps(steps, &step->typed).text,
                        step->unit->shown);
}

static const char *window_text(struct arena *arena, const struct shop *shop, int64_t steps)
{
    return own_window(shop).closed ? "none" : steps_text(arena, shop, steps);
}

static const char *low_pull(struct arena *arena, const struct shop *shop)
{
    return window_text(arena, shop, own_window(shop).low_steps);
}

static const char *aim_pull(struct arena *arena, const struct shop *shop)
{
    return window_text(arena, shop, own_window(shop).aim_steps);
}

/* ", beyond the gauge" where some pull of the window, or its breakaway, is. */
static const char *beyond_text(const struct shop *shop, const struct pull_window *window)
{
    return most_pull_of(shop, window).beyond ? ", " BEYOND_THE_GAUGE : "";
}

static const char *high_pull(struct arena *arena, const struct shop *shop)
{
    struct pull_window window = own_window(shop);
    if (window.closed)
        return "none";
    window.never = NAN; /* it has a value of its own */
    return arena_format(arena, "%s%s", steps_text(arena, shop, window.high_steps),
                        beyond_text(shop, &window));
}

/* ---- what is good with U taken off, and U ---- */

static const char *good_text(struct arena *arena, const struct shop *shop, int64_t steps)
{
    return guarded_window_own(shop).closed ? "none" : steps_text(arena, shop, steps);
}

static const char *good_from(struct arena *arena, const struct shop *shop)
{
    return good_text(arena, shop, guarded_window_own(shop).low_steps);
}

static const char *good_to(struct arena *arena, const struct shop *shop)
{
    return good_text(arena, shop, guarded_window_own(shop).high_steps);
}

static const char *sureness_text(struct arena *arena, const struct shown_uncertainty *sureness,
                                 const struct quantity *limit)
{
    char digits[DECIMAL_TEXT];
    decimal_print(&sureness->typed, sureness->places, digits);
    return arena_format(arena, "%s\u00a0%s", digits, limit->unit->shown);
}

static const char *u_low(struct arena *arena, const struct shop *shop)
{
    struct guarded_window good = guarded_window_own(shop);
    return sureness_text(arena, &good.low_u, &shop_own_band(shop)->low.q);
}

static const char *u_high(struct arena *arena, const struct shop *shop)
{
    struct guarded_window good = guarded_window_own(shop);
    return sureness_text(arena, &good.high_u, &shop_own_band(shop)->high.q);
}

static const char *window_words(struct arena *arena, const struct shop *shop)
{
    struct pull_window window = own_window(shop);
    if (window.closed)
        return "none";
    return arena_format(arena, "%s to %s, aim %s%s", low_pull(arena, shop),
                        steps_text(arena, shop, window.high_steps), aim_pull(arena, shop),
                        beyond_text(shop, &window));
}

static const char *never_pull(struct arena *arena, const struct shop *shop)
{
    struct pull_window window = own_window(shop);
    if (isnan(window.never))
        return "";
    window.high = 0; /* of never-exceed alone */
    return arena_format(arena, "%s%s", steps_text(arena, shop, window.never_steps),
                        beyond_text(shop, &window));
}

/* The pull at which the gauge is wanted: the aim, without limits the log's last pull; NaN
 * where there is none. */
static double wanted_pull(const struct shop *shop)
{
    if (shop_has_limits(shop))
        return own_window(shop).aim;
    const struct pull_series *last = last_alike(shop, NULL);
    return last ? judge_series(shop, last).pulls.mean : NAN;
}

/* A load that pulls the gauge about as much as this share of that, and the mass that weighs
 * so; nothing where the gauge cannot bear it, or nothing is known. */
static const char *load_text(struct arena *arena, const struct shop *shop, double share)
{
    const struct quantity *step = &shop->gauge.step.q;
    double force = wanted_pull(shop) * share;
    double kilograms = force / weight_of(1, shop_gravity(shop));
    bool imperial = step->unit->system == SYSTEM_IMPERIAL;
    const struct unit *unit = imperial ? unit_find("lb", 2) : unit_find("kg", 2);
    if (!(force <= shop->gauge.capacity.q.base))
        return "";
    return arena_format(arena, "about %s (%s\u00a0%s)",
                        steps_text(arena, shop, llround(force / step->base)),
                        show_significant(unit_from_base(kilograms, unit), 2).text, unit->shown);
}

static const char *load_half(struct arena *arena, const struct shop *shop)
{
    return load_text(arena, shop, 0.5);
}

static const char *load_aim(struct arena *arena, const struct shop *shop)
{
    return load_text(arena, shop, 1);
}

static const char *load_more(struct arena *arena, const struct shop *shop)
{
    return load_text(arena, shop, 1.5);
}

static const char *pull_count(struct arena *arena, const struct shop *shop)
{
    return arena_format(arena, "%d", shop->pulls.count ? shop->pulls.count : PULLS_COUNT);
}

/* ---- the nut ---- */

static const char *way_text(struct arena *arena, const struct nut_distance *way, int more,
                            const char *where)
{
    return arena_format(arena, "%s\u00a0%s %s", show_distance(way, more).text, way->unit,
                        where);
}

/* One degree is little: a place more than usual, but for what is fine enough. */
static const char *degree(struct arena *arena, const struct shop *shop)
{
    struct nut_distance rim = nut_rim_distance(&shop->nut, 1),
                        travel = nut_travel_distance(&shop->nut, 1);
    const char *text = "";
    if (isfinite(rim.value))
        text = way_text(arena, &rim, rim.inches ? 0 : 1, "at the rim");
    if (isfinite(travel.value))
        text =
            arena_format(arena, "%s%s%s", text, *text ? ", " : "",
                         way_text(arena, &travel, travel.inches ? 1 : 0, "along the spindle"));
    return text;
}

/* ---- running in ---- */

/* The speed of a stage; "" where there are fewer. */
static const char *stage_text(struct arena *arena, const struct shop *shop, size_t index)
{
    struct run_in_stage stages[RUN_IN_STAGES];
    size_t count = run_in_stages(shop, stages);
    return index < count ? arena_text(arena, run_in_speed(shop, &stages[index]).text) : "";
}

static const char *temperature_unit(struct arena *arena, const struct shop *shop)
{
    (void)arena;
    return shop_in_fahrenheit(shop) ? "°F" : "°C";
}

/* In the scale of the room first, rounded down; that figure in the other scale, rounded down
 * again: the two are never one below and one above the limit. */
static const char *warmth_text(struct arena *arena, const struct shop *shop,
                               struct decimal limit)
{
    if (shop_in_fahrenheit(shop)) {
        limit = decimal_of(whole_fahrenheit(&limit), 0);
        return arena_format(arena, "%lld\u00a0°F (%lld\u00a0°C)",
                            (long long)whole_fahrenheit(&limit),
                            (long long)whole_celsius(&limit));
    }
    long long celsius = whole_celsius(&limit);
    limit = decimal_of(celsius * 18 + 320, -1);
    return arena_format(arena, "%lld\u00a0°C (%lld\u00a0°F)", celsius,
                        (long long)whole_fahrenheit(&limit));
}

static const char *stop(struct arena *arena, const struct shop *shop)
{
    struct decimal room = shop_room(shop);
    return warmth_text(arena, shop, run_in_stop(shop, &room));
}

static const char *look(struct arena *arena, const struct shop *shop)
{
    struct decimal room = shop_room(shop);
    return warmth_text(arena, shop, run_in_look(shop, &room));
}

static const char *stage_time(struct arena *arena, const struct shop *shop)
{
    return arena_text(arena, show_up(run_in_minutes(shop, false), 0).text);
}

static const char *top_time(struct arena *arena, const struct shop *shop)
{
    return arena_text(arena, show_up(run_in_minutes(shop, true), 0).text);
}

static const char *room(struct arena *arena, const struct shop *shop)
{
    return room_text(arena, shop);
}

#define STAGE(name, index)                                                                     \
    static const char *name(struct arena *arena, const struct shop *shop)                      \
    {                                                                                          \
        return stage_text(arena, shop, index);                                                 \
    }

STAGE(stage_1, 0)
STAGE(stage_2, 1)
STAGE(stage_3, 2)
STAGE(stage_4, 3)
STAGE(stage_5, 4)
STAGE(stage_6, 5)
STAGE(stage_7, 6)
STAGE(stage_8, 7)
STAGE(stage_9, 8)
STAGE(stage_10, 9)

/* ---- all of them ---- */

static const struct form_value values[] = {
    {"lathe", "lathe.name", false, lathe},
    {"workshop", "lathe.workshop", false, workshop},
    {"top-speed", "lathe.top-speed", false, top_speed},
    {"band", "the speed band of the top speed", true, own_band},
    {"source", "limits.source", true, source},
    {"limit-kind", "which drag the limits are for, in words", true, limit_kind},
    {"low-limit", "least drag of your band", true, low_limit},
    {"high-limit", "greatest drag of your band", true, high_limit},
    {"limits", "both of them", true, limits},
    {"never-exceed", "limits.never-exceed", true, never_exceed},
    {"slack-drag", "limits.slack-drag", false, slack_drag},
    {"drag-unit", "the manual's unit of drag", false, drag_unit},
    {"drum", "name, diameter and tolerance of the drum", false, drum},
    {"cord", "name, thickness and tolerance of the cord", false, cord},
    {"length-unit", "unit of the drum's diameter", false, length_unit},
    {"radius", "effective radius", false, radius},
    {"gauge", "name, capacity and step of the gauge", false, gauge},
    {"force-unit", "unit of the gauge's step", false, force_unit},
    {"low-pull", "low pull of your band", true, low_pull},
    {"aim", "the pull to aim at", true, aim_pull},
    {"high-pull", "high pull of your band", true, high_pull},
    {"window", "low pull, high pull and aim", true, window_words},
    {"good-from", "least mean pull that is good with U taken off, in your band", true,
     good_from},
    {"good-to", "greatest mean pull that is good with U taken off, in your band", true,
     good_to},
    {"u-low", "U at the low limit of your band", true, u_low},
    {"u-high", "U at the high limit of your band", true, u_high},
    {"never-pull", "the pull of the drag never to exceed", true, never_pull},
    {"load-half", "a load of half the aim, without limits of half the last pull, and its mass",
     false, load_half},
    {"load-aim", "a load of the aim, without limits of the last pull, and its mass", false,
     load_aim},
    {"load-more", "a load of one and a half times that, and its mass", false, load_more},
    {"pulls", "pulls of one series", false, pull_count},
    {"room", "temperature of the room that is taken", false, room},
    {"stop", "where to stop while running in, in that room", false, stop},
    {"look", "where to look closer while running in, in that room", false, look},
    {"stage-time", "least minutes of each stage but the last", false, stage_time},
    {"top-time", "least minutes of the last stage", false, top_time},
    {"temperature-unit", "unit of run-in.room", false, temperature_unit},
    {"stage-1", "speed of that stage of running in", false, stage_1},
    {"stage-2", "speed of that stage of running in", false, stage_2},
    {"stage-3", "speed of that stage of running in", false, stage_3},
    {"stage-4", "speed of that stage of running in", false, stage_4},
    {"stage-5", "speed of that stage of running in", false, stage_5},
    {"stage-6", "speed of that stage of running in", false, stage_6},
    {"stage-7", "speed of that stage of running in", false, stage_7},
    {"stage-8", "speed of that stage of running in", false, stage_8},
    {"stage-9", "speed of that stage of running in", false, stage_9},
    {"stage-10", "speed of that stage of running in", false, stage_10},
    {"degree", "what one degree of the nut is", false, degree},
};

enum { VALUES = sizeof values / sizeof values[0] };

const struct form_value *form_value_at(size_t index)
{
    return index < VALUES ? &values[index] : NULL;
}

static const struct form_value *find(const char *name, size_t length)
{
    for (size_t i = 0; i < VALUES; i++)
        if (strlen(values[i].name) == length && memcmp(values[i].name, name, length) == 0)
            return &values[i];
    return NULL;
}

static void fault_unknown(struct diags *diags, const char *name, size_t length, struct place at)
{
    struct buffer known = {0};
    for (size_t i = 0; i < VALUES; i++)
        buffer_print(&known, "%s%s", i ? ", " : "", values[i].name);
    fault(diags, at, "'{%.*s' names no value with its } behind it; the values are %s",
          (int)length, name, known.bytes);
    buffer_free(&known);
}

const char *form_values_fill(struct arena *arena, struct diags *diags, const struct shop *shop,
                             const char *text, struct place at)
{
    struct buffer filled = {0};
    const char *rest = text;
    for (const char *brace; (brace = strchr(rest, '{'));) {
        size_t length = strcspn(brace + 1, "}");
        const struct form_value *value = find(brace + 1, length);
        if (!value || brace[1 + length] != '}') {
            fault_unknown(diags, brace + 1, length, at);
            buffer_free(&filled);
            return text;
        }
        buffer_add(&filled, rest, (size_t)(brace - rest));
        if (shop && value->of_limits && !shop_has_limits(shop))
            buffer_text(&filled, "no limit on file");
        else if (shop)
            buffer_text(&filled, value->text(arena, shop));
        rest = brace + length + 2;
    }
    buffer_text(&filled, rest);
    const char *kept = arena_slice(arena, filled.bytes, filled.length);
    buffer_free(&filled);
    return kept;
}
