/* The log's places of the nut against the drag found there: what a degree does. */
#include "tables/common.h"
#include "verdict/lock.h"
#include "verdict/state.h"
#include "verdict/unloaded.h"

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
    put_number(b->ask->arena, cell, shown, show_places(shown, judgement->sureness.places).text);
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
    put_number(b->ask->arena, cell + 4, drag,
               show_places(drag, judgement.sureness.places).text);
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
