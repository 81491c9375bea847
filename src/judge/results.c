/* The log is gone through once from its first row on. What earlier rows say of a row is found
 * without going back: for each drum and cord, and each way of pulling, the last row with a
 * place of the nut is kept, and rows between which the nut stayed, or was only turned on, have
 * one number. */
#include "judge/results.h"

#include "judge/drums.h"
#include "judge/nut.h"
#include "judge/window.h"
#include "physics/physics.h"
#include "shop/stored.h"

#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what the rows of the log say of each other ---- */

enum { LOCKS = LOCK_UNLOADED + 1, WAYS = 4 * LOCKS };

/* A drum with a cord, and the last row with a place of the nut for each way of pulling. */
struct rig {
    const struct quantity *drum, *cord;
    const struct judged *last[WAYS];
};

struct course {
    struct arena *arena;
    struct rig *rigs;
    size_t rig_count;
    const struct judged *placed; /* the last row with a place, since the nut was unloaded */
    size_t stay, climb;
};

static bool same_size(const struct quantity *a, const struct quantity *b)
{
    return a->base == b->base && decimal_compare(&a->exact, &b->exact) == 0;
}

static struct rig *rig_of(struct course *course, const struct pull_series *series)
{
    for (size_t i = course->rig_count; i-- > 0;)
        if (same_size(course->rigs[i].drum, &series->drum) &&
            same_size(course->rigs[i].cord, &series->cord))
            return &course->rigs[i];
    struct rig *rig = ARENA_PUSH(course->arena, course->rigs, course->rig_count);
    rig->drum = &series->drum;
    rig->cord = &series->cord;
    return rig;
}

static size_t way_of(const struct pull_series *series, enum lock lock)
{
    return ((size_t)series->warm * 2 + series->other_way) * LOCKS + (size_t)lock;
}

/* The row, where the nut has stayed since. */
static const struct judged *stayed(const struct judged *earlier, const struct judged *row)
{
    return earlier && earlier->stay == row->stay ? earlier : NULL;
}

static double in_celsius(double base)
{
    return unit_from_base(base, unit_find_as("degC", 4, KIND_TEMPERATURE));
}

/* What the cap says of the warmth; a hair is left to what doubles round. */
static void look_at_cap(struct judged *row)
{
    const struct shop *shop = row->known.shop;
    const struct quantity *cap = &row->series->temperature;
    if (!cap->unit)
        return;
    double above = in_celsius(cap->base) - in_celsius(shop->run_in.room.q.base);
    row->warmth_doubted =
        row->series->warm ? above <= AT_ROOM + 1e-9 : fabs(above) > FAR_FROM_ROOM + 1e-9;
    if (row->like && row->like->series->temperature.unit)
        row->other_cap =
            fabs(in_celsius(cap->base) - in_celsius(row->like->series->temperature.base)) >
            LIKE_CAPS + 1e-9;
}

/* Another place of the nut between the two, or a series locked and alike, and the lock was made
 * for another setting. */
static void find_lock(const struct rig *rig, struct judged *row)
{
    const struct judged *open = stayed(rig->last[way_of(row->series, LOCK_BEFORE)], row);
    row->like = stayed(rig->last[way_of(row->series, LOCK_AFTER)], row);
    row->before_lock = open && row->like && row->like > open ? NULL : open;
    if (row->before_lock)
        row->lock_added = row->judgement.drag - row->before_lock->judgement.drag;
}

static void follow(struct course *course, struct judged *row)
{
    const struct pull_series *series = row->series;
    const struct judged *placed = course->placed;
    row->lock_added = NAN;
    if (series->lock == LOCK_UNLOADED)
        course->stay++;
    row->stay = course->stay;
    if (series->nut.unit) {
        struct rig *rig = rig_of(course, series);
        const struct judged **last = &rig->last[way_of(series, series->lock)];
        if (placed && !placed->series->unloaded && placed->series->nut.base <= series->nut.base)
            row->row_before = placed;
        if (placed && !same_size(&placed->series->nut, &series->nut))
            row->stay = ++course->stay;
        row->climb = row->row_before ? placed->climb : ++course->climb;
        bool says = says_drag(&row->judgement);
        if (says && *last && (*last)->climb == row->climb)
            row->looser =
                (*last)->series->nut.base == series->nut.base ? (*last)->looser : *last;
        if (says && series->lock == LOCK_AFTER)
            find_lock(rig, row);
        if (says)
            *last = row;
        course->placed = row;
    }
    if (series->lock == LOCK_UNLOADED) {
        course->stay++;
        course->placed = NULL;
    }
}

