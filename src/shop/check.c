/* What no single value shows: whether the values go together, and whether anything of the demo
 * stands here as the user's own. Each check passes over what was not given, or has a fault of
 * its own. */
#include "shop/fields.h"

#include <stdlib.h>
#include <string.h>

/* For "%s %s". */
#define TYPED(measure) (measure)->q.digits, (measure)->q.unit->symbol

static bool both(const struct measure *a, const struct measure *b)
{
    return given(a) && given(b);
}

/* Where a value stands, or, where it is missing, the settings as a whole. */
static struct place place_of(const struct shop *shop, const struct measure *measure)
{
    return measure->at.file ? measure->at : (struct place){.file = shop->file};
}

/* Of values that were given. */
static int compare(const struct measure *a, const struct measure *b)
{
    return decimal_compare(&a->q.exact, &b->q.exact);
}

static int by_speed(const void *left, const void *right)
{
    const struct band *a = left, *b = right;
    int order = compare(&a->from, &b->from);
    return order ? order : compare(&a->to, &b->to);
}

static int by_size(const void *left, const void *right)
{
    return compare(left, right);
}

static void sort(struct measures *list)
{
    if (list->count)
        qsort(list->items, list->count, sizeof *list->items, by_size);
}

/* ---- limits ---- */

/* False where the band has no speeds, or they are in the wrong order. */
static bool check_speeds(const struct band *band, struct diags *diags)
{
    if (!both(&band->from, &band->to))
        return false;
    if (compare(&band->from, &band->to) < 0)
        return true;
    return fault(
        diags, band->from.at,
        "the band's speeds are in the wrong order: %s to %s r/min; write the lower one "
        "first",
        band->from.q.digits, band->to.q.digits);
}

static void check_drags(const struct band *band, struct diags *diags)
{
    if (both(&band->low, &band->high) && compare(&band->low, &band->high) > 0)
        fault(diags, band->low.at,
              "the low limit %s %s is above the high limit %s %s; exchange them, or correct "
              "a wrong unit",
              TYPED(&band->low), TYPED(&band->high));
}

static void check_neighbours(const struct band *lower, const struct band *upper,
                             struct diags *diags)
{
    int order = compare(&upper->from, &lower->to);
    if (order < 0)
        fault(
            diags, upper->from.at,
            "the bands overlap: this one begins at %s r/min, but the one on line %d ends at %s "
            "r/min; let one begin where the other ends",
            upper->from.q.digits, lower->at.line, lower->to.q.digits);
    if (order > 0)
        fault(diags, upper->from.at,
              "there is a gap between the bands: the one on line %d ends at %s r/min, this one "
              "begins at %s r/min; let one begin where the other ends",
              lower->at.line, lower->to.q.digits, upper->from.q.digits);
}

static void check_never_exceed(const struct limits *limits, struct diags *diags)
{
    for (size_t i = 0; i < limits->band_count; i++)
        if (both(&limits->bands[i].high, &limits->never_exceed) &&
            compare(&limits->bands[i].high, &limits->never_exceed) > 0)
            fault(diags, limits->bands[i].high.at,
                  "the high limit %s %s is above limits.never-exceed, %s %s; one of the two is "
                  "wrong",
                  TYPED(&limits->bands[i].high), TYPED(&limits->never_exceed));
}

/* All that is asked when the band of a speed is sought. */
static bool have_all(const struct shop *shop)
{
    bool all = given(&shop->lathe.top_speed);
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const struct band *band = &shop->limits.bands[i];
        all &= both(&band->from, &band->to) && both(&band->low, &band->high);
    }
    return all;
}

/* Whether the bands follow upon one another; sorts them if they have all their speeds. */
static bool check_bands(struct limits *limits, struct diags *diags)
{
    bool in_order = true;
    for (size_t i = 0; i < limits->band_count; i++) {
        in_order &= check_speeds(&limits->bands[i], diags);
        check_drags(&limits->bands[i], diags);
    }
    if (!in_order)
        return false;
    size_t before = diags_count(diags);
    qsort(limits->bands, limits->band_count, sizeof *limits->bands, by_speed);
    for (size_t i = 1; i < limits->band_count; i++)
        check_neighbours(&limits->bands[i - 1], &limits->bands[i], diags);
    return diags_count(diags) == before;
}

/* ---- gauge, drum, cord and nut ---- */

static void check_gauge(const struct gauge *gauge, struct diags *diags)
{
    if (both(&gauge->step, &gauge->capacity) && compare(&gauge->step, &gauge->capacity) >= 0)
        fault(diags, gauge->step.at,
              "the gauge's step %s %s is not below its capacity %s %s; correct one of the two",
              TYPED(&gauge->step), TYPED(&gauge->capacity));
}

