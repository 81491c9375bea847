/* The drawing of a drum, at 1:1 in lines, arcs and texts: from here both its files are
 * written. */
#include "drum/drum.h"
#include "drum/strokes.h"
#include "number/show.h"
#include "physics/physics.h"

#include <math.h>
#include <string.h>

const char *const drawn_layer_names[DRAWN_LAYERS] = {"PROFILE", "SECTION",   "VIEW",  "HIDDEN",
                                                     "CENTRE",  "ENGRAVING", "SIZES", "TEXT"};

/* Letters, and what is blank: millimetres. */
static const double LETTER = 2.5, LINE = 4.5, GAP = 14;

static double mm(double metres)
{
    return 1000 * metres;
}

/* ---- lines, arcs, texts ---- */

static void reach(struct drawing *d, double x, double y)
{
    const double at[2] = {x, y};
    for (int i = 0; i < 2; i++) {
        d->low[i] = fmin(d->low[i], at[i]);
        d->high[i] = fmax(d->high[i], at[i]);
    }
}

static struct drawn *add(struct drawing *d, enum drawn_kind kind, enum drawn_layer layer,
                         double x, double y)
{
    struct drawn *item = ARENA_PUSH(d->arena, d->items, d->count);
    *item = (struct drawn){.kind = kind, .layer = layer, .a = {x, y}};
    reach(d, x, y);
    return item;
}

static void line(struct drawing *d, enum drawn_layer layer, double x1, double y1, double x2,
                 double y2)
{
    struct drawn *item = add(d, DRAWN_LINE, layer, x1, y1);
    item->b[0] = x2;
    item->b[1] = y2;
    reach(d, x2, y2);
}

static void arc(struct drawing *d, enum drawn_layer layer, const double *from, const double *to,
                const double *centre, bool clockwise)
{
    struct drawn *item = add(d, DRAWN_ARC, layer, from[0], from[1]);
    memcpy(item->b, to, sizeof item->b);
    memcpy(item->c, centre, sizeof item->c);
    item->clockwise = clockwise;
    reach(d, to[0], to[1]);
}

/* Counter-clockwise from one angle to the other, radians. */
static void arc_of(struct drawing *d, enum drawn_layer layer, double x, double y, double radius,
                   double from, double to)
{
    const double centre[2] = {x, y};
    const double a[2] = {x + radius * cos(from), y + radius * sin(from)};
    const double b[2] = {x + radius * cos(to), y + radius * sin(to)};
    arc(d, layer, a, b, centre, false);
}

static void circle(struct drawing *d, enum drawn_layer layer, double x, double y, double radius)
{
    arc_of(d, layer, x, y, radius, 0, M_PI);
    arc_of(d, layer, x, y, radius, M_PI, 2 * M_PI);
    reach(d, x, y - radius);
    reach(d, x, y + radius);
}

static double text_width(const char *text)
{
    return LETTER * LETTER_ADVANCE / LETTER_HEIGHT * (double)strlen(text);
}

static void text(struct drawing *d, double x, double y, const char *words)
{
    struct drawn *item = add(d, DRAWN_TEXT, LAYER_TEXT, x, y);
    item->text = words;
    item->height = LETTER;
    reach(d, x + text_width(words), y + LETTER);
}

/* ---- the section ---- */

enum corner_kind { SHARP, CUT, ROUND };

struct corner {
    double z, r; /* along the axis from the free face; radius: mm */
    enum corner_kind kind;
};

struct profile {
    struct corner corners[20];
    size_t count;
    double edge;
};

static void corner(struct profile *p, double z, double r, enum corner_kind kind)
{
    p->corners[p->count++] = (struct corner){mm(z), mm(r), kind};
}

/* From the opening at the free face outward and round. */
static struct profile profile_of(const struct drum_to_make *m)
{
    struct profile p = {.edge = mm(m->edge)};
    double bore = m->opening / 2, top = m->width + m->post_length;
    bool through = m->opening > 0 && !(m->closed > 0);
    corner(&p, 0, through ? bore : 0, through ? CUT : SHARP);
    corner(&p, 0, m->flange / 2, CUT);
    corner(&p, m->thickness, m->flange / 2, ROUND);
    corner(&p, m->thickness, m->land / 2, SHARP);
    corner(&p, m->thickness + m->land_width, m->land / 2, SHARP);
    corner(&p, m->thickness + m->land_width + m->slope, m->flange / 2, ROUND);
    corner(&p, m->width, m->flange / 2, ROUND);
    if (m->post > 0) {
        corner(&p, m->width, m->post / 2, SHARP);
        corner(&p, top, m->post / 2, CUT);
    }
    corner(&p, top, m->opening > 0 ? bore : 0, m->opening > 0 ? CUT : SHARP);
    if (m->closed > 0) {
        corner(&p, m->closed, bore, SHARP);
        corner(&p, m->closed, 0, SHARP);
    }
    return p;
}

