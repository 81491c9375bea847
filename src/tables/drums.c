/* Which drum: how sure, how strong, how to make, with which windows; and what carelessness with
 * the cord costs. */
#include "judge/drums.h"
#include "physics/physics.h"
#include "report/words.h"
#include "tables/common.h"

#include <math.h>

/* "62 mm, fitted" */
static const char *size_text(const struct builder *b, const struct quantity *drum)
{
    return arena_format(b->arena, "%s%s", quantity_text(b->arena, drum),
                        shop_drum_fitted(b->shop, drum) ? ", fitted" : "");
}

/* ---- how sure a drag in the middle of your band is on each common drum, and where the doubt
 * comes from ---- */

static void add_choice(struct builder *b, const struct drum_rating *drum, bool best)
{
    const struct unit *drag = b->band->high.q.unit, *gauge = b->shop->gauge.step.q.unit;
    struct shown_uncertainty u = uncertainty_shown_in(drum->expanded, drag);
    const char *fit = fit_word(drum->fitness.fit);
    next_row(b);
    put_text(b, "drum", size_text(b, drum->drum));
    bold_head(b, drum->fitted);
    put_significant(b, "pull at the aim", gauge->shown, unit_from_base(drum->pull, gauge), 3);
    put_uncertainty(b, "doubt", drag->shown, unit_from_base(drum->expanded, drag), &u);
    put_up(b, "from the pulls", "%", drum->pulls, 2);
    put_up(b, "from the gauge", "%", drum->gauge, 2);
    put_up(b, "from drum and cord", "%", drum->radius, 2);
    put_places(b, "half window over doubt", NULL, drum->fitness.ratio, 1)->strong = true;
    put_text(b, "fit", best ? arena_format(b->arena, "%s, best here", fit) : fit);
}

void make_drum_choice(struct builder *b)
{
    struct drum_ratings ratings;
    rate_drums(b->results, b->band, &ratings);
    for (size_t i = 0; i < ratings.count; i++)
        add_choice(b, &ratings.items[i], i == ratings.best);
    table_note(b->table,
               "Doubt: U of your usual pulls at the aim. From the pulls, the gauge, drum and "
               "cord: standard uncertainties.");
    table_note(b->table, "Fit, by half the window over the doubt: "
                         "sure from 4, usable from 2, barely from 1, "
                         "below that it cannot decide (rules of thumb of ours).");
    if (ratings.alike)
        table_note(b->table, "All alike within a tenth: take the one you can make and measure "
                             "best.");
    table_note(b->table, "%s", beyond_rule_words(b->arena, b->shop));
    note_reach(b, ratings.items[ratings.count - 1].pull, ratings.items[0].pull);
    table_note(b->table, "The tolerances of your own drum are taken for all drums.");
    note_inputs(b, false);
}

/* ---- what each common drum asks of gauge and cord, by the most pull that a band may ask
 * for ---- */

/* A cord bears no more than this share of its strength: knots and edges take half of it,
 * and age some. A rule of thumb of ours. */
static const double MOST_OF_CORD = 0.25;

static const struct unit *turn_unit(const struct shop *shop)
{
    bool inches = shop->drum.diameter.q.unit->system == SYSTEM_IMPERIAL;
    return unit_find(inches ? "in" : "mm", 2);
}

/* strength: of the cord, N; NaN where it is not known. Shares are rounded up: nothing is called
 * less than it is. */
static void add_load(struct builder *b, const struct drum_rating *drum, double strength)
{
    const struct shop *shop = b->shop;
    const struct unit *gauge = shop->gauge.step.q.unit, *turns = turn_unit(shop);
    const struct most_pull *most = &drum->fitness.most;
    double shown = unit_from_base(most->force, gauge);
    struct decimal place = step_of_digits(shown, 3);
    double turn = 2 * M_PI * effective_radius(drum->drum, &shop->cord.diameter.q);
    next_row(b);
    put_text(b, "drum", size_text(b, drum->drum));
    bold_head(b, drum->fitted);
    put_significant(b, "pull at the aim", gauge->shown, unit_from_base(drum->pull, gauge), 3);
    put_up(b, "most pull", gauge->shown, shown, decimal_places(&place))->strong = true;
    put_up(b, "of the gauge", "%", 100 * most->force / shop->gauge.capacity.q.base, 0);
    if (isnan(strength))
        put_word(b, "of the cord", "%", "not known");
    else
        put_up(b, "of the cord", "%", 100 * most->force / strength, 0);
    put_significant(b, "cord a turn", turns->shown, unit_from_base(turn, turns), 3);
    put_text(b, "room",
             most->beyond                            ? BEYOND_THE_GAUGE
             : most->force > MOST_OF_CORD * strength ? "cord too weak"
             : isnan(strength)                       ? "cord not known"
                                                     : "enough");
}

