/* The log's places of the nut against the drag found there: what a degree does. */
#include "judge/nut.h"
#include "judge/series.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct pull_series *last; /* with a place of the nut, of the same rig and lock */
    double last_drag;
};

static void put_slope(struct builder *b, struct cell *cell, const struct pull_series *series,
                      double drag)
{
    double turn = b->last ? series->nut.base - b->last->nut.base : 0;
    if (!b->last || !series_alike(b->last, series) || turn == 0 ||
        series_unloaded(b->ask->shop, b->last) || series_unloaded(b->ask->shop, series)) {
        put_text(cell, "none");
        return;
    }
    double slope = (drag - b->last_drag) / turn;
    put_number(b->ask->arena, cell, slope, show_significant(slope, 2).text);
}

static void put_added(struct builder *b, struct cell *cell, const struct pull_series *series,
                      const struct judgement *judgement)
{
    double added = lock_added(b->ask->shop, series);
    if (isnan(added)) {
        put_text(cell, "none");
        return;
    }
    double shown = unit_from_base(added, judgement->unit);
    put_number(b->ask->arena, cell, shown, show_places(shown, judgement->shown_u.places).text);
}

static const char *spindle_words(const struct pull_series *series)
{
    if (series->other_way)
        return series->warm ? "warm, other way" : "cold, other way";
    return series->warm ? "warm" : "cold";
}

static void add_row(struct builder *b, const struct pull_series *series)
{
    struct judgement judgement = judge_series(b->ask->shop, series);
    const struct unit *unit = judgement.unit;
    double drag = unit_from_base(judgement.drag, unit);
    struct cell *cell = table_row(b->table);
    put_text(cell, series->date);
    put_text(cell + 1, quantity_text(b->ask->arena, &series->nut));
    put_text(cell + 2, series_lock_word(series->lock));
    put_text(cell + 3, spindle_words(series));
    put_number(b->ask->arena, cell + 4, drag, show_places(drag, judgement.shown_u.places).text);
    put_slope(b, cell + 5, series, drag);
    put_added(b, cell + 6, series, &judgement);
    b->last = series;
    b->last_drag = drag;
}

struct table *make_nut_map(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    const char *drag = shop_drag_unit(shop)->shown;
    struct builder b = {.ask = ask};
    b.table = table_new(ask->arena, "nut-map", "Places of the nut and the drag found there");
    table_column(b.table, COLUMN_TEXT, "date", NULL);
    table_column(b.table, COLUMN_TEXT, "nut", NULL);
    table_column(b.table, COLUMN_TEXT, "lock", NULL);
    table_column(b.table, COLUMN_TEXT, "spindle", NULL);
    table_column(b.table, COLUMN_NUMBER, "drag", drag);
    table_column(b.table, COLUMN_NUMBER, "more for a degree",
                 arena_format(ask->arena, "%s/°", drag));
    table_column(b.table, COLUMN_NUMBER, "lock added", drag);
    for (size_t i = 0; i < shop->readings.count; i++)
        if (shop->readings.items[i].nut.unit)
            add_row(&b, &shop->readings.items[i]);
    if (!b.last) {
        struct cell *row = table_row(b.table);
        for (size_t i = 0; i < b.table->column_count; i++)
            put_text(&row[i], "none");
        table_note(b.table, "none: no row of the log says where the nut stood.");
        return b.table;
    }
    table_note(b.table,
               "More for a degree: from the row above, where both were taken alike (drum, "
               "cord, warmth, direction, lock) and neither unloaded; else none.");
    table_note(b.table,
               "Lock added: less the drag just before locking, at the same place and else "
               "alike.");
    table_note(b.table,
               "The nut counts from your own mark. An angle is never right for another "
               "lathe.");
    return b.table;
}

/* What a turn of the nut does: at its rim and along the spindle. */

static const double turns[] = {1, 2, 3, 5, 10, 15, 30, 45, 90};

enum { TURNS = sizeof turns / sizeof turns[0] };

static void put_way(const struct table_ask *ask, struct cell *cell, struct nut_distance way)
{
    put_number(ask->arena, cell, way.value, show_distance(&way, 0).text);
}

static void nut_travel_add_row(const struct table_ask *ask, struct table *table, double degrees)
{
    const struct nut *nut = &ask->shop->nut;
    struct cell *cell = table_row(table);
    put_text(cell++, arena_format(ask->arena, "%.0f°", degrees));
    if (given(&nut->outside_diameter))
        put_way(ask, cell++, nut_rim_distance(nut, degrees));
    put_way(ask, cell, nut_travel_distance(nut, degrees));
    put_way(ask, cell + 1, nut_travel_other_unit(nut, degrees));
}

