/* The verbs that answer about pulls, windows, drums and the nut. */
#include "bench/bench.h"

#include "verdict/nut_place.h"
#include "verdict/taken.h"
#include "verdict/typed.h"
#include "verdict/window.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A number to draw with: not shown. */
static void draw(const char *name, double value)
{
    char text[40];
    snprintf(text, sizeof text, "%.17g", value);
    bench_row(name, "", text, "");
}

static void quantity_row(const char *name, const struct quantity *quantity)
{
    char text[2 * QUANTITY_TEXT];
    snprintf(text, sizeof text, "%s %s", quantity->digits, quantity->unit->symbol);
    bench_row(name, "", text, "");
}

/* ---- one pull, as it is added ---- */

/* A bare number takes the unit that is chosen beside it. */
static bool is_bare(const char *text)
{
    return text[0] && text[strspn(text, "0123456789.,/- ")] == '\0';
}

/* pull, unit, taken: the pull with its unit, if it may stand behind `taken` others. */
void bench_pull(const struct bench_question *question)
{
    char text[BENCH_ROOM / 64];
    struct quantity pull;
    struct quantity_fault wrong;
    const char *typed = bench_text(question, "pull");
    snprintf(text, sizeof text, "%s%s%s", typed, is_bare(typed) ? " " : "",
             is_bare(typed) ? bench_text(question, "unit") : "");
    if (quantity_parse(text, KIND_FORCE, &pull, &wrong) &&
        pull_allowed(bench_shop(), &pull,
                     (size_t)strtol(bench_text(question, "taken"), NULL, 10), &wrong))
        quantity_row("pull", &pull);
    else
        bench_fault("pull", wrong.offset, wrong.message);
}

/* ---- a series ---- */

static size_t read_pulls(const struct bench_question *question, struct quantity *pulls)
{
    size_t count = 0;
    struct quantity_fault wrong;
    for (size_t i = 0; i < question->count; i++) {
        struct quantity pull;
        if (strcmp(question->fields[i].key, "pull") != 0)
            continue;
        if (!quantity_parse(question->fields[i].text, KIND_FORCE, &pull, &wrong) ||
            !pull_allowed(bench_shop(), &pull, count, &wrong)) {
            bench_fault("pull", wrong.offset, wrong.message);
            return 0;
        }
        pulls[count++] = pull;
    }
    return count;
}

/* The window line, in newton-metres. */
static void draw_line(const struct shop *shop, const struct judgement *judgement)
{
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    struct decimal good_low = decimal_add(&low, &judgement->sureness.exact);
    struct decimal good_high = decimal_subtract(&high, &judgement->sureness.exact);
    draw("draw-low", decimal_to_double(&low));
    draw("draw-high", decimal_to_double(&high));
    draw("draw-good-low", decimal_to_double(&good_low));
    draw("draw-good-high", decimal_to_double(&good_high));
    draw("draw-drag", judgement->drag);
    draw("draw-u", decimal_to_double(&judgement->sureness.exact));
    if (given(&shop->limits.never_exceed))
        draw("draw-never", pulled_limit_near(shop, &shop->limits.never_exceed));
}

typedef bool taken_reader(const char *text, struct taken *taken, struct quantity_fault *fault);

static bool read_as(const struct bench_question *question, const char *key, taken_reader *read,
                    struct taken *taken)
{
    struct quantity_fault wrong;
    bool good = read(bench_text(question, key), taken, &wrong);
    if (!good)
        bench_fault(key, wrong.offset, wrong.message);
    return good;
}

/* warmth, direction, and the lock under a key: how the drag was measured. */
static bool read_taken(const struct bench_question *question, const char *lock_key,
                       struct taken *taken)
{
    bool lock = read_as(question, lock_key, taken_lock_read, taken);
    bool warmth = read_as(question, "warmth", taken_warmth_read, taken);
    bool direction = read_as(question, "direction", taken_direction_read, taken);
    return lock && warmth && direction;
}

