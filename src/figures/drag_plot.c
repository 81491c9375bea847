#include "figures/drag_plot.h"

#include "number/show.h"
#include "verdict/nut_place.h"
#include "verdict/window.h"

#include <math.h>

/* A limit that lies further off than so many windows is not drawn. */
static const double NEAR = 1.5;

/* Half the ends of a bar: they stand out beside a mark that is taller than U. */
static const double CAP = 4.5;

static double in_unit(const struct drag_plot *plot, double drag)
{
    return unit_from_base(drag, plot->unit);
}

struct drag_plot drag_plot_new(const struct figure_ask *ask, struct canvas *canvas,
                               struct axes box)
{
    const struct shop *shop = ask->shop;
    struct drag_plot plot = {.ask = ask, .canvas = canvas, .axes = box};
    plot.band = shop_own_band(shop);
    plot.unit = shop_drag_unit(shop);
    plot.low = plot.aim = plot.high = plot.never = NAN;
    plot.axes.y_from = plot.axes.y_to = NAN;
    if (!plot.band)
        return plot;
    plot.low = pulled_limit_near(shop, &plot.band->low);
    plot.high = pulled_limit_near(shop, &plot.band->high);
    plot.aim = nut_aim(shop, plot.band);
    if (given(&shop->limits.never_exceed))
        plot.never = pulled_limit_near(shop, &shop->limits.never_exceed);
    plot.axes.y_from = in_unit(&plot, plot.low);
    plot.axes.y_to = in_unit(&plot, plot.high);
    return plot;
}

void drag_plot_reach(struct drag_plot *plot, double drag, double expanded)
{
    plot->axes.y_from = fmin(plot->axes.y_from, in_unit(plot, drag - expanded));
    plot->axes.y_to = fmax(plot->axes.y_to, in_unit(plot, drag + expanded));
}

void drag_plot_close(struct drag_plot *plot)
{
    double most = in_unit(plot, plot->high + NEAR * (plot->high - plot->low));
    double never = in_unit(plot, plot->never);
    if (never <= fmax(most, plot->axes.y_to))
        plot->axes.y_to = fmax(plot->axes.y_to, never);
    double span = plot->axes.y_to - plot->axes.y_from;
    if (!(span > 0)) /* equal limits, and no drag beside them */
        span = plot->axes.y_to;
    plot->axes.y_from = fmax(0, plot->axes.y_from - span / 6);
    plot->axes.y_to += span / 6;
}

double drag_plot_y(const struct drag_plot *plot, double drag)
{
    return axes_y(&plot->axes, in_unit(plot, drag));
}

/* A name at the right of its line, above the one below it. */
static double name_line(struct drag_plot *plot, double y, double lowest, const char *name)
{
    return axes_name_right(plot->canvas, &plot->axes, 7, y, lowest, name);
}

/* In the maker's own digits. Where the slack drag is added to it, no number stands here:
 * the table of pulls has it, rounded inward. */
static const char *limit_words(const struct drag_plot *plot, const char *name,
                               const struct measure *limit)
{
    if (plot->ask->shop->limits.basis == BASIS_INCREASE || limit->q.unit != plot->unit)
        return name;
    return arena_format(plot->ask->arena, "%s %s", name, limit->q.digits);
}

static const char *aim_words(const struct drag_plot *plot)
{
    return arena_format(plot->ask->arena, "aim %s",
                        show_significant(in_unit(plot, plot->aim), 3).text);
}

/* What lies outside the window is hatched along the limit. */
static void hatch_edge(struct drag_plot *plot, double y, double way)
{
    double far = fmin(fmax(y + 5 * way, plot->axes.top), plot->axes.bottom);
    canvas_box(plot->canvas, plot->axes.left, fmin(y, far), plot->axes.right - plot->axes.left,
               fabs(far - y), &ink_hatch);
}

void drag_plot_limits(struct drag_plot *plot)
{
    if (!plot->band)
        return;
    double high = drag_plot_y(plot, plot->high), low = drag_plot_y(plot, plot->low);
    double aim = drag_plot_y(plot, plot->aim), next = plot->axes.bottom - 2;
    hatch_edge(plot, high, -1);
    hatch_edge(plot, low, 1);
    axes_across(plot->canvas, &plot->axes, high, &ink_thick);
    axes_across(plot->canvas, &plot->axes, low, &ink_thick);
    axes_across(plot->canvas, &plot->axes, aim, &ink_centre);
    next = name_line(plot, low, next, limit_words(plot, "low", &plot->band->low));
    next = name_line(plot, aim, next, aim_words(plot));
    next = name_line(plot, high, next, limit_words(plot, "high", &plot->band->high));
    if (in_unit(plot, plot->never) <= plot->axes.y_to) {
        double never = drag_plot_y(plot, plot->never);
        axes_across(plot->canvas, &plot->axes, never, &ink_hidden);
        name_line(plot, never, next, "never exceed");
    }
}

const char *drag_plot_window_words(const struct drag_plot *plot)
{
    return plot->band ? "Between the hatched edges lies your window."
                      : "There is no limit on file: compare the drags with each other.";
}

void drag_plot_mark(struct canvas *canvas, double x, double y, enum lock lock)
{
    const double r = 2.6;
    if (lock == LOCK_UNSAID) {
        canvas_line(canvas, x - r, y - r, x + r, y + r, &ink_thick);
        canvas_line(canvas, x - r, y + r, x + r, y - r, &ink_thick);
        return;
    }
    canvas_circle(canvas, x, y, r, lock == LOCK_AFTER ? &ink_solid : &ink_sheet);
}

void drag_plot_bar(const struct drag_plot *plot, double x, const struct judgement *judgement)
{
    double expanded = judgement->uncertainty.expanded;
    double top = drag_plot_y(plot, judgement->drag + expanded);
    double bottom = fmin(drag_plot_y(plot, judgement->drag - expanded), plot->axes.bottom);
    canvas_line(plot->canvas, x, top, x, bottom, &ink_thin);
    canvas_line(plot->canvas, x - CAP, top, x + CAP, top, &ink_thin);
    canvas_line(plot->canvas, x - CAP, bottom, x + CAP, bottom, &ink_thin);
}
