/* The shapes that figures are made of. */
#include "tree/canvas.h"

#include <math.h>

static const double HEAD_LENGTH = 5, HEAD_HALF = 0.85, DOT = 0.9;

void canvas_line(struct canvas *canvas, double x1, double y1, double x2, double y2,
                 const struct ink *ink)
{
    canvas_move(canvas, x1, y1);
    canvas_to(canvas, x2, y2);
    canvas_ink(canvas, ink);
}

void canvas_box(struct canvas *canvas, double x, double y, double width, double height,
                const struct ink *ink)
{
    const double points[] = {x, y, x + width, y, x + width, y + height, x, y + height};
    canvas_polygon(canvas, points, 4, ink);
}

void canvas_circle(struct canvas *canvas, double x, double y, double radius,
                   const struct ink *ink)
{
    canvas_move(canvas, x + radius, y);
    canvas_arc(canvas, x, y, radius, 0, 360);
    canvas_close(canvas);
    canvas_ink(canvas, ink);
}

static void walk(struct canvas *canvas, const double *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        canvas_to(canvas, points[2 * i], points[2 * i + 1]);
}

void canvas_polygon(struct canvas *canvas, const double *points, size_t count,
                    const struct ink *ink)
{
    walk(canvas, points, count);
    canvas_close(canvas);
    canvas_ink(canvas, ink);
}

void canvas_polyline(struct canvas *canvas, const double *points, size_t count,
                     const struct ink *ink)
{
    walk(canvas, points, count);
    canvas_ink(canvas, ink);
}

void canvas_head(struct canvas *canvas, double x, double y, double direction)
{
    double angle = direction * M_PI / 180, along_x = cos(angle), along_y = sin(angle);
    double back_x = x - HEAD_LENGTH * along_x, back_y = y - HEAD_LENGTH * along_y;
    const double points[] = {x,
                             y,
                             back_x - HEAD_HALF * along_y,
                             back_y + HEAD_HALF * along_x,
                             back_x + HEAD_HALF * along_y,
                             back_y - HEAD_HALF * along_x};
    canvas_polygon(canvas, points, 3, &ink_solid);
}

static double direction_of(double x1, double y1, double x2, double y2)
{
    return atan2(y2 - y1, x2 - x1) * 180 / M_PI;
}

void canvas_arrow(struct canvas *canvas, double x1, double y1, double x2, double y2)
{
    canvas_line(canvas, x1, y1, x2, y2, &ink_thin);
    canvas_head(canvas, x2, y2, direction_of(x1, y1, x2, y2));
}

void canvas_span(struct canvas *canvas, double x1, double y1, double x2, double y2)
{
    canvas_arrow(canvas, x1, y1, x2, y2);
    canvas_head(canvas, x1, y1, direction_of(x2, y2, x1, y1));
}

void canvas_leader(struct canvas *canvas, double from_x, double from_y, double x, double y)
{
    canvas_line(canvas, from_x, from_y, x, y, &ink_thin);
    canvas_circle(canvas, x, y, DOT, &ink_solid);
}
