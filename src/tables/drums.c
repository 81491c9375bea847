/* Which drum: how sure a drag in the middle of your band is on each common drum,
 * and where the doubt comes from. */
#include "judge/drums.h"
#include "judge/uncertainty.h"
#include "judge/window.h"
#include "physics/physics.h"
#include "tables/common.h"

#include <math.h>

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
    struct shown_uncertainty sureness = uncertainty_shown_in(choice->expanded, drag);
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

/* What each common drum asks of gauge and cord: by the most pull that a band may ask for. */

/* A cord bears no more than this share of its strength: knots and edges take half of it,
 * and age some. A rule of thumb of ours. */
static const double MOST_OF_CORD = 0.25;

struct drum_loads_builder {
    const struct table_ask *ask;
    struct table *table;
    const struct band *band;
    double ratio; /* breakaway over steady pull, */
    bool logged;  /* from the log */
    double cord;  /* strength, N; NAN: not known */
};

static const struct unit *turn_unit(const struct drum_loads_builder *b)
{
    bool inches = b->ask->shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
    return unit_find(inches ? "in" : "mm", 2);
}

static void drum_loads_add_columns(const struct drum_loads_builder *b)
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

static const char *words(const struct drum_loads_builder *b, const struct most_pull *most)
{
    if (most->beyond)
        return BEYOND_THE_GAUGE;
    if (most->force > MOST_OF_CORD * b->cord)
        return "cord too weak";
    return isnan(b->cord) ? "cord not known" : "enough";
}

/* A share, rounded up: nothing is called less than it is. */
static void put_share(const struct drum_loads_builder *b, struct cell *cell, double force,
                      double of)
{
    if (isnan(of))
        put_text(cell, "not known");
    else
        put_number(b->ask->arena, cell, 100 * force / of, show_up(100 * force / of, 0).text);
}

static void drum_loads_add_row(const struct drum_loads_builder *b,
                               const struct drum_rating *drum)
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

static void add_notes(const struct drum_loads_builder *b)
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
    struct drum_loads_builder b = {.ask = ask, .cord = NAN};
    if (!asked_band(ask, &b.band))
        return NULL;
    if (given(&ask->shop->cord.strength))
        b.cord = ask->shop->cord.strength.q.base;
    b.ratio = breakaway_ratio(ask->shop, &b.logged);
    rate_drums(ask->shop, b.band, &ratings);
    b.table = table_new(ask->arena, "drum-loads",
                        arena_format(ask->arena, "What each drum asks of gauge and cord, %s",
                                     band_text(ask->arena, b.band)));
    drum_loads_add_columns(&b);
    for (size_t i = 0; i < ratings.count; i++)
        drum_loads_add_row(&b, &ratings.items[i]);
    add_notes(&b);
    note_inputs(b.table, ask->shop, false);
    return b.table;
}

/* The drum to make, dimension by dimension: the letters are those of its drawing. */

struct drum_making_builder {
    struct arena *arena;
    struct table *table;
};

static void drum_making_add_row(const struct drum_making_builder *b, const char *letter,
                                const char *name, double length, const char *how)
{
    struct cell *cell = table_row(b->table);
    put_text(cell, letter);
    put_text(cell + 1, name);
    put_number(b->arena, cell + 2, 1000 * length, show_places(1000 * length, 2).text);
    put_number(b->arena, cell + 3, length / INCH, show_places(length / INCH, 3).text);
    put_text(cell + 4, how);
}

static void add_bore(const struct drum_making_builder *b, double bore)
{
    if (isfinite(bore)) {
        drum_making_add_row(b, "B", "bore", bore, "yours");
        return;
    }
    struct cell *cell = table_row(b->table);
    put_text(cell, "B");
    put_text(cell + 1, "bore");
    put_text(cell + 2, "yours");
    put_text(cell + 3, "yours");
    put_text(cell + 4, "to fit the nose");
}

