/* For a manual that states a pull at a radius of its own: the same pull on this
 * drum, and the window at that arm. */
#include "drag/drag.h"
#include "tables/common.h"
#include "verdict/most_pull.h"
#include "verdict/radius.h"

#include <stdlib.h>

/* Round arms of both systems, for a shop that names none of its own. */
static const char *const common_arms[] = {"25 mm",  "1 in", "50 mm",  "2 in",
                                          "75 mm",  "3 in", "100 mm", "4 in",
                                          "150 mm", "6 in", "300 mm", "12 in"};
enum { COMMON_ARMS = sizeof common_arms / sizeof common_arms[0] };

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    bool any_closed, any_beyond;
};

static void add_columns(const struct builder *b)
{
    const char *unit = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "arm", NULL);
    table_column(b->table, COLUMN_NUMBER, "pull on this drum for a pull of 1 at the arm", NULL);
    if (!b->band)
        return;
    table_column(b->table, COLUMN_NUMBER, "low pull at the arm", unit);
    table_column(b->table, COLUMN_NUMBER, "high pull at the arm", unit);
}

static void put_window(struct builder *b, struct cell *cell, const struct quantity *arm)
{
    struct pull_window window = pull_window_at_arm(b->ask->shop, b->band, arm);
    if (!put_pulls(b->ask, cell, &window))
        b->any_closed = true;
    if (most_pull_of(b->ask->shop, &window).beyond)
        b->any_beyond = true;
}

static void add_row(struct builder *b, const struct quantity *arm, bool maker)
{
    const struct shop *shop = b->ask->shop;
    double radius = shop_radius(shop);
    double factor = drag_pull_at_arm(1, arm->base, radius);
    const char *text = quantity_text(b->ask->arena, arm);
    struct cell *cell = table_row(b->table);
    put_text(cell, maker ? arena_format(b->ask->arena, "%s, the maker's", text) : text);
    cell->strong = maker;
    put_number(b->ask->arena, cell + 1, factor, show_significant(factor, 4).text);
    if (b->band)
        put_window(b, cell + 2, arm);
}

static void add_common_rows(struct builder *b)
{
    for (size_t i = 0; i < COMMON_ARMS; i++) {
        struct quantity arm;
        struct quantity_fault ignored;
        if (!quantity_parse(common_arms[i], KIND_LENGTH, &arm, &ignored))
            abort(); /* the list above is wrong */
        add_row(b, &arm, false);
    }
}

struct table *make_arm_equivalents(const struct table_ask *ask)
{
    const struct shop *shop = ask->shop;
    struct builder b = {.ask = ask};
    if (!asked_band(ask, &b.band))
        return NULL;
    b.table = table_new(ask->arena, "arm-equivalents",
                        arena_format(ask->arena, "Pulls at other arms against the %s, %s",
                                     drum_text(ask->arena, &shop->drum.diameter.q),
                                     band_or_none(ask->arena, b.band)));
    add_columns(&b);
    if (given(&shop->limits.maker_arm))
        add_row(&b, &shop->limits.maker_arm.q, true);
    for (size_t i = 0; i < shop->arms.count; i++)
        add_row(&b, &shop->arms.items[i].q, false);
    if (shop->arms.count == 0)
        add_common_rows(&b);
    if (b.any_closed)
        note_closed(b.table);
    if (b.any_beyond)
        table_note(b.table, "The shorter arms are beyond the gauge. %s", BEYOND_THE_GAUGE_RULE);
    table_note(b.table,
               "An arm is a radius, from the middle of the spindle to the line of pull.");
    if (b.band)
        note_inward(b.table, shop);
    note_inputs(b.table, shop, true);
    return b.table;
}
