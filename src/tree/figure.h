/* A figure as every output draws it: paths in order, then texts over them.
 *
 * All lengths are points (1/72 in), x to the right and y DOWNWARD from the figure's
 * upper left corner. A painter may scale the whole; it decides nothing else. Everything
 * is owned by the arena of the run. */
#ifndef TREE_FIGURE_H
#define TREE_FIGURE_H

#include "base/buffer.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>

/* Texts of a figure that is printed are at least this large, in points. */
#define FIGURE_LEAST_TEXT 7.0

/* Two weights of line and no more. */
#define FIGURE_THIN  0.4
#define FIGURE_THICK 1.0

enum stroke { STROKE_NONE, STROKE_THIN, STROKE_THICK };
enum dash { DASH_SOLID, DASH_HIDDEN, DASH_CENTRE };

/* Paper hides what lies below; ink is as black as the lines. */
enum fill { FILL_NONE, FILL_PAPER, FILL_INK };

enum step_kind { STEP_MOVE, STEP_LINE, STEP_CURVE, STEP_CLOSE };

/* One step of a path; a curve is a cubic Bezier by way of (x1, y1) and (x2, y2). */
struct path_step {
    enum step_kind kind;
    double x1, y1, x2, y2, x, y;
};

struct figure_path {
    enum stroke stroke;
    enum dash dash;
    enum fill fill;
    const struct path_step *steps;
    size_t step_count;
};

enum align { ALIGN_LEFT, ALIGN_MIDDLE, ALIGN_RIGHT };

struct figure_text {
    const char *text;
    double x, y; /* of the baseline: its left end, middle or right end, as `align` says */
    double width;
    double size;
    enum align align;
    bool bold;
};

struct figure {
    const char *name;        /* lower-case words joined by hyphens: its id */
    const char *title;       /* what it is, in a few words */
    const char *caption;     /* what to see in it; stands below */
    const char *description; /* what it shows, for one who cannot see it */
    struct place at;         /* where it was asked for */
    double width, height;
    bool to_scale; /* 1:1: never scaled in print */
    struct figure_path *paths;
    size_t path_count;
    struct figure_text *texts;
    size_t text_count;
};

/* The stroke's width in points; 0 for none. */
double figure_line(enum stroke stroke);

/* The dashes: lengths drawn and left out in turn, in points; how many. */
enum { MOST_DASHES = 4 };
size_t figure_dashes(enum dash dash, double lengths[MOST_DASHES]);

/* The left end of a text. */
double figure_text_left(const struct figure_text *text);

/* What is printed to one place: without a minus sign before zero, which would depend on
 * noise. For dumps. */
double figure_tenth(double value);

/* One line a mark, rounded to 0.1 pt: for tests. */
void figure_dump(struct buffer *out, const struct figure *figure);

#endif