/* The cord on the drum to make leaves a drum, and the drum stands around its bore. */
static void check_drum_to_make(const struct shop *shop, struct diags *diags)
{
    const struct measure *radius = &shop->drum.wanted_radius, *bore = &shop->drum.bore;
    const struct measure *cord = &shop->cord.diameter, *drum = &shop->drum.diameter;
    if (both(radius, cord) && !(2 * radius->q.base > cord->q.base))
        fault(
            diags, radius->at,
            "drum.wanted-radius: with a cord of %s %s nothing would be left of the drum; give "
            "a larger radius",
            TYPED(cord));
    double land = given(radius) ? 2 * radius->q.base - cord->q.base : drum->q.base;
    if (both(bore, cord) && given(drum) && bore->q.base >= land)
        fault(diags, bore->at,
              "drum.bore (%s %s) is not smaller than the drum to make; correct one of the two",
              TYPED(bore));
}

/* Thinner than the drum, and a tolerance that leaves something. */
static void check_drum_and_cord(const struct shop *shop, struct diags *diags)
{
    const struct drum *drum = &shop->drum;
    const struct cord *cord = &shop->cord;
    if (both(&cord->diameter, &drum->diameter) &&
        compare(&cord->diameter, &drum->diameter) >= 0)
        fault(diags, cord->diameter.at,
              "the cord (%s %s) is not thinner than the drum (%s %s); correct one of the two",
              TYPED(&cord->diameter), TYPED(&drum->diameter));
    if (both(&drum->tolerance, &drum->diameter) &&
        compare(&drum->tolerance, &drum->diameter) >= 0)
        fault(diags, drum->tolerance.at,
              "the drum's tolerance is not below its diameter; correct one of the two");
    if (both(&cord->tolerance, &cord->diameter) &&
        compare(&cord->tolerance, &cord->diameter) > 0)
        fault(diags, cord->tolerance.at,
              "the cord's tolerance is above its diameter; correct one of the two");
}

/* Height alone gives no gravity. */
static void check_site(const struct site *site, struct diags *diags)
{
    if (given(&site->height) && absent(&site->latitude))
        fault(diags, site->height.at,
              "site.height stands without site.latitude, and gravity needs both; write the "
              "latitude, or delete the height");
}

static void check_nut(const struct shop *shop, struct diags *diags)
{
    if (given(&shop->nut.pitch) && given(&shop->nut.threads))
        fault(diags, shop->nut.threads.at,
              "the nut has both a pitch and threads per inch; keep the one that the drawing "
              "gives");
}

/* ---- running in and oil ---- */

/* The band is that of the top speed: a speed above it would run outside the limits. */
static void check_speeds_of_lathe(const struct lathe *lathe, struct diags *diags)
{
    for (size_t i = 0; i < lathe->speeds.count && given(&lathe->top_speed); i++) {
        const struct measure *speed = &lathe->speeds.items[i];
        if (compare(speed, &lathe->top_speed) > 0)
            fault(
                diags, speed->at,
                "lathe.speeds has %s r/min, above lathe.top-speed, %s r/min; the band must be "
                "that of the fastest speed: correct one of the two",
                speed->q.digits, lathe->top_speed.q.digits);
    }
}

/* A stop at or below the room would never let the spindle start. */
static void check_stop(const struct shop *shop, struct diags *diags)
{
    const struct run_in *run_in = &shop->run_in;
    if (both(&run_in->room, &run_in->stop) && compare(&run_in->stop, &run_in->room) <= 0)
        fault(diags, is_typed(&run_in->stop.at) ? run_in->stop.at : run_in->room.at,
              "the temperature at which to stop is not above that of the room; correct "
              "run-in.stop or run-in.room");
}

/* Thinner where it is hotter, at the temperatures of a data sheet where none are given. */
static void check_viscosities(const struct oil_typed *oil, struct diags *diags)
{
    if (!both(&oil->first_temperature, &oil->second_temperature))
        return;
    int hotter = compare(&oil->second_temperature, &oil->first_temperature);
    int thicker = compare(&oil->second_viscosity, &oil->first_viscosity);
    if (hotter == 0)
        fault(diags, oil->second_viscosity.at,
              "both viscosities of the oil are for one temperature; write a second one from "
              "the data sheet");
    else if (hotter * thicker >= 0)
        fault(diags, oil->second_viscosity.at,
              "the oil is not thinner where it is hotter; exchange the two viscosities, or "
              "correct their temperatures");
}