/* From a corner toward another, by a way. */
static void toward(const struct corner *from, const struct corner *to, double way, double *at)
{
    double length = hypot(to->z - from->z, to->r - from->r);
    at[0] = from->z + (to->z - from->z) * way / length;
    at[1] = from->r + (to->r - from->r) * way / length;
}

/* A corner's two ends: where what rounds or cuts it leaves the sides before and behind it. */
static void ends_of(const struct profile *p, size_t i, double *from, double *to, double *inward)
{
    const struct corner *here = &p->corners[i % p->count];
    const struct corner *before = &p->corners[(i + p->count - 1) % p->count];
    const struct corner *after = &p->corners[(i + 1) % p->count];
    double az = before->z - here->z, ar = before->r - here->r;
    double bz = after->z - here->z, br = after->r - here->r;
    double turn = M_PI - fabs(atan2(az * br - ar * bz, az * bz + ar * br));
    double way = here->kind == SHARP ? 0
                 : here->kind == CUT ? p->edge
                                     : p->edge * tan(turn / 2);
    toward(here, before, way, from);
    toward(here, after, way, to);
    inward[0] = -ar / hypot(az, ar); /* to the right of the way: it goes clockwise in z, r */
    inward[1] = az / hypot(az, ar);
}

/* Draws the profile, turned over where side is -1. */
static void draw_profile(struct drawing *d, const struct profile *p, enum drawn_layer layer,
                         int side)
{
    double last[2], from[2], to[2], inward[2];
    ends_of(p, 0, from, last, inward);
    for (size_t i = 1; i <= p->count; i++) {
        enum corner_kind kind = p->corners[i % p->count].kind;
        ends_of(p, i, from, to, inward);
        line(d, layer, last[0], side * last[1], from[0], side * from[1]);
        if (kind == CUT)
            line(d, layer, from[0], side * from[1], to[0], side * to[1]);
        if (kind == ROUND) {
            const double a[2] = {from[0], side * from[1]}, b[2] = {to[0], side * to[1]};
            const double centre[2] = {from[0] + p->edge * inward[0],
                                      side * (from[1] + p->edge * inward[1])};
            arc(d, layer, a, b, centre, side > 0);
        }
        memcpy(last, to, sizeof last);
    }
}

/* ---- sizes ---- */

static void arrow(struct drawing *d, double x, double y, double dx, double dy)
{
    const double LONG = 2, WIDE = 0.4;
    line(d, LAYER_SIZES, x, y, x - LONG * dx - WIDE * dy, y - LONG * dy + WIDE * dx);
    line(d, LAYER_SIZES, x, y, x - LONG * dx + WIDE * dy, y - LONG * dy - WIDE * dx);
}

/* Between two places on one upright or level line, its letter in a gap in the middle; where
 * there is no room the arrows come from outside, and the letter stands below. */
static void size(struct drawing *d, double x1, double y1, double x2, double y2,
                 const char *letter)
{
    double length = hypot(x2 - x1, y2 - y1), dx = (x2 - x1) / length, dy = (y2 - y1) / length;
    double x = (x1 + x2) / 2, y = (y1 + y2) / 2, half = LETTER;
    if (length > 12) {
        line(d, LAYER_SIZES, x1, y1, x - half * dx, y - half * dy);
        line(d, LAYER_SIZES, x + half * dx, y + half * dy, x2, y2);
        arrow(d, x1, y1, -dx, -dy);
        arrow(d, x2, y2, dx, dy);
        text(d, x - text_width(letter) / 2, y - LETTER / 2, letter);
        return;
    }
    line(d, LAYER_SIZES, x1 - 5 * dx, y1 - 5 * dy, x2 + 5 * dx, y2 + 5 * dy);
    arrow(d, x1, y1, dx, dy);
    arrow(d, x2, y2, -dx, -dy);
    text(d, x - text_width(letter) / 2, y - LETTER - 1, letter);
}

static void level_size(struct drawing *d, double from, double to, double edge, double y,
                       const char *letter)
{
    double beyond = y > edge ? 1 : -1;
    line(d, LAYER_SIZES, from, edge + beyond, from, y + beyond);
    line(d, LAYER_SIZES, to, edge + beyond, to, y + beyond);
    size(d, from, y, to, y, letter);
}

