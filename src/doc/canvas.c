#include "doc/canvas.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- hatching: a shape's inside as lines, so that it survives any printer ---- */

static const double PITCH = 3; /* between two lines */

enum { PIECES = 16 }; /* of a curve */

struct outline_point *path_outline(struct arena *arena, const struct figure_path *path,
                                   size_t *count)
{
    struct outline_point *points = NULL, first = {0}, last = {0};
    *count = 0;
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        struct outline_point from = last;
        last = (struct outline_point){step->x, step->y, step->kind == STEP_MOVE};
        if (step->kind == STEP_MOVE)
            first = last;
        else if (step->kind == STEP_CLOSE)
            last = (struct outline_point){first.x, first.y, false};
        for (int piece = 1; step->kind == STEP_CURVE && piece < PIECES; piece++) {
            double t = (double)piece / PIECES, s = 1 - t;
            double a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
            *ARENA_PUSH(arena, points, *count) = (struct outline_point){
                a * from.x + b * step->x1 + c * step->x2 + d * step->x,
                a * from.y + b * step->y1 + c * step->y2 + d * step->y, false};
        }
        *ARENA_PUSH(arena, points, *count) = last;
    }
    return points;
}

/* The grid's own directions: u along the lines, v across them. */
struct grid {
    double cosine, sine;
};

static double along(const struct grid *grid, const struct outline_point *point)
{
    return point->x * grid->cosine + point->y * grid->sine;
}

static double across(const struct grid *grid, const struct outline_point *point)
{
    return point->y * grid->cosine - point->x * grid->sine;
}

static int by_value(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Where a line of the grid meets the outline, in order along it. */
static size_t crossings(const struct grid *grid, const struct outline_point *points,
                        size_t count, double v, double *found)
{
    size_t total = 0;
    for (size_t i = 1; i < count; i++) {
        if (points[i].begins)
            continue;
        double v1 = across(grid, &points[i - 1]), v2 = across(grid, &points[i]);
        if ((v1 <= v) == (v2 <= v))
            continue;
        double u1 = along(grid, &points[i - 1]), u2 = along(grid, &points[i]);
        found[total++] = u1 + (u2 - u1) * (v - v1) / (v2 - v1);
    }
    qsort(found, total, sizeof *found, by_value);
    return total;
}

/* Thin lines at this angle (degrees) inside the path, by the even-odd rule. The lines
 * of all shapes of a figure lie on one grid. */
static struct figure_path hatch_within(struct arena *arena, const struct figure_path *path,
                                       double angle)
{
    struct grid grid = {cos(angle * M_PI / 180), sin(angle * M_PI / 180)};
    struct path_step *steps = NULL;
    size_t count, step_count = 0;
    const struct outline_point *points = path_outline(arena, path, &count);
    double *found = arena_get(arena, count * sizeof *found);
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        least = fmin(least, across(&grid, &points[i]));
        most = fmax(most, across(&grid, &points[i]));
    }
    for (double k = ceil(least / PITCH); k * PITCH <= most; k++) {
        size_t total = crossings(&grid, points, count, k * PITCH, found);
        for (size_t i = 0; i < total / 2 * 2; i++)
            *ARENA_PUSH(arena, steps, step_count) =
                (struct path_step){.kind = i % 2 ? STEP_LINE : STEP_MOVE,
                                   .x = found[i] * grid.cosine - k * PITCH * grid.sine,
                                   .y = found[i] * grid.sine + k * PITCH * grid.cosine};
    }
    return (struct figure_path){
        .stroke = STROKE_THIN, .steps = steps, .step_count = step_count};
}

/* ---- paths ---- */

const struct ink ink_thick = {.stroke = STROKE_THICK}, ink_thin = {.stroke = STROKE_THIN},
                 ink_hidden = {.stroke = STROKE_THIN, .dash = DASH_HIDDEN},
                 ink_centre = {.stroke = STROKE_THIN, .dash = DASH_CENTRE},
                 ink_section = {.stroke = STROKE_THICK, .hatch = -45},
                 ink_section_back = {.stroke = STROKE_THICK, .hatch = 45},
                 ink_hatch = {.hatch = -45}, ink_hatch_back = {.hatch = 45},
                 ink_solid = {.fill = FILL_INK}, ink_paper = {.fill = FILL_PAPER},
                 ink_sheet = {.stroke = STROKE_THICK, .fill = FILL_PAPER};

struct canvas canvas_new(struct arena *arena, const struct text_meter *meter, double height)
{
    struct canvas canvas = {.arena = arena, .meter = meter};
    canvas.figure = arena_get(arena, sizeof *canvas.figure);
    canvas.figure->width = FIGURE_WIDTH;
    canvas.figure->height = height;
    return canvas;
}