/* Series of one day, alike at one place of the nut. */
struct repeats {
    const struct pull_series *last;
    double sum; /* of their means as read, N */
    size_t count;
};

/* Both say the place: between two that leave it out the nut may have been turned, and what it
 * did would be taken for what the hands do. */
static bool is_repeat(const struct pull_series *last, const struct pull_series *series)
{
    return last && last->nut.unit && series->nut.unit && same_size(&last->nut, &series->nut) &&
           strcmp(last->date, series->date) == 0 && series_alike(last, series);
}

/* What a row teaches of the scatter, and of what differs from one series to the next. A series
 * that is rejected teaches nothing. */
static void learn(struct known *known, struct repeats *repeats, const struct judged *row)
{
    const struct pull_series *series = row->series;
    double pulls[SERIES_PULLS], reading = row->judgement.pulls.mean;
    if (row->judgement.odd.scattered || !(reading > 0))
        return;
    if (is_repeat(repeats->last, series)) {
        double mean = repeats->sum / (double)repeats->count;
        double u = scatter_of_mean(&known->scatter, series->pull_count).u;
        between_learn(&known->between, (reading - mean) / mean,
                      u * u * (1 + 1 / (double)repeats->count), repeats->count);
    } else {
        *repeats = (struct repeats){0};
    }
    repeats->last = series;
    repeats->sum += reading;
    repeats->count++;
    for (size_t i = 0; i < series->pull_count; i++)
        pulls[i] = series->pulls[i].base;
    known->shop = row->known.shop; /* its gauge has the step */
    known_learn(known, pulls, series->pull_count);
}

/* What the log teaches, from the scatter that settings begin with: one, unless pulls.scatter
 * was changed between settings of this log. */
struct lesson {
    double scatter; /* % */
    struct known known;
    struct repeats repeats;
};

struct lessons {
    struct lesson *items;
    size_t count;
};

/* What is known up to now by these settings. */
static struct known *known_by(const struct lessons *lessons, const struct shop *shop)
{
    struct lesson *lesson = lessons->items;
    while (lesson->scatter != shop->pulls.scatter.q.base)
        lesson++;
    lesson->known.shop = shop;
    return &lesson->known;
}

static void begin_lesson(struct arena *arena, struct lessons *lessons, const struct shop *shop)
{
    double scatter = shop->pulls.scatter.q.base;
    for (size_t i = 0; i < lessons->count; i++)
        if (lessons->items[i].scatter == scatter)
            return;
    *ARENA_PUSH(arena, lessons->items, lessons->count) =
        (struct lesson){.scatter = scatter, .known = known_at_first(shop)};
}

/* For all settings by which something is judged. */
static struct lessons begin_lessons(struct arena *arena, const struct shop *shop)
{
    struct lessons lessons = {0};
    begin_lesson(arena, &lessons, shop);
    if (shop->filed)
        begin_lesson(arena, &lessons, shop->filed);
    for (size_t i = 0; i < shop->earlier_count; i++)
        begin_lesson(arena, &lessons, shop->earlier[i].shop);
    for (size_t i = 0; i < shop->stored_count; i++)
        if (shop->stored[i].shop)
            begin_lesson(arena, &lessons, shop->stored[i].shop);
    return lessons;
}

static void learn_all(const struct lessons *lessons, const struct judged *row)
{
    for (size_t i = 0; i < lessons->count; i++)
        learn(&lessons->items[i].known, &lessons->items[i].repeats, row);
}

/* The last pulls with the nut slack, of the job that goes on. */
struct slack {
    const struct judged *row;
    const struct pull_series *series; /* of that; NULL: none */
    struct pull_mean pulls;
};

/* Of a row, and of one that follows the log where that is NULL: none where the job has ended,
 * or drum and cord are others. */
static const struct pull_mean *slack_for(struct slack *slack, const struct quantity *drum,
                                         const struct quantity *cord,
                                         const struct pull_series *row)
{
    if (slack->series && row && !series_same_job(row - 1, row))
        slack->series = NULL;
    bool same = slack->series && same_size(&slack->series->drum, drum) &&
                same_size(&slack->series->cord, cord);
    return same ? &slack->pulls : NULL;
}