/* lock-added: what locking added, N.m; NAN where that is not known. */
static bool read_lock_added(const struct bench_question *question, double *added)
{
    struct quantity typed;
    *added = NAN;
    if (!bench_text(question, "lock-added")[0])
        return true;
    bool good = bench_quantity(question, "lock-added", KIND_TORQUE, &typed);
    if (good)
        *added = typed.base;
    return good;
}

/* pull..., breakaway, lock, warmth, direction, lock-added: what the series says of the drag
 * at the top speed. */
void bench_judge(const struct bench_question *question)
{
    static struct quantity pulls[MOST_PULLS];
    const struct shop *shop = bench_shop();
    struct quantity breakaway;
    struct quantity_fault wrong;
    bool has_breakaway = bench_text(question, "breakaway")[0];
    if (has_breakaway && !bench_quantity(question, "breakaway", KIND_FORCE, &breakaway))
        has_breakaway = false;
    if (has_breakaway && !pull_allowed(shop, &breakaway, 0, &wrong)) {
        bench_fault("breakaway", wrong.offset, wrong.message);
        has_breakaway = false;
    }
    struct taken taken;
    double lock_added;
    bool taken_known = read_taken(question, "lock", &taken);
    bool lock_known = read_lock_added(question, &lock_added);
    size_t count = read_pulls(question, pulls);
    if (!count || !taken_known || !lock_known)
        return;
    struct rig rig = shop_rig(shop);
    struct judgement judgement =
        judge_pulls(shop, shop_own_band(shop), &rig, &taken, pulls, count);
    tell_judgement(&bench_teller, shop, &judgement, pulls, lock_added);
    tell_guarded(&bench_teller, shop, &judgement);
    if (has_breakaway)
        tell_breakaway(&bench_teller, &judgement, &breakaway);
    if (judgement.band)
        draw_line(shop, &judgement);
}

/* ---- windows ---- */

static bool asked_band(const struct bench_question *question, const struct band **band)
{
    struct quantity_fault wrong;
    bool good = band_read(bench_shop(), bench_text(question, "speed"), band, &wrong);
    if (!good)
        bench_fault("speed", wrong.offset, wrong.message);
    return good;
}

/* drum, speed: what the gauge may read. */
void bench_window(const struct bench_question *question)
{
    struct shop shop;
    const struct band *band;
    bool good = asked_band(question, &band);
    if (bench_shop_with("drum.diameter", "drum", bench_text(question, "drum"), &shop) && good)
        tell_window(&bench_teller, &shop, band);
}

/* speed: a row for every common drum and the fitted one. */
void bench_drums(const struct bench_question *question)
{
    const struct band *band;
    if (asked_band(question, &band))
        tell_drums(&bench_teller, bench_shop(), band);
}

/* ---- the nut ---- */

/* angle-1, drag-1, angle-2, drag-2, the older place first; nut-lock, warmth, direction,
 * lock-added. */
void bench_nut(const struct bench_question *question)
{
    static const char *const keys[2][2] = {{"angle-1", "drag-1"}, {"angle-2", "drag-2"}};
    const struct shop *shop = bench_shop();
    struct nut_point points[2];
    for (int i = 0; i < 2; i++) {
        struct quantity angle, drag;
        bool good = bench_quantity(question, keys[i][0], KIND_ANGLE, &angle);
        if (bench_quantity(question, keys[i][1], KIND_TORQUE, &drag) && good)
            points[i] = nut_point_of_drag(shop, angle.base, drag.base);
    }
    struct quantity_fault wrong;
    struct taken taken;
    double lock_added;
    read_taken(question, "nut-lock", &taken);
    read_lock_added(question, &lock_added);
    if (bench_fault_count() == 0 && !nut_points_allowed(points, &wrong))
        bench_fault("angle-2", 0, wrong.message);
    if (bench_fault_count() == 0)
        tell_nut(&bench_teller, shop, shop_own_band(shop), points, &taken, lock_added);
}