/* One way of saying how thick it is: its grade, or its two viscosities. */
static void check_oil(const struct oil_typed *oil, struct diags *diags)
{
    bool first = given(&oil->first_viscosity), second = given(&oil->second_viscosity);
    struct place at = first ? oil->first_viscosity.at : oil->second_viscosity.at;
    if (oil->grade && (first || second))
        fault(diags, at,
              "the oil has both a grade and a viscosity; keep the two viscosities if its data "
              "sheet gives both");
    else if (first != second)
        fault(diags, at,
              "the oil has one viscosity alone; write the other one of its data sheet too, or "
              "its grade instead");
    else if (first)
        check_viscosities(oil, diags);
}

/* ---- what is still the demo's ---- */

static bool says_invented(const char *text)
{
    return text && strcasestr(text, "invented");
}

/* Where there is one such row there are more: the first stands for all. */
static bool tell_of_row(const char *note, struct place at, struct diags *diags)
{
    if (!says_invented(note))
        return false;
    fault(diags, at,
          "this row still says 'invented', but lathe.notice is gone; delete every row that is "
          "not your own, or keep the notice");
    return true;
}

/* Whoever puts in a lathe, limits and logs of his own takes the notice away: not before. */
static void check_notice(const struct shop *shop, struct diags *diags)
{
    if (shop->lathe.notice)
        return;
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (field->type != FIELD_TEXT || strchr(field->path, '#'))
            continue;
        const char *text = field_text(NULL, field, shop, 1);
        if (says_invented(text))
            fault(diags, shop_place_of_text(shop, text),
                  "%s still says 'invented', but lathe.notice is gone; write your own, or keep "
                  "the notice",
                  field->path);
    }
    const struct weighings *weighings = &shop->weighings;
    const struct pull_series_log *readings = &shop->readings;
    for (size_t i = 0; i < weighings->count; i++)
        if (tell_of_row(weighings->items[i].note, weighings->items[i].at, diags))
            break;
    for (size_t i = 0; i < readings->count; i++)
        if (tell_of_row(readings->items[i].note, readings->items[i].at, diags))
            break;
}

/* ---- what is still missing ---- */

static void require_limits(const struct shop *shop, bool in_order, struct diags *diags)
{
    const struct limits *limits = &shop->limits;
    if (!limits->band_count) {
        fault(diags, place_of(shop, &shop->lathe.top_speed),
              "there is no speed band; write at least one row under limits, bands, or "
              "'on-file: none' there if no limit is known");
        return;
    }
    if (limits->basis == BASIS_INCREASE && !given(&limits->slack_drag))
        fault(
            diags, place_of(shop, &limits->bands[0].low),
            "the limits are an increase over the slack drag, but limits.slack-drag is missing; "
            "measure the drag with the nut slack and write it there");
    if (in_order && have_all(shop) && !shop_own_band(shop))
        fault(diags, shop->lathe.top_speed.at,
              "the top speed %s r/min lies in no speed band; correct the speed or the bands",
              shop->lathe.top_speed.q.digits);
}

static void require_gauge(const struct shop *shop, struct diags *diags)
{
    const struct gauge *gauge = &shop->gauge;
    if (absent(&gauge->full_scale_error) && absent(&gauge->reading_error) &&
        absent(&gauge->checked_error))
        fault(diags, place_of(shop, &gauge->capacity),
              "the gauge has no error; write full-scale-error or reading-error from its data "
              "sheet, or checked-error from weights of your own");
}

/* ---- the whole ---- */

bool shop_check_given(struct shop *shop, struct diags *diags)
{
    bool in_order = check_bands(&shop->limits, diags);
    check_never_exceed(&shop->limits, diags);
    check_gauge(&shop->gauge, diags);
    check_drum_and_cord(shop, diags);
    check_drum_to_make(shop, diags);
    check_nut(shop, diags);
    check_site(&shop->site, diags);
    check_notice(shop, diags);
    sort(&shop->lathe.speeds);
    check_speeds_of_lathe(&shop->lathe, diags);
    check_stop(shop, diags);
    check_oil(&shop->oil, diags);
    sort(&shop->drum_sizes);
    sort(&shop->arms);
    return in_order;
}

void shop_check(struct shop *shop, struct diags *diags)
{
    bool in_order = shop_check_given(shop, diags);
    if (shop_has_limits(shop))
        require_limits(shop, in_order, diags);
    require_gauge(shop, diags);
}