static void add_rows(const struct drum_making_builder *b, const struct drum_to_make *make)
{
    drum_making_add_row(b, "R", "effective radius", make->radius,
                        make->wanted ? "wanted" : "fitted drum");
    drum_making_add_row(b, "D", "land, outside", make->land, "2 R less the cord");
    drum_making_add_row(b, "W", "land, width", make->land_width,
                        arena_format(b->arena, "peg and %d turns", make->turns));
    drum_making_add_row(b, "F", "flange, outside", make->flange, "D and 2 H");
    drum_making_add_row(b, "H", "flange, height", make->flange_height,
                        "3 cords, 3 mm at least");
    drum_making_add_row(b, "T", "flange, thickness", make->thickness, "our rule");
    drum_making_add_row(b, "S", "slope of 45°", make->slope, "as H");
    drum_making_add_row(b, "L", "whole width", make->width, "W, S and 2 T");
    drum_making_add_row(b, "P", "peg, diameter", make->peg, "2 cords, 3 mm at least");
    drum_making_add_row(b, "N", "notch, width", make->notch, "3 pegs");
    add_bore(b, make->bore);
    drum_making_add_row(b, "C", "cord of a turn", make->turn, "2 π R");
}

struct table *make_drum_making(const struct table_ask *ask)
{
    struct drum_to_make make = drum_to_make(ask->shop);
    struct drum_making_builder b = {.arena = ask->arena};
    b.table = table_new(ask->arena, "drum-making",
                        arena_format(ask->arena, "A drum to make, for a cord of %s",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    table_column(b.table, COLUMN_TEXT, "letter", NULL);
    table_column(b.table, COLUMN_TEXT, "what", NULL);
    table_column(b.table, COLUMN_NUMBER, "size", "mm");
    table_column(b.table, COLUMN_NUMBER, "size", "in");
    table_column(b.table, COLUMN_TEXT, "from", NULL);
    add_rows(&b, &make);
    table_note(b.table,
               "%d whole turns side by side take %d widths of the cord and a tenth more. "
               "Heights, peg and notch are rules of ours.",
               make.turns, make.turns + 1);
    table_note(b.table, "Measure the drum when it is made, and write what you found into the "
                        "settings. Never run it under power.");
    return b.table;
}

/* The pull windows of every band on every common drum. */

struct drum_windows_builder {
    const struct table_ask *ask;
    struct table *table;
    bool any_closed;
    const struct quantity *largest_beyond; /* largest drum that is beyond the gauge */
};

/* Two columns a band stand side by side as long as paper is wide enough; more
 * bands stand below each other, a row for each drum and band. */
enum { BANDS_ABREAST = 3 };

static bool abreast(const struct drum_windows_builder *b)
{
    return b->ask->shop->limits.band_count <= BANDS_ABREAST;
}

static void drum_windows_add_columns(const struct drum_windows_builder *b)
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

static void put_window(struct drum_windows_builder *b, struct cell *cell,
                       const struct quantity *drum, const struct band *band)
{
    const struct shop *shop = b->ask->shop;
    struct pull_window window = pull_window_on(shop, band, drum, &shop->cord.diameter.q);
    if (most_pull_of(shop, &window).beyond)
        b->largest_beyond = drum;
    if (!put_pulls(b->ask, cell, &window))
        b->any_closed = true;
}

static struct cell *start_row(struct drum_windows_builder *b, const struct quantity *drum)
{
    bool fitted = shop_drum_fitted(b->ask->shop, drum);
    struct cell *row = table_row(b->table);
    const char *text = quantity_text(b->ask->arena, drum);
    put_text(row, fitted ? arena_format(b->ask->arena, "%s, fitted", text) : text);
    for (size_t i = 0; i < b->table->column_count; i++)
        row[i].strong = fitted;
    return row;
}

static void add_drum(struct drum_windows_builder *b, const struct quantity *drum)
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

static void drum_windows_add_rows(struct drum_windows_builder *b)
{
    const struct quantity *drums[MOST_DRUMS];
    size_t count = shop_drums(b->ask->shop, drums);
    for (size_t i = 0; i < count; i++)
        add_drum(b, drums[i]);
}

struct table *make_drum_windows(const struct table_ask *ask)
{
    struct drum_windows_builder b = {.ask = ask};
    b.table = table_new(ask->arena, "drum-windows",
                        arena_format(ask->arena, "Pull windows on common drums with %s cord",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    drum_windows_add_columns(&b);
    drum_windows_add_rows(&b);
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

/* What carelessness with the cord costs: left out, wound over itself, pulled
 * askew. Each as what must be added to the drag that was worked out. */

enum { PLACES = 2 };

struct cord_errors_builder {
    const struct table_ask *ask;
    struct table *table;
    const struct quantity *drums[3];
    size_t drum_count;
};

typedef double correction(const struct quantity *drum, const struct quantity *cord,
                          double angle);

static double cord_left_out(const struct quantity *drum, const struct quantity *cord,
                            double angle)
{
    (void)angle;
    return drag_correction_for_radius(drag_radius(drum->base, cord->base),
                                      drag_radius(drum->base, 0));
}

static double second_layer(const struct quantity *drum, const struct quantity *cord,
                           double angle)
{
    (void)angle;
    return drag_correction_for_radius(drag_radius_on_layer(drum->base, cord->base, 2),
                                      drag_radius(drum->base, cord->base));
}

static double askew(const struct quantity *drum, const struct quantity *cord, double angle)
{
    (void)drum;
    (void)cord;
    return drag_correction_for_skew(angle);
}

static void cord_errors_add_columns(const struct cord_errors_builder *b)
{
    table_column(b->table, COLUMN_TEXT, "what went wrong", NULL);
    for (size_t i = 0; i < b->drum_count; i++)
        table_column(
            b->table, COLUMN_NUMBER,
            arena_format(b->ask->arena, "add, %s", drum_text(b->ask->arena, b->drums[i])), "%");
    table_column(b->table, COLUMN_TEXT, "the true drag is", NULL);
}

static void cord_errors_add_row(const struct cord_errors_builder *b, const char *what,
                                correction *of, double angle)
{
    const struct quantity *cord = &b->ask->shop->cord.diameter.q;
    struct cell *cell = table_row(b->table);
    double add = 0;
    put_text(cell++, what);
    for (size_t i = 0; i < b->drum_count; i++) {
        add = 100 * of(b->drums[i], cord, angle);
        put_number(b->ask->arena, cell++, add, show_up(add, PLACES).text);
    }
    put_text(cell, add > 0   ? "higher than worked out"
                   : add < 0 ? "lower than worked out"
                             : "the same");
}

struct table *make_cord_errors(const struct table_ask *ask)
{
    static const double angles[] = {5, 8, 10, 15, 20, 30};
    size_t fitted;
    struct cord_errors_builder b = {.ask = ask};
    b.drum_count = drum_and_neighbours(ask->shop, b.drums, &fitted);
    b.table = table_new(ask->arena, "cord-errors",
                        arena_format(ask->arena, "What the cord can do to the drag, %s cord",
                                     quantity_text(ask->arena, &ask->shop->cord.diameter.q)));
    cord_errors_add_columns(&b);
    cord_errors_add_row(&b, "cord's thickness left out", cord_left_out, 0);
    cord_errors_add_row(&b, "cord wound over itself", second_layer, 0);
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++)
        cord_errors_add_row(&b, arena_format(ask->arena, "pulled %.0f° askew", angles[i]),
                            askew, angles[i]);
    table_note(b.table,
               "Percent of the drag worked out as pull times effective radius, rounded "
               "away from zero.");
    note_inputs(b.table, ask->shop, true);
    return b.table;
}
