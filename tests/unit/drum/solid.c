/* Some hundred drums drawn from a seed: each solid is closed and oriented, hangs over by no
 * more than 45 degrees, and has the volume of its closed form; and what cannot be made. */
#include "drum/drum.h"
#include "drum/strokes.h"
#include "facts.h"
#include "shop_fixture.h"
#include "test.h"

#include "base/diag.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DRUMS = 300 };

static uint64_t seed;

/* From 0 to 1, by a linear congruential generator. */
static double chance(void)
{
    seed = seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(seed >> 11) / 9007199254740992.0;
}

static struct measure between(double low, double high)
{
    char text[40];
    snprintf(text, sizeof text, "%.2f mm", low + (high - low) * chance());
    struct measure measure = measure_of(text, KIND_LENGTH);
    measure.at.file = "drawn";
    return measure;
}

/* Up to seven signs. */
static const char *any_mark(void)
{
    static const char signs[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-./ ";
    static char mark[8];
    size_t length = 1 + (size_t)(7 * chance());
    for (size_t i = 0; i < length; i++)
        mark[i] = signs[(size_t)(chance() * (sizeof signs - 1))];
    mark[length] = '\0';
    return mark;
}

/* A shop with a drum of any fitting; most of them can be made. */
static struct shop any_shop(void)
{
    struct shop shop = shop_of("62 mm", "0.8 mm", "0.1 N");
    struct drum *drum = &shop.drum;
    shop.gauge.capacity = measure_of("50 N", KIND_FORCE);
    shop.cord.diameter = between(0.2, 3);
    drum->wanted_radius = between(8, chance() < 0.1 ? 400 : 70);
    double land = 2000 * drum->wanted_radius.q.base - 1000 * shop.cord.diameter.q.base;
    drum->turns.number = 1 + (int)(8 * chance());
    drum->mark = chance() < 0.3 ? NULL : any_mark();
    drum->material = (int)(3 * chance());
    int fitting = (int)(5 * chance());
    if (fitting < 3 && land > 12)
        drum->bore = between(2, fmin(land - 6, 0.85 * land));
    if (fitting == 1 && land > 20)
        drum->cap_depth = between(3, 40);
    if (fitting == 3) {
        drum->plug_diameter = between(3, land);
        drum->plug_length = between(3, 40);
    }
    if (fitting == 2 && land > 40) {
        drum->bore = between(2, land / 4);
        drum->holes.number = 2 + (int)(5 * chance());
        drum->hole_diameter = between(2, 6);
        drum->hole_circle = between(land / 2, land * 0.7);
    }
    if (chance() < 0.3)
        drum->layer = between(0.05, 0.4);
    if (chance() < 0.3)
        drum->shrinkage = measure_of("0.6 %", KIND_RATIO);
    return shop;
}

/* ---- its facets ---- */

static void corners_of(const struct mesh *mesh, size_t i, double corners[3][3])
{
    for (int k = 0; k < 3; k++)
        for (int axis = 0; axis < 3; axis++)
            corners[k][axis] =
                (double)mesh->points[mesh->triangles[i].corner[k]].at[axis] / LATTICE;
}

static void normal_of(double corners[3][3], double *normal)
{
    for (int i = 0; i < 3; i++) {
        int j = (i + 1) % 3, k = (i + 2) % 3;
        normal[i] = (corners[1][j] - corners[0][j]) * (corners[2][k] - corners[0][k]) -
                    (corners[1][k] - corners[0][k]) * (corners[2][j] - corners[0][j]);
    }
}

static double volume_of(const struct mesh *mesh)
{
    double volume = 0, corners[3][3], normal[3];
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        corners_of(mesh, i, corners);
        normal_of(corners, normal);
        for (int axis = 0; axis < 3; axis++)
            volume += corners[0][axis] * normal[axis] / 6;
    }
    return volume;
}

/* The most that a facet above the bed looks down: the sine of its angle below the level. What
 * is thinner than a hundredth of a millimetre is not asked: no printer lays it. */
static double overhang_of(const struct mesh *mesh)
{
    double most = 0, corners[3][3], normal[3];
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        corners_of(mesh, i, corners);
        normal_of(corners, normal);
        double length =
            sqrt(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]);
        double longest = 0;
        for (int k = 0; k < 3; k++) {
            const double *a = corners[k], *b = corners[(k + 1) % 3];
            longest = fmax(longest, hypot(hypot(a[0] - b[0], a[1] - b[1]), a[2] - b[2]));
        }
        bool on_bed = corners[0][2] == 0 && corners[1][2] == 0 && corners[2][2] == 0;
        if (!on_bed && length / longest > 1e-5)
            most = fmax(most, -normal[2] / length);
    }
    return most;
}

/* ---- the closed form ---- */

static double cone(double a, double b, double height)
{
    return M_PI / 3 * height * (a * a + a * b + b * b);
}

/* A round edge of a disc takes this much: the corner's square less the quarter circle, on the
 * circle of its centre of area (Pappus). */
static double round_edge(double radius, double edge)
{
    double area = edge * edge * (1 - M_PI / 4);
    double inward = edge * (10 - 3 * M_PI) / (12 - 3 * M_PI); /* of the area's centre */
    return 2 * M_PI * (radius - inward) * area;
}

/* A cut one. */
static double cut_edge(double radius, double edge)
{
    return 2 * M_PI * (radius - edge / 3) * edge * edge / 2;
}

/* Without what is cut into the face; the notch's and the peg's own edges left out: they take a
 * ten-thousandth. */