static void note_most_pull(const struct builder *b)
{
    table_note(b->table,
               "Most pull: the %s at the high limit, or the pull at never-exceed where "
               "that is more.%s",
               hardest_pull_words(b->shop),
               shop_reads_starting(b->shop)
                   ? ""
                   : arena_format(b->arena, " Breakaway: %s times the pull, %s.",
                                  show_significant(b->results->breakaway_ratio, 3).text,
                                  b->results->hardest ? "the most that your log has"
                                                      : "our rule; your log gives none yet"));
}

void make_drum_loads(struct builder *b)
{
    const struct shop *shop = b->shop;
    const struct measure *strength = &shop->cord.strength;
    const struct unit *unit = turn_unit(shop);
    struct drum_to_make make = drum_to_make(shop);
    struct drum_ratings ratings;
    rate_drums(b->results, b->band, &ratings);
    for (size_t i = 0; i < ratings.count; i++)
        add_load(b, &ratings.items[i], given(strength) ? strength->q.base : NAN);
    note_most_pull(b);
    table_note(b->table, "%s", beyond_rule_words(b->arena, b->shop));
    if (given(strength))
        table_note(b->table,
                   "A cord of %s may be loaded to a quarter of that (our rule): knots, edges "
                   "and age take the rest.",
                   quantity_text(b->arena, &strength->q));
    else
        table_note(b->table, "The cord's strength is not in the settings (cord.strength): ask "
                             "its label before you pull.");
    table_note(
        b->table, "On every drum %d turns side by side want a land %s\u00a0%s wide.",
        make.turns,
        show_up(unit_from_base(make.land_width, unit), unit->system == SYSTEM_IMPERIAL ? 2 : 1)
            .text,
        unit->shown);
    note_inputs(b, false);
}

/* ---- the drum to make, dimension by dimension: the letters are those of its drawing ---- */

/* length (m) NaN: yours to choose. */
static void add_length(struct builder *b, const char *letter, const char *name, double length,
                       const char *from)
{
    next_row(b);
    put_text(b, "letter", letter);
    put_text(b, "what", name);
    if (isfinite(length)) {
        put_places(b, "size", "mm", 1000 * length, 2);
        put_places(b, "size", "in", length / INCH, 3);
    } else {
        put_word(b, "size", "mm", "yours");
        put_word(b, "size", "in", "yours");
    }
    put_text(b, "from", from);
}

/* What lies on the nose, where it is more than a bore. */
static void add_fitting(struct builder *b, const struct drum_to_make *make)
{
    const struct drum *drum = &b->shop->drum;
    if (given(&drum->plug_diameter)) {
        add_length(b, "U", "plug, diameter", make->post, "yours");
        add_length(b, "V", "plug, length", make->post_length, "yours");
    }
    if (given(&drum->cap_depth))
        add_length(b, "K", "cap, depth of bore", make->width + make->post_length - make->closed,
                   "yours");
    if (make->holes) {
        add_length(b, "M", "circle of holes", make->hole_circle, "yours");
        add_length(b, "O", arena_format(b->arena, "%d holes, diameter", make->holes),
                   make->hole, "yours");
    }
}

void make_drum_making(struct builder *b)
{
    struct drum_to_make make = drum_to_make(b->shop);
    const struct drum *drum = &b->shop->drum;
    bool flange = given(&drum->flange);
    add_length(b, "R", "effective radius", make.radius, make.wanted ? "wanted" : "fitted drum");
    add_length(b, "D", "land, outside", make.land, "2 R less the cord");
    add_length(b, "W", "land, width", make.land_width,
               arena_format(b->arena, "peg and %d turns", make.turns));
    add_length(b, "F", "flange, outside", make.flange, "D and 2 H");
    add_length(b, "H", "flange, height", make.flange_height,
               flange ? "yours" : "3 cords, 3 mm at least");
    add_length(b, "T", "flange, thickness", make.thickness, "a cord and 1.5 mm, 3 mm at least");
    add_length(b, "S", "slope of 45°", make.slope, "as H");
    add_length(b, "L", "whole width", make.width, "W, S and 2 T");
    add_length(b, "P", "peg, width", make.peg,
               given(&drum->peg)                ? "yours"
               : drum->material == DRUM_PRINTED ? "of plastic 2 G"
                                                : "G");
    add_length(b, "G", "peg, height", make.peg_height, "2 cords, 3 mm at least");
    add_length(b, "N", "notch, width", make.notch, "P and 2 G");
    add_length(b, "B", "bore", make.bore, isfinite(make.bore) ? "yours" : "to fit the nose");
    add_length(b, "C", "cord of a turn", make.turn, "2 π R");
    add_fitting(b, &make);
    table_note(b->table,
               "%d whole turns side by side take %d widths of the cord and a tenth more. "
               "Heights, peg and notch are rules of ours.",
               make.turns, make.turns + 1);
    table_note(b->table, "%s", peg_words(b->arena, b->results, &make));
    table_note(b->table,
               "Printed, the land has corners; between them its radius is less by %s\u00a0mm "
               "at most, and by the same share on any drum, a ten-thousandth. It is part of "
               "what D may be out of round, 0.05\u00a0mm.",
               show_up(1000 * make.land / 2 * DRUM_CHORD, 3).text);
    table_note(b->table, "Measure the drum when it is made, and write what you found into the "
                         "settings. Never run it under power.");
}

