/* The doubt of a drag against the size of the drum: what the gauge and what drum and cord
 * add to it, with the fitted drum and the best of the common ones. */
#include "figures/axes.h"
#include "figures/figures.h"
#include "shop/words.h"
#include "verdict/drum_rating.h"
#include "verdict/gauge_source.h"

#include <math.h>

enum { POINTS = 60 };

struct plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    const struct band *band;
    const struct unit *unit; /* of the fitted drum */
    struct drum_ratings drums;
    struct drum_rating curve[POINTS + 1];
    struct quantity sizes[POINTS + 1];
    struct axes axes;
};

static double size_of(const struct plot *plot, const struct quantity *drum)
{
    return unit_from_base(drum->base, plot->unit);
}

/* From the smallest to the largest drum, in even steps of size. */
static void work_out(struct plot *plot)
{
    const struct quantity *first = plot->drums.items[0].drum;
    const struct quantity *last = plot->drums.items[plot->drums.count - 1].drum;
    double from = first->base, to = fmax(last->base, 1.5 * from), most = 0;
    for (int i = 0; i <= POINTS; i++) {
        plot->sizes[i] = *first;
        plot->sizes[i].base = from + (to - from) * i / POINTS;
        plot->curve[i] = drum_rating_of(plot->ask->shop, plot->band, &plot->sizes[i]);
        most = fmax(most, plot->curve[i].whole);
    }
    plot->axes = (struct axes){.left = 34,
                               .top = 24,
                               .right = 260,
                               .bottom = 150,
                               .x_from = unit_from_base(from, plot->unit),
                               .x_to = unit_from_base(to, plot->unit),
                               .y_to = 1.45 * most,
                               .numbered = true};
}

enum part { PART_WHOLE, PART_GAUGE, PART_RADIUS };

static double part_of(const struct drum_rating *rating, enum part part)
{
    const double parts[] = {rating->whole, rating->gauge, rating->radius};
    return parts[part];
}

static void draw_curve(struct plot *plot, enum part part, const struct ink *ink)
{
    for (int i = 0; i <= POINTS; i++)
        canvas_to(plot->canvas, axes_x(&plot->axes, size_of(plot, &plot->sizes[i])),
                  axes_y(&plot->axes, part_of(&plot->curve[i], part)));
    canvas_ink(plot->canvas, ink);
}

/* At the right ends of the curves, from the upper one down, and clear of each other. */
static void name_curves(struct plot *plot)
{
    static const char *const names[] = {"in all", "gauge", "drum and cord"};
    const struct drum_rating *end = &plot->curve[POINTS];
    enum part order[] = {PART_WHOLE, PART_GAUGE, PART_RADIUS};
    if (end->radius > end->gauge) {
        order[1] = PART_RADIUS;
        order[2] = PART_GAUGE;
    }
    double lowest = plot->axes.bottom - 4;
    for (int i = 2; i >= 0; i--)
        lowest = axes_name_right(plot->canvas, &plot->axes, 4,
                                 axes_y(&plot->axes, part_of(end, order[i])), lowest,
                                 names[order[i]]);
}

static const char *drum_words(const struct plot *plot, const struct drum_rating *rating,
                              const char *what)
{
    return arena_format(plot->ask->arena, "%s: %s", what,
                        quantity_text(plot->ask->arena, rating->drum));
}

static const struct drum_rating *fitted_of(const struct plot *plot)
{
    size_t i = 0;
    while (!plot->drums.items[i].fitted)
        i++;
    return &plot->drums.items[i];
}

static const struct drum_rating *best_of(const struct plot *plot)
{
    bool any = plot->drums.best < plot->drums.count;
    return any ? &plot->drums.items[plot->drums.best] : NULL;
}

/* A drum on the upper curve with its words in one of two rows above. */
struct drum_mark {
    const struct ink *ink;
    const char *words;
    double x, y;           /* on the curve */
    double left, baseline; /* of the words */
};

static struct drum_mark mark_of(const struct plot *plot, const struct drum_rating *rating,
                                const char *what, const struct ink *ink)
{
    return (struct drum_mark){.ink = ink,
                              .words = drum_words(plot, rating, what),
                              .x = axes_x(&plot->axes, size_of(plot, rating->drum)),
                              .y = axes_y(&plot->axes, rating->whole)};
}

