/* Per speed band: how sure a drag is at the limits, and which mean pulls are good
 * for certain. */
#include "tables/common.h"
#include "verdict/gauge_source.h"
#include "verdict/guard.h"

#include <math.h>

struct builder {
    const struct table_ask *ask;
    struct table *table;
    bool any_closed;
    double least, most; /* of the windows' pulls, N */
};

static void add_columns(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const char *gauge = shop->gauge.step.q.unit->shown;
    const char *maker = shop->limits.bands[0].high.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "speed band", NULL);
    table_column(b->table, COLUMN_NUMBER, "low pull", gauge);
    table_column(b->table, COLUMN_NUMBER, "good from", gauge)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "good to", gauge)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "high pull", gauge);
    table_column(b->table, COLUMN_NUMBER, "U at low", maker);
    table_column(b->table, COLUMN_NUMBER, "U at high", maker);
}

/* U as it decided; rounded up once more where the column has another unit. */
static void put_sureness(const struct builder *b, struct cell *cell,
                         const struct sureness *sureness, const struct unit *of)
{
    const struct unit *unit = b->ask->shop->limits.bands[0].high.q.unit;
    double base = decimal_to_double(&sureness->exact);
    struct sureness shown = of == unit ? *sureness : sureness_in(base, unit);
    char digits[DECIMAL_TEXT];
    decimal_print(&shown.typed, shown.places, digits);
    put_number(b->ask->arena, cell, unit_from_base(base, unit), digits);
}

static void put_good(struct builder *b, struct cell *cell, const struct guarded_window *window)
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

static void put_plain(struct builder *b, struct cell *low, struct cell *high,
                      const struct pull_window *window)
{
    if (window->closed) {
        put_text(low, "none");
        put_text(high, "none");
        return;
    }
    put_steps(b->ask, low, window->low, window->low_steps);
    put_steps(b->ask, high, window->high, window->high_steps);
}

static void add_row(struct builder *b, const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct rig rig = shop_rig(shop);
    struct guarded_window window = guarded_window_on(shop, band, &rig);
    struct cell *row = table_row(b->table);
    b->least = fmin(b->least, window.plain.low);
    b->most = fmax(b->most, window.plain.high);
    put_text(row, band_text(b->ask->arena, band));
    row->strong = band == shop_own_band(shop);
    put_plain(b, row + 1, row + 4, &window.plain);
    put_good(b, row + 2, &window);
    put_sureness(b, row + 5, &window.low_sureness, band->low.q.unit);
    put_sureness(b, row + 6, &window.high_sureness, band->high.q.unit);
}

static void note_sources(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    const struct band *own = shop_own_band(shop);
    double aim = pull_window_of(shop, own).aim;
    const char *gauge = gauge_source_words(gauge_source_at(shop, aim));
    const char *scatter = given(&shop->pulls.scatter)
                              ? quantity_text(arena, &shop->pulls.scatter.q)
                              : arena_format(arena, "%g\u00a0%%", PULLS_SCATTER);
    const char *skew = given(&shop->pulls.skew) ? quantity_text(arena, &shop->pulls.skew.q)
                                                : arena_format(arena, "%g°", PULLS_SKEW);
    table_note(
        b->table,
        "U covers 95 cases in 100: %d pulls that scatter by %s, the gauge's step and zero, its "
        "error from %s, the tolerances of drum and cord, a pull up to %s askew.",
        shop->pulls.count ? shop->pulls.count : PULLS_COUNT, scatter, gauge, skew);
}

struct table *make_sure_windows(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask, .least = INFINITY};
    b.table =
        table_new(ask->arena, "sure-windows",
                  arena_format(ask->arena, "Mean pulls that are good with U taken off, %s",
                               drum_text(ask->arena, &shop->drum.diameter.q)));
    add_columns(&b);
    for (size_t i = 0; i < shop->limits.band_count; i++)
        add_row(&b, &shop->limits.bands[i]);
    if (b.any_closed)
        table_note(
            b.table,
            "none: this gauge and drum cannot decide. Check the gauge with weights, take a "
            "finer gauge, or a smaller drum, which asks for more pull.");
    note_bands_beyond(b.table, shop);
    note_sources(&b);
    note_reach(b.table, shop, b.least, b.most);
    note_inward(b.table, shop);
    note_inputs(b.table, shop, true);
    return b.table;
}
