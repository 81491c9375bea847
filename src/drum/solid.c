/* The solid of a drum.
 *
 * It is printed as it lies here, free face down: what opens toward the nose, plug, collar, cap
 * and screws, then comes from above, and nothing hangs over by more than 45 degrees: below the
 * other flange is its slope, below the peg its own, strokes and lower edges are cut at 45
 * degrees, and the cap's bore ends in a floor.
 *
 * The outside is one band after the other between rings of as many points. Each ring goes from
 * the peg over the notch's edge round the rim and back; where there is no notch, no peg or no
 * rounding any more its points fall together, and triangles without area are left out. */
#include "drum/drum.h"
#include "drum/strokes.h"

#include <math.h>
#include <stdlib.h>

enum { CORNER = 4 }; /* pieces of a rounded corner */

/* ---- the outside ---- */

struct body {
    struct mesh *mesh;
    const struct drum_to_make *drum;
    struct ring last; /* the uppermost so far; empty at first */
    struct ring first;
};

/* What a ring is at its height. */
struct level {
    double z;
    double rim, floor; /* radius of the rim, and within the notch */
    bool notched;      /* the rim has its notch */
    double inset;      /* by so much its edges are drawn in */
    double peg;        /* so far the peg stands out from the floor; 0: not at all */
    double peg_inset;  /* by so much the peg is drawn in */
};

double drum_notch_angle(const struct drum_to_make *drum)
{
    return asin(drum->notch / drum->land);
}

double drum_rim_angle(const struct drum_to_make *drum)
{
    return drum_notch_angle(drum) + atan(drum->edge / (drum->flange / 2 - drum->edge));
}

/* One half of the ring, from the peg's middle to the rim, at this side of the peg. */
struct half {
    struct {
        double x, y;
    } points[4 * DRUM_SIDES];
    size_t count;
};

static void put(struct half *half, double radius, double angle, double push)
{
    half->points[half->count].x = radius * cos(angle) + push;
    half->points[half->count++].y = radius * sin(angle);
}

static void put_peg(struct half *half, const struct drum_to_make *drum,
                    const struct level *level)
{
    double side = drum->peg / 2, edge = drum->edge, land = drum->land / 2;
    double flat = side - edge, left = edge - level->peg_inset;
    int parts = (int)ceil(asin(flat / land) * DRUM_SIDES / (2 * M_PI));
    for (int i = 0; i < parts; i++)
        put(half, level->floor, asin(flat * i / parts / land),
            fmax(0, level->peg - level->peg_inset));
    for (int i = CORNER; i >= 0; i--) {
        double turn = M_PI / 2 * i / CORNER;
        put(half, level->floor, asin((flat + left * cos(turn)) / land),
            fmax(0, level->peg - edge + left * sin(turn)));
    }
    put(half, level->floor, asin((flat + left) / land), 0);
}

static void put_notch(struct half *half, const struct drum_to_make *drum,
                      const struct level *level)
{
    double rim = drum_rim_angle(drum), centre = drum->flange / 2 - drum->edge;
    double left = level->notched ? drum->edge - level->inset : 0;
    double peg = asin((drum->peg / 2 - level->peg_inset) / (drum->land / 2));
    double foot = rim - (level->notched ? atan(left / centre) : 0);
    double notch = drum_notch_angle(drum);                /* where the foot is farthest in */
    int parts = (int)ceil(rim * DRUM_SIDES / (2 * M_PI)); /* in every ring as many */
    for (int i = 1; i <= parts; i++)
        put(half, level->floor, peg + (notch - peg) * i / parts, 0);
    put(half, level->floor, foot, 0);
    for (int i = 0; i <= CORNER; i++) {
        double turn = M_PI / 2 * i / CORNER;
        double along = left * cos(turn);
        double out = level->notched ? centre + left * sin(turn) : level->rim;
        put(half, hypot(out, along), rim - atan(along / out), 0);
    }
}