static void draw_mark(struct plot *plot, const struct drum_mark *mark)
{
    canvas_line(plot->canvas, mark->x, mark->y, mark->x, plot->axes.bottom, &ink_hidden);
    canvas_circle(plot->canvas, mark->x, mark->y, 2.5, mark->ink);
    if (!mark->words)
        return;
    canvas_line(plot->canvas, mark->x, mark->y - 2.5, mark->x, mark->baseline + 3, &ink_thin);
    canvas_text(plot->canvas, mark->left, mark->baseline, ALIGN_LEFT, mark->words);
}

/* In the upper row the words stand over their drum, as far as the plot goes. */
static void put_upper(const struct plot *plot, struct drum_mark *mark)
{
    double width = canvas_width(plot->canvas, false, mark->words);
    double left = fmax(mark->x - width / 2, plot->axes.left + 5);
    mark->left = fmin(left, FIGURE_WIDTH - 4 - width);
    mark->baseline = plot->axes.top + 6;
}

/* In the lower row they stand beside it, where the other drum's line does not pass. */
static bool put_lower(const struct plot *plot, struct drum_mark *mark, double other)
{
    double width = canvas_width(plot->canvas, false, mark->words);
    const double lefts[] = {mark->x - width, mark->x - 2};
    mark->baseline = plot->axes.top + 18;
    for (int i = 0; i < 2; i++) {
        mark->left = lefts[i];
        if (mark->left > plot->axes.left + 5 && mark->left + width < FIGURE_WIDTH - 4 &&
            (other < mark->left - 2 || other > mark->left + width + 1))
            return true;
    }
    return false;
}

static void mark_drums(struct plot *plot)
{
    const struct drum_rating *fitted = fitted_of(plot), *best = best_of(plot);
    bool same = best && best == fitted;
    struct drum_mark own =
        mark_of(plot, fitted, same ? "fitted, and best" : "fitted", &ink_solid);
    put_upper(plot, &own);
    if (best && !same) {
        struct drum_mark other = mark_of(plot, best, "best", &ink_sheet);
        put_upper(plot, &other);
        if (!put_lower(plot, &own, other.x)) {
            put_upper(plot, &own);
            if (!put_lower(plot, &other, own.x))
                other.words = NULL; /* the caption tells what a ring is */
        }
        draw_mark(plot, &other);
    }
    draw_mark(plot, &own);
}

/* " U where the known weights do not reach ..."; "" where they reach all along the curve. */
static const char *reach_words(const struct plot *plot)
{
    char text[REACH_TEXT];
    if (!gauge_reach_ends(plot->ask->shop, plot->curve[POINTS].pull, plot->curve[0].pull, text))
        return "";
    return arena_format(plot->ask->arena, " %s.", text);
}

static void describe(struct plot *plot)
{
    struct arena *arena = plot->ask->arena;
    const struct drum_rating *best = best_of(plot);
    plot->canvas->figure->caption = arena_format(
        arena,
        "Doubt of a drag at the aim of your band, %s, as a standard uncertainty. Full dot: "
        "the fitted drum. %s%s",
        band_text(arena, plot->band),
        best                ? "Ring: the best of the common drums that the gauge can read."
        : plot->drums.alike ? "All drums that the gauge can read are alike within a tenth."
                            : "No drum here is within the reach of the gauge.",
        reach_words(plot));
    plot->canvas->figure->description = arena_format(
        arena,
        "A plot of the doubt over the drum's diameter. The gauge's share grows with the drum, "
        "the share of drum and cord falls. %s; %s.",
        drum_words(plot, fitted_of(plot), "Fitted"),
        best                ? drum_words(plot, best, "best")
        : plot->drums.alike ? "all that the gauge can read are alike within a tenth"
                            : "no drum here is within the reach of the gauge");
}

void draw_drum_error(const struct figure_ask *ask, struct canvas *canvas)
{
    struct plot *plot = arena_get(ask->arena, sizeof *plot);
    plot->ask = ask;
    plot->canvas = canvas;
    plot->band = shop_own_band(ask->shop);
    plot->unit = ask->shop->drum.diameter.q.unit;
    rate_drums(ask->shop, plot->band, &plot->drums);
    work_out(plot);
    axes_draw(canvas, &plot->axes, axes_name(canvas, "diameter of the drum", plot->unit->shown),
              "doubt / % of the drag");
    axes_ticks_x(canvas, &plot->axes, axes_step(plot->axes.x_to - plot->axes.x_from, 8));
    axes_ticks_y(canvas, &plot->axes, axes_step(plot->axes.y_to, 6));
    draw_curve(plot, PART_GAUGE, &ink_hidden);
    draw_curve(plot, PART_RADIUS, &ink_centre);
    draw_curve(plot, PART_WHOLE, &ink_thick);
    mark_drums(plot);
    name_curves(plot);
    describe(plot);
}
