#include "drum/mesh.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- points ---- */

struct mesh mesh_new(struct arena *arena, double scale)
{
    return (struct mesh){.arena = arena, .scale = scale};
}

static size_t slot_of(const struct mesh *mesh, const struct mesh_point *point)
{
    uint64_t hash = 0;
    for (int i = 0; i < 3; i++)
        hash = (hash ^ (uint64_t)point->at[i]) * 0x9e3779b97f4a7c15u;
    size_t slot = (size_t)(hash >> 32) % mesh->slot_count;
    while (mesh->slots[slot] &&
           memcmp(&mesh->points[mesh->slots[slot] - 1], point, sizeof *point) != 0)
        slot = (slot + 1) % mesh->slot_count;
    return slot;
}

static void grow_slots(struct mesh *mesh)
{
    mesh->slot_count = mesh->slot_count ? 2 * mesh->slot_count : 4096;
    mesh->slots = arena_get(mesh->arena, mesh->slot_count * sizeof *mesh->slots);
    for (size_t i = 0; i < mesh->point_count; i++)
        mesh->slots[slot_of(mesh, &mesh->points[i])] = (uint32_t)i + 1;
}

uint32_t mesh_point(struct mesh *mesh, double x, double y, double z)
{
    double scale = mesh->scale * LATTICE;
    struct mesh_point point = {{llround(x * scale), llround(y * scale), llround(z * scale)}};
    if (2 * mesh->point_count >= mesh->slot_count)
        grow_slots(mesh);
    size_t slot = slot_of(mesh, &point);
    if (!mesh->slots[slot]) {
        *ARENA_PUSH(mesh->arena, mesh->points, mesh->point_count) = point;
        mesh->slots[slot] = (uint32_t)mesh->point_count;
    }
    return mesh->slots[slot] - 1;
}

void mesh_triangle(struct mesh *mesh, uint32_t a, uint32_t b, uint32_t c)
{
    if (a != b && b != c && c != a)
        *ARENA_PUSH(mesh->arena, mesh->triangles, mesh->triangle_count) =
            (struct mesh_triangle){{a, b, c}};
}

void ring_add(struct mesh *mesh, struct ring *ring, uint32_t point)
{
    *ARENA_PUSH(mesh->arena, ring->points, ring->count) = point;
}

void mesh_band(struct mesh *mesh, const struct ring *lower, const struct ring *upper, bool hole)
{
    for (size_t i = 0, next; i < lower->count; i++) {
        next = (i + 1) % lower->count;
        uint32_t a = lower->points[i], b = lower->points[next];
        uint32_t c = upper->points[next], d = upper->points[i];
        mesh_triangle(mesh, a, hole ? c : b, hole ? b : c);
        mesh_triangle(mesh, a, hole ? d : c, hole ? c : d);
    }
}

/* ---- level faces: holes are joined to the outline by bridges, then ears are cut off. All
 * decisions are exact: a lattice of some metres squared goes into 64 bits. ---- */

/* A corner of the outline that is left; a bridge's ends are there twice. */
struct corner {
    uint32_t point;
    size_t before, after;
};

struct outline {
    const struct mesh *mesh;
    struct corner *corners;
    size_t count; /* of those that there ever were */
};

static const int64_t *at(const struct outline *outline, size_t corner)
{
    return outline->mesh->points[outline->corners[corner].point].at;
}

/* Twice the area of a, b, c: above 0 where they go counter-clockwise. */
static int64_t turn(const int64_t *a, const int64_t *b, const int64_t *c)
{
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

static bool same(const int64_t *a, const int64_t *b)
{
    return a[0] == b[0] && a[1] == b[1];
}

/* Adds a ring as a closed list; gives one of its corners. Neighbours that are one are one. */
static size_t add_ring(struct outline *outline, const struct ring *ring, bool backward)
{
    size_t first = outline->count;
    for (size_t i = 0; i < ring->count; i++) {
        uint32_t point = ring->points[backward ? ring->count - 1 - i : i];
        bool again =
            outline->count > first && outline->corners[outline->count - 1].point == point;
        if (again || (i + 1 == ring->count && outline->count > first &&
                      outline->corners[first].point == point))
            continue;
        size_t corner = outline->count++;
        outline->corners[corner] = (struct corner){point, corner - 1, corner + 1};
    }
    outline->corners[first].before = outline->count - 1;
    outline->corners[outline->count - 1].after = first;
    return first;
}

/* Whether the face lies, at a corner, in the direction of a point. */
static bool looks_to(const struct outline *outline, size_t corner, const int64_t *point)
{
    const struct corner *here = &outline->corners[corner];
    const int64_t *a = at(outline, here->before), *b = at(outline, corner);
    const int64_t *c = at(outline, here->after);
    bool left_of_first = turn(a, b, point) > 0, left_of_second = turn(b, c, point) > 0;
    return turn(a, b, c) > 0 ? left_of_first && left_of_second
                             : left_of_first || left_of_second;
}

static int sign(int64_t value)
{
    return (value > 0) - (value < 0);
}

/* Whether the line from a to b meets an edge elsewhere than in its own ends. */
static bool meets(const int64_t *a, const int64_t *b, const int64_t *c, const int64_t *d)
{
    if (same(a, c) || same(a, d) || same(b, c) || same(b, d))
        return false;
    return sign(turn(a, b, c)) * sign(turn(a, b, d)) <= 0 &&
           sign(turn(c, d, a)) * sign(turn(c, d, b)) <= 0;
}

static bool sees(const struct outline *outline, const int64_t *from, const int64_t *to)
{
    for (size_t i = 0; i < outline->count; i++)
        if (meets(from, to, at(outline, i), at(outline, outline->corners[i].after)))
            return false;
    return true;
}

static int64_t distance(const int64_t *a, const int64_t *b)
{
    return (a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]);
}

