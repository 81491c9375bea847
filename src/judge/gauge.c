/* Weighings are sorted into checks by day and person; each gives a line of its own. */
#include "judge/gauge.h"

#include "number/unit.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

double shop_gravity(const struct shop *shop)
{
    if (!given(&shop->site.latitude))
        return standard_gravity;
    double height = given(&shop->site.height) ? shop->site.height.q.base : 0;
    return gravity_at(shop->site.latitude.q.base, height);
}

double weighing_force(const struct shop *shop, const struct weighing *weighing)
{
    if (weighing->load.unit->kind == KIND_FORCE)
        return weighing->load.base;
    const struct shop *then = shop_on_day(shop, date_days(weighing->date));
    return weight_of(weighing->load.base, shop_gravity(then));
}

/* ---- one check ---- */

static bool same_check(const struct weighing *a, const struct weighing *b)
{
    return strcmp(a->date, b->date) == 0 && strcmp(a->by, b->by) == 0;
}

struct hung {
    const struct weighing *row;
    double force; /* N */
};

/* By day, then by person, then by load, then as they stand in the log. */
static int compare(const void *left, const void *right)
{
    const struct hung *a = left, *b = right;
    int order = strcmp(a->row->date, b->row->date);
    if (order == 0)
        order = strcmp(a->row->by, b->row->by);
    if (order == 0)
        order = (a->force > b->force) - (a->force < b->force);
    return order ? order : (a->row > b->row) - (a->row < b->row);
}

static const struct weighing **sorted(struct arena *arena, const struct shop *shop)
{
    size_t count = shop->weighings.count;
    const struct weighing **rows = arena_get(arena, (count + 1) * sizeof *rows);
    struct hung *hung = arena_get(arena, (count + 1) * sizeof *hung);
    for (size_t i = 0; i < count; i++) {
        const struct weighing *row = &shop->weighings.items[i];
        hung[i] = (struct hung){row, weighing_force(shop, row)};
    }
    qsort(hung, count, sizeof *hung, compare);
    for (size_t i = 0; i < count; i++)
        rows[i] = hung[i].row;
    return rows;
}

/* How many different loads there are, and of how many the reading was taken both ways; and the
 * most by which the mean coming down lies from that going up. */
struct both_ways {
    int loads, both;
    double apart;
};

/* Rows of one load. */
static void look_at_load(const struct weighing *const *rows, size_t count,
                         struct both_ways *ways)
{
    double sum[2] = {0}, found[2] = {0};
    for (size_t i = 0; i < count; i++) {
        sum[rows[i]->down] += rows[i]->reading.base;
        found[rows[i]->down]++;
    }
    ways->loads++;
    if (found[false] == 0 || found[true] == 0)
        return;
    ways->both++;
    ways->apart = fmax(ways->apart, fabs(sum[true] / found[true] - sum[false] / found[false]));
}

static struct both_ways look_both_ways(const struct weighing *const *rows, size_t count)
{
    struct both_ways ways = {0};
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && rows[end]->load.base == rows[first]->load.base;)
            end++;
        look_at_load(rows + first, end - first, &ways);
    }
    return ways;
}

/* What the rows of a check say of its weights. */
static void look_at_masses(struct gauge_check *check)
{
    check->named = check->rows[0]->masses;
    check->certified = true;
    for (size_t i = 0; i < check->count; i++) {
        const struct weighing *row = check->rows[i];
        double tolerance = row->tolerance.unit ? row->tolerance.base / 100 : GAUGE_MASSES;
        check->tolerance = fmax(check->tolerance, tolerance);
        check->certified = check->certified && row->certificate;
        check->masses = check->masses || row->load.unit->kind == KIND_MASS;
        if (!row->masses || (check->named && strcmp(row->masses, check->named) != 0))
            check->named = NULL;
    }
}

