/* What each common drum asks of gauge and cord: by the most pull that a band may ask for. */
#include "tables/common.h"
#include "verdict/drum_make.h"
#include "verdict/drum_rating.h"
#include "verdict/radius.h"

#include <math.h>

/* A cord bears no more than this share of its strength: knots and edges take half of it,
 * and age some. A rule of thumb of ours. */
static const double MOST_OF_CORD = 0.25;

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    double ratio; /* breakaway over steady pull, */
    bool logged;  /* from the log */
    double cord;  /* strength, N; NAN: not known */
};

static const struct unit *turn_unit(const struct builder *b)
{
    bool inches = b->ask->shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
    return unit_find(inches ? "in" : "mm", 2);
}

static void add_columns(const struct builder *b)
{
    const char *gauge = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "drum", NULL);
    table_column(b->table, COLUMN_NUMBER, "pull at the aim", gauge);
    table_column(b->table, COLUMN_NUMBER, "most pull", gauge)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "of the gauge", "%");
    table_column(b->table, COLUMN_NUMBER, "of the cord", "%");
    table_column(b->table, COLUMN_NUMBER, "cord a turn", turn_unit(b)->shown);
    table_column(b->table, COLUMN_TEXT, "room", NULL);
}

static const char *words(const struct builder *b, const struct most_pull *most)
{
    if (most->beyond)
        return BEYOND_THE_GAUGE;
    if (most->force > MOST_OF_CORD * b->cord)
        return "cord too weak";
    return isnan(b->cord) ? "cord not known" : "enough";
}

/* A share, rounded up: nothing is called less than it is. */
static void put_share(const struct builder *b, struct cell *cell, double force, double of)
{
    if (isnan(of))
        put_text(cell, "not known");
    else
        put_number(b->ask->arena, cell, 100 * force / of, show_up(100 * force / of, 0).text);
}

static void add_row(const struct builder *b, const struct drum_rating *drum)
{
    const struct shop *shop = b->ask->shop;
    const struct unit *gauge = shop->gauge.step.q.unit;
    struct arena *arena = b->ask->arena;
    const struct most_pull *most = &drum->fitness.most;
    double pull = unit_from_base(drum->pull, gauge), first = unit_from_base(most->force, gauge);
    struct decimal place = step_of_digits(first, 3);
    double turn = 2 * M_PI * effective_radius(drum->drum, &shop->cord.diameter.q);
    turn = unit_from_base(turn, turn_unit(b));
    struct cell *cell = table_row(b->table);
    put_text(cell, arena_format(arena, "%s%s", quantity_text(arena, drum->drum),
                                drum->fitted ? ", fitted" : ""));
    cell->strong = drum->fitted;
    put_number(arena, cell + 1, pull, show_significant(pull, 3).text);
    put_number(arena, cell + 2, first, show_up(first, decimal_places(&place)).text);
    put_share(b, cell + 3, most->force, shop->gauge.capacity.q.base);
    put_share(b, cell + 4, most->force, b->cord);
    put_number(arena, cell + 5, turn, show_significant(turn, 3).text);
    put_text(cell + 6, words(b, most));
}

static void add_notes(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const char *ratio = show_significant(b->ratio, 3).text;
    struct drum_to_make make = drum_to_make(shop);
    const struct unit *unit = turn_unit(b);
    table_note(b->table,
               "Most pull: the breakaway at the high limit, or the pull at never-exceed where "
               "that is more. Breakaway: %s times the pull, %s.",
               ratio,
               b->logged ? "the most that your log has" : "our rule; your log gives none yet");
    table_note(b->table, BEYOND_THE_GAUGE_RULE);
    if (isnan(b->cord))
        table_note(b->table, "The cord's strength is not in the settings (cord.strength): ask "
                             "its label before you pull.");
    else
        table_note(b->table,
                   "A cord of %s may be loaded to a quarter of that (our rule): knots, edges "
                   "and age take "
                   "the rest.",
                   quantity_text(b->ask->arena, &shop->cord.strength.q));
    table_note(
        b->table, "On every drum %d turns side by side want a land %s\u00a0%s wide.",
        make.turns,
        show_up(unit_from_base(make.land_width, unit), unit->system == SYSTEM_IMPERIAL ? 2 : 1)
            .text,
        unit->shown);
}

struct table *make_drum_loads(const struct table_ask *ask)
{
    struct drum_ratings ratings;
    struct builder b = {.ask = ask, .cord = NAN};
    if (!asked_band(ask, &b.band))
        return NULL;
    if (given(&ask->shop->cord.strength))
        b.cord = ask->shop->cord.strength.q.base;
    b.ratio = breakaway_ratio(ask->shop, &b.logged);
    rate_drums(ask->shop, b.band, &ratings);
    b.table = table_new(ask->arena, "drum-loads",
                        arena_format(ask->arena, "What each drum asks of gauge and cord, %s",
                                     band_text(ask->arena, b.band)));
    add_columns(&b);
    for (size_t i = 0; i < ratings.count; i++)
        add_row(&b, &ratings.items[i]);
    add_notes(&b);
    note_inputs(b.table, ask->shop, false);
    return b.table;
}
