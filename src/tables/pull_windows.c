/* Per speed band: the maker's limits, the same in the other system, and what the
 * gauge may read on this drum. */
#include "tables/common.h"
#include "verdict/guard.h"
#include "verdict/lock.h"
#include "verdict/nut_place.h"
#include "verdict/radius.h"
#include "verdict/window.h"

#include <math.h>
#include <string.h>

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct unit *maker, *other, *gauge;
    bool card; /* few columns, the gauge's unit only */
    bool any_closed;
};

static void add_columns(const struct builder *b)
{
    struct table *table = b->table;
    table_column(table, COLUMN_TEXT, "speed band", NULL);
    table_column(table, COLUMN_NUMBER, "low pull", b->gauge->shown)->strong = true;
    table_column(table, COLUMN_NUMBER, "aim", b->gauge->shown);
    table_column(table, COLUMN_NUMBER, "high pull", b->gauge->shown)->strong = true;
    if (given(&b->ask->shop->limits.never_exceed))
        table_column(table, COLUMN_NUMBER, b->card ? "never above" : "never exceed",
                     b->gauge->shown);
    if (b->card)
        return;
    table_column(table, COLUMN_NUMBER, "low limit", b->maker->shown);
    table_column(table, COLUMN_NUMBER, "high limit", b->maker->shown);
    table_column(table, COLUMN_NUMBER, "low limit", b->other->shown);
    table_column(table, COLUMN_NUMBER, "high limit", b->other->shown);
}

/* The maker's own digits in the maker's unit; inward in any other. */
static void put_limit(const struct builder *b, struct cell *cell, const struct quantity *limit,
                      const struct unit *unit, enum limit_side side)
{
    double value = quantity_in(limit, unit);
    if (limit->unit == unit)
        put_number(b->ask->arena, cell, value, limit->digits);
    else
        put_number(b->ask->arena, cell, value, show_limit_in(limit, unit, side).text);
}

static void put_limits(const struct builder *b, struct cell *cell, const struct band *band)
{
    put_limit(b, cell++, &band->low.q, b->maker, LIMIT_LOW);
    put_limit(b, cell++, &band->high.q, b->maker, LIMIT_HIGH);
    put_limit(b, cell++, &band->low.q, b->other, LIMIT_LOW);
    put_limit(b, cell, &band->high.q, b->other, LIMIT_HIGH);
}

/* Gives the cell behind the window. */
static struct cell *put_window(struct builder *b, struct cell *cell,
                               const struct pull_window *window)
{
    if (window->closed) {
        b->any_closed = true;
        for (int i = 0; i < 3; i++)
            put_text(cell++, "none");
    } else {
        put_steps(b->ask, cell++, window->low, window->low_steps);
        put_steps(b->ask, cell++, window->aim, window->aim_steps);
        put_steps(b->ask, cell++, window->high, window->high_steps);
    }
    if (given(&b->ask->shop->limits.never_exceed))
        put_steps(b->ask, cell++, window->never, window->never_steps);
    return cell;
}

static void add_row(struct builder *b, const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct pull_window window = pull_window_of(shop, band);
    struct cell *row = table_row(b->table);
    put_text(row, band_text(b->ask->arena, band));
    row->strong = band == shop_own_band(shop);
    struct cell *limits = put_window(b, row + 1, &window);
    if (!b->card)
        put_limits(b, limits, band);
}

static void note_pages(const struct builder *b)
{
    struct buffer pages = {0};
    const struct limits *limits = &b->ask->shop->limits;
    for (size_t i = 0; i < limits->band_count; i++)
        if (limits->bands[i].page)
            buffer_print(&pages, "%s%s: page %s", pages.length ? "; " : "",
                         band_text(b->ask->arena, &limits->bands[i]), limits->bands[i].page);
    if (pages.length)
        table_note(b->table, "In the manual: %s.", pages.bytes);
    buffer_free(&pages);
}

static void note_own_band(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    table_note(b->table,
               "Your band: %s, for a top speed of %s. A speed on a band's edge takes the "
               "stricter band.",
               band_text(b->ask->arena, shop_own_band(shop)),
               quantity_text(b->ask->arena, &shop->lathe.top_speed.q));
}

