/* What stands in braces: conditions before a text of any page, values within those of forms.
 * Each list is a table; a value is its function and what the values of one function differ by.
 */
#include "report/values.h"

#include "base/buffer.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/measure.h"
#include "judge/nut.h"
#include "judge/warmth.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"
#include "report/words.h"
#include "shop/shop.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

/* ---- conditions ---- */

static bool with_limits(const struct shop *shop)
{
    return shop_has_limits(shop);
}

static bool without_limits(const struct shop *shop)
{
    return !shop_has_limits(shop);
}

static bool if_running(const struct shop *shop)
{
    return !shop_reads_starting(shop);
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
    {"if-starting", "the limits are for the starting drag", shop_reads_starting},
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

/* ---- values ---- */

/* What is asked for. which: what the values of one function differ by, an offset or a number.
 */
struct asked {
    struct arena *arena;
    const struct results *results;
    const struct shop *shop;
    size_t which;
};

static const char *given_text(struct arena *arena, const struct measure *measure)
{
    return given(measure) ? quantity_text(arena, &measure->q) : "";
}

static const char *or_blank(const char *text)
{
    return text ? text : "";
}

/* which: offset of a text in the shop. */
static const char *typed_text(const struct asked *asked)
{
    const void *text = (const char *)asked->shop + asked->which;
    return or_blank(*(const char *const *)text);
}

/* which: offset of a measure in the shop. */
static const char *typed_measure(const struct asked *asked)
{
    const void *measure = (const char *)asked->shop + asked->which;
    return given_text(asked->arena, measure);
}

/* ---- lathe and limits ---- */

static const char *own_band(const struct asked *asked)
{
    return band_text(asked->arena, asked->results->band);
}

static const char *limit_kind(const struct asked *asked)
{
    return limit_kind_text(asked->arena, asked->shop);
}

static const char *low_limit(const struct asked *asked)
{
    return given_text(asked->arena, &asked->results->band->low);
}

static const char *high_limit(const struct asked *asked)
{
    return given_text(asked->arena, &asked->results->band->high);
}

static const char *limits(const struct asked *asked)
{
    return arena_format(asked->arena, "%s to %s", low_limit(asked), high_limit(asked));
}

static const char *drag_unit(const struct asked *asked)
{
    return shop_drag_unit(asked->shop)->shown;
}

/* ---- drum, cord, gauge ---- */

enum { NAMED = 1, WITHIN = 2 }; /* which: what stands behind a size */

static const char *with_name(struct arena *arena, const char *text, const char *name)
{
    return name ? arena_format(arena, "%s (%s)", text, name) : text;
}

/* "62 mm ± 0.1 mm (turned drum, no. 1)", so that two of one size can be told apart. */
static const char *sized(const struct asked *asked, const struct measure *size,
                         const struct measure *tolerance, const char *name)
{
    struct arena *arena = asked->arena;
    const char *text = given_text(arena, size);
    if (asked->which & WITHIN)
        text = arena_format(arena, "%s ± %s", text, given_text(arena, tolerance));
    return asked->which & NAMED ? with_name(arena, text, name) : text;
}

static const char *drum(const struct asked *asked)
{
    const struct drum *drum = &asked->shop->drum;
    return sized(asked, &drum->diameter, &drum->tolerance, drum->name);
}

static const char *cord(const struct asked *asked)
{
    const struct cord *cord = &asked->shop->cord;
    return sized(asked, &cord->diameter, &cord->tolerance, cord->name);
}

static const char *length_unit(const struct asked *asked)
{
    return asked->shop->drum.diameter.q.unit->shown;
}

static const char *radius(const struct asked *asked)
{
    return radius_text(asked->arena, asked->shop);
}

static const char *gauge(const struct asked *asked)
{
    const struct gauge *gauge = &asked->shop->gauge;
    return with_name(asked->arena,
                     arena_format(asked->arena, "%s in steps of %s",
                                  given_text(asked->arena, &gauge->capacity),
                                  given_text(asked->arena, &gauge->step)),
                     gauge->name);
}

/* Without a name, what tells it from others. */
static const char *gauge_name(const struct asked *asked)
{
    const char *name = asked->shop->gauge.name;
    return name ? name : gauge(asked);
}

static const char *gauge_step(const struct asked *asked)
{
    const struct gauge *gauge = &asked->shop->gauge;
    return with_name(asked->arena, given_text(asked->arena, &gauge->step), gauge->name);
}

/* At the aim of the lathe's own band, in the gauge's unit; without limits at half of what
 * the gauge reads. */
static const char *gauge_error(const struct asked *asked)
{
    const struct shop *shop = asked->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    const struct guarded_window *own = asked->results->own;
    double pull = own ? own->plain.aim : gauge_usual_pull(shop);
    double error = gauge_within_at(asked->shop, asked->results->known.gauge.check, pull);
    struct shown_uncertainty shown = uncertainty_shown_in(error, unit);
    return arena_format(asked->arena, "\u00b1\u00a0%s\u00a0%s at %s, from %s",
                        show_up(unit_from_base(error, unit), shown.places).text, unit->shown,
                        own ? "the aim" : "half its capacity",
                        gauge_source_words(gauge_source_at(
                            asked->shop, asked->results->known.gauge.check, pull)));
}

/* By the check in force after the whole log. */
static const char *gauge_checked(const struct asked *asked)
{
    const struct gauge_check *check = asked->results->known.gauge.check;
    return check ? arena_format(asked->arena, "checked %s", check->date) : "not checked";
}

static const char *force_unit(const struct asked *asked)
{
    return asked->shop->gauge.step.q.unit->shown;
}

/* ---- what the gauge may read ---- */

static const char *steps_text(const struct asked *asked, int64_t steps)
{
    const struct quantity *step = &asked->shop->gauge.step.q;
    return arena_format(asked->arena, "%s\u00a0%s", show_steps(steps, &step->typed).text,
                        step->unit->shown);
}

static const char *low_pull(const struct asked *asked)
{
    struct pull_window window = asked->results->own->plain;
    return window.closed ? "none" : steps_text(asked, window.low_steps);
}

static const char *aim_pull(const struct asked *asked)
{
    struct pull_window window = asked->results->own->plain;
    return window.closed ? "none" : steps_text(asked, window.aim_steps);
}

/* ", beyond the gauge" where some pull of the window, or its breakaway, is. */
static const char *beyond_text(const struct results *results, const struct pull_window *window)
{
    return most_pull_of(results, window).beyond ? ", " BEYOND_THE_GAUGE : "";
}

static const char *high_pull(const struct asked *asked)
{
    struct pull_window window = asked->results->own->plain;
    if (window.closed)
        return "none";
    window.never = NAN; /* it has a value of its own */
    return arena_format(asked->arena, "%s%s", steps_text(asked, window.high_steps),
                        beyond_text(asked->results, &window));
}

static const char *window_words(const struct asked *asked)
{
    struct pull_window window = asked->results->own->plain;
    if (window.closed)
        return "none";
    return arena_format(asked->arena, "%s to %s, aim %s%s", low_pull(asked),
                        steps_text(asked, window.high_steps), aim_pull(asked),
                        beyond_text(asked->results, &window));
}

static const char *never_pull(const struct asked *asked)
{
    struct pull_window window = asked->results->own->plain;
    if (isnan(window.never))
        return "";
    window.high = 0; /* of never-exceed alone */
    return arena_format(asked->arena, "%s%s", steps_text(asked, window.never_steps),
                        beyond_text(asked->results, &window));
}

/* The windows are those of a locked nut, and locking adds drag: what it added the last time is
 * taken off the aim; where that is not known, a blank. */
static const char *stop_before_lock(const struct asked *asked)
{
    const struct results *results = asked->results;
    double added = results->lock_added;
    double drag = added > 0 ? nut_aim(&results->known, results->band) - added : 0;
    double pull = reading_of_drag(&results->known, shop_radius(asked->shop), drag);
    return drag > 0 ? steps_text(asked, llround(pull / asked->shop->gauge.step.q.base))
                    : "________";
}

/* ---- what would be called good, and U ---- */

static const char *good_from(const struct asked *asked)
{
    const struct guarded_window *good = asked->results->own;
    return good->closed ? "none" : steps_text(asked, good->low_steps);
}

static const char *good_to(const struct asked *asked)
{
    const struct guarded_window *good = asked->results->own;
    return good->closed ? "none" : steps_text(asked, good->high_steps);
}

/* which: LIMIT_LOW or LIMIT_HIGH. */
static const char *u_at_limit(const struct asked *asked)
{
    const struct guarded_window *good = asked->results->own;
    const struct band *own = asked->results->band;
    bool low = asked->which == LIMIT_LOW;
    const struct shown_uncertainty *u = low ? &good->low_u : &good->high_u;
    char digits[DECIMAL_TEXT];
    decimal_print(&u->typed, u->places, digits);
    return arena_format(asked->arena, "%s\u00a0%s", digits,
                        (low ? &own->low : &own->high)->q.unit->shown);
}

/* The pull at which the gauge is wanted: the aim, without limits the log's last pull; NaN
 * where there is none. */
static double wanted_pull(const struct results *results)
{
    if (results->own)
        return results->own->plain.aim;
    const struct judged *last = last_alike(results, NULL);
    return last ? last->judgement.pulls.mean : NAN;
}

/* A load that pulls the gauge about as much as so many halves of that, and the mass that
 * weighs so; nothing where the gauge cannot bear it, or nothing is known. which: the halves. */
static const char *load(const struct asked *asked)
{
    const struct shop *shop = asked->shop;
    const struct quantity *step = &shop->gauge.step.q;
    double force = wanted_pull(asked->results) * ((double)asked->which / 2);
    double kilograms = force / weight_of(1, shop_gravity(shop));
    bool imperial = step->unit->system == SYSTEM_IMPERIAL;
    const struct unit *unit = imperial ? unit_find("lb", 2) : unit_find("kg", 2);
    if (!(force <= shop->gauge.capacity.q.base))
        return "";
    return arena_format(asked->arena, "about %s (%s\u00a0%s)",
                        steps_text(asked, llround(force / step->base)),
                        show_significant(unit_from_base(kilograms, unit), 2).text, unit->shown);
}

static const char *last_pull(const struct asked *asked)
{
    return last_alike_words(asked->arena, asked->results, NULL);
}

static const char *pull_count(const struct asked *asked)
{
    return arena_format(asked->arena, "%d", asked->shop->pulls.count.number);
}

/* ---- the nut ---- */

static const char *distance_text(struct arena *arena, const struct nut_distance *distance,
                                 const char *where)
{
    return arena_format(arena, "%s\u00a0%s %s", show_significant(distance->value, 2).text,
                        distance->unit, where);
}

/* One degree is little: two digits tell it, wherever the point stands. */
static const char *degree(const struct asked *asked)
{
    struct nut_distance rim = nut_rim_distance(&asked->shop->nut, 1);
    struct nut_distance travel = nut_travel_distance(&asked->shop->nut, 1);
    const char *text = "";
    if (isfinite(rim.value))
        text = distance_text(asked->arena, &rim, "at the rim");
    if (isfinite(travel.value))
        text = arena_format(asked->arena, "%s%s%s", text, *text ? ", " : "",
                            distance_text(asked->arena, &travel, "along the spindle"));
    return text;
}

/* ---- running in ---- */

/* The speed of a stage; "" where there are fewer. which: the stage, from 1 on. */
static const char *stage(const struct asked *asked)
{
    struct run_in_stage stages[RUN_IN_STAGES];
    if (asked->which > run_in_stages(asked->shop, stages))
        return "";
    return arena_text(asked->arena, run_in_speed(asked->shop, &stages[asked->which - 1]).text);
}

/* which: whether it is the last stage. */
static const char *stage_minutes(const struct asked *asked)
{
    return arena_text(asked->arena, show_up(run_in_minutes(asked->shop, asked->which), 0).text);
}

static const char *temperature_unit(const struct asked *asked)
{
    return shop_in_fahrenheit(asked->shop) ? "°F" : "°C";
}

/* In the scale of the room first, rounded down; that figure in the other scale, rounded down
 * again: the two are never one below and one above the limit. */
static const char *warmth_text(const struct asked *asked, struct decimal limit)
{
    if (shop_in_fahrenheit(asked->shop)) {
        limit = decimal_of(whole_fahrenheit(&limit), 0);
        return arena_format(asked->arena, "%lld\u00a0°F (%lld\u00a0°C)",
                            (long long)whole_fahrenheit(&limit),
                            (long long)whole_celsius(&limit));
    }
    long long celsius = whole_celsius(&limit);
    limit = decimal_of(celsius * 18 + 320, -1);
    return arena_format(asked->arena, "%lld\u00a0°C (%lld\u00a0°F)", celsius,
                        (long long)whole_fahrenheit(&limit));
}

static const char *stop(const struct asked *asked)
{
    return warmth_text(asked, run_in_stop(asked->shop, &asked->shop->run_in.room.q.exact));
}

static const char *look(const struct asked *asked)
{
    return warmth_text(asked, run_in_look(asked->shop, &asked->shop->run_in.room.q.exact));
}

static const char *room(const struct asked *asked)
{
    return quantity_text(asked->arena, &asked->shop->run_in.room.q);
}

/* ---- all of them ---- */

#define IN_SHOP(field) offsetof(struct shop, field)

static const struct {
    struct form_value value;
    /* The text as it is printed, owned by the arena; "" where the settings do not say. */
    const char *(*text)(const struct asked *asked);
    size_t which;
} values[] = {
    {{"lathe", "lathe.name", false}, typed_text, IN_SHOP(lathe.name)},
    {{"workshop", "lathe.workshop", false}, typed_text, IN_SHOP(lathe.workshop)},
    {{"top-speed", "lathe.top-speed", false}, typed_measure, IN_SHOP(lathe.top_speed)},
    {{"band", "the speed band of the top speed", true}, own_band, 0},
    {{"source", "limits.source", true}, typed_text, IN_SHOP(limits.source)},
    {{"limit-kind", "which drag the limits are for, in words", true}, limit_kind, 0},
    {{"low-limit", "least drag of your band", true}, low_limit, 0},
    {{"high-limit", "greatest drag of your band", true}, high_limit, 0},
    {{"limits", "both of them", true}, limits, 0},
    {{"never-exceed", "limits.never-exceed", true},
     typed_measure,
     IN_SHOP(limits.never_exceed)},
    {{"slack-drag", "limits.slack-drag", false}, typed_measure, IN_SHOP(limits.slack_drag)},
    {{"drag-unit", "the manual's unit of drag", false}, drag_unit, 0},
    {{"drum", "diameter, tolerance and name of the drum", false}, drum, WITHIN | NAMED},
    {{"drum-named", "diameter and name of the drum", false}, drum, NAMED},
    {{"drum-size", "diameter of the drum", false}, drum, 0},
    {{"drum-within", "diameter and tolerance of the drum", false}, drum, WITHIN},
    {{"cord", "thickness, tolerance and name of the cord", false}, cord, WITHIN | NAMED},
    {{"cord-named", "thickness and name of the cord", false}, cord, NAMED},
    {{"cord-size", "thickness of the cord", false}, cord, 0},
    {{"cord-within", "thickness and tolerance of the cord", false}, cord, WITHIN},
    {{"length-unit", "unit of the drum's diameter", false}, length_unit, 0},
    {{"radius", "effective radius", false}, radius, 0},
    {{"gauge", "capacity, step and name of the gauge", false}, gauge, 0},
    {{"gauge-name", "name of the gauge; without one capacity and step", false}, gauge_name, 0},
    {{"gauge-step", "step and name of the gauge", false}, gauge_step, 0},
    {{"gauge-error",
      "error of the gauge at the aim, without limits at half its capacity, and what tells it",
      false},
     gauge_error,
     0},
    {{"gauge-checked", "day of the check in force", false}, gauge_checked, 0},
    {{"force-unit", "unit of the gauge's step", false}, force_unit, 0},
    {{"low-pull", "low pull of your band", true}, low_pull, 0},
    {{"aim", "the pull to aim at", true}, aim_pull, 0},
    {{"high-pull", "high pull of your band", true}, high_pull, 0},
    {{"window", "low pull, high pull and aim", true}, window_words, 0},
    {{"good-from", "least mean pull that would be called good, in your band", true},
     good_from,
     0},
    {{"good-to", "greatest mean pull that would be called good, in your band", true},
     good_to,
     0},
    {{"stop-before-lock",
      "the pull to stop at before locking, by what locking added the last time; a blank where "
      "the log does not say",
      true},
     stop_before_lock,
     0},
    {{"u-low", "U at the low limit of your band", true}, u_at_limit, LIMIT_LOW},
    {{"u-high", "U at the high limit of your band", true}, u_at_limit, LIMIT_HIGH},
    {{"never-pull", "the pull of the drag never to exceed", true}, never_pull, 0},
    {{"load-half", "a load of half the aim, without limits of half the last pull, and its mass",
      false},
     load,
     1},
    {{"load-aim", "a load of the aim, without limits of the last pull, and its mass", false},
     load,
     2},
    {{"load-more", "a load of one and a half times that, and its mass", false}, load, 3},
    {{"last-pull", "the log's last series as the limits ask: date, mean pull, drag", false},
     last_pull,
     0},
    {{"pulls", "pulls of one series", false}, pull_count, 0},
    {{"room", "temperature of the room that is taken", false}, room, 0},
    {{"stop", "where to stop while running in, in that room", false}, stop, 0},
    {{"look", "where to look closer while running in, in that room", false}, look, 0},
    {{"stage-time", "least minutes of each stage but the last", false}, stage_minutes, false},
    {{"top-time", "least minutes of the last stage", false}, stage_minutes, true},
    {{"temperature-unit", "unit of run-in.room", false}, temperature_unit, 0},
    {{"stage-1", "speed of that stage of running in", false}, stage, 1},
    {{"stage-2", "speed of that stage of running in", false}, stage, 2},
    {{"stage-3", "speed of that stage of running in", false}, stage, 3},
    {{"stage-4", "speed of that stage of running in", false}, stage, 4},
    {{"stage-5", "speed of that stage of running in", false}, stage, 5},
    {{"stage-6", "speed of that stage of running in", false}, stage, 6},
    {{"stage-7", "speed of that stage of running in", false}, stage, 7},
    {{"stage-8", "speed of that stage of running in", false}, stage, 8},
    {{"stage-9", "speed of that stage of running in", false}, stage, 9},
    {{"stage-10", "speed of that stage of running in", false}, stage, 10},
    {{"degree", "what one degree of the nut is", false}, degree, 0},
};

enum { VALUES = sizeof values / sizeof values[0] };

const struct form_value *form_value_at(size_t index)
{
    return index < VALUES ? &values[index].value : NULL;
}

/* Its place in the list; VALUES where there is none. */
static size_t find(const char *name, size_t length)
{
    size_t i = 0;
    while (i < VALUES && (strlen(values[i].value.name) != length ||
                          memcmp(values[i].value.name, name, length) != 0))
        i++;
    return i;
}

static void fault_unknown(struct diags *diags, const char *name, size_t length, struct place at)
{
    struct buffer known = {0};
    for (size_t i = 0; i < VALUES; i++)
        buffer_print(&known, "%s%s", i ? ", " : "", values[i].value.name);
    fault(diags, at, "'{%.*s' names no value with its } behind it; the values are %s",
          (int)length, name, known.bytes);
    buffer_free(&known);
}

const char *form_values_fill(struct arena *arena, struct diags *diags,
                             const struct results *results, const char *text, struct place at)
{
    struct buffer filled = {0};
    const char *rest = text;
    for (const char *brace; (brace = strchr(rest, '{'));) {
        size_t length = strcspn(brace + 1, "}");
        size_t found = find(brace + 1, length);
        if (found == VALUES || brace[1 + length] != '}') {
            assert(diags); /* a text of the program's own names no other */
            fault_unknown(diags, brace + 1, length, at);
            buffer_free(&filled);
            return text;
        }
        buffer_add(&filled, rest, (size_t)(brace - rest));
        if (results && values[found].value.of_limits && !shop_has_limits(results->shop))
            buffer_text(&filled, NO_LIMIT);
        else if (results)
            buffer_text(&filled, values[found].text(&(struct asked){
                                     arena, results, results->shop, values[found].which}));
        rest = brace + length + 2;
    }
    buffer_text(&filled, rest);
    const char *kept = arena_slice(arena, filled.bytes, filled.length);
    buffer_free(&filled);
    return kept;
}

const char *values_fill(struct arena *arena, const struct results *results, const char *text)
{
    return form_values_fill(arena, NULL, results, text, (struct place){0});
}

/* ---- read back ---- */

/* "1.5 kg": what hangs on a cord with such a pull. */
static const char *as_mass(struct arena *arena, const struct shop *shop, double pull)
{
    bool imperial = shop->gauge.step.q.unit->system == SYSTEM_IMPERIAL;
    const struct unit *unit = imperial ? unit_find("lbf", 3) : unit_find("kgf", 3);
    return arena_format(arena, "%s\u00a0%s",
                        show_significant(unit_from_base(pull, unit), 2).text,
                        imperial ? "lb" : "kg");
}

const char *limits_read_back_words(struct arena *arena, const struct results *results)
{
    const struct pull_window *window = &results->own->plain;
    if (window->closed)
        return "This gauge shows no step between the limits on this drum: no pull can be good.";
    return arena_format(arena, "%s That is as if %s to %s hung on the cord.",
                        values_fill(arena, results,
                                    "Limits of {limits} on this drum are pulls of {low-pull} "
                                    "to {high-pull}."),
                        as_mass(arena, results->shop, window->low),
                        as_mass(arena, results->shop, window->high));
}
