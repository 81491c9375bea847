/* Hatching: a shape's inside as lines, so that it survives any printer. */
#ifndef TREE_HATCH_H
#define TREE_HATCH_H

#include "base/memory.h"
#include "tree/figure.h"

/* Corners of a path after its curves are cut into straight pieces; contours are
 * closed. Owned by the arena. */
struct outline_point {
    double x, y;
    bool begins; /* a contour */
};

struct outline_point *path_outline(struct arena *arena, const struct figure_path *path,
                                   size_t *count);

/* Thin lines at this angle (degrees) inside the path, by the even-odd rule. The lines
 * of all shapes of a figure lie on one grid. */
struct figure_path hatch_within(struct arena *arena, const struct figure_path *path,
                                double angle);

#endif
