#include "figures/blank_graph.h"

#include "figures/plot.h"
#include "shop/shop.h"

#include <math.h>

enum { ACROSS = 30, HEAVY = 4 }; /* squares of the paper's width; between heavier lines */

static const double LEFT = 44, TOP = 20, RIGHT = 18, BELOW = 34;

static const double ROOM = 26; /* for a number written by hand */

struct plot {
    struct canvas *canvas;
    const struct graph *graph;
    struct axes axes; /* in squares where an axis has no numbers */
};

/* A numbered axis has a round number at every square. Gives what a square is. */
static double fit_axis(const struct graph_axis *axis, int squares, double *from, double *to)
{
    double step = axis->numbered ? axes_step(axis->to - axis->from, squares) : 1;
    *from = axis->numbered ? floor(axis->from / step + 1e-9) * step : 0;
    if (axis->numbered && *from + squares * step < axis->to - 1e-9 * step)
        step = axes_step(axis->to - *from, squares);
    *to = *from + squares * step;
    return step;
}

static void draw_squares(const struct plot *plot)
{
    const struct axes *axes = &plot->axes;
    for (int weight = 0; weight < 2; weight++) {
        const struct ink *ink = weight ? &ink_thick : &ink_thin;
        for (int i = 0; i <= ACROSS; i++)
            if ((i % HEAVY == 0) == weight)
                canvas_line(plot->canvas, axes->left + i * GRAPH_SQUARE, axes->top,
                            axes->left + i * GRAPH_SQUARE, axes->bottom, ink);
        for (int i = 0; i <= plot->graph->squares; i++)
            if ((i % HEAVY == 0) == weight)
                canvas_line(plot->canvas, axes->left, axes->bottom - i * GRAPH_SQUARE,
                            axes->right, axes->bottom - i * GRAPH_SQUARE, ink);
    }
}

/* How many squares apart numbers stand, so that none meets another. */
static int apart(const struct plot *plot, double step)
{
    const struct axes *axes = &plot->axes;
    double widest =
        fmax(canvas_width(plot->canvas, false, axes_number(plot->canvas, axes->x_from, step)),
             canvas_width(plot->canvas, false, axes_number(plot->canvas, axes->x_to, step)));
    return 2 * (int)ceil((widest + 6) / (2 * GRAPH_SQUARE));
}

/* Numbers, or lines to write them on at the heavy squares. */
static void draw_scale_across(const struct plot *plot, double step)
{
    const struct axes *axes = &plot->axes;
    bool numbered = plot->graph->across.numbered;
    int every = numbered ? apart(plot, step) : HEAVY;
    for (int i = 0; i <= ACROSS; i += every) {
        double x = axes->left + i * GRAPH_SQUARE;
        if (numbered)
            axes_text_below(plot->canvas, axes, x,
                            axes_number(plot->canvas, axes->x_from + i * step, step));
        else
            canvas_line(plot->canvas, x - ROOM / 2, axes->bottom + 17, x + ROOM / 2,
                        axes->bottom + 17, &ink_thin);
    }
}

static void draw_scale_up(const struct plot *plot, double step)
{
    const struct axes *axes = &plot->axes;
    bool numbered = plot->graph->up.numbered;
    for (int i = 0; i <= plot->graph->squares; i += numbered ? 2 : HEAVY) {
        double y = axes->bottom - i * GRAPH_SQUARE;
        if (numbered)
            axes_text_left(plot->canvas, axes, y,
                           axes_number(plot->canvas, axes->y_from + i * step, step));
        else
            canvas_line(plot->canvas, axes->left - 4 - ROOM, y, axes->left - 4, y, &ink_thin);
    }
}

/* On its line, so that no line of the paper is taken for it. */
static void draw_limit(const struct plot *plot, const struct quantity *limit,
                       const struct unit *unit, const char *words)
{
    static const struct ink ink_limit = {.stroke = STROKE_THICK, .dash = DASH_HIDDEN};
    double y = axes_y(&plot->axes, quantity_in(limit, unit));
    canvas_box(plot->canvas, plot->axes.left, y - 1, plot->axes.right - plot->axes.left, 2,
               &ink_paper); /* should the limit lie on a line of the paper */
    axes_across(plot->canvas, &plot->axes, y, &ink_limit);
    canvas_sign(plot->canvas, plot->axes.right - 8, y + FIGURE_DROP, ALIGN_RIGHT,
                arena_format(plot->canvas->arena, "%s %s", words,
                             quantity_text(plot->canvas->arena, limit)));
}

/* The drag from a window's width below the low limit to one above the high limit. */
static struct graph_axis window_axis(const struct shop *shop)
{
    const struct band *band = shop_own_band(shop);
    const struct unit *unit = band->high.q.unit;
    double low = quantity_in(&band->low.q, unit), high = quantity_in(&band->high.q, unit);
    double beyond = high > low ? high - low : high / 4;
    return (struct graph_axis){.quantity = shop_basis_word(shop),
                               .unit = unit->shown,
                               .numbered = true,
                               .from = fmax(0, low - beyond),
                               .to = high + beyond};
}

static void describe(struct figure *figure, const struct graph *graph, struct arena *arena,
                     const char *across, const char *up)
{
    figure->name = graph->name;
    figure->title = figure->caption = graph->caption;
    figure->at = graph->at;
    figure->to_scale = true;
    figure->description = arena_format(
        arena, "Blank squared paper to plot on: across, %s; upward, %s.%s", across, up,
        graph->window ? " Broken lines lie at the low and the high limit of your band." : "");
}

struct figure *draw_blank_graph(struct arena *arena, const struct shop *shop,
                                const struct graph *graph, const struct text_meter *meter)
{
    double height = graph->squares * GRAPH_SQUARE;
    struct graph with = *graph;
    struct canvas canvas = canvas_new(arena, meter, TOP + height + BELOW);
    struct plot plot = {.canvas = &canvas, .graph = &with};
    with.window = graph->window && shop_has_limits(shop);
    if (with.window)
        with.up = window_axis(shop);
    else if (graph->window)
        with.up = (struct graph_axis){.quantity = "drag", .unit = shop_drag_unit(shop)->shown};
    plot.axes = (struct axes){.left = LEFT,
                              .top = TOP,
                              .right = LEFT + ACROSS * GRAPH_SQUARE,
                              .bottom = TOP + height};
    canvas.figure->width = plot.axes.right + RIGHT;
    double across = fit_axis(&with.across, ACROSS, &plot.axes.x_from, &plot.axes.x_to);
    double up = fit_axis(&with.up, with.squares, &plot.axes.y_from, &plot.axes.y_to);
    const char *across_name = axes_name(&canvas, with.across.quantity, with.across.unit);
    const char *up_name = axes_name(&canvas, with.up.quantity, with.up.unit);
    draw_squares(&plot);
    draw_scale_across(&plot, across);
    draw_scale_up(&plot, up);
    canvas_text(&canvas, plot.axes.right, plot.axes.bottom + 28, ALIGN_RIGHT, across_name);
    canvas_text(&canvas, 2, TOP - 11, ALIGN_LEFT, up_name);
    if (with.window) {
        const struct band *band = shop_own_band(shop);
        draw_limit(&plot, &band->low.q, band->high.q.unit, "low limit");
        draw_limit(&plot, &band->high.q, band->high.q.unit, "high limit");
    }
    describe(canvas.figure, &with, arena, across_name, up_name);
    return canvas.figure;
}
