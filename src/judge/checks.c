/* Weighings are sorted into sessions by day and person; each gives a line of its own. */
#include "judge/checks.h"

#include "judge/gauge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const double check_masses = 0.005;
const double check_drift = 0.005;
const double check_gravity = 0.0027;

/* ---- one session ---- */

static bool same_session(const struct weighing *a, const struct weighing *b)
{
    return strcmp(a->date, b->date) == 0 && strcmp(a->by, b->by) == 0;
}

/* By day, then by person, then as they stand in the file. */
static int compare(const void *left, const void *right)
{
    const struct weighing *a = *(const struct weighing *const *)left;
    const struct weighing *b = *(const struct weighing *const *)right;
    int order = strcmp(a->date, b->date);
    if (order == 0)
        order = strcmp(a->by, b->by);
    return order ? order : (a > b) - (a < b);
}

/* How many different loads there are, and of how many the reading was taken both ways; and the
 * most by which the mean coming down lies from that going up. */
struct both_ways {
    int loads, both;
    double apart;
};

static double mean_reading(const struct weighing *const *rows, size_t count,
                           const struct quantity *load, bool down)
{
    double sum = 0, found = 0;
    for (size_t i = 0; i < count; i++)
        if (rows[i]->down == down && rows[i]->load.base == load->base) {
            sum += rows[i]->reading.base;
            found++;
        }
    return sum / found; /* NaN for none */
}

static struct both_ways look_both_ways(const struct weighing *const *rows, size_t count)
{
    struct both_ways ways = {0};
    for (size_t i = 0; i < count; i++) {
        const struct quantity *load = &rows[i]->load;
        size_t earlier = 0;
        while (rows[earlier]->load.base != load->base)
            earlier++;
        if (earlier < i)
            continue;
        double apart = fabs(mean_reading(rows, count, load, true) -
                            mean_reading(rows, count, load, false));
        ways.loads++;
        ways.both += !isnan(apart);
        ways.apart = fmax(ways.apart, apart);
    }
    return ways;
}

static struct check_session session_of(struct arena *arena, const struct shop *shop,
                                       const struct weighing *const *rows, size_t count)
{
    struct check_session session = {
        .last = rows[count - 1], .least = INFINITY, .tolerance = check_masses};
    double *forces = arena_get(arena, 2 * count * sizeof *forces), *readings = forces + count;
    session.day = date_days(session.last->date);
    for (size_t i = 0; i < count; i++) {
        forces[i] = weighing_force(shop, rows[i]);
        readings[i] = rows[i]->reading.base;
        session.least = fmin(session.least, forces[i]);
        session.most = fmax(session.most, forces[i]);
        session.masses = session.masses || rows[i]->load.unit->kind == KIND_MASS;
    }
    session.line = gauge_line_through(forces, readings, count, shop->gauge.step.q.base);
    struct both_ways ways = look_both_ways(rows, count);
    session.hysteresis = ways.both ? ways.apart / 2 : NAN;
    session.complete = ways.loads >= 3 && ways.both >= 2;
    return session;
}

/* From one session to the next, at the middle of the later one's loads; a share of them. */
static double change_between(const struct check_session *before,
                             const struct check_session *now)
{
    double force = now->line.middle, reading = gauge_line_reading(&now->line, force);
    return fabs(gauge_line_force(&before->line, reading) / force - 1);
}

static void add_drift(struct check_sessions *sessions)
{
    const struct check_session *before = NULL;
    for (size_t i = 0; i < sessions->count; i++) {
        struct check_session *now = &sessions->items[i];
        now->drift = before ? fmax(check_drift, change_between(before, now)) : check_drift;
        if (now->complete)
            before = now;
    }
}

struct check_sessions check_sessions_of(struct arena *arena, const struct shop *shop)
{
    struct check_sessions sessions = {0};
    size_t count = shop->weighings.count;
    const struct weighing **rows = arena_get(arena, (count + 1) * sizeof *rows);
    for (size_t i = 0; i < count; i++)
        rows[i] = &shop->weighings.items[i];
    qsort(rows, count, sizeof *rows, compare);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && same_session(rows[first], rows[end]);)
            end++;
        struct check_session session = session_of(arena, shop, rows + first, end - first);
        if (!isnan(session.line.slope))
            *ARENA_PUSH(arena, sessions.items, sessions.count) = session;
    }
    add_drift(&sessions);
    return sessions;
}

/* ---- which one holds ---- */

bool check_reaches(const struct check_session *check, double force)
{
    return force >= check->least / 2 && force <= check->most * 1.25;
}

/* U of the force that a reading means. */
static double expanded(const struct check_session *check, double force)
{
    const struct doubt doubts[] = {
        {gauge_line_u(&check->line, force), check->line.nu},
        {doubt_rectangular(check->tolerance * force), INFINITY},
        {doubt_rectangular(check_drift * force), INFINITY},
        {doubt_rectangular(isnan(check->hysteresis) ? 0 : check->hysteresis), INFINITY}};
    return sureness_of(doubts, 4).expanded;
}

bool checks_agree(const struct check_session *a, const struct check_session *b)
{
    const double ends[] = {fmax(a->least, b->least), fmin(a->most, b->most)};
    for (int i = 0; i < 2; i++) {
        double reading = gauge_line_reading(&a->line, ends[i]);
        double other = gauge_line_force(&b->line, reading);
        double both = hypot(expanded(a, ends[i]), expanded(b, other));
        if (fabs(other - ends[i]) > both)
            return false;
    }
    return true;
}

struct check_in_force check_in_force_on(const struct check_sessions *sessions, long day)
{
    struct check_in_force force = {0};
    for (size_t i = 0; i < sessions->count && sessions->items[i].day <= day; i++) {
        const struct check_session *next = &sessions->items[i];
        bool agrees = !force.check || checks_agree(force.check, next);
        if (!force.check || next->complete || !force.check->complete) {
            force.other = agrees ? NULL : force.check;
            force.check = next;
        } else if (agrees) {
            force.other = NULL;
        } else {
            force.other = next;
        }
    }
    return force;
}