static const struct judged *slack_alike(const struct slack *slack,
                                        const struct pull_series *series)
{
    bool alike = slack->series && series_alike_but_lock(slack->series, series);
    return alike ? slack->row : NULL;
}

static void take_slack(struct slack *slack, const struct judged *row)
{
    const struct series *pulls = &row->judgement.pulls;
    if (!row->series->unloaded || !says_drag(&row->judgement))
        return;
    slack->row = row;
    slack->series = row->series;
    slack->pulls = (struct pull_mean){pulls->count, pulls->mean, pulls->most - pulls->least,
                                      row->series->traces_u / (double)pulls->count};
}

/* The settings in force for a row, what they have for its lathe, and the gauge's checks by
 * them: those that a record has stand for themselves. */
struct in_force {
    const struct shop *stored, *shop; /* stored: by the record of the row's job; or NULL */
    const struct band *band;
    struct gauge_checks checks;
};

static void move_to(struct arena *arena, const struct results *results,
                    const struct pull_series *row, struct in_force *force)
{
    const struct shop *today = results->shop;
    if (row == today->readings.items || !series_same_job(row - 1, row))
        force->stored = row->job ? shop_of_record(today, row->job) : NULL;
    const struct shop *shop =
        force->stored ? force->stored : shop_on_day(today, date_days(row->date));
    if (force->shop == shop)
        return;
    force->shop = shop;
    force->band = shop_own_band(shop);
    force->checks = force->stored ? gauge_checks_of(arena, shop) : results->checks;
}

/* All rows in one unit, whatever that of the limits was on their days. */
static void show_in(struct judgement *judgement, const struct unit *unit)
{
    if (judgement->unit == unit)
        return;
    judgement->unit = unit;
    judgement->shown_u = uncertainty_shown_in(judgement->measured.drag.sureness.expanded, unit);
}

static void judge_log(struct arena *arena, struct results *results)
{
    struct in_force force = {0};
    struct course course = {.arena = arena};
    struct slack slack = {0};
    const struct shop *shop = results->shop;
    const struct pull_series_log *log = &shop->readings;
    const struct unit *unit = shop_drag_unit(shop);
    struct lessons lessons = begin_lessons(arena, shop);
    results->row_count = log->count;
    results->rows = arena_get(arena, (log->count + 1) * sizeof *results->rows);
    for (size_t i = 0; i < log->count; i++) {
        struct judged *row = &results->rows[i];
        struct pull_conditions conditions = series_conditions(&log->items[i]);
        const struct pull_series *series = row->series = &log->items[i];
        move_to(arena, results, series, &force);
        struct known *known = known_by(&lessons, force.shop);
        known_on_day(known, &force.checks, date_days(series->date),
                     slack_for(&slack, &series->drum, &series->cord, series),
                     effective_radius(&series->drum, &series->cord));
        row->known = *known;
        row->judgement = judge_series(known, force.band, &conditions, series);
        show_in(&row->judgement, unit);
        follow(&course, row);
        row->slack = slack_alike(&slack, series);
        look_at_cap(row);
        learn_all(&lessons, row);
        take_slack(&slack, row);
    }
    results->known = *known_by(&lessons, shop);
    known_on_day(&results->known, &results->checks, LONG_MAX,
                 slack_for(&slack, &shop->drum.diameter.q, &shop->cord.diameter.q, NULL),
                 shop_radius(shop));
}

/* The last of what the rows have, at the place of its U. */
static void find_lock_share(struct results *results)
{
    char text[QUANTITY_TEXT];
    struct quantity_fault ignored;
    const struct judged *row = results->rows + results->row_count;
    results->lock_added = NAN;
    while (row > results->rows && isnan(row[-1].lock_added))
        row--;
    if (row == results->rows)
        return;
    const struct judgement *judgement = &row[-1].judgement;
    snprintf(text, sizeof text, "%.*f %s", judgement->shown_u.places,
             unit_from_base(row[-1].lock_added, judgement->unit), judgement->unit->symbol);
    if (quantity_parse(text, KIND_TORQUE, &results->lock_share, &ignored))
        results->lock_added = results->lock_share.base;
}

/* ---- jobs ---- */

/* Pulled while the nut was being set: not as found, nor a check of a nut left alone. */
static bool is_setting(const struct pull_series *series)
{
    return series->lock == LOCK_BEFORE || series->lock == LOCK_UNLOADED;
}

