/* The pull windows of every band on every common drum. */
#include "tables/common.h"
#include "verdict/most_pull.h"

struct builder {
    const struct table_ask *ask;
    struct table *table;
    bool any_closed;
    const struct quantity *largest_beyond; /* largest drum that is beyond the gauge */
};

/* Two columns a band stand side by side as long as paper is wide enough; more
 * bands stand below each other, a row for each drum and band. */
enum { BANDS_ABREAST = 3 };

static bool abreast(const struct builder *b)
{
    return b->ask->shop->limits.band_count <= BANDS_ABREAST;
}

static void add_columns(const struct builder *b)
{
    struct arena *arena = b->ask->arena;
    const struct shop *shop = b->ask->shop;
    const char *unit = shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "drum", NULL);
    if (!abreast(b)) {
        table_column(b->table, COLUMN_TEXT, "speed band", NULL);
        table_column(b->table, COLUMN_NUMBER, "low pull", unit);
        table_column(b->table, COLUMN_NUMBER, "high pull", unit);
        return;
    }
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const struct band *band = &shop->limits.bands[i];
        const char *speeds =
            arena_format(arena, "%s–%s r/min", band->from.q.digits, band->to.q.digits);
        table_column(b->table, COLUMN_NUMBER, arena_format(arena, "%s low", speeds), unit);
        table_column(b->table, COLUMN_NUMBER, arena_format(arena, "%s high", speeds), unit);
    }
}

static void put_window(struct builder *b, struct cell *cell, const struct quantity *drum,
                       const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct pull_window window = pull_window_on(shop, band, drum, &shop->cord.diameter.q);
    if (most_pull_of(shop, &window).beyond)
        b->largest_beyond = drum;
    if (!put_pulls(b->ask, cell, &window))
        b->any_closed = true;
}

static struct cell *start_row(struct builder *b, const struct quantity *drum)
{
    bool fitted = shop_drum_fitted(b->ask->shop, drum);
    struct cell *row = table_row(b->table);
    const char *text = quantity_text(b->ask->arena, drum);
    put_text(row, fitted ? arena_format(b->ask->arena, "%s, fitted", text) : text);
    for (size_t i = 0; i < b->table->column_count; i++)
        row[i].strong = fitted;
    return row;
}

static void add_drum(struct builder *b, const struct quantity *drum)
{
    const struct limits *limits = &b->ask->shop->limits;
    if (abreast(b)) {
        struct cell *row = start_row(b, drum);
        for (size_t i = 0; i < limits->band_count; i++)
            put_window(b, row + 1 + 2 * i, drum, &limits->bands[i]);
        return;
    }
    for (size_t i = 0; i < limits->band_count; i++) {
        struct cell *row = start_row(b, drum);
        put_text(row + 1, band_text(b->ask->arena, &limits->bands[i]));
        put_window(b, row + 2, drum, &limits->bands[i]);
    }
}

static void add_rows(struct builder *b)
{
    const struct quantity *drums[MOST_DRUMS];
    size_t count = shop_drums(b->ask->shop, drums);
    for (size_t i = 0; i < count; i++)
        add_drum(b, drums[i]);
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
    if (b.largest_beyond)
        table_note(
            b.table,
            "Up to the %s, at least one band is beyond the gauge (%s): the breakaway at "
            "its high limit, or the pull at never-exceed where one is given, is more than "
            "the gauge can read.",
            drum_text(ask->arena, b.largest_beyond),
            quantity_text(ask->arena, &ask->shop->gauge.capacity.q));
    note_inward(b.table, ask->shop);
    note_inputs(b.table, ask->shop, false);
    return b.table;
}
