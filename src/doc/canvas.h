/* Draws a figure: paths are begun, walked and then inked; texts are measured as they are put.
 *
 * Lengths are points, of which an inch has 72, x to the right and y downward; angles are
 * degrees, 0 to the right and growing clockwise, as y goes down. Figures are drawn FIGURE_WIDTH
 * wide: that is the narrowest column of the booklet's papers, so that they are never made
 * smaller there. */
#ifndef DOC_CANVAS_H
#define DOC_CANVAS_H

#include "base/memory.h"
#include "doc/tree.h"

/* Points in a millimetre. */
#define MM (72 / 25.4)

static inline double points_of(double metres)
{
    return metres * 1000 * MM;
}

#define FIGURE_WIDTH 316.0
#define FIGURE_TEXT  7.5 /* size of all texts */
#define FIGURE_LEAD  9.2 /* from baseline to baseline */
#define FIGURE_DROP  2.6 /* from the middle of a line of text to its baseline */

/* Who measures texts: the width in the unit of size. */
struct text_meter {
    double (*width)(const void *with, bool bold, double size, const char *text);
    const void *with;
};

struct canvas {
    struct arena *arena;
    const struct text_meter *meter;
    struct figure *figure;
    struct path_step *steps; /* of the path that is walked */
    size_t step_count;
};

/* What a path is inked with. */
struct ink {
    enum stroke stroke;
    enum dash dash;
    enum fill fill;
    double hatch; /* angle of the hatching within it; 0: none */
};

extern const struct ink ink_thick, ink_thin, ink_hidden, ink_centre;
extern const struct ink ink_section, ink_section_back; /* cut surfaces, of two parts */
extern const struct ink ink_hatch, ink_hatch_back;     /* hatching without an outline */
extern const struct ink ink_solid, ink_paper;          /* filled, without an outline */
extern const struct ink ink_sheet; /* thick outline that hides what lies below */

/* A figure without paths and texts, FIGURE_WIDTH wide; the meter must outlive the canvas. */
struct canvas canvas_new(struct arena *arena, const struct text_meter *meter, double height);

/* The path. A hatched one may have contours within contours: those are left out. */
void canvas_move(struct canvas *canvas, double x, double y);
void canvas_to(struct canvas *canvas, double x, double y);
void canvas_curve(struct canvas *canvas, double x1, double y1, double x2, double y2, double x,
                  double y);
void canvas_close(struct canvas *canvas);

/* Part of a circle; begins the path, or goes on from it with a straight line. */
void canvas_arc(struct canvas *canvas, double x, double y, double radius, double from,
                double to);

/* Draws the path and ends it. */
void canvas_ink(struct canvas *canvas, const struct ink *ink);

/* Whole shapes. A polygon's points are x, y, x, y, ...; count of points. */
void canvas_line(struct canvas *canvas, double x1, double y1, double x2, double y2,
                 const struct ink *ink);
void canvas_box(struct canvas *canvas, double x, double y, double width, double height,
                const struct ink *ink);
void canvas_circle(struct canvas *canvas, double x, double y, double radius,
                   const struct ink *ink);
void canvas_polygon(struct canvas *canvas, const double *points, size_t count,
                    const struct ink *ink);
void canvas_polyline(struct canvas *canvas, const double *points, size_t count,
                     const struct ink *ink);

/* A thin line with an arrowhead at its end, or at both. */
void canvas_arrow(struct canvas *canvas, double x1, double y1, double x2, double y2);
void canvas_span(struct canvas *canvas, double x1, double y1, double x2, double y2);

/* An arrowhead alone, its point at (x, y), looking in this direction. */
void canvas_head(struct canvas *canvas, double x, double y, double direction);

/* A thin line from a text to what it names, where it ends in a dot. */
void canvas_leader(struct canvas *canvas, double from_x, double from_y, double x, double y);

/* A line of text; y is its baseline. */
void canvas_text(struct canvas *canvas, double x, double y, enum align align, const char *text);
void canvas_bold(struct canvas *canvas, double x, double y, enum align align, const char *text);

/* A text on paper of its own, over the lines below it. */
void canvas_label(struct canvas *canvas, double x, double y, enum align align,
                  const char *text);

/* Text broken into lines no wider than `width`; gives the last line's baseline. */
double canvas_words(struct canvas *canvas, double x, double y, double width, enum align align,
                    const char *text);

/* The width of a text on one line. */
double canvas_width(const struct canvas *canvas, bool bold, const char *text);

/* Corners of a path after its curves are cut into straight pieces; contours are
 * closed. Owned by the arena. */
struct outline_point {
    double x, y;
    bool begins; /* a contour */
};

struct outline_point *path_outline(struct arena *arena, const struct figure_path *path,
                                   size_t *count);

#endif
