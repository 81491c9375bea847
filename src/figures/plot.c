#include "figures/plot.h"

#include "judge/nut.h"
#include "judge/window.h"
#include "number/show.h"

#include <math.h>

/* Axes of a figure that plots one thing against another: scales, ticks, and what stands beside
 * them. What is drawn here is drawn alike in all plots. */

static const double BEYOND = 10, TICK = 3; /* of the axes over the plot; of the ticks */

static const double BELOW = 11; /* from the x axis to the baseline of its numbers */

double axes_x(const struct axes *axes, double value)
{
    return axes->left +
           (value - axes->x_from) / (axes->x_to - axes->x_from) * (axes->right - axes->left);
}

double axes_y(const struct axes *axes, double value)
{
    return axes->bottom -
           (value - axes->y_from) / (axes->y_to - axes->y_from) * (axes->bottom - axes->top);
}

void axes_draw(struct canvas *canvas, const struct axes *axes, const char *x_name,
               const char *y_name)
{
    canvas_line(canvas, axes->left, axes->bottom, axes->right, axes->bottom, &ink_thick);
    canvas_line(canvas, axes->left, axes->bottom, axes->left, axes->top, &ink_thick);
    canvas_arrow(canvas, axes->right, axes->bottom, axes->right + BEYOND, axes->bottom);
    canvas_arrow(canvas, axes->left, axes->top, axes->left, axes->top - BEYOND);
    canvas_text(canvas, axes->right + BEYOND, axes->bottom + (axes->numbered ? 21 : 11),
                ALIGN_RIGHT, x_name);
    canvas_text(canvas, axes->left + 5, axes->top - BEYOND + 3, ALIGN_LEFT, y_name);
}

const char *axes_name(struct canvas *canvas, const char *quantity, const char *unit)
{
    return unit ? arena_format(canvas->arena, "%s / %s", quantity, unit) : quantity;
}

double axes_step(double span, int most)
{
    double step = pow(10, floor(log10(span / most)));
    static const double times[] = {1, 2, 5};
    for (size_t i = 0; i < 3; i++)
        if (span / (times[i] * step) <= most)
            return times[i] * step;
    return 10 * step;
}

const char *axes_number(struct canvas *canvas, double value, double step)
{
    int places = (int)fmax(0, -floor(log10(step * 1.0001)));
    return arena_text(canvas->arena, show_places(value, places).text);
}

void axes_tick(struct canvas *canvas, const struct axes *axes, double x)
{
    canvas_line(canvas, x, axes->bottom, x, axes->bottom + TICK, &ink_thin);
}

void axes_text_below(struct canvas *canvas, const struct axes *axes, double x, const char *text)
{
    canvas_text(canvas, x, axes->bottom + BELOW, ALIGN_MIDDLE, text);
}

void axes_text_left(struct canvas *canvas, const struct axes *axes, double y, const char *text)
{
    canvas_text(canvas, axes->left - 5, y + FIGURE_DROP, ALIGN_RIGHT, text);
}

void axes_text_apart(struct canvas *canvas, const struct axes *axes, double x, const char *text,
                     double *taken)
{
    double half = canvas_width(canvas, false, text) / 2;
    if (x - half < *taken)
        return;
    axes_text_below(canvas, axes, x, text);
    *taken = x + half + 4;
}

void axes_ticks_x(struct canvas *canvas, const struct axes *axes, double step)
{
    for (double k = ceil(axes->x_from / step - 1e-9); k * step <= axes->x_to * (1 + 1e-9);
         k++) {
        double x = axes_x(axes, k * step);
        axes_tick(canvas, axes, x);
        const char *number = axes_number(canvas, k * step, step);
        double half = canvas_width(canvas, false, number) / 2;
        if (x - half > 2 && x + half < canvas->figure->width - 2)
            canvas_sign(canvas, x, axes->bottom + BELOW, ALIGN_MIDDLE, number);
    }
}

void axes_ticks_y(struct canvas *canvas, const struct axes *axes, double step)
{
    for (double k = ceil(axes->y_from / step - 1e-9); k * step <= axes->y_to * (1 + 1e-9);
         k++) {
        double y = axes_y(axes, k * step);
        canvas_line(canvas, axes->left - TICK, y, axes->left, y, &ink_thin);
        axes_text_left(canvas, axes, y, axes_number(canvas, k * step, step));
    }
}

void axes_across(struct canvas *canvas, const struct axes *axes, double y,
                 const struct ink *ink)
{
    canvas_line(canvas, axes->left, y, axes->right, y, ink);
}

double axes_name_right(struct canvas *canvas, const struct axes *axes, double off, double y,
                       double lowest, const char *name)
{
    double baseline = fmin(y + FIGURE_DROP, lowest);
    canvas_text(canvas, axes->right + off, baseline, ALIGN_LEFT, name);
    return baseline - FIGURE_LEAD;
}

void axes_empty(struct canvas *canvas, const struct axes *axes, const char *wanted,
                const char *caption)
{
    double width = axes->right - axes->left - 40;
    canvas_words(canvas, (axes->left + axes->right) / 2, (axes->top + axes->bottom) / 2 - 12,
                 width, ALIGN_MIDDLE, wanted);
    canvas->figure->caption = caption;
    canvas->figure->description =
        arena_format(canvas->arena, "A plot without points. %s", wanted);
}

/* What the plots of logged drags share: the scale of drag with the limits of the lathe's
 * own band, and the marks for a judged series. */

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