/* The system of the thread comes first, the rim is in that of its diameter. */
static void add_rows(const struct table_ask *ask, struct table *table)
{
    const struct nut *nut = &ask->shop->nut;
    table_column(table, COLUMN_TEXT, "turn", NULL);
    if (given(&nut->outside_diameter))
        table_column(table, COLUMN_NUMBER, "at the rim", nut_rim_distance(nut, 0).unit);
    table_column(table, COLUMN_NUMBER, "along the spindle", nut_travel_distance(nut, 0).unit);
    table_column(table, COLUMN_NUMBER, "along the spindle", nut_travel_other_unit(nut, 0).unit);
    for (size_t i = 0; i < TURNS; i++)
        nut_travel_add_row(ask, table, turns[i]);
}

static const char *thread_text(const struct table_ask *ask)
{
    const struct nut *nut = &ask->shop->nut;
    if (given(&nut->pitch))
        return arena_format(ask->arena, "%s pitch", quantity_text(ask->arena, &nut->pitch.q));
    return quantity_text(ask->arena, &nut->threads.q);
}

struct table *make_nut_travel(const struct table_ask *ask)
{
    const struct nut *nut = &ask->shop->nut;
    bool known = given(&nut->pitch) || given(&nut->threads);
    struct table *table = table_new(
        ask->arena, "nut-travel",
        known ? arena_format(ask->arena, "What a turn of the nut does, %s", thread_text(ask))
              : "What a turn of the nut does");
    if (known) {
        add_rows(ask, table);
        if (given(&nut->outside_diameter))
            table_note(table, "Rim of %s.",
                       quantity_text(ask->arena, &nut->outside_diameter.q));
        table_note(table, "For one thread start. An angle is never right for another lathe.");
        return table;
    }
    table_column(table, COLUMN_TEXT, "turn", NULL);
    put_text(table_row(table), "none");
    table_note(table, "none: the settings give neither nut.pitch nor nut.threads.");
    return table;
}

/* The lift test as a look-up: what the needle must show at twice the pull if the nose only
 * springs, for each reading at the first pull. In divisions of the indicator. */

static const double readings[] = {2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30};

enum { READINGS = sizeof readings / sizeof readings[0] };

static void put_places(const struct table_ask *ask, struct cell *cell, double value)
{
    put_number(ask->arena, cell, value, show_places(value, 1).text);
}

static void lift_test_add_row(const struct table_ask *ask, struct table *table, double first)
{
    double doubt = lift_doubt(1);
    double elastic = 2 * first; /* there lift_clearance() is 0 */
    struct cell *cell = table_row(table);
    put_places(ask, cell, first);
    put_places(ask, cell + 1, elastic - doubt);
    put_places(ask, cell + 2, elastic + doubt);
    put_places(ask, cell + 3, lift_clearance(first, first));
}

/* A quarter of what the gauge for drags reads, in whole steps: twice the weight is F, and
 * twice F must be on it. */
static const char *quarter_text(const struct table_ask *ask)
{
    const struct gauge *gauge = &ask->shop->gauge;
    struct decimal four = decimal_of(4, 0);
    struct decimal four_steps = decimal_multiply(&gauge->step.q.exact, &four);
    int64_t steps = decimal_steps_not_above(&gauge->capacity.q.exact, &four_steps);
    return arena_format(ask->arena, "%s\u00a0%s", show_steps(steps, &gauge->step.q.typed).text,
                        gauge->step.q.unit->shown);
}

static void add_notes(const struct table_ask *ask, struct table *table)
{
    table_note(table,
               "F is at least twice the weight of the spindle and of all that sits on it, 2F "
               "twice that. The gauge for drags reads %s and would do for a weight of up to "
               "%s: for more take a larger scale, or pull through a lever, the same for both "
               "pulls.",
               quantity_text(ask->arena, &ask->shop->gauge.capacity.q), quarter_text(ask));
    table_note(
        table,
        "Less at the second pull than springing allows: clearance. It is twice the first "
        "reading less the second, sure within one and a half divisions. More: something "
        "slipped or stuck, do it again. Each reading counts as good to half a division "
        "(our own reasoning, no source).");
    table_note(
        table,
        "Divisions are those of your indicator. Take one of 2\u00a0µm (0.0001\u00a0in) a "
        "division or finer: with one of 0.01\u00a0mm (0.0005\u00a0in) a clearance below "
        "0.015\u00a0mm (0.00075\u00a0in) stays hidden.");
    table_note(table,
               "Let go: the needle must come back to where it stood, within half a division. A "
               "first reading below 2 divisions tells nothing: take a finer indicator, or pull "
               "harder.");
}

struct table *make_lift_test(const struct table_ask *ask)
{
    struct table *table =
        table_new(ask->arena, "lift-test", "Lift test: the needle at F and at 2F");
    table_column(table, COLUMN_NUMBER, "needle at F", "divisions");
    table_column(table, COLUMN_NUMBER, "springs only: at 2F from", "divisions");
    table_column(table, COLUMN_NUMBER, "to", "divisions");
    table_column(table, COLUMN_NUMBER, "clearance, if it stays there", "divisions");
    for (size_t i = 0; i < READINGS; i++)
        lift_test_add_row(ask, table, readings[i]);
    add_notes(ask, table);
    return table;
}