static bool may_close(const struct judged *row)
{
    const struct pull_conditions *conditions = &row->judgement.conditions;
    return says_drag(&row->judgement) && conditions_suit_limits(row->known.shop, conditions) &&
           conditions->lock == LOCK_AFTER;
}

/* Sorts a row of the closing series' own place among those beside it. */
static void take_beside(struct job *job, const struct pull_series *series)
{
    const struct pull_series *left = job->left;
    struct pull_series turned = *series, warmed = *series;
    turned.other_way = !series->other_way;
    warmed.warm = !series->warm;
    if (series < left && series->lock == LOCK_BEFORE && series_alike_but_lock(series, left))
        job->before = series;
    if (series_alike(&turned, left))
        job->other_way = series;
    if (series_alike(&warmed, left))
        job->other_warmth = series;
}

/* Of two series at one place the one that says where that is. */
static const struct pull_series *where_said(const struct pull_series *series,
                                            const struct pull_series *placed)
{
    return placed->nut.unit ? placed : series;
}

static void look_beside(const struct results *results, struct job *job)
{
    const struct pull_series *items = results->shop->readings.items;
    const struct pull_series *from = job->left, *to = job->left + 1, *placed = job->left;
    while (from > items + job->first && !series_nut_moved(from - 1, placed))
        placed = where_said(--from, placed);
    while (to < items + job->end && !series_nut_moved(to, placed))
        placed = where_said(to++, placed);
    for (const struct pull_series *at = from; at < to; at++)
        if (says_drag(&results_row(results, at)->judgement))
            take_beside(job, at);
}

/* The steps of a job that is named, and whether one closes it. *step: where to look from, and
 * then where the next job's steps may begin. */
static void take_steps(struct job *job, const char *name, const struct pull_series_log *steps,
                       size_t *step)
{
    while (*step < steps->count && strcmp(steps->items[*step].job, name) != 0)
        ++*step;
    job->steps = steps->items + *step;
    for (; *step < steps->count && strcmp(steps->items[*step].job, name) == 0; ++*step) {
        if (steps->items[*step].step == STEP_CLOSED)
            job->closed = &steps->items[*step];
        job->step_count++;
    }
}

/* step: of the log's steps the first that no earlier job has. */
static struct job job_from(const struct results *results, size_t first, size_t *step)
{
    const struct pull_series *items = results->shop->readings.items;
    struct job job = {.first = first, .end = first};
    if (!is_setting(&items[first]) && !items[first].other_way &&
        says_drag(&results->rows[first].judgement))
        job.found = &items[first];
    do {
        if (may_close(&results->rows[job.end]))
            job.left = &items[job.end];
        job.end++;
    } while (job.end < results->row_count &&
             series_same_job(&items[job.end - 1], &items[job.end]));
    if (items[first].job)
        take_steps(&job, items[first].job, &results->shop->steps, step);
    else
        job.closed = job.left;
    if (!job.closed)
        job.left = NULL;
    if (job.left) {
        results->rows[job.left - items].closes = true;
        look_beside(results, &job);
    }
    return job;
}

/* Whether some row of a job has the nut elsewhere than the last row before it that says
 * where, or unlocked. *place: that row, and then the job's own last. */
static bool was_set(const struct shop *shop, const struct job *job,
                    const struct pull_series **place)
{
    bool set = false;
    const struct pull_series *items = shop->readings.items;
    for (const struct pull_series *at = items + job->first; at < items + job->end; at++) {
        set = set || is_setting(at) || (*place && series_nut_moved(*place, at));
        if (at->nut.unit)
            *place = at;
    }
    return set;
}

static void find_jobs(struct arena *arena, struct results *results)
{
    const struct pull_series *place = NULL;
    struct job *last = &results->last_job;
    bool set = false;
    for (size_t first = 0, step = 0; first < results->row_count;) {
        struct job *job = ARENA_PUSH(arena, results->jobs, results->job_count);
        *job = job_from(results, first, &step);
        set = was_set(results->shop, job, &place) || set;
        if (job->left && last->set && !set) {
            last->since = job->left;
        } else if (job->left) {
            *last = *job;
            last->set = set;
        }
        if (job->left)
            set = false;
        first = job->end;
    }
}

/* ---- places of the nut ---- */

