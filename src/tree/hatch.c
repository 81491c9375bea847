#include "tree/hatch.h"

#include <math.h>
#include <stdlib.h>

static const double PITCH = 3; /* between two lines */
enum { PIECES = 16 };          /* of a curve */

struct walk {
    struct arena *arena;
    struct outline_point *points;
    size_t count;
    struct outline_point first, last; /* of the contour; of all */
};

static void add_point(struct walk *walk, double x, double y, bool begins)
{
    walk->last = (struct outline_point){.x = x, .y = y, .begins = begins};
    if (begins)
        walk->first = walk->last;
    *ARENA_PUSH(walk->arena, walk->points, walk->count) = walk->last;
}

static void add_curve(struct walk *walk, const struct path_step *step)
{
    double x = walk->last.x, y = walk->last.y;
    for (int i = 1; i <= PIECES; i++) {
        double t = (double)i / PIECES, s = 1 - t;
        double a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
        add_point(walk, a * x + b * step->x1 + c * step->x2 + d * step->x,
                  a * y + b * step->y1 + c * step->y2 + d * step->y, false);
    }
}

struct outline_point *path_outline(struct arena *arena, const struct figure_path *path,
                                   size_t *count)
{
    struct walk walk = {.arena = arena};
    for (size_t i = 0; i < path->step_count; i++) {
        const struct path_step *step = &path->steps[i];
        if (step->kind == STEP_CURVE)
            add_curve(&walk, step);
        else if (step->kind == STEP_CLOSE)
            add_point(&walk, walk.first.x, walk.first.y, false);
        else
            add_point(&walk, step->x, step->y, step->kind == STEP_MOVE);
    }
    *count = walk.count;
    return walk.points;
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

static struct path_step step_at(const struct grid *grid, enum step_kind kind, double u,
                                double v)
{
    return (struct path_step){.kind = kind,
                              .x = u * grid->cosine - v * grid->sine,
                              .y = u * grid->sine + v * grid->cosine};
}

struct figure_path hatch_within(struct arena *arena, const struct figure_path *path,
                                double angle)
{
    struct grid grid = {cos(angle * M_PI / 180), sin(angle * M_PI / 180)};
    struct figure_path lines = {.stroke = STROKE_THIN};
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
        for (size_t i = 0; i + 1 < total; i += 2) {
            *ARENA_PUSH(arena, steps, step_count) =
                step_at(&grid, STEP_MOVE, found[i], k * PITCH);
            *ARENA_PUSH(arena, steps, step_count) =
                step_at(&grid, STEP_LINE, found[i + 1], k * PITCH);
        }
    }
    lines.steps = steps;
    lines.step_count = step_count;
    return lines;
}
