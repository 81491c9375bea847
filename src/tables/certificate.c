/* The last job of the log as a certificate: what was found, what was left, and what was
 * taken beside it. */
#include "tables/series_cells.h"
#include "verdict/closing.h"
#include "verdict/job.h"

static void add_columns(const struct table_ask *ask, struct table *table)
{
    const char *drag = shop_drag_unit(ask->shop)->shown;
    table_column(table, COLUMN_TEXT, "series", NULL);
    table_column(table, COLUMN_TEXT, "date", NULL);
    table_column(table, COLUMN_TEXT, "nut", NULL);
    table_column(table, COLUMN_TEXT, "spindle", NULL);
    table_column(table, COLUMN_NUMBER, "mean pull", ask->shop->gauge.step.q.unit->shown);
    table_column(table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(table, COLUMN_NUMBER, "U", drag);
    if (shop_has_limits(ask->shop))
        table_column(table, COLUMN_TEXT, "state", NULL);
}

static void add_series(const struct table_ask *ask, struct table *table, const char *name,
                       const struct pull_series *series)
{
    struct cell *cell = table_row(table);
    put_text(cell, name);
    for (size_t i = 1; i < table->column_count; i++)
        put_text(cell + i, "none");
    if (!series)
        return;
    struct judgement judgement = judge_series(ask->shop, series);
    put_text(cell + 1, series->date);
    put_text(cell + 2, series_place_text(ask->arena, series));
    put_text(cell + 3, series_warmth_text(ask->arena, series));
    put_series_mean(ask, cell + 4, &judgement);
    put_series_drag(ask, cell + 5, &judgement);
    if (judgement.band)
        put_state_words(ask, cell + 7, judgement.state);
}

static void add_rows(const struct table_ask *ask, struct table *table, const struct job *job)
{
    add_series(ask, table, "as found", job->found);
    add_series(ask, table, "before locking", job->before);
    add_series(ask, table, "other way round", job->other_way);
    add_series(ask, table, job->left->warm ? "cold" : "warm", job->other_warmth);
    add_series(ask, table, "as left", job->left);
    struct cell *last = &table->cells[(table->row_count - 1) * table->column_count];
    for (size_t i = 0; i < table->column_count; i++)
        last[i].strong = true;
    add_series(ask, table, "checked since", job->since);
}

struct table *make_certificate(const struct table_ask *ask)
{
    struct job job = job_last(ask->shop);
    struct table *table = table_new(
        ask->arena, "certificate",
        shop_has_limits(ask->shop) ? "What was found and what was left"
                                   : "What was found and what was left, " NO_LIMIT_ON_FILE);
    if (!job.left) {
        table_column(table, COLUMN_TEXT, "series", NULL);
        put_text(table_row(table), "none");
        note_no_closing(table);
        return table;
    }
    add_columns(ask, table);
    add_rows(ask, table, &job);
    table_note(
        table,
        "The last job of the log in which the nut was set: its rows lie less than %d days "
        "apart (a rule of ours). Checked since: the last check of a nut that stayed. none: not "
        "taken, or the nut has been moved since. U: sure within, either "
        "way (95 of 100).",
        CLOSING_REST_DAYS);
    double left = series_of_pulls(job.left->pulls, job.left->pull_count).mean;
    note_reach(table, ask->shop, left, left);
    table_note(table,
               "A drag inside its window does not prove that the bearings are good or that "
               "the spindle is stiff.");
    note_inputs(table, ask->shop, true);
    return table;
}
