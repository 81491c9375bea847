#include "figures/axes.h"

#include "number/show.h"

#include <math.h>

static const double BEYOND = 10, TICK = 3; /* of the axes over the plot; of the ticks */
static const double BELOW = 11;            /* from the x axis to the baseline of its numbers */

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
