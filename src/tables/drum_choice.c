/* Which drum: how sure a drag in the middle of your band is on each common drum,
 * and where the doubt comes from. */
#include "drag/drag.h"
#include "tables/common.h"
#include "verdict/guard.h"

#include <math.h>

enum { MOST_DRUMS = 64 };

struct builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    struct choice {
        const struct quantity *drum;
        bool fitted, readable; /* the gauge reaches the high pull and never-exceed */
        double pull, u, gauge, radius, ratio;
    } choices[MOST_DRUMS];
    size_t count;
    size_t best; /* index of the largest ratio among readable drums */
};

static double band_middle(const struct builder *b)
{
    struct decimal low = pulled_limit(b->ask->shop, &b->band->low);
    struct decimal high = pulled_limit(b->ask->shop, &b->band->high);
    return drag_window_of(decimal_to_double(&low), decimal_to_double(&high)).aim;
}

static double half_window(const struct builder *b)
{
    return (b->band->high.q.base - b->band->low.q.base) / 2;
}

static double share(const struct doubt *doubts, int first, int last, double drag)
{
    double squares = 0;
    for (int i = first; i <= last; i++)
        squares += doubts[i].u * doubts[i].u;
    return 100 * sqrt(squares) / drag;
}

/* U with the even factor 2, whatever the degrees of freedom: so that drums compare.
 * The scatter and the skew are shares of the pull: the same on every drum. The
 * gauge's share grows with the drum, the share of drum and cord falls. */
static void weigh(struct builder *b, const struct quantity *drum, bool fitted)
{
    const struct shop *shop = b->ask->shop;
    struct doubt doubts[DOUBT_SOURCES];
    struct rig rig = shop_rig(shop);
    double drag = band_middle(b);
    rig.drum = drum;
    struct choice choice = {.drum = drum, .fitted = fitted};
    choice.pull = drag_to_pull(drag, effective_radius(drum, rig.cord));
    choice.u = 2 * sure_of_pull(shop, &rig, choice.pull, NULL, doubts).standard;
    choice.gauge = share(doubts, DOUBT_STEP, DOUBT_GAUGE, drag);
    choice.radius = share(doubts, DOUBT_DRUM, DOUBT_CORD, drag);
    choice.ratio = half_window(b) / choice.u;
    struct pull_window window = pull_window_on(shop, b->band, drum, rig.cord);
    double most = isnan(window.never) ? window.high : fmax(window.high, window.never);
    choice.readable = most <= shop->gauge.capacity.q.base;
    b->choices[b->count++] = choice;
}

static void weigh_all(struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    const struct quantity *own = &shop->drum.diameter.q;
    bool shown = false;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order > 0 && !shown)
            weigh(b, own, true);
        shown = shown || order >= 0;
        weigh(b, size, order == 0);
    }
    if (!shown)
        weigh(b, own, true);
    b->best = b->count;
    for (size_t i = 0; i < b->count; i++)
        if (b->choices[i].readable &&
            (b->best == b->count || b->choices[i].ratio > b->choices[b->best].ratio))
            b->best = i;
}

/* Millimetres or inches, as the fitted drum is given. */
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
    table_column(b->table, COLUMN_NUMBER, "doubt", b->band->high.q.unit->shown);
    table_column(b->table, COLUMN_NUMBER, "from the gauge", "%");
    table_column(b->table, COLUMN_NUMBER, "from drum and cord", "%");
    table_column(b->table, COLUMN_NUMBER, "half window over doubt", NULL)->strong = true;
    table_column(b->table, COLUMN_NUMBER, "cord a turn", turn_unit(b)->shown);
    table_column(b->table, COLUMN_TEXT, "fit", NULL);
}

/* Rules of thumb of ours: with four times 2 u in half the window there is room; below one
 * nothing can be proved. */
static const char *words(const struct choice *choice)
{
    if (!choice->readable)
        return "beyond the gauge";
    if (choice->ratio >= 4)
        return "sure";
    if (choice->ratio >= 2)
        return "usable";
    return choice->ratio >= 1 ? "barely" : "cannot decide";
}

static void add_row(const struct builder *b, size_t index)
{
    const struct choice *choice = &b->choices[index];
    const struct quantity *cord = &b->ask->shop->cord.diameter.q;
    const struct unit *drag = b->band->high.q.unit, *gauge = b->ask->shop->gauge.step.q.unit;
    struct arena *arena = b->ask->arena;
    double pull = unit_from_base(choice->pull, gauge);
    double turn = 2 * M_PI * effective_radius(choice->drum, cord);
    turn = unit_from_base(turn, turn_unit(b));
    struct sureness u = sureness_in(choice->u, drag);
    char digits[DECIMAL_TEXT];
    struct cell *cell = table_row(b->table);
    decimal_print(&u.typed, u.places, digits);
    put_text(cell, arena_format(arena, "%s%s", quantity_text(arena, choice->drum),
                                choice->fitted ? ", fitted" : ""));
    cell->strong = choice->fitted;
    put_number(arena, cell + 1, pull, show_significant(pull, 3).text);
    put_number(arena, cell + 2, unit_from_base(choice->u, drag), digits);
    put_number(arena, cell + 3, choice->gauge, show_up(choice->gauge, 2).text);
    put_number(arena, cell + 4, choice->radius, show_up(choice->radius, 2).text);
    put_number(arena, cell + 5, choice->ratio, show_places(choice->ratio, 1).text);
    put_number(arena, cell + 6, turn, show_significant(turn, 3).text);
    put_text(cell + 7, index == b->best ? arena_format(arena, "%s, best here", words(choice))
                                        : words(choice));
}

struct table *make_drum_choice(const struct table_ask *ask)
{
    struct builder b = {.ask = ask, .band = asked_band(ask)};
    if (!b.band)
        return NULL;
    weigh_all(&b);
    b.table = table_new(ask->arena, "drum-choice",
                        arena_format(ask->arena, "How sure each drum is at the aim, %s",
                                     band_text(ask->arena, b.band)));
    add_columns(&b);
    for (size_t i = 0; i < b.count; i++)
        add_row(&b, i);
    table_note(b.table,
               "Doubt: twice the standard uncertainty, so that drums compare evenly. The U "
               "of your own pulls is a little larger, because they are few.");
    table_note(b.table, "Fit, by half the window over the doubt: "
                        "sure from 4, usable from 2, barely from 1, "
                        "below that it cannot decide (rules of thumb of ours).");
    table_note(b.table, "The tolerances of your own drum are taken for all drums.");
    note_inputs(b.table, ask->shop, false);
    return b.table;
}