static struct gauge_check check_of(struct arena *arena, const struct shop *shop,
                                   const struct weighing **rows, size_t count)
{
    struct gauge_check check = {.rows = rows,
                                .count = count,
                                .date = rows[0]->date,
                                .by = rows[0]->by,
                                .least = INFINITY};
    double *forces = arena_get(arena, 2 * count * sizeof *forces), *readings = forces + count;
    check.day = date_days(check.date);
    for (size_t i = 0; i < count; i++) {
        forces[i] = weighing_force(shop, rows[i]);
        readings[i] = rows[i]->reading.base;
        check.least = fmin(check.least, forces[i]);
        check.most = fmax(check.most, forces[i]);
    }
    look_at_masses(&check);
    check.line = gauge_line_through(forces, readings, count,
                                    shop_on_day(shop, check.day)->gauge.step.q.base);
    struct both_ways ways = look_both_ways(rows, count);
    check.hysteresis = ways.both ? ways.apart / 2 : NAN;
    check.complete = ways.loads >= 3 && ways.both >= 2;
    return check;
}

/* From one check to the next, at the middle of the later one's loads; a share of them. */
static double change_between(const struct gauge_check *before, const struct gauge_check *now)
{
    double force = now->line.middle, reading = gauge_line_reading(&now->line, force);
    return fabs(gauge_line_force(&before->line, reading) / force - 1);
}

/* ---- which one holds ---- */

double gauge_check_from(const struct gauge_check *check)
{
    return check->least / 2;
}

double gauge_check_to(const struct gauge_check *check)
{
    return check->most * 1.25;
}

bool gauge_check_covers(const struct gauge_check *check, double force)
{
    return check && force >= gauge_check_from(check) && force <= gauge_check_to(check);
}

/* drift: since the check, a share of the force. */
static double within(const struct gauge_check *check, double force, double drift)
{
    double hysteresis = isnan(check->hysteresis) ? 0 : check->hysteresis / check->line.slope;
    const struct doubt doubts[] = {{gauge_line_u(&check->line, force), check->line.nu},
                                   {doubt_rectangular(check->tolerance * force), INFINITY},
                                   {doubt_rectangular(drift * force), INFINITY},
                                   {doubt_rectangular(hysteresis), INFINITY}};
    return sureness_of(doubts, 4).expanded;
}

double gauge_known_within(const struct gauge_check *check, double force)
{
    return within(check, force, check->drift);
}

bool gauge_checks_agree(const struct gauge_check *a, const struct gauge_check *b)
{
    const double ends[] = {fmax(a->least, b->least), fmin(a->most, b->most)};
    for (int i = 0; i < 2; i++) {
        double reading = gauge_line_reading(&a->line, ends[i]);
        double other = gauge_line_force(&b->line, reading);
        double both = hypot(within(a, ends[i], GAUGE_DRIFT), within(b, other, GAUGE_DRIFT));
        if (fabs(other - ends[i]) > both)
            return false;
    }
    return true;
}

/* Whether the weights of two checks cannot be wrong together. */
static bool by_other_weights(const struct gauge_check *a, const struct gauge_check *b)
{
    return a->certified || b->certified ||
           (a->named && b->named && strcmp(a->named, b->named) != 0);
}

static struct gauge_in_force next_in_force(struct gauge_in_force now,
                                           const struct gauge_check *next)
{
    if (!now.check)
        return (struct gauge_in_force){.check = next};
    bool agrees = gauge_checks_agree(now.check, next);
    bool confirmed = agrees && (now.confirmed || by_other_weights(now.check, next));
    if (!now.check->complete)
        return (struct gauge_in_force){next, NULL, confirmed};
    if (next->complete)
        return (struct gauge_in_force){next, agrees ? NULL : now.check, confirmed};
    now.other = agrees ? NULL : next;
    now.confirmed = now.confirmed || confirmed;
    return now;
}

