/* A closed surface of triangles, and how it is put together from bands between rings and from
 * level faces.
 *
 * Points lie on a lattice of a tenth of a micrometre. Two that fall on one point of it are one:
 * so pieces that are made from the same numbers share their edges, and nothing has to be
 * sewn up. */
#ifndef DRUM_MESH_H
#define DRUM_MESH_H

#include "base/memory.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Of the lattice, in a metre. */
#define LATTICE 1e7

struct mesh_point {
    int64_t at[3]; /* x, y, z */
};

/* Indices of its corners, counter-clockwise as seen from outside. */
struct mesh_triangle {
    uint32_t corner[3];
};

struct mesh {
    struct arena *arena; /* owns all */
    double scale;        /* of what is put in */
    struct mesh_point *points;
    size_t point_count;
    struct mesh_triangle *triangles;
    size_t triangle_count;
    uint32_t *slots; /* points by their place; index + 1, 0: free */
    size_t slot_count;
};

/* A closed row of points, as indices. */
struct ring {
    uint32_t *points;
    size_t count;
};

struct mesh mesh_new(struct arena *arena, double scale);

/* Metres. */
uint32_t mesh_point(struct mesh *mesh, double x, double y, double z);

/* Leaves out a triangle of which two corners are one. */
void mesh_triangle(struct mesh *mesh, uint32_t a, uint32_t b, uint32_t c);

void ring_add(struct mesh *mesh, struct ring *ring, uint32_t point);

/* Between two rings of as many points, both counter-clockwise from above, the first below or
 * within: seen from outside, or from within where it is the wall of a hole. */
void mesh_band(struct mesh *mesh, const struct ring *lower, const struct ring *upper,
               bool hole);

/* A level face within the first ring and without the others, all counter-clockwise from above;
 * seen from above or from below. Rings do not touch each other. */
void mesh_face(struct mesh *mesh, const struct ring *rings, size_t count, bool from_below);

/* Whether every edge is there once in each of its two directions. */
bool mesh_is_closed(const struct mesh *mesh);

#endif
