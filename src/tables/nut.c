/* What the nut does: to the drag by the log, along the spindle by its thread; and the lift
 * test, which finds the end play that it leaves. */
#include "judge/nut.h"
#include "physics/physics.h"
#include "report/words.h"
#include "tables/common.h"

#include <math.h>

/* ---- the log's places of the nut against the drag found there: what a degree does ---- */

static const char *spindle_words(const struct pull_series *series)
{
    if (series->other_way)
        return series->warm ? "warm, other way" : "cold, other way";
    return series->warm ? "warm" : "cold";
}

/* A row of the log, and the one with a place of the nut before it; NULL: there is none. */
struct nut_row {
    const struct pull_series *series, *last;
    bool says, last_says;   /* something of the drag */
    double drag, last_drag; /* in the unit of drags */
};

/* More drag for a degree since the row before; NaN where the two are not alike. */
static double slope(const struct nut_row *row)
{
    const struct pull_series *series = row->series, *last = row->last;
    double turn = last ? series->nut.base - last->nut.base : 0;
    if (turn == 0 || !row->says || !row->last_says || !series_alike(last, series) ||
        last->unloaded || series->unloaded)
        return NAN;
    return (row->drag - row->last_drag) / turn;
}

static void add_nut_row(struct builder *b, struct nut_row *row)
{
    const struct pull_series *series = row->series;
    struct judgement judgement = judgement_or_none(b, series);
    const struct unit *unit = judgement.unit;
    int places = judgement.shown_u.places;
    double lock_added = b->none ? NAN : results_row(b->results, series)->lock_added;
    row->drag = unit_from_base(judgement.drag, unit);
    row->says = says_drag(&judgement);
    next_row(b);
    put_text(b, "date", series->date);
    put_text(b, "nut", said_text(b->arena, &series->nut));
    put_text(b, "lock", series_lock_word(series->lock));
    put_text(b, "spindle", spindle_words(series));
    put_places(b, "drag", unit->shown, row->drag, places);
    put_significant(b, "more for a degree", arena_format(b->arena, "%s/°", unit->shown),
                    slope(row), 2);
    put_places(b, "lock added", unit->shown, unit_from_base(lock_added, unit), places);
    row->last = series;
    row->last_drag = row->drag;
    row->last_says = row->says;
}

void make_nut_map(struct builder *b)
{
    static const struct pull_series nothing;
    struct nut_row row = {.series = &nothing};
    for (size_t i = 0; i < b->shop->readings.count; i++) {
        row.series = &b->shop->readings.items[i];
        if (row.series->nut.unit)
            add_nut_row(b, &row);
    }
    if (!row.last) {
        b->none = true;
        row.series = &nothing;
        add_nut_row(b, &row);
        table_note(b->table, "none: no row of the log says where the nut stood.");
        return;
    }
    table_note(b->table,
               "More for a degree: from the row above, where both were taken alike (drum, "
               "cord, warmth, direction, lock) and neither unloaded; else none.");
    table_note(b->table,
               "Lock added: less the drag just before locking, at the same place and else "
               "alike.");
    table_note(b->table,
               "The nut counts from your own mark. An angle is never right for another "
               "lathe.");
}

/* ---- what a turn of the nut does: at its rim and along the spindle ---- */

static void put_way(struct builder *b, const char *head, struct nut_distance way)
{
    put_number(b, head, way.unit, way.value, way.shown.text);
}

void make_nut_travel(struct builder *b)
{
    static const double turns[] = {1, 2, 3, 5, 10, 15, 30, 45, 90}; /* degrees */
    const struct nut *nut = &b->shop->nut;
    bool rim = given(&nut->outside_diameter);
    if (!given(&nut->pitch) && !given(&nut->threads)) {
        only_none(b, "turn", "the settings give neither nut.pitch nor nut.threads.");
        return;
    }
    b->table->caption = arena_format(
        b->arena, "%s, %s%s", b->table->caption,
        quantity_text(b->arena, given(&nut->pitch) ? &nut->pitch.q : &nut->threads.q),
        given(&nut->pitch) ? " pitch" : "");
    for (size_t i = 0; i < sizeof turns / sizeof turns[0]; i++) {
        next_row(b);
        put_text(b, "turn", arena_format(b->arena, "%.0f°", turns[i]));
        if (rim)
            put_way(b, "at the rim", nut_rim_distance(nut, turns[i]));
        /* the system of the thread comes first, the rim is in that of its diameter */
        put_way(b, "along the spindle", nut_travel_distance(nut, turns[i]));
        put_way(b, "along the spindle", nut_travel_other_unit(nut, turns[i]));
    }
    if (rim)
        table_note(b->table, "Rim of %s.", quantity_text(b->arena, &nut->outside_diameter.q));
    table_note(b->table, "For one thread start. An angle is never right for another lathe.");
}

/* ---- the lift test as a look-up: what the needle must show at twice the pull if the nose only
 * springs, for each reading at the first pull; in divisions of the indicator ---- */

void make_lift_test(struct builder *b)
{
    static const double readings[] = {2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};
    static const char unit[] = "divisions";
    /* Twice the weight is F, and twice F must be on the gauge: a quarter of what it reads, in
     * whole steps. */
    const struct gauge *gauge = &b->shop->gauge;
    struct decimal four = decimal_of(4, 0);
    struct decimal four_steps = decimal_multiply(&gauge->step.q.exact, &four);
    int64_t steps = decimal_steps_not_above(&gauge->capacity.q.exact, &four_steps);
    for (size_t i = 0; i < sizeof readings / sizeof readings[0]; i++) {
        double first = readings[i], doubt = lift_doubt(1);
        double elastic = 2 * first; /* there lift_clearance() is 0 */
        next_row(b);
        put_places(b, "needle at F", unit, first, 1);
        put_places(b, "springs only: at 2F from", unit, elastic - doubt, 1);
        put_places(b, "to", unit, elastic + doubt, 1);
        put_places(b, "clearance, if it stays there", unit, lift_clearance(first, first), 1);
    }
    table_note(
        b->table,
        "F is at least twice the weight of the spindle and of all that sits on it, 2F "
        "twice that. The gauge for drags reads %s and would do for a weight of up to "
        "%s\u00a0%s: for more take a larger scale, or pull through a lever, the same for both "
        "pulls.",
        quantity_text(b->arena, &gauge->capacity.q),
        show_steps(steps, &gauge->step.q.typed).text, gauge_unit(b));
    table_note(
        b->table,
        "Less at the second pull than springing allows: clearance. It is twice the first "
        "reading less the second, sure within one and a half divisions. More: something "
        "slipped or stuck, do it again. Each reading counts as good to half a division "
        "(our own reasoning, no source).");
    table_note(
        b->table,
        "Divisions are those of your indicator. Take one of 2\u00a0µm (0.0001\u00a0in) a "
        "division or finer: with one of 0.01\u00a0mm (0.0005\u00a0in) a clearance below "
        "0.015\u00a0mm (0.00075\u00a0in) stays hidden.");
    table_note(b->table,
               "Let go: the needle must come back to where it stood, within half a division. A "
               "first reading below 2 divisions tells nothing: take a finer indicator, or pull "
               "harder.");
}