static void upright_size(struct drawing *d, double radius, double x, double edge,
                         const char *letter)
{
    double beyond = x > edge ? 1 : -1;
    for (int side = -1; side <= 1; side += 2)
        line(d, LAYER_SIZES, edge + beyond, side * radius, x + beyond, side * radius);
    size(d, x, -radius, x, radius, letter);
}

static void draw_section_sizes(struct drawing *d, const struct drum_to_make *m)
{
    double flange = mm(m->flange / 2), below = -flange - 8;
    double inside = mm(m->thickness), foot = inside + mm(m->land_width);
    double slope = foot + mm(m->slope), width = mm(m->width);
    if (m->opening > 0 && !(m->closed > 0))
        upright_size(d, mm(m->opening / 2), -8, 0, "B");
    upright_size(d, mm(m->land / 2), -16, 0, "D");
    upright_size(d, flange, -24, 0, "F");
    level_size(d, inside, foot, -flange, below, "W");
    level_size(d, 0, inside, -flange, below - 8, "T");
    level_size(d, foot, slope, -flange, below - 8, "S");
    level_size(d, 0, width, -flange, below - 16, "L");
    double end = mm(m->width + m->post_length);
    if (m->closed > 0) {
        upright_size(d, mm(m->opening / 2), end + 8, end, "B");
        level_size(d, mm(m->closed), end, flange, flange + 8, "K");
    } else if (m->post > 0) {
        upright_size(d, mm(m->post / 2), end + 8, end, "U");
        level_size(d, width, end, flange, flange + 8, "V");
    }
}

/* ---- the face ---- */

/* From the axes of the solid to those of who looks at the free face, the peg up. */
static void draw_engraving(struct drawing *d, const struct engraving *engraving, double x)
{
    const char *words = engraving->text;
    size_t part = 0, letter = 0;
    struct stroke stroke;
    while (engraving->height > 0 && stroke_next(&words, &part, &letter, &stroke)) {
        double last[2], here[2];
        for (size_t i = 0; i < stroke.count; i++) {
            drum_place_letter(engraving, letter, stroke.points[i].x, stroke.points[i].y, here);
            if (i)
                line(d, LAYER_ENGRAVING, x + mm(last[1]), mm(last[0]), x + mm(here[1]),
                     mm(here[0]));
            memcpy(last, here, sizeof last);
        }
    }
}

static void draw_face(struct drawing *d, const struct drum_to_make *m,
                      const struct engraving *engraving, double x)
{
    double flange = mm(m->flange / 2), land = mm(m->land / 2), peg = mm(m->peg / 2);
    double notch = drum_notch_angle(m), up = M_PI / 2;
    double foot = sqrt(land * land - peg * peg), tip = foot + mm(m->peg_height);
    arc_of(d, LAYER_FACE, x, 0, flange, up + notch, up + 2 * M_PI - notch);
    arc_of(d, LAYER_FACE, x, 0, land, up - notch, up + notch);
    arc_of(d, LAYER_HIDDEN, x, 0, land, up + notch, up + 2 * M_PI - notch);
    for (int side = -1; side <= 1; side += 2) {
        double s = side * sin(notch), c = cos(notch);
        line(d, LAYER_FACE, x + land * s, land * c, x + flange * s, flange * c);
        line(d, LAYER_FACE, x + side * peg, foot, x + side * peg, tip);
    }
    line(d, LAYER_FACE, x - peg, tip, x + peg, tip);
    if (m->opening > 0)
        circle(d, m->closed > 0 ? LAYER_HIDDEN : LAYER_FACE, x, 0, mm(m->opening / 2));
    for (int i = 0; i < m->holes; i++) {
        double angle = 2 * M_PI * (i + 0.5) / m->holes, r = mm(m->hole_circle / 2);
        circle(d, LAYER_FACE, x + r * sin(angle), r * cos(angle), mm(m->hole / 2));
    }
    if (m->holes)
        circle(d, LAYER_CENTRE, x, 0, mm(m->hole_circle / 2));
    line(d, LAYER_CENTRE, x - flange - 3, 0, x + flange + 3, 0);
    line(d, LAYER_CENTRE, x, -flange - 3, x, flange + 3);
    level_size(d, x - land * sin(notch), x + land * sin(notch), flange, flange + 12, "N");
    level_size(d, x - peg, x + peg, flange, flange + 5, "P");
    draw_engraving(d, engraving, x);
}

/* ---- the list of sizes and the notes ---- */

struct list {
    struct drawing *drawing;
    double x, y;
};