/* Adds a ring and the band below it. */
static void add_level(struct body *body, const struct level *level)
{
    const struct drum_to_make *drum = body->drum;
    double rim = drum_rim_angle(drum), around = 2 * M_PI - 2 * rim;
    int parts = (int)ceil(around * DRUM_SIDES / (2 * M_PI));
    struct half half = {.count = 0};
    struct ring ring = {0};
    put_peg(&half, drum, level);
    put_notch(&half, drum, level);
    for (size_t i = 0; i < half.count; i++)
        ring_add(body->mesh, &ring,
                 mesh_point(body->mesh, half.points[i].x, half.points[i].y, level->z));
    for (int i = 1; i < parts; i++)
        ring_add(body->mesh, &ring,
                 mesh_point(body->mesh, level->rim * cos(rim + around * i / parts),
                            level->rim * sin(rim + around * i / parts), level->z));
    for (size_t i = half.count; --i > 0;) /* the middle of the peg is there once */
        ring_add(body->mesh, &ring,
                 mesh_point(body->mesh, half.points[i].x, -half.points[i].y, level->z));
    if (body->last.count)
        mesh_band(body->mesh, &body->last, &ring, false);
    else
        body->first = ring;
    body->last = ring;
}

/* So far an edge of this radius is drawn in, at this depth below its face. */
static double rounding(double edge, double depth)
{
    double from = edge - depth;
    return from > 0 ? edge - sqrt(fmax(0, edge * edge - from * from)) : 0;
}

/* The peg at a height below its upper side: it grows by 45 degrees from its foot on. */
static void shape_peg(const struct drum_to_make *drum, struct level *level)
{
    double top = drum->thickness + drum->peg;
    level->peg = fmax(0, fmin(drum->peg_height, level->z - drum->peg_foot));
    level->peg_inset = rounding(drum->edge, top - level->z);
}

/* The flange with the notch: its lower edge is cut at 45 degrees, its upper one rounded. */
static void shape_flange(const struct drum_to_make *drum, struct level *level)
{
    level->inset = level->z < drum->edge ? drum->edge - level->z
                                         : rounding(drum->edge, drum->thickness - level->z);
    level->rim = drum->flange / 2 - level->inset;
    level->floor = drum->land / 2 - fmax(0, drum->edge - level->z);
    level->notched = true;
}

