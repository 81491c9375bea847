#include "figures/plot.h"

#include "number/show.h"

#include <math.h>

static const double BEYOND = 10, TICK = 3; /* of the axes over the plot; of the ticks */
static const double BELOW = 11;            /* from the x axis to the baseline of its numbers */
static const double NOISE = 1e-9;          /* of a step, where one should fall on an edge */

static double in_unit(double value, const struct unit *unit)
{
    return unit ? unit_from_base(value, unit) : value;
}

double plot_x(const struct plot *plot, double value)
{
    return plot->left + (in_unit(value, plot->x_unit) - plot->x_from) /
                            (plot->x_to - plot->x_from) * (plot->right - plot->left);
}

double plot_y(const struct plot *plot, double value)
{
    return plot->bottom - (in_unit(value, plot->y_unit) - plot->y_from) /
                              (plot->y_to - plot->y_from) * (plot->bottom - plot->top);
}

void plot_to(const struct plot *plot, double x, double y)
{
    canvas_to(plot->canvas, plot_x(plot, x), plot_y(plot, y));
}

void plot_curve(const struct plot *plot, double x1, double y1, double x2, double y2, double x,
                double y)
{
    canvas_curve(plot->canvas, plot_x(plot, x1), plot_y(plot, y1), plot_x(plot, x2),
                 plot_y(plot, y2), plot_x(plot, x), plot_y(plot, y));
}

void plot_line(const struct plot *plot, double x1, double y1, double x2, double y2,
               const struct ink *ink)
{
    canvas_line(plot->canvas, plot_x(plot, x1), plot_y(plot, y1), plot_x(plot, x2),
                plot_y(plot, y2), ink);
}

void plot_axes(const struct plot *plot, const char *x_name, const char *y_name)
{
    struct canvas *c = plot->canvas;
    double left = plot->left, top = plot->top, right = plot->right, bottom = plot->bottom;
    canvas_line(c, left, bottom, right, bottom, &ink_thick);
    canvas_line(c, left, bottom, left, top, &ink_thick);
    canvas_arrow(c, right, bottom, right + BEYOND, bottom);
    canvas_arrow(c, left, top, left, top - BEYOND);
    canvas_text(c, right + BEYOND, bottom + (plot->numbered ? 21 : 11), ALIGN_RIGHT, x_name);
    canvas_text(c, left + 5, top - BEYOND + 3, ALIGN_LEFT, y_name);
}

const char *axis_name(struct arena *arena, const char *quantity, const char *unit)
{
    return unit ? arena_format(arena, "%s / %s", quantity, unit) : quantity;
}

double axis_step(double span, int most)
{
    double step = pow(10, floor(log10(span / most)));
    static const double times[] = {1, 2, 5};
    for (size_t i = 0; i < 3; i++)
        if (span / (times[i] * step) <= most)
            return times[i] * step;
    return 10 * step;
}

const char *axis_number(struct arena *arena, double value, double step)
{
    int places = (int)fmax(0, -floor(log10(step * 1.0001)));
    return arena_text(arena, show_places(value, places).text);
}

void plot_tick(const struct plot *plot, double x)
{
    canvas_line(plot->canvas, x, plot->bottom, x, plot->bottom + TICK, &ink_thin);
}

void plot_text_below(const struct plot *plot, double x, const char *text)
{
    canvas_text(plot->canvas, x, plot->bottom + BELOW, ALIGN_MIDDLE, text);
}

void plot_text_left(const struct plot *plot, double y, const char *text)
{
    canvas_text(plot->canvas, plot->left - 5, y + FIGURE_DROP, ALIGN_RIGHT, text);
}

void plot_text_apart(const struct plot *plot, double x, const char *text, double *reached)
{
    double half = canvas_width(plot->canvas, false, text) / 2;
    if (x - half < *reached)
        return;
    plot_text_below(plot, x, text);
    *reached = x + half + 4;
}

void plot_ticks_x(const struct plot *plot, int most)
{
    double step = axis_step(plot->x_to - plot->x_from, most);
    struct plot numbers = *plot;
    numbers.x_unit = NULL;
    for (double k = ceil(plot->x_from / step - NOISE); k * step <= plot->x_to * (1 + NOISE);
         k++) {
        double x = plot_x(&numbers, k * step);
        plot_tick(plot, x);
        const char *number = axis_number(plot->canvas->arena, k * step, step);
        double half = canvas_width(plot->canvas, false, number) / 2;
        if (x - half > 2 && x + half < plot->canvas->figure->width - 2)
            canvas_label(plot->canvas, x, plot->bottom + BELOW, ALIGN_MIDDLE, number);
    }
}

void plot_ticks_y(const struct plot *plot, int most)
{
    double step = axis_step(plot->y_to - plot->y_from, most);
    struct plot numbers = *plot;
    numbers.y_unit = NULL;
    for (double k = ceil(plot->y_from / step - NOISE); k * step <= plot->y_to * (1 + NOISE);
         k++) {
        double y = plot_y(&numbers, k * step);
        canvas_line(plot->canvas, plot->left - TICK, y, plot->left, y, &ink_thin);
        plot_text_left(plot, y, axis_number(plot->canvas->arena, k * step, step));
    }
}

void plot_across(const struct plot *plot, double y, const struct ink *ink)
{
    canvas_line(plot->canvas, plot->left, y, plot->right, y, ink);
}

double plot_name_right(const struct plot *plot, double off, double y, double lowest,
                       const char *name)
{
    double baseline = fmin(y + FIGURE_DROP, lowest);
    canvas_text(plot->canvas, plot->right + off, baseline, ALIGN_LEFT, name);
    return baseline - FIGURE_LEAD;
}

double plot_key(const struct plot *plot, double x, const char *name)
{
    canvas_text(plot->canvas, x, KEY_MIDDLE + FIGURE_DROP, ALIGN_LEFT, name);
    return x + canvas_width(plot->canvas, false, name);
}

void plot_empty(const struct plot *plot, const char *x_name, const char *y_name,
                const char *wanted, const char *caption)
{
    struct canvas *c = plot->canvas;
    plot_axes(plot, x_name, y_name);
    canvas_words(c, (plot->left + plot->right) / 2, (plot->top + plot->bottom) / 2 - 12,
                 plot->right - plot->left - 40, ALIGN_MIDDLE, wanted);
    c->figure->caption = caption;
    c->figure->description = arena_format(c->arena, "A plot without points. %s", wanted);
}