static void find_places(struct results *results)
{
    const struct judged *end = results->rows + results->row_count, *last = end;
    while (last > results->rows && !last[-1].series->nut.unit)
        last--;
    results->latest = end > results->rows ? end - 1 : NULL;
    if (last == results->rows)
        return;
    results->last_place = last - 1;
    for (const struct judged *at = end; at-- > results->rows && !results->steering;) {
        if (series_nut_moved(at->series, results->last_place->series))
            return;
        if (says_drag(&at->judgement) && nut_may_steer(at->known.shop, at->series))
            results->steering = at;
    }
    if (results->steering)
        results->latest = results->steering;
    for (const struct judged *at = results->latest; at < end; at++)
        if (at->judgement.high || at->judgement.over_never || !says_drag(&at->judgement))
            results->latest = at;
}

const struct judged *looser_place(const struct judged *row)
{
    const struct judged *looser = row->looser;
    return looser && row->series->nut.base - looser->series->nut.base <= NUT_FAR_APART ? looser
                                                                                       : NULL;
}

double nut_slope(const struct results *results)
{
    for (const struct judged *row = results->last_place; row; row = row->row_before) {
        const struct judged *looser = looser_place(row);
        double rise = looser ? row->judgement.drag - looser->judgement.drag : 0;
        if (rise > 0)
            return rise / (row->series->nut.base - looser->series->nut.base);
    }
    return NAN;
}

/* ---- the whole ---- */

/* A pull that counts as a starting one is the breakaway itself. */
static void find_breakaway(struct results *results)
{
    double most = 0;
    if (shop_reads_starting(results->shop)) {
        results->breakaway_ratio = 1;
        return;
    }
    for (size_t i = 0; i < results->row_count; i++) {
        const struct pull_series *series = results->rows[i].series;
        double mean = results->rows[i].judgement.pulls.mean;
        if (says_drag(&results->rows[i].judgement) && series->breakaway.unit && mean > 0 &&
            series->breakaway.base / mean > most) {
            most = series->breakaway.base / mean;
            results->hardest = series;
        }
    }
    results->breakaway_ratio = results->hardest ? most : BREAKAWAY_USUAL;
}

static void find_windows(struct arena *arena, struct results *results)
{
    const struct limits *limits = &results->shop->limits;
    struct drum_setup setup = shop_drum_setup(results->shop);
    results->windows = arena_get(arena, (limits->band_count + 1) * sizeof *results->windows);
    for (size_t i = 0; i < limits->band_count; i++)
        results->windows[i] = guarded_window_on(&results->known, &limits->bands[i], &setup);
    if (results->band)
        results->own = results_window(results, results->band);
}

const struct results *results_of(struct arena *arena, const struct shop *shop)
{
    struct results *results = arena_get(arena, sizeof *results);
    *results = (struct results){
        .shop = shop, .band = shop_own_band(shop), .checks = gauge_checks_of(arena, shop)};
    judge_log(arena, results);
    find_windows(arena, results);
    find_lock_share(results);
    find_jobs(arena, results);
    find_places(results);
    find_breakaway(results);
    return results;
}

const struct results *results_as_of(struct arena *arena, const struct results *results,
                                    const struct judged *row)
{
    struct results *then = arena_get(arena, sizeof *then);
    *then = *results;
    then->shop = row->known.shop;
    then->known = row->known;
    then->band = shop_own_band(then->shop);
    then->own = NULL;
    find_windows(arena, then);
    return then;
}

const struct judged *results_row(const struct results *results,
                                 const struct pull_series *series)
{
    return &results->rows[series - results->rows->series];
}

const struct guarded_window *results_window(const struct results *results,
                                            const struct band *band)
{
    return &results->windows[band - results->shop->limits.bands];
}

const struct judged *last_alike(const struct results *results,
                                const struct pull_conditions *conditions)
{
    const struct shop *shop = results->shop;
    bool as_said = conditions && conditions->lock != LOCK_UNSAID;
    struct pull_series wanted = {.lock = as_said ? conditions->lock : LOCK_AFTER,
                                 .warm = conditions && conditions->warmth == SAID_WARM,
                                 .other_way = conditions && conditions->other_way,
                                 .drum = shop->drum.diameter.q,
                                 .cord = shop->cord.diameter.q};
    for (size_t i = results->row_count; i-- > 0;)
        if (says_drag(&results->rows[i].judgement) &&
            series_alike(results->rows[i].series, &wanted))
            return &results->rows[i];
    return NULL;
}