static int by_height(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* From the free face to where the peg ends. */
static void add_lower(struct body *body)
{
    const struct drum_to_make *drum = body->drum;
    double edge = drum->edge, thick = drum->thickness, top = thick + drum->peg;
    double heights[6 + 2 * CORNER] = {
        0,    edge, drum->peg_foot, drum->peg_foot + edge, drum->peg_foot + drum->peg_height,
        thick};
    size_t count = 6;
    for (int i = 0; i < CORNER; i++) {
        double down = edge * (1 - sin(M_PI / 2 * i / CORNER));
        heights[count++] = thick - down;
        heights[count++] = top - down;
    }
    qsort(heights, count, sizeof *heights, by_height);
    for (size_t i = 0; i < count; i++) {
        struct level level = {.z = heights[i]};
        shape_peg(drum, &level);
        if (level.z <= thick) {
            shape_flange(drum, &level);
            add_level(body, &level);
        }
        if (level.z >= thick) {
            level.rim = level.floor = drum->land / 2;
            level.notched = false;
            add_level(body, &level);
        }
    }
    struct level peg = {.z = top, .peg = drum->peg_height, .peg_inset = edge};
    peg.rim = peg.floor = drum->land / 2;
    add_level(body, &peg);
    peg.peg = 0;
    add_level(body, &peg);
}

static void add_round(struct body *body, double radius, double z)
{
    struct level level = {
        .z = z, .rim = radius, .floor = radius, .peg_inset = body->drum->edge};
    add_level(body, &level);
}

/* The land, the slope, and the other flange with its rounded edges. */
static void add_upper(struct body *body)
{
    const struct drum_to_make *drum = body->drum;
    double land = drum->land / 2, flange = drum->flange / 2, edge = drum->edge;
    double foot = drum->thickness + drum->land_width, rim = foot + drum->slope;
    /* Where a circle leaves the slope for the rim, from their corner. */
    double slope = atan2(drum->flange_height, drum->slope), leave = edge * tan(slope / 2);
    add_round(body, land, foot);
    for (int i = 0; i <= CORNER; i++) {
        double turn = slope * (1 - (double)i / CORNER);
        add_round(body, flange - edge * (1 - cos(turn)), rim + leave - edge * sin(turn));
    }
    for (int i = 0; i <= CORNER; i++) {
        double turn = M_PI / 2 * i / CORNER;
        add_round(body, flange - edge * (1 - cos(turn)), drum->width - edge * (1 - sin(turn)));
    }
}

/* ---- holes, plug and collar ---- */

/* hole: the middles of its sides lie on the circle, else its corners do. */
static struct ring circle(struct mesh *mesh, double x, double y, double radius, double z,
                          bool hole)
{
    struct ring ring = {0};
    double reach = hole ? radius / cos(M_PI / DRUM_SIDES) : radius;
    for (int i = 0; i < DRUM_SIDES; i++) {
        double angle = 2 * M_PI * i / DRUM_SIDES;
        ring_add(mesh, &ring,
                 mesh_point(mesh, x + reach * cos(angle), y + reach * sin(angle), z));
    }
    return ring;
}

/* The walls of a round hole with cut edges, from a lower to an upper end; a floor instead of
 * the lower edge where it is closed. lower, upper: the rings in the faces. */
static void add_hole(struct mesh *mesh, double x, double y, double radius, double from,
                     double to, bool closed, double edge, struct ring *lower,
                     struct ring *upper)
{
    struct ring rings[4] = {
        circle(mesh, x, y, radius + (closed ? 0 : edge), from, true),
        circle(mesh, x, y, radius, closed ? from : from + edge, true),
        circle(mesh, x, y, radius, to - edge, true),
        circle(mesh, x, y, radius + edge, to, true),
    };
    for (int i = 0; i < 3; i++)
        mesh_band(mesh, &rings[i], &rings[i + 1], true);
    if (closed)
        mesh_face(mesh, &rings[0], 1, false);
    *lower = rings[0];
    *upper = rings[3];
}

/* ---- what is cut into the face ---- */

void drum_place_letter(const struct engraving *engraving, size_t letter, double x, double y,
                       double *at)
{
    double step = engraving->height / LETTER_HEIGHT;
    double along = step * (LETTER_ADVANCE * (double)letter + x);
    double angle = engraving->begin + along / engraving->radius;
    at[0] = (engraving->radius + step * y) * cos(angle);
    at[1] = (engraving->radius + step * y) * sin(angle);
}

/* To the left of the way from a to b, one long. */
static void normal(const double *a, const double *b, double *left)
{
    double length = hypot(b[0] - a[0], b[1] - a[1]);
    left[0] = (a[1] - b[1]) / length;
    left[1] = (b[0] - a[0]) / length;
}

/* A stroke's outline in the face is `half` away from its line on both sides and at both ends,
 * with sharp corners; its bottom is the line itself, as deep as that. */
static struct ring cut_stroke(struct mesh *mesh, const double (*line)[2], size_t count,
                              double half)
{
    uint32_t sides[2][STROKE_POINTS] = {{0}}, bottom[STROKE_POINTS] = {0};
    struct ring ring = {0};
    for (size_t i = 0; i < count; i++) {
        size_t before = i ? i - 1 : 0, after = i + 1 < count ? i : count - 2;
        double a[2], b[2];
        normal(line[before], line[before + 1], a);
        normal(line[after], line[after + 1], b);
        double share = half / (1 + a[0] * b[0] + a[1] * b[1]);
        double end = (i == 0 ? -half : i + 1 == count ? half : 0);
        double x = line[i][0] + end * b[1], y = line[i][1] - end * b[0];
        double left[2] = {share * (a[0] + b[0]), share * (a[1] + b[1])};
        sides[0][i] = mesh_point(mesh, x + left[0], y + left[1], 0);
        sides[1][i] = mesh_point(mesh, x - left[0], y - left[1], 0);
        bottom[i] = mesh_point(mesh, line[i][0], line[i][1], half);
    }
    for (size_t i = 0; i + 1 < count; i++)
        for (int k = 0; k < 2;
             k++) { /* from left to right along the one, back along the other */
            size_t from = k ? i + 1 : i, to = k ? i : i + 1;
            mesh_triangle(mesh, sides[k][from], sides[k][to], bottom[to]);
            mesh_triangle(mesh, sides[k][from], bottom[to], bottom[from]);
        }
    mesh_triangle(mesh, sides[0][count - 1], sides[1][count - 1], bottom[count - 1]);
    mesh_triangle(mesh, sides[1][0], sides[0][0], bottom[0]);
    for (size_t i = 0; i < count; i++)
        ring_add(mesh, &ring, sides[1][i]);
    for (size_t i = count; i-- > 0;)
        ring_add(mesh, &ring, sides[0][i]);
    return ring;
}

struct rings {
    struct ring *items;
    size_t count;
};

static void add_ring(struct mesh *mesh, struct rings *rings, struct ring ring)
{
    *ARENA_PUSH(mesh->arena, rings->items, rings->count) = ring;
}

static void cut_text(struct mesh *mesh, const struct engraving *engraving, struct rings *face)
{
    const char *text = engraving->text;
    size_t part = 0, letter = 0;
    struct stroke stroke;
    while (engraving->height > 0 && stroke_next(&text, &part, &letter, &stroke)) {
        double line[STROKE_POINTS][2];
        for (size_t i = 0; i < stroke.count; i++)
            drum_place_letter(engraving, letter, stroke.points[i].x, stroke.points[i].y,
                              line[i]);
        add_ring(mesh, face,
                 cut_stroke(mesh, (const double(*)[2])line, stroke.count, engraving->half));
    }
}

/* ---- all of it ---- */

/* The faces toward the nose: the flange's own, within it plug or collar, where there is one;
 * bore: the opening's upper end, empty without one. */
static void add_nose(struct body *body, struct rings *face, struct ring bore)
{
    const struct drum_to_make *drum = body->drum;
    struct mesh *mesh = body->mesh;
    double radius = drum->post / 2, top = drum->width + drum->post_length, edge = drum->edge;
    struct rings end = {0};
    if (!(drum->post > 0)) {
        if (bore.count)
            add_ring(mesh, face, bore);
        mesh_face(mesh, face->items, face->count, false);
        return;
    }
    struct ring posts[] = {circle(mesh, 0, 0, radius, drum->width, false),
                           circle(mesh, 0, 0, radius, top - edge, false),
                           circle(mesh, 0, 0, radius - edge, top, false)};
    mesh_band(mesh, &posts[0], &posts[1], false);
    mesh_band(mesh, &posts[1], &posts[2], false);
    add_ring(mesh, face, posts[0]);
    mesh_face(mesh, face->items, face->count, false);
    add_ring(mesh, &end, posts[2]);
    if (bore.count)
        add_ring(mesh, &end, bore);
    mesh_face(mesh, end.items, end.count, false);
}

struct mesh drum_solid(struct arena *arena, const struct drum_to_make *drum,
                       const struct engraving *engraving)
{
    struct mesh mesh = mesh_new(arena, drum->allowance);
    struct body body = {&mesh, drum, {0}, {0}};
    struct rings below = {0}, above = {0};
    struct ring lower = {0}, bore = {0};
    add_lower(&body);
    add_upper(&body);
    add_ring(&mesh, &below, body.first);
    add_ring(&mesh, &above, body.last);
    if (drum->opening > 0) {
        add_hole(&mesh, 0, 0, drum->opening / 2, drum->closed, drum->width + drum->post_length,
                 drum->closed > 0, drum->edge, &lower, &bore);
        if (!(drum->closed > 0))
            add_ring(&mesh, &below, lower);
    }
    for (int i = 0; i < drum->holes; i++) {
        double angle = 2 * M_PI * (i + 0.5) / drum->holes, radius = drum->hole_circle / 2;
        struct ring upper;
        add_hole(&mesh, radius * cos(angle), radius * sin(angle), drum->hole / 2, 0,
                 drum->width, false, 0, &lower, &upper);
        add_ring(&mesh, &below, lower);
        add_ring(&mesh, &above, upper);
    }
    cut_text(&mesh, engraving, &below);
    mesh_face(&mesh, below.items, below.count, true);
    add_nose(&body, &above, bore);
    return mesh;
}