static double closed_form(const struct drum_to_make *m)
{
    double land = m->land / 2, flange = m->flange / 2, bore = m->opening / 2, edge = m->edge;
    double top = m->width + m->post_length, angle = drum_notch_angle(m), peg = m->peg / 2;
    double slope = atan2(m->flange_height, m->slope);
    double volume = M_PI * flange * flange * 2 * m->thickness;
    volume += M_PI * land * land * m->land_width + cone(land, flange, m->slope);
    volume -= cut_edge(flange, edge) + 2 * round_edge(flange, edge);
    /* what is cut where the slope meets the rim: a triangle less a circle's segment */
    volume -= 2 * M_PI * flange * edge * edge * (tan(slope / 2) - slope / 2);
    volume -= angle * (flange * flange - land * land) * m->thickness;
    volume += M_PI * m->post * m->post / 4 * m->post_length;
    if (m->post > 0)
        volume -= cut_edge(m->post / 2, edge);
    volume -= M_PI * bore * bore * (top - m->closed);
    if (bore > 0)
        volume -= (m->closed > 0 ? 1 : 2) * 2 * M_PI * (bore + edge / 3) * edge * edge / 2;
    volume -= m->holes * M_PI * m->hole * m->hole / 4 * m->width;
    double high = m->thickness + m->peg - m->peg_foot;
    volume += 2 * peg * (high * m->peg_height - m->peg_height * m->peg_height / 2);
    return volume * pow(m->allowance, 3);
}

/* What is cut into the face: half as deep as wide, V-shaped, with pyramids at the ends. */
static double cut_volume(const struct engraving *engraving)
{
    double step = engraving->height / LETTER_HEIGHT, half = engraving->half, volume = 0;
    const char *text = engraving->text;
    size_t part = 0, letter = 0;
    struct stroke stroke;
    while (engraving->height > 0 && stroke_next(&text, &part, &letter, &stroke)) {
        for (size_t i = 1; i < stroke.count; i++)
            volume += step * half * half *
                      hypot(stroke.points[i].x - stroke.points[i - 1].x,
                            stroke.points[i].y - stroke.points[i - 1].y);
        volume += 4.0 / 3 * half * half * half;
    }
    return volume;
}

static void test_drums_of_a_seed(void **state)
{
    (void)state;
    int made = 0, engraved = 0;
    seed = 20261201;
    for (int i = 0; i < DRUMS; i++) {
        struct arena *arena = arena_new();
        struct shop shop = any_shop();
        if (drum_check(&shop, diags_new(arena))) {
            struct drum_to_make drum = drum_to_make(&shop);
            struct engraving engraving = drum_engraving(arena, &shop, &drum);
            struct mesh mesh = drum_solid(arena, &drum, &engraving);
            double cut = cut_volume(&engraving) * pow(drum.allowance, 3);
            double volume = closed_form(&drum) - cut;
            if (!mesh_is_closed(&mesh))
                fail_msg("drum %d is not closed", i);
            if (!(fabs(volume_of(&mesh) / volume - 1) < 0.001))
                fail_msg("drum %d: %g mm3, not %g", i, 1e9 * volume_of(&mesh), 1e9 * volume);
            if (!(overhang_of(&mesh) < sin(45.2 * M_PI / 180)))
                fail_msg("drum %d hangs over by %g degrees", i,
                         asin(overhang_of(&mesh)) * 180 / M_PI);
            made++;
            engraved += engraving.height > 0;
        }
        arena_free(arena);
    }
    assert_in_range(made, DRUMS / 2, DRUMS);
    assert_in_range(engraved, made * 3 / 4, made);
}

/* On the land no middle of a side lies further in than a ten-thousandth. */
static void test_sides_of_the_land(void **state)
{
    (void)state;
    struct arena *arena = arena_new();
    struct shop shop = shop_of("20 mm", "0.8 mm", "0.1 N");
    struct drum_to_make drum = drum_to_make(&shop);
    struct engraving engraving = drum_engraving(arena, &shop, &drum);
    struct mesh mesh = drum_solid(arena, &drum, &engraving);
    double z = drum.thickness + drum.land_width, land = drum.land / 2, least = land;
    size_t sides = 0;
    assert_true(1 - cos(M_PI / DRUM_SIDES) < DRUM_CHORD);
    for (size_t i = 0; i < 3 * mesh.triangle_count; i++) {
        const uint32_t *corner = mesh.triangles[i / 3].corner;
        const int64_t *a = mesh.points[corner[i % 3]].at,
                      *b = mesh.points[corner[(i + 1) % 3]].at;
        if (a[2] != llround(z * LATTICE) || b[2] != a[2])
            continue;
        least = fmin(least, hypot((double)(a[0] + b[0]), (double)(a[1] + b[1])) / 2 / LATTICE);
        sides++;
    }
    assert_in_range(sides, 2 * DRUM_SIDES, 3 * DRUM_SIDES);
    assert_true(least > land * (1 - DRUM_CHORD));
    arena_free(arena);
}

static void test_what_can_be_cut(void **state)
{
    (void)state;
    assert_null(stroke_unknown("ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdefghijklmnopqrstuvwxyz"));
    assert_null(stroke_unknown("0123456789-./"));
    assert_string_equal(stroke_unknown("A=7"), "=7");
    assert_string_equal(stroke_unknown("\u00e4"), "\u00e4");
}

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_drums_of_a_seed),
    cmocka_unit_test(test_sides_of_the_land),
    cmocka_unit_test(test_what_can_be_cut),
};

GROUP(solid, NULL, NULL)
