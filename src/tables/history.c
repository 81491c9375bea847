/* One line for each closing check over the years, with the change against the one before
 * and how sure that change is. */
#include "tables/series_cells.h"
#include "verdict/closing.h"
#include "verdict/job.h"
#include "verdict/log_notes.h"

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct pull_series *last; /* closing series of the job before; NULL at first */
    struct judgement last_judgement;
};

static void add_columns(const struct builder *b)
{
    const char *drag = shop_drag_unit(b->ask->shop)->shown;
    table_column(b->table, COLUMN_TEXT, "date", NULL);
    table_column(b->table, COLUMN_TEXT, "nut", NULL);
    table_column(b->table, COLUMN_TEXT, "cap", NULL);
    table_column(b->table, COLUMN_NUMBER, "drag", drag)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "U", drag);
    table_column(b->table, COLUMN_NUMBER, "change", drag);
    table_column(b->table, COLUMN_NUMBER, "its doubt", drag);
    table_column(b->table, COLUMN_TEXT, "that is", NULL);
    if (shop_has_limits(b->ask->shop))
        table_column(b->table, COLUMN_TEXT, "state", NULL);
}

static const char *words_of(const struct builder *b, const struct drag_change *change,
                            const struct pull_series *series)
{
    const char *words = !change->clear       ? "within its doubt"
                        : change->change < 0 ? "clearly less"
                                             : "clearly more";
    if (!series_nut_moved(b->last, series))
        return words;
    return arena_format(b->ask->arena, "nut moved: %s", words);
}

static void put_change(const struct builder *b, struct cell *cell,
                       const struct pull_series *series, const struct judgement *judgement)
{
    if (!b->last) {
        for (int i = 0; i < 3; i++)
            put_text(cell + i, "none");
        return;
    }
    struct drag_change change = drag_change_of(&b->last_judgement, judgement);
    double amount = unit_from_base(change.change, judgement->unit);
    char digits[DECIMAL_TEXT];
    decimal_print(&change.doubt.typed, change.doubt.places, digits);
    put_number(b->ask->arena, cell, amount, show_places(amount, change.doubt.places).text);
    put_number(b->ask->arena, cell + 1, decimal_to_double(&change.doubt.typed), digits);
    put_text(cell + 2, words_of(b, &change, series));
}

static void add_row(struct builder *b, const struct pull_series *series)
{
    struct judgement judgement = judge_series(b->ask->shop, series);
    struct cell *cell = table_row(b->table);
    put_text(cell, series->date);
    put_text(cell + 1, series_place_text(b->ask->arena, series));
    put_text(cell + 2, series_cap_text(b->ask->arena, series));
    put_series_drag(b->ask, cell + 3, &judgement);
    put_change(b, cell + 5, series, &judgement);
    if (judgement.band)
        put_state_words(b->ask, cell + 8, judgement.state);
    b->last = series;
    b->last_judgement = judgement;
}

static void add_notes(const struct builder *b)
{
    table_note(
        b->table,
        "The series that closed each job: the last that was turned the usual way, as "
        "warm as the limits say (cold without limits) and locked. Rows less "
        "than %d days apart are one job (a rule of ours). All are judged with the gauge, "
        "the tolerances and the limits of today.",
        CLOSING_REST_DAYS);
    table_note(b->table,
               "Change: against the line above. Its doubt: the root of the sum of the squares "
               "of the two U. Only a change that is larger is clear.");
    table_note(b->table,
               "Compare at like temperatures, on the same oil. The first year of new bearings "
               "brings less drag: that alone is no lost preload.");
    note_log_reach(b->table, b->ask->shop);
    note_inputs(b->table, b->ask->shop, true);
}

static void fill(struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    add_columns(b);
    for (size_t first = 0; first < shop->readings.count;) {
        struct job job = job_at(shop, first);
        if (job.left)
            add_row(b, job.left);
        first = job.end;
    }
    add_notes(b);
}

struct table *make_history(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask};
    b.table = table_new(ask->arena, "history",
                        shop_has_limits(shop)
                            ? arena_format(ask->arena, "The closing checks, judged for %s",
                                           band_text(ask->arena, shop_own_band(shop)))
                            : "The closing checks, " NO_LIMIT_ON_FILE);
    if (job_last(shop).left) {
        fill(&b);
        return b.table;
    }
    table_column(b.table, COLUMN_TEXT, "date", NULL);
    put_text(table_row(b.table), "none");
    note_no_closing(b.table);
    return b.table;
}