/* The states below the table have no room on a small card. */
static void note_good(const struct builder *b)
{
    struct guarded_window good = guarded_window_own(b->ask->shop);
    const struct decimal *step = &b->ask->shop->gauge.step.q.typed;
    if (good.closed)
        return;
    struct shown from = show_steps(good.low_steps, step),
                 to = show_steps(good.high_steps, step);
    table_note(b->table, "Your band, bold: good from %s to %s\u00a0%s.", from.text, to.text,
               b->gauge->shown);
}

/* Which pull counts, and for what state of the spindle. */
static void note_kind(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    if (shop->limits.torque == TORQUE_RUNNING)
        table_note(b->table, "The steady pull counts, never the breakaway.");
    else
        table_note(b->table,
                   "The pull at which the spindle starts counts, not the steady pull.");
    table_note(b->table, "For %s, %s; the %s.%s", shop_bearings_word(shop),
               shop_warmth_word(shop), shop_basis_word(shop),
               shop->limits.basis == BASIS_INCREASE ? " The slack drag is in the pulls." : "");
}

/* The windows are those of a locked nut, and locking adds drag: where one stops before it
 * is lower, by what the log says that it added. */
static void note_lock(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct quantity added;
    double aim = lock_added_known(shop, &added) && added.base > 0
                     ? nut_aim_before_lock(shop, shop_own_band(shop), added.base)
                     : 0;
    if (aim > 0) {
        const struct quantity *step = &shop->gauge.step.q;
        int64_t steps = llround(aim / shop_radius(shop) / step->base);
        table_note(b->table,
                   "For a locked nut. Locking added %s the last time: stop at %s before it.",
                   quantity_text(b->ask->arena, &added),
                   arena_format(b->ask->arena, "%s\u00a0%s",
                                show_steps(steps, &step->typed).text, b->gauge->shown));
    } else {
        table_note(b->table,
                   "For a locked nut. Locking adds drag: stop lower before it, at ________.");
    }
}

static void add_notes(const struct builder *b)
{
    if (b->any_closed)
        note_closed(b->table);
    note_bands_beyond(b->table, b->ask->shop);
    if (b->card) {
        note_good(b);
        note_kind(b);
        return;
    }
    note_own_band(b);
    note_lock(b);
    note_inward(b->table, b->ask->shop);
    note_pages(b);
    note_inputs(b->table, b->ask->shop, true);
}

static bool read_show(const struct table_ask *ask, bool *card)
{
    struct place at;
    const char *show = option_value(ask, "show", &at);
    *card = show && strcmp(show, "card") == 0;
    if (show && !*card)
        fault(ask->diags, at, "show cannot be '%s'; write 'show: card', or leave the line out",
              show);
    return !show || *card;
}

/* A card is read from far, without its notes: it says by its caption when it is no use. */
static const char *caption(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct guarded_window good = guarded_window_own(shop);
    bool useless = b->card && good.closed && !good.plain.closed;
    bool running = shop->limits.torque == TORQUE_RUNNING;
    return arena_format(b->ask->arena, "%s pull on the %s with %s cord",
                        useless   ? "NO PULL IS GOOD, this gauge and drum cannot decide:"
                        : running ? "Steady"
                                  : "Starting",
                        drum_text(b->ask->arena, &shop->drum.diameter.q),
                        quantity_text(b->ask->arena, &shop->cord.diameter.q));
}

struct table *make_pull_windows(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask,
                        .maker = shop->limits.bands[0].high.q.unit,
                        .gauge = shop->gauge.step.q.unit};
    b.other = unit_other_system(b.maker);
    if (!read_show(ask, &b.card))
        return NULL;
    b.table = table_new(ask->arena, "pull-windows", caption(&b));
    add_columns(&b);
    for (size_t i = 0; i < shop->limits.band_count; i++)
        add_row(&b, &shop->limits.bands[i]);
    add_notes(&b);
    return b.table;
}
