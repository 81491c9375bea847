/* The log of pulls, judged: every series with its drag, how sure it is, its state. */
#include "tables/series_cells.h"
#include "verdict/log_notes.h"

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
    struct judgement judgement = judge_series(ask->shop, series);
    struct cell *cell = table_row(table);
    put_text(cell, series->date);
    put_text(cell + 1, series_nut_text(ask->arena, series));
    put_text(cell + 2, series_spindle_text(ask->arena, series));
    put_series_mean(ask, cell + 3, &judgement);
    put_range(ask, cell + 4, &judgement.pulls);
    put_series_drag(ask, cell + 5, &judgement);
    put_breakaway(ask, cell + 7, series, judgement.pulls.mean);
    if (judgement.band)
        put_state_words(ask, cell + 8, judgement.state);
}

static void add_note(void *table, const char *note)
{
    table_note(table, "%s", note);
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
    log_notes_tell(shop, &(struct listener){add_note, table});
    note_log_reach(table, shop);
    table_note(table,
               "Every row of the log stands here. Compare cold with cold and warm with warm.");
    if (shop_has_limits(shop))
        table_note(table,
                   "Judged is what was pulled as the limits ask: locked, %s, turned the usual "
                   "way. All else is there to compare.",
                   shop_warmth_word(shop));
    note_inputs(table, shop, true);
    return table;
}