/* ---- the pull windows of every band on every common drum ---- */

/* Two columns a band stand side by side as long as paper is wide enough; more
 * bands stand below each other, a row for each drum and band. */
enum { BANDS_ABREAST = 3 };

/* Returns whether it is beyond the gauge. */
static bool put_window(struct builder *b, const char *low, const char *high,
                       const struct quantity *drum, const struct band *band)
{
    struct pull_window window = pull_window_on(
        &b->results->known, band, effective_radius(drum, &b->shop->cord.diameter.q));
    put_low(b, low, &window);
    put_high(b, high, &window);
    return most_pull_of(b->results, &window).beyond;
}

/* Returns whether any band is beyond the gauge. */
static bool add_drum(struct builder *b, const struct quantity *drum)
{
    const struct limits *limits = &b->shop->limits;
    bool abreast = limits->band_count <= BANDS_ABREAST, beyond = false;
    for (size_t i = 0; i < limits->band_count; i++) {
        const struct band *band = &limits->bands[i];
        if (i == 0 || !abreast) {
            next_row(b);
            put_text(b, "drum", size_text(b, drum));
        }
        if (abreast) {
            const char *from = band->from.q.digits, *to = band->to.q.digits;
            beyond |=
                put_window(b, arena_format(b->arena, "%s–%s r/min low", from, to),
                           arena_format(b->arena, "%s–%s r/min high", from, to), drum, band);
        } else {
            put_text(b, "speed band", band_text(b->arena, band));
            beyond |= put_window(b, "low pull", "high pull", drum, band);
        }
        if (shop_drum_fitted(b->shop, drum))
            bold_row(b);
    }
    return beyond;
}

void make_drum_windows(struct builder *b)
{
    const struct quantity *drums[MOST_DRUMS], *largest_beyond = NULL;
    size_t count = shop_drums(b->shop, drums);
    for (size_t i = 0; i < count; i++)
        if (add_drum(b, drums[i]))
            largest_beyond = drums[i];
    note_closed(b);
    if (largest_beyond)
        table_note(
            b->table,
            "Up to the %s, at least one band is beyond the gauge (%s): the %s at "
            "its high limit, or the pull at never-exceed where one is given, is more than "
            "the gauge can read.",
            drum_text(b->arena, largest_beyond),
            quantity_text(b->arena, &b->shop->gauge.capacity.q), hardest_pull_words(b->shop));
    note_inward(b);
    note_inputs(b, false);
}

/* ---- what carelessness with the cord costs: left out, wound over itself, pulled askew; each
 * as what must be added to the drag that was worked out ---- */

enum mistake { CORD_LEFT_OUT, SECOND_LAYER, ASKEW };

/* As a share of the drag that was worked out. angle: of a pull that is askew, degrees. */
static double correction(enum mistake mistake, double drum, double cord, double angle)
{
    double radius = drag_radius(drum, cord);
    switch (mistake) {
    case CORD_LEFT_OUT:
        return drag_correction_for_radius(radius, drag_radius(drum, 0));
    case SECOND_LAYER:
        return drag_correction_for_radius(drag_radius_on_layer(drum, cord, 2), radius);
    default:
        return drag_correction_for_skew(angle);
    }
}

static void add_error(struct builder *b, const char *what, enum mistake mistake, double angle)
{
    const struct quantity *drums[3];
    size_t fitted, count = drum_and_neighbours(b->shop, drums, &fitted);
    double add = 0;
    next_row(b);
    put_text(b, "what went wrong", what);
    for (size_t i = 0; i < count; i++) {
        add = 100 * correction(mistake, drums[i]->base, b->shop->cord.diameter.q.base, angle);
        put_up(b, arena_format(b->arena, "add, %s", drum_text(b->arena, drums[i])), "%", add,
               2);
    }
    put_text(b, "the true drag is",
             add > 0   ? "higher than worked out"
             : add < 0 ? "lower than worked out"
                       : "the same");
}

void make_cord_errors(struct builder *b)
{
    static const double angles[] = {5, 8, 10, 15, 20, 30};
    add_error(b, "cord's thickness left out", CORD_LEFT_OUT, 0);
    add_error(b, "cord wound over itself", SECOND_LAYER, 0);
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++)
        add_error(b, arena_format(b->arena, "pulled %.0f° askew", angles[i]), ASKEW, angles[i]);
    table_note(b->table,
               "Percent of the drag worked out as pull times effective radius, rounded "
               "away from zero.");
    note_inputs(b, true);
}