static void follow(struct gauge_checks *checks)
{
    const struct gauge_check *before = NULL;
    struct gauge_in_force in_force = {0};
    for (size_t i = 0; i < checks->count; i++) {
        struct gauge_check *now = &checks->items[i];
        now->drift = before ? fmax(GAUGE_DRIFT, change_between(before, now)) : GAUGE_DRIFT;
        if (now->complete)
            before = now;
        in_force = now->in_force = next_in_force(in_force, now);
    }
}

struct gauge_checks gauge_checks_of(struct arena *arena, const struct shop *shop)
{
    struct gauge_checks checks = {0};
    size_t count = shop->weighings.count;
    const struct weighing **rows = sorted(arena, shop);
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first + 1; end < count && same_check(rows[first], rows[end]);)
            end++;
        struct gauge_check check = check_of(arena, shop, rows + first, end - first);
        if (isnan(check.line.slope))
            *ARENA_PUSH(arena, checks.lineless, checks.lineless_count) = rows[first];
        else
            *ARENA_PUSH(arena, checks.items, checks.count) = check;
    }
    follow(&checks);
    return checks;
}

struct gauge_in_force gauge_in_force_on(const struct gauge_checks *checks, long day)
{
    size_t from = 0, to = checks->count; /* of those on or before the day the last */
    while (from < to) {
        size_t middle = from + (to - from) / 2;
        if (checks->items[middle].day <= day)
            from = middle + 1;
        else
            to = middle;
    }
    return from ? checks->items[from - 1].in_force : (struct gauge_in_force){0};
}

/* ---- what the line looks like ---- */

double gauge_share(double part, double force)
{
    return force > 0 ? 100 * part / force : NAN;
}

static const double far = 0.1; /* off what it should be */

enum gauge_slope gauge_slope_of(const struct gauge_check *check)
{
    const double kg_of_lb = unit_to_base(1, unit_find("lb", 2));
    const struct {
        double ratio;
        enum gauge_slope slope;
    } likely[] = {{1, SLOPE_NEAR_ONE},
                  {kg_of_lb, SLOPE_LOADS_IN_LB},
                  {1 / kg_of_lb, SLOPE_LOADS_IN_KG},
                  {standard_gravity, SLOPE_READINGS_IN_N},
                  {1 / standard_gravity, SLOPE_READINGS_IN_KGF}};
    if (!check)
        return SLOPE_NEAR_ONE;
    for (size_t i = 0; i < sizeof likely / sizeof likely[0]; i++)
        if (fabs(check->line.slope / likely[i].ratio - 1) <= far)
            return likely[i].slope;
    return SLOPE_ODD;
}

/* ---- what is stated ---- */

double gauge_usual_pull(const struct shop *shop)
{
    return shop->gauge.capacity.q.base / 2;
}

double gauge_sheet_error(const struct shop *shop, double force)
{
    const struct gauge *gauge = &shop->gauge;
    double error = 0;
    if (given(&gauge->full_scale_error))
        error += gauge->full_scale_error.q.base / 100 * gauge->capacity.q.base;
    if (given(&gauge->reading_error))
        error += gauge->reading_error.q.base / 100 * force;
    return error;
}

double gauge_stated_error(const struct shop *shop, double force)
{
    const struct measure *checked = &shop->gauge.checked_error;
    return given(checked) ? checked->q.base : gauge_sheet_error(shop, force);
}

enum gauge_source gauge_source_at(const struct shop *shop, const struct gauge_check *check,
                                  double force)
{
    bool checked = given(&shop->gauge.checked_error);
    if (gauge_check_covers(check, force))
        return GAUGE_WEIGHED;
    if (check)
        return checked ? GAUGE_CHECKED_OR_CARRIED : GAUGE_SHEET_OR_CARRIED;
    return checked ? GAUGE_CHECKED : GAUGE_DATA_SHEET;
}

double gauge_within_at(const struct shop *shop, const struct gauge_check *check, double force)
{
    double stated = gauge_stated_error(shop, force);
    if (!check)
        return stated;
    double weighed = gauge_known_within(check, force);
    return gauge_check_covers(check, force) ? weighed : fmax(weighed, stated);
}