/* Joins the list of a hole to the outline, from its corner that lies furthest right: all holes
 * further right are joined already. joined: corners of the outline begin at 0 and end there,
 * but for the bridges' own, which follow `end` on. */
static void bridge(struct outline *outline, size_t hole, const bool *joined)
{
    const int64_t *from = at(outline, hole);
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < outline->count; i++) {
        if (!joined[i] || same(at(outline, i), from) ||
            (best != SIZE_MAX &&
             distance(from, at(outline, i)) >= distance(from, at(outline, best))))
            continue;
        if (looks_to(outline, i, from) && looks_to(outline, hole, at(outline, i)) &&
            sees(outline, from, at(outline, i)))
            best = i;
    }
    if (best == SIZE_MAX)
        return; /* rings that touch */
    size_t near = outline->count++, far = outline->count++;
    struct corner *all = outline->corners;
    all[near] = (struct corner){all[best].point, far, all[best].after};
    all[far] = (struct corner){all[hole].point, all[hole].before, near};
    all[all[best].after].before = near;
    all[all[hole].before].after = far;
    all[best].after = hole;
    all[hole].before = best;
}

static bool is_within(const int64_t *a, const int64_t *b, const int64_t *c,
                      const int64_t *point)
{
    return turn(a, b, point) >= 0 && turn(b, c, point) >= 0 && turn(c, a, point) >= 0;
}

/* Whether a corner can be cut off: it is convex, and nothing lies in its triangle. */
static bool is_ear(const struct outline *outline, size_t corner)
{
    const struct corner *here = &outline->corners[corner];
    const int64_t *a = at(outline, here->before), *b = at(outline, corner);
    const int64_t *c = at(outline, here->after);
    if (turn(a, b, c) <= 0)
        return false;
    for (size_t i = outline->corners[here->after].after; i != here->before;
         i = outline->corners[i].after) {
        const int64_t *point = at(outline, i);
        if (is_within(a, b, c, point) && !same(a, point) && !same(b, point) && !same(c, point))
            return false;
    }
    return true;
}

static void cut_ears(struct mesh *mesh, struct outline *outline, size_t corner, size_t left,
                     bool from_below)
{
    for (size_t tried = 0; left > 2 && tried <= left;) {
        struct corner *here = &outline->corners[corner];
        if (!is_ear(outline, corner)) {
            corner = here->after;
            tried++;
            continue;
        }
        uint32_t a = outline->corners[here->before].point, b = here->point;
        uint32_t c = outline->corners[here->after].point;
        mesh_triangle(mesh, a, from_below ? c : b, from_below ? b : c);
        outline->corners[here->before].after = here->after;
        outline->corners[here->after].before = here->before;
        corner = outline->corners[here->after].after; /* not all ears at one corner */
        left--;
        tried = 0;
    }
}

void mesh_face(struct mesh *mesh, const struct ring *rings, size_t count, bool from_below)
{
    size_t most = 2 * count;
    for (size_t i = 0; i < count; i++)
        most += rings[i].count;
    struct outline outline = {mesh, arena_get(mesh->arena, most * sizeof *outline.corners), 0};
    size_t *rightmost = arena_get(mesh->arena, count * sizeof *rightmost);
    bool *joined = arena_get(mesh->arena, most * sizeof *joined);
    for (size_t i = 0; i < count; i++) {
        size_t first = add_ring(&outline, &rings[i], i > 0);
        rightmost[i] = first;
        for (size_t k = first; k < outline.count; k++) {
            joined[k] = i == 0;
            if (at(&outline, k)[0] > at(&outline, rightmost[i])[0])
                rightmost[i] = k;
        }
    }
    for (size_t done = 1; done < count; done++) {
        size_t next = done;
        for (size_t i = done; i < count; i++)
            if (at(&outline, rightmost[i])[0] > at(&outline, rightmost[next])[0])
                next = i;
        size_t hole = rightmost[next];
        rightmost[next] = rightmost[done];
        size_t before = outline.count;
        bridge(&outline, hole, joined);
        if (outline.count == before)
            return; /* the surface stays open, and mesh_is_closed() says so */
        for (size_t i = hole; !joined[i]; i = outline.corners[i].after)
            joined[i] = true;
        joined[outline.count - 1] = joined[outline.count - 2] = true;
    }
    cut_ears(mesh, &outline, 0, outline.count, from_below);
}

/* ---- whether it is a surface ---- */

struct edge {
    uint32_t from, to;
};

static int by_ends(const void *left, const void *right)
{
    const struct edge *a = left, *b = right;
    if (a->from != b->from)
        return a->from < b->from ? -1 : 1;
    return (a->to > b->to) - (a->to < b->to);
}

bool mesh_is_closed(const struct mesh *mesh)
{
    size_t count = 3 * mesh->triangle_count;
    struct edge *edges = heap_get(count * sizeof *edges);
    bool closed = count > 0;
    for (size_t i = 0; i < count; i++) {
        const uint32_t *corner = mesh->triangles[i / 3].corner;
        edges[i] = (struct edge){corner[i % 3], corner[(i + 1) % 3]};
    }
    qsort(edges, count, sizeof *edges, by_ends);
    for (size_t i = 0; i < count && closed; i++) {
        struct edge back = {edges[i].to, edges[i].from};
        closed = (i == 0 || by_ends(&edges[i - 1], &edges[i]) != 0) &&
                 bsearch(&back, edges, count, sizeof *edges, by_ends);
    }
    free(edges);
    return closed;
}
