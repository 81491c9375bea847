/* How far each known weight lies off the line through all of them, and how well that line
 * is known. */
#include "drag/line.h"
#include "figures/axes.h"
#include "figures/figures.h"
#include "number/show.h"
#include "verdict/gauge.h"
#include "verdict/window.h"

#include <math.h>

enum { POINTS = 40 };

static const struct axes box = {
    .left = 40, .top = 46, .right = 264, .bottom = 150, .numbered = true};

static const char wanted[] =
    "There is no line through known weights yet. Hang at least three loads, not all alike, and "
    "write them into gauge-check.csv.";

struct plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct axes axes; /* both in the gauge's unit */
    const struct unit *unit;
    struct gauge_check check;
    const struct band *band;   /* the lathe's own; NULL without limits on file */
    struct pull_window window; /* of that band */
};

static double in_unit(const struct plot *plot, double force)
{
    return unit_from_base(force, plot->unit);
}

static double x_of(const struct plot *plot, double force)
{
    return axes_x(&plot->axes, in_unit(plot, force));
}

static double y_of(const struct plot *plot, double residual)
{
    return axes_y(&plot->axes, in_unit(plot, residual));
}

/* What a reading shows more than the line says, N. */
static double residual_of(const struct plot *plot, const struct weighing *weighing)
{
    double force = weighing_force(plot->ask->shop, weighing);
    return weighing->reading.base - line_at(&plot->check.line, force);
}

static const struct weighing *weighing_at(const struct plot *plot, size_t index)
{
    const struct weighings *log = &plot->ask->shop->weighings;
    return index < log->count ? &log->items[index] : NULL;
}

/* Both ways alike; at least a step of the gauge. */
static void set_axes(struct plot *plot)
{
    const struct weighing *weighing;
    double most = plot->ask->shop->gauge.step.q.base;
    for (size_t i = 0; (weighing = weighing_at(plot, i)); i++)
        most = fmax(most, fabs(residual_of(plot, weighing)));
    double from = gauge_check_from(&plot->check), to = gauge_check_to(&plot->check);
    most = fmax(most, gauge_known_within(&plot->check, from));
    most = fmax(most, gauge_known_within(&plot->check, to));
    plot->axes = box;
    plot->axes.y_to = in_unit(plot, 1.1 * most);
    plot->axes.y_from = -plot->axes.y_to;
    double most_pull = plot->band ? plot->window.high : 0;
    plot->axes.x_to = in_unit(plot, 1.04 * fmax(to, most_pull));
}

/* The line's doubt, above and below it, hatched. */
static void draw_doubt(const struct plot *plot)
{
    double from = gauge_check_from(&plot->check), to = gauge_check_to(&plot->check);
    for (int side = 1; side >= -1; side -= 2)
        for (int i = 0; i <= POINTS; i++) {
            double share = (double)(side > 0 ? i : POINTS - i) / POINTS;
            double force = from + (to - from) * share;
            canvas_to(plot->canvas, x_of(plot, force),
                      y_of(plot, side * gauge_known_within(&plot->check, force)));
        }
    canvas_close(plot->canvas);
    canvas_ink(plot->canvas, &(struct ink){.stroke = STROKE_THIN, .hatch = -45});
}

/* Rings lie below dots and are wider: a dot within a ring is two readings. */
static void draw_point(const struct plot *plot, double x, double y, bool down)
{
    canvas_circle(plot->canvas, x, y, down ? 3.6 : 2.7, &ink_paper);
    if (down)
        canvas_circle(plot->canvas, x, y, 3.6, &ink_thick);
    else
        canvas_circle(plot->canvas, x, y, 1.9, &ink_solid);
}

static void draw_points(const struct plot *plot)
{
    const struct weighing *weighing;
    for (int down = 1; down >= 0; down--)
        for (size_t i = 0; (weighing = weighing_at(plot, i)); i++)
            if (weighing->down == down)
                draw_point(plot, x_of(plot, weighing_force(plot->ask->shop, weighing)),
                           y_of(plot, residual_of(plot, weighing)), down);
}

/* Where the pulls of the own band lie. */
static void draw_window(const struct plot *plot)
{
    double left = x_of(plot, plot->window.low), right = x_of(plot, plot->window.high);
    double y = plot->axes.top - 4;
    canvas_line(plot->canvas, left, y - 4, left, plot->axes.bottom, &ink_hidden);
    canvas_line(plot->canvas, right, y - 4, right, plot->axes.bottom, &ink_hidden);
    canvas_span(plot->canvas, left, y, right, y);
}