static void put_line(struct list *list, const char *words)
{
    text(list->drawing, list->x, list->y, words);
    list->y -= LINE;
}

/* tolerance: as it is written behind; or "". */
static void put_size(struct list *list, const char *name, double length, const char *tolerance)
{
    put_line(list, arena_format(list->drawing->arena, "%-18s %7s %s", name,
                                show_places(mm(length), 2).text, tolerance));
}

static void put_sizes(struct list *list, const struct drum_to_make *m)
{
    put_size(list, "D land", m->land, "+/-0.2, measure it");
    put_size(list, "F flange", m->flange, "+/-0.5");
    put_size(list, "W land, width", m->land_width, "+/-0.2");
    put_size(list, "T flange", m->thickness, "+/-0.2");
    put_size(list, "S slope", m->slope, "+/-0.2");
    put_size(list, "L width", m->width, "+/-0.5");
    put_size(list, "P peg, width", m->peg, "+/-0.1");
    put_size(list, "G peg, height", m->peg_height, "+/-0.1");
    put_size(list, "N notch", m->notch, "+/-0.5");
    if (isfinite(m->bore))
        put_size(list, "B bore", m->bore, "to fit the nose");
    else if (m->opening > 0)
        put_size(list, "B bore", m->opening, "bore out to fit the nose");
    if (m->closed > 0)
        put_size(list, "K deep", m->width + m->post_length - m->closed, "+0.5 / 0");
    else if (m->post > 0) {
        put_size(list, "U plug", m->post, "to fit the nose");
        put_size(list, "V plug, length", m->post_length, "+/-0.2");
    }
    if (m->holes) {
        put_size(list, arena_format(list->drawing->arena, "%d holes", m->holes), m->hole,
                 "+0.2 / 0");
        put_size(list, "on a circle of", m->hole_circle, "+/-0.1");
    }
    put_size(list, "R with the cord", m->radius, "effective radius");
}

static void put_notes(struct list *list, const struct results *results,
                      const struct drum_to_make *m, const struct engraving *engraving)
{
    struct arena *arena = list->drawing->arena;
    struct peg_load load = peg_load_of(results, m);
    list->y -= LINE / 2;
    put_line(list, "Millimetres, scale 1:1. Section, and the free face.");
    put_line(list, "Land D: out of round 0.05, out of true with B 0.05,");
    put_line(list, arena_format(arena, "both in all. A printed one has corners, %s of it.",
                                show_up(mm(m->land / 2) * DRUM_CHORD, 3).text));
    put_line(list, "Surface: land and bore Ra 1.6, else Ra 3.2.");
    put_line(list, arena_format(arena, "Edges: rounded %s, or cut by 45 degrees.",
                                show_places(mm(m->edge), 2).text));
    put_line(list, arena_format(arena, "Cut into the face, %s deep: %s",
                                show_places(mm(engraving->half), 2).text,
                                engraving->height > 0 ? engraving->text : "nothing"));
    put_line(list, "Print: free face down, axis upright, no support.");
    put_line(list, arena_format(arena, "Peg: breaks at %s times the largest pull, %s N.",
                                show_places(floor(10 * load.factor) / 10, 1).text,
                                show_up(load.pull, 1).text));
    if (!load.enough)
        put_line(list, "Too weak: make it wider, or press in a metal pin.");
    list->y -= LINE / 2;
    put_line(list, "By hand only. Never on a spindle under power.");
    put_line(list, "Measure D when it is made.");
}

struct drawing drum_drawing(struct arena *arena, const struct results *results,
                            const struct drum_to_make *drum, const struct engraving *engraving)
{
    struct drawing d = {.arena = arena};
    struct profile profile = profile_of(drum);
    double flange = mm(drum->flange / 2), end = mm(drum->width + drum->post_length);
    double face = end + GAP + (drum->post > 0 ? GAP : 0) + flange;
    draw_profile(&d, &profile, LAYER_PROFILE, 1);
    draw_profile(&d, &profile, LAYER_SECTION, -1);
    if (drum->opening > 0) {
        double bore = mm(drum->opening / 2), from = mm(drum->closed);
        line(&d, LAYER_FACE, from, -bore, from, bore);
        line(&d, LAYER_FACE, end, -bore, end, bore);
    }
    line(&d, LAYER_CENTRE, -4, 0, end + 4, 0);
    draw_section_sizes(&d, drum);
    draw_face(&d, drum, engraving, face);
    struct list list = {&d, face + flange + GAP, fmax(flange, 42)};
    put_sizes(&list, drum);
    put_notes(&list, results, drum, engraving);
    return d;
}
