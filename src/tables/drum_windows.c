/* The pull windows of every band on every common drum. */
#include "tables/common.h"
#include "verdict/window.h"

struct builder {
    const struct table_ask *ask;
    struct table *table;
    bool any_closed;
    const struct quantity *largest_over; /* largest drum whose pull the gauge cannot read */
};

static void add_columns(const struct builder *b)
{
    struct arena *arena = b->ask->arena;
    const struct shop *shop = b->ask->shop;
    const char *unit = shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "drum", NULL);
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const char *band = band_text(arena, &shop->limits.bands[i]);
        table_column(b->table, COLUMN_NUMBER, arena_format(arena, "%s low", band), unit);
        table_column(b->table, COLUMN_NUMBER, arena_format(arena, "%s high", band), unit);
    }
}

static void put_window(struct builder *b, struct cell *cell, const struct pull_window *window)
{
    if (window->closed) {
        b->any_closed = true;
        put_text(cell, "none");
        put_text(cell + 1, "none");
        return;
    }
    put_steps(b->ask, cell, window->low, window->low_steps);
    put_steps(b->ask, cell + 1, window->high, window->high_steps);
}

static void add_row(struct builder *b, const struct quantity *drum, bool fitted)
{
    const struct shop *shop = b->ask->shop;
    struct cell *cell = table_row(b->table);
    put_text(cell, fitted ? arena_format(b->ask->arena, "%s, fitted",
                                         quantity_text(b->ask->arena, drum))
                          : quantity_text(b->ask->arena, drum));
    cell->strong = fitted;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        struct pull_window window =
            pull_window_on(shop, &shop->limits.bands[i], drum, &shop->cord.diameter.q);
        if (window.high > shop->gauge.capacity.q.base)
            b->largest_over = drum;
        put_window(b, cell + 1 + 2 * i, &window);
        cell[1 + 2 * i].strong = cell[2 + 2 * i].strong = fitted;
    }
}

/* The common drums from small to large with the fitted one in its place. */
static void add_rows(struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct quantity *own = &shop->drum.diameter.q;
    bool shown = false;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order > 0 && !shown)
            add_row(b, own, true);
        shown = shown || order >= 0;
        add_row(b, size, order == 0);
    }
    if (!shown)
        add_row(b, own, true);
}

struct table *make_drum_windows(const struct table_ask *ask)
{
    struct builder b = {.ask = ask};
    b.table = table_new(ask->arena, "drum-windows",
                        arena_format(ask->arena, "Pull windows on common drums with %s cord",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    add_columns(&b);
    add_rows(&b);
    if (b.any_closed)
        note_closed(b.table);
    if (b.largest_over)
        table_note(b.table, "Up to the %s, a high pull is more than this gauge can read (%s).",
                   drum_text(ask->arena, b.largest_over),
                   quantity_text(ask->arena, &ask->shop->gauge.capacity.q));
    note_inward(b.table, ask->shop);
    note_inputs(b.table, ask->shop, false);
    return b.table;
}