static struct path_step *add_step(struct canvas *canvas, enum step_kind kind, double x,
                                  double y)
{
    struct path_step *step = ARENA_PUSH(canvas->arena, canvas->steps, canvas->step_count);
    *step = (struct path_step){.kind = kind, .x = x, .y = y};
    return step;
}

void canvas_move(struct canvas *canvas, double x, double y)
{
    add_step(canvas, STEP_MOVE, x, y);
}

void canvas_to(struct canvas *canvas, double x, double y)
{
    add_step(canvas, canvas->step_count ? STEP_LINE : STEP_MOVE, x, y);
}

void canvas_curve(struct canvas *canvas, double x1, double y1, double x2, double y2, double x,
                  double y)
{
    struct path_step *step = add_step(canvas, STEP_CURVE, x, y);
    step->x1 = x1;
    step->y1 = y1;
    step->x2 = x2;
    step->y2 = y2;
}

void canvas_close(struct canvas *canvas)
{
    add_step(canvas, STEP_CLOSE, 0, 0);
}

/* A quarter of a circle at most is near enough to one curve: a part in 3000. */
void canvas_arc(struct canvas *canvas, double x, double y, double radius, double from,
                double to)
{
    const double degree = M_PI / 180;
    int parts = (int)ceil(fabs(to - from) / 90);
    double part = (to - from) * degree / (parts ? parts : 1);
    double reach = 4.0 / 3 * tan(part / 4) * radius, at = from * degree;
    canvas_to(canvas, x + radius * cos(at), y + radius * sin(at));
    for (int i = 0; i < parts; i++, at += part) {
        double end = at + part;
        double end_x = x + radius * cos(end), end_y = y + radius * sin(end);
        canvas_curve(canvas, x + radius * cos(at) - reach * sin(at),
                     y + radius * sin(at) + reach * cos(at), end_x + reach * sin(end),
                     end_y - reach * cos(end), end_x, end_y);
    }
}

void canvas_ink(struct canvas *canvas, const struct ink *ink)
{
    struct figure *figure = canvas->figure;
    struct figure_path path = {.stroke = ink->stroke,
                               .dash = ink->dash,
                               .fill = ink->fill,
                               .steps = canvas->steps,
                               .step_count = canvas->step_count};
    if (ink->hatch != 0) {
        struct figure_path lines = hatch_within(canvas->arena, &path, ink->hatch);
        if (lines.step_count)
            *ARENA_PUSH(canvas->arena, figure->paths, figure->path_count) = lines;
    }
    if (ink->stroke || ink->fill)
        *ARENA_PUSH(canvas->arena, figure->paths, figure->path_count) = path;
    canvas->steps = NULL;
    canvas->step_count = 0;
}

/* ---- whole shapes ---- */

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

/* ---- texts ---- */

double canvas_width(const struct canvas *canvas, bool bold, const char *text)
{
    return canvas->meter->width(canvas->meter->with, bold, FIGURE_TEXT, text);
}

static struct figure_text *add_text(struct canvas *canvas, double x, double y, enum align align,
                                    bool bold, const char *text)
{
    struct figure *figure = canvas->figure;
    struct figure_text *added = ARENA_PUSH(canvas->arena, figure->texts, figure->text_count);
    *added = (struct figure_text){.text = text,
                                  .x = x,
                                  .y = y,
                                  .width = canvas_width(canvas, bold, text),
                                  .size = FIGURE_TEXT,
                                  .align = align,
                                  .bold = bold};
    return added;
}

void canvas_text(struct canvas *canvas, double x, double y, enum align align, const char *text)
{
    add_text(canvas, x, y, align, false, text);
}

void canvas_bold(struct canvas *canvas, double x, double y, enum align align, const char *text)
{
    add_text(canvas, x, y, align, true, text);
}

void canvas_label(struct canvas *canvas, double x, double y, enum align align, const char *text)
{
    const struct figure_text *put = add_text(canvas, x, y, align, false, text);
    const double above = 0.8 * FIGURE_TEXT, below = 0.28 * FIGURE_TEXT, side = 1.5;
    canvas_box(canvas, figure_text_left(put) - side, y - above, put->width + 2 * side,
               above + below, &ink_paper);
}

/* Bytes of the text that fit on one line, at least its first word. */
static size_t fitting(const struct canvas *canvas, const char *text, double width)
{
    size_t fits = strcspn(text, " ");
    for (size_t next = fits; text[next]; fits = next) {
        next += 1 + strcspn(text + next + 1, " ");
        if (canvas_width(canvas, false, arena_slice(canvas->arena, text, next)) > width)
            break;
    }
    return fits;
}

double canvas_words(struct canvas *canvas, double x, double y, double width, enum align align,
                    const char *text)
{
    for (;; y += FIGURE_LEAD) {
        size_t fits = fitting(canvas, text, width);
        canvas_text(canvas, x, y, align, arena_slice(canvas->arena, text, fits));
        text += fits;
        if (!*text)
            return y;
        text++;
    }
}
