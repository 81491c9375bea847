/* Which drum: how sure a drag in the middle of your band is on each common drum,
 * and where the doubt comes from. */
#include "tables/common.h"
#include "verdict/drum_rating.h"
#include "verdict/sure.h"

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    struct drum_ratings ratings;
};

static void add_columns(const struct builder *b)
{
    const char *gauge = b->ask->shop->gauge.step.q.unit->shown;
    table_column(b->table, COLUMN_TEXT, "drum", NULL);
    table_column(b->table, COLUMN_NUMBER, "pull at the aim", gauge);
    table_column(b->table, COLUMN_NUMBER, "doubt", b->band->high.q.unit->shown);
    table_column(b->table, COLUMN_NUMBER, "from the pulls", "%");
    table_column(b->table, COLUMN_NUMBER, "from the gauge", "%");
    table_column(b->table, COLUMN_NUMBER, "from drum and cord", "%");
    table_column(b->table, COLUMN_NUMBER, "half window over doubt", NULL)->strong = true;
    table_column(b->table, COLUMN_TEXT, "fit", NULL);
}

static void add_row(const struct builder *b, size_t index)
{
    const struct drum_rating *choice = &b->ratings.items[index];
    const struct unit *drag = b->band->high.q.unit, *gauge = b->ask->shop->gauge.step.q.unit;
    struct arena *arena = b->ask->arena;
    const char *word = fit_word(choice->fitness.fit);
    double pull = unit_from_base(choice->pull, gauge);
    struct sureness sureness = sureness_in(choice->expanded, drag);
    char digits[DECIMAL_TEXT];
    struct cell *cell = table_row(b->table);
    decimal_print(&sureness.typed, sureness.places, digits);
    put_text(cell, arena_format(arena, "%s%s", quantity_text(arena, choice->drum),
                                choice->fitted ? ", fitted" : ""));
    cell->strong = choice->fitted;
    put_number(arena, cell + 1, pull, show_significant(pull, 3).text);
    put_number(arena, cell + 2, unit_from_base(choice->expanded, drag), digits);
    put_number(arena, cell + 3, choice->pulls, show_up(choice->pulls, 2).text);
    put_number(arena, cell + 4, choice->gauge, show_up(choice->gauge, 2).text);
    put_number(arena, cell + 5, choice->radius, show_up(choice->radius, 2).text);
    put_number(arena, cell + 6, choice->fitness.ratio,
               show_places(choice->fitness.ratio, 1).text);
    put_text(cell + 7,
             index == b->ratings.best ? arena_format(arena, "%s, best here", word) : word);
}

struct table *make_drum_choice(const struct table_ask *ask)
{
    struct builder b = {.ask = ask};
    if (!asked_band(ask, &b.band))
        return NULL;
    rate_drums(ask->shop, b.band, &b.ratings);
    b.table = table_new(ask->arena, "drum-choice",
                        arena_format(ask->arena, "How sure each drum is at the aim, %s",
                                     band_text(ask->arena, b.band)));
    add_columns(&b);
    for (size_t i = 0; i < b.ratings.count; i++)
        add_row(&b, i);
    table_note(b.table,
               "Doubt: U of your usual pulls at the aim. From the pulls, the gauge, drum and "
               "cord: standard uncertainties.");
    table_note(b.table, "Fit, by half the window over the doubt: "
                        "sure from 4, usable from 2, barely from 1, "
                        "below that it cannot decide (rules of thumb of ours).");
    if (b.ratings.alike)
        table_note(b.table, "All alike within a tenth: take the one you can make and measure "
                            "best.");
    table_note(b.table, BEYOND_THE_GAUGE_RULE);
    note_reach(b.table, ask->shop, b.ratings.items[b.ratings.count - 1].pull,
               b.ratings.items[0].pull);
    table_note(b.table, "The tolerances of your own drum are taken for all drums.");
    note_inputs(b.table, ask->shop, false);
    return b.table;
}
