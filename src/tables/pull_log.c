/* The log of pulls, judged: every series with its drag, how sure it is, its state. */
#include "tables/common.h"
#include "verdict/state.h"

#include <math.h>

static void add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_TEXT, "date", NULL);
    table_column(table, COLUMN_TEXT, "nut and lock", NULL);
    table_column(table, COLUMN_TEXT, "spindle", NULL);
    table_column(table, COLUMN_NUMBER, "mean pull", ask->shop->gauge.step.q.unit->shown);
    table_column(table, COLUMN_NUMBER, "range", "%");
    table_column(table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(table, COLUMN_NUMBER, "U", drag);
    table_column(table, COLUMN_NUMBER, "breakaway over mean", NULL);
    if (shop_has_limits(ask->shop))
        table_column(table, COLUMN_TEXT, "state", NULL);
}

static const char *nut_text(struct arena *arena, const struct pull_series *series)
{
    static const char *const words[] = {
        [LOCK_UNSAID] = "", [LOCK_BEFORE] = "before lock", [LOCK_AFTER] = "locked"};
    const char *lock = words[series->lock];
    if (!series->nut.unit)
        return lock[0] ? lock : "not said";
    const char *angle = quantity_text(arena, &series->nut);
    return lock[0] ? arena_format(arena, "%s, %s", angle, lock) : angle;
}

static const char *spindle_text(struct arena *arena, const struct pull_series *series)
{
    const char *warmth = series->warm ? "warm" : "cold";
    const char *way = series->other_way ? ", other way" : "";
    if (!series->temperature.unit)
        return arena_format(arena, "%s%s", warmth, way);
    return arena_format(arena, "%s, %s%s", warmth, quantity_text(arena, &series->temperature),
                        way);
}

/* A drag shown to the place of its own uncertainty. */
static void put_drag(const struct table_ask *ask, struct cell *cell,
                     const struct judgement *judgement)
{
    const struct unit *unit = judgement->unit;
    double drag = unit_from_base(judgement->drag, unit);
    char digits[DECIMAL_TEXT];
    put_number(ask->arena, cell, drag, show_places(drag, judgement->sureness.places).text);
    decimal_print(&judgement->sureness.typed, judgement->sureness.places, digits);
    put_number(ask->arena, cell + 1, unit_from_base(judgement->uncertainty.expanded, unit),
               digits);
}

static void put_range(const struct table_ask *ask, struct cell *cell,
                      const struct series *pulls)
{
    double range = 100 * series_relative_range(pulls);
    if (pulls->count < 2 || !isfinite(range))
        put_text(cell, "none");
    else
        put_number(ask->arena, cell, range, show_places(range, 1).text);
}

static void put_breakaway(const struct table_ask *ask, struct cell *cell,
                          const struct pull_series *series, double mean)
{
    if (!series->breakaway.unit || !(mean > 0))
        put_text(cell, "none");
    else
        put_number(ask->arena, cell, series->breakaway.base / mean,
                   show_places(series->breakaway.base / mean, 2).text);
}

static void add_row(const struct table_ask *ask, struct table *table,
                    const struct pull_series *series)
{
    const struct unit *gauge = ask->shop->gauge.step.q.unit;
    struct judgement judgement = judge_series(ask->shop, series);
    double mean = unit_from_base(judgement.pulls.mean, gauge);
    int places = decimal_places(&ask->shop->gauge.step.q.typed) + 1;
    struct cell *cell = table_row(table);
    put_text(cell, series->date);
    put_text(cell + 1, nut_text(ask->arena, series));
    put_text(cell + 2, spindle_text(ask->arena, series));
    put_number(ask->arena, cell + 3, mean, show_places(mean, places).text);
    put_range(ask, cell + 4, &judgement.pulls);
    put_drag(ask, cell + 5, &judgement);
    put_breakaway(ask, cell + 7, series, judgement.pulls.mean);
    if (judgement.band)
        put_text(cell + 8, arena_format(ask->arena, "%s %s", state_shape(judgement.state),
                                        state_words(judgement.state)));
}

/* Series that ask for a cause: a rule of thumb of ours. */
static void note_scatter(struct table *table, const struct shop *shop)
{
    for (size_t i = 0; i < shop->readings.count; i++) {
        const struct pull_series *series = &shop->readings.items[i];
        struct judgement judgement = judge_series(shop, series);
        if (judgement.pulls.count > 1 && series_relative_range(&judgement.pulls) > 0.1)
            table_note(table,
                       "Line %d of the log, %s: the pulls lie further apart than a tenth of "
                       "their mean. Find the cause before you believe the mean.",
                       series->at.line, series->date);
    }
}

struct table *make_pull_log(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct table *table = table_new(
        ask->arena, "pull-log",
        shop_has_limits(shop) ? arena_format(ask->arena, "The log of pulls, judged for %s",
                                             band_text(ask->arena, shop_own_band(shop)))
                              : "The log of pulls, " NO_LIMIT_ON_FILE);
    if (shop->readings.count == 0) {
        table_column(table, COLUMN_TEXT, "date", NULL);
        put_text(table_row(table), "none");
        table_note(table, "none: there is no log yet. Write readings.csv beside the settings.");
        return table;
    }
    add_columns(ask, table);
    for (size_t i = 0; i < shop->readings.count; i++)
        add_row(ask, table, &shop->readings.items[i]);
    note_scatter(table, shop);
    table_note(table,
               "Every row of the log stands here. Compare cold with cold and warm with warm. "
               "New bearings lose drag as they run in: that alone is no lost preload.");
    note_inputs(table, shop, true);
    return table;
}
