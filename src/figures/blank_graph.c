/* Squared paper with named axes, for a pencil. A numbered axis has a round number at every
 * square; one without has lines to write them on. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "report/words.h"

#include <math.h>

enum { ACROSS = 30, HEAVY = 4 }; /* squares of the paper's width; between heavier lines */

static const double LEFT = 44, TOP = 20, RIGHT = 18, BELOW = 34;

static const double ROOM = 26; /* for a number written by hand */

/* The ends of an axis, numbered or in squares. Gives what a square is. */
static double fit_axis(const struct graph_axis *axis, int squares, double *from, double *to)
{
    double step = axis->numbered ? axis_step(axis->to - axis->from, squares) : 1;
    *from = axis->numbered ? floor(axis->from / step + 1e-9) * step : 0;
    if (axis->numbered && *from + squares * step < axis->to - 1e-9 * step)
        step = axis_step(axis->to - *from, squares);
    *to = *from + squares * step;
    return step;
}

static void draw_squares(const struct plot *plot, int squares)
{
    for (int heavy = 0; heavy < 2; heavy++) {
        const struct ink *ink = heavy ? &ink_thick : &ink_thin;
        for (int i = 0; i <= ACROSS; i++) {
            double x = plot->left + i * GRAPH_SQUARE;
            if ((i % HEAVY == 0) == heavy)
                canvas_line(plot->canvas, x, plot->top, x, plot->bottom, ink);
        }
        for (int i = 0; i <= squares; i++)
            if ((i % HEAVY == 0) == heavy)
                plot_across(plot, plot->bottom - i * GRAPH_SQUARE, ink);
    }
}

static void draw_scale_across(const struct plot *plot, bool numbered, double step)
{
    struct canvas *c = plot->canvas;
    int apart = HEAVY;
    if (numbered) { /* so many squares that no number meets another */
        double widest = fmax(canvas_width(c, false, axis_number(c->arena, plot->x_from, step)),
                             canvas_width(c, false, axis_number(c->arena, plot->x_to, step)));
        apart = 2 * (int)ceil((widest + 6) / (2 * GRAPH_SQUARE));
    }
    for (int i = 0; i <= ACROSS; i += apart) {
        double x = plot->left + i * GRAPH_SQUARE, y = plot->bottom + 17;
        if (numbered)
            plot_text_below(plot, x, axis_number(c->arena, plot->x_from + i * step, step));
        else
            canvas_line(c, x - ROOM / 2, y, x + ROOM / 2, y, &ink_thin);
    }
}

static void draw_scale_up(const struct plot *plot, bool numbered, double step, int squares)
{
    struct canvas *c = plot->canvas;
    for (int i = 0; i <= squares; i += numbered ? 2 : HEAVY) {
        double y = plot->bottom - i * GRAPH_SQUARE;
        if (numbered)
            plot_text_left(plot, y, axis_number(c->arena, plot->y_from + i * step, step));
        else
            canvas_line(c, plot->left - 4 - ROOM, y, plot->left - 4, y, &ink_thin);
    }
}

/* On its line, so that no line of the paper is taken for it. */
static void draw_limit(const struct plot *plot, const struct quantity *limit,
                       const struct unit *unit, const char *words)
{
    static const struct ink ink_limit = {.stroke = STROKE_THICK, .dash = DASH_HIDDEN};
    struct arena *arena = plot->canvas->arena;
    double y = plot_y(plot, quantity_in(limit, unit));
    canvas_box(plot->canvas, plot->left, y - 1, plot->right - plot->left, 2,
               &ink_paper); /* should the limit lie on a line of the paper */
    plot_across(plot, y, &ink_limit);
    canvas_label(plot->canvas, plot->right - 8, y + FIGURE_DROP, ALIGN_RIGHT,
                 arena_format(arena, "%s %s", words, quantity_text(arena, limit)));
}

/* The drag from a window's width below the low limit to one above the high limit. */
static struct graph_axis window_axis(const struct shop *shop, const struct band *band)
{
    const struct unit *unit = band->high.q.unit;
    double low = quantity_in(&band->low.q, unit), high = quantity_in(&band->high.q, unit);
    double beyond = high > low ? high - low : high / 4;
    return (struct graph_axis){.quantity = shop_basis_word(shop),
                               .unit = unit->shown,
                               .numbered = true,
                               .from = fmax(0, low - beyond),
                               .to = high + beyond};
}

struct figure *draw_blank_graph(struct arena *arena, const struct shop *shop,
                                const struct graph *graph, const struct text_meter *meter)
{
    const struct band *band = graph->window ? shop_own_band(shop) : NULL;
    const struct graph_axis *across = &graph->across;
    struct graph_axis up = graph->up;
    if (band)
        up = window_axis(shop, band);
    else if (graph->window)
        up = (struct graph_axis){.quantity = "drag", .unit = shop_drag_unit(shop)->shown};
    double bottom = TOP + graph->squares * GRAPH_SQUARE, right = LEFT + ACROSS * GRAPH_SQUARE;
    struct canvas canvas = canvas_new(arena, meter, bottom + BELOW);
    struct figure *figure = canvas.figure;
    struct plot plot = {&canvas, LEFT, TOP, right, bottom, .numbered = across->numbered};
    double across_step = fit_axis(across, ACROSS, &plot.x_from, &plot.x_to);
    double up_step = fit_axis(&up, graph->squares, &plot.y_from, &plot.y_to);
    const char *across_name = axis_name(arena, across->quantity, across->unit);
    const char *up_name = axis_name(arena, up.quantity, up.unit);
    draw_squares(&plot, graph->squares);
    draw_scale_across(&plot, across->numbered, across_step);
    draw_scale_up(&plot, up.numbered, up_step, graph->squares);
    canvas_text(&canvas, right, bottom + 28, ALIGN_RIGHT, across_name);
    canvas_text(&canvas, 2, TOP - 11, ALIGN_LEFT, up_name);
    if (band) {
        draw_limit(&plot, &band->low.q, band->high.q.unit, "low limit");
        draw_limit(&plot, &band->high.q, band->high.q.unit, "high limit");
    }
    figure->width = right + RIGHT;
    figure->name = graph->name;
    figure->title = figure->caption = graph->caption;
    figure->at = graph->at;
    figure->to_scale = true;
    figure->description = arena_format(
        arena, "Blank squared paper to plot on: across, %s; upward, %s.%s", across_name,
        up_name, band ? " Broken lines lie at the low and the high limit of your band." : "");
    return figure;
}