static void draw_key(const struct plot *plot)
{
    static const char *const names[] = {"loading", "unloading"};
    double x = 10;
    for (int down = 0; down < 2; down++) {
        draw_point(plot, x, 8, down);
        canvas_text(plot->canvas, x + 7, 10.6, ALIGN_LEFT, names[down]);
        x += 24 + canvas_width(plot->canvas, false, names[down]);
    }
    canvas_box(plot->canvas, x - 4, 4, 14, 8,
               &(struct ink){.stroke = STROKE_THIN, .hatch = -45});
    canvas_text(plot->canvas, x + 14, 10.6, ALIGN_LEFT, "known within");
    if (!plot->band)
        return;
    x += 32 + canvas_width(plot->canvas, false, "known within");
    canvas_span(plot->canvas, x - 4, 8, x + 14, 8);
    canvas_text(plot->canvas, x + 18, 10.6, ALIGN_LEFT, "your pull window");
}

static const char *reach_words(const struct plot *plot)
{
    if (!plot->band)
        return "There is no limit on file, so no window stands here.";
    return gauge_check_covers(&plot->check, plot->window.low) &&
                   gauge_check_covers(&plot->check, plot->window.high)
               ? "The weights reach over your whole window."
               : "The weights do not reach over your whole window.";
}

/* Readings that agree say no more than that they agree within the step. */
static const char *scatter_words(const struct plot *plot)
{
    double sd = plot->check.line.sd;
    if (sd < plot->check.step / 10)
        return "less than a tenth of a step";
    return arena_format(plot->ask->arena, "%s\u00a0%s",
                        show_significant(in_unit(plot, sd), 2).text, plot->unit->shown);
}

static void describe(const struct plot *plot)
{
    const struct line *line = &plot->check.line;
    struct arena *arena = plot->ask->arena;
    const char *unit = plot->unit->shown;
    double pull = plot->band ? plot->window.aim : gauge_usual_pull(plot->ask->shop);
    double within = in_unit(plot, gauge_known_within(&plot->check, pull));
    plot->canvas->figure->caption = arena_format(
        arena,
        "Known weights: how far each reading lies off the line through all %zu. Hatched: what "
        "is known of the gauge (95 of 100), as far as the weights speak. "
        "Points that wander, or rings all on one side of the dots, ask for a cause. %s",
        line->count, reach_words(plot));
    plot->canvas->figure->description = arena_format(
        arena,
        "A plot of reading less line in %s over the force. The line of the readings is %s\u00a0"
        "%s at no load and %s of the force; the readings scatter about it by %s. At a "
        "pull of %s\u00a0%s the gauge is known within %s\u00a0%s. %s",
        unit, show_significant(in_unit(plot, line->intercept), 3).text, unit,
        show_significant(line->slope, 5).text, scatter_words(plot),
        show_significant(in_unit(plot, pull), 3).text, unit, show_up(within, 3).text, unit,
        reach_words(plot));
}

void draw_gauge_residuals(const struct figure_ask *ask, struct canvas *canvas)
{
    const struct shop *shop = ask->shop;
    struct plot plot = {
        .ask = ask, .canvas = canvas, .axes = box, .unit = shop->gauge.step.q.unit};
    const char *x_name = axes_name(canvas, "force", plot.unit->shown);
    const char *y_name = axes_name(canvas, "reading less line", plot.unit->shown);
    plot.check = gauge_check_of(shop);
    plot.band = shop_own_band(shop);
    if (plot.band)
        plot.window = pull_window_of(shop, plot.band);
    if (plot.check.known) {
        set_axes(&plot);
        draw_doubt(&plot);
        if (plot.band)
            draw_window(&plot);
        axes_across(canvas, &plot.axes, y_of(&plot, 0), &ink_centre);
    }
    axes_draw(canvas, &plot.axes, x_name, y_name);
    if (!plot.check.known) {
        axes_empty(canvas, &plot.axes, wanted,
                   "The gauge against known weights, once there are any.");
        return;
    }
    axes_ticks_x(canvas, &plot.axes, axes_step(plot.axes.x_to, 8));
    axes_ticks_y(canvas, &plot.axes, axes_step(2 * plot.axes.y_to, 6));
    draw_points(&plot);
    draw_key(&plot);
    describe(&plot);
}
