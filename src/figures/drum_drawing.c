#include "figures/drum_drawing.h"

#include "drag/inch.h"
#include "shop/words.h"

#include "number/show.h"
#include "tree/points.h"
#include "verdict/drum_make.h"

#include <math.h>

/* The usual scales of drawings (ISO 5455), for drums of up to two metres. */
static const int scales[] = {1, 2, 5, 10, 20, 50};
enum { SCALES = sizeof scales / sizeof scales[0] };

/* Blank beside the section for its dimensions, between the views, above and below, and
 * the least that the rings of a tiny drum want. Points. */
static const double LEFT = 38, BETWEEN = 20, ABOVE = 30, BELOW = 46;

/* A drum without a given bore is drawn with one of this share of its land. */
static const double SOME_BORE = 0.4;

/* The list of dimensions and the notes: a row, a column, the height of all. */
static const double ROW = 10.4, COLUMN = 158, LIST = 6 * 10.4 + 4 * FIGURE_LEAD + 20;

struct drawing {
    const struct figure_ask *ask;
    struct canvas *canvas;
    struct drum_to_make drum;
    int scale;
    double left, middle; /* of the section: its bed side; y of the axis */
    double face;         /* x of the middle of the view */
};

static double at_scale(const struct drawing *d, double length)
{
    return points_of(length) / d->scale;
}

static double bore_radius(const struct drawing *d)
{
    double bore = isfinite(d->drum.bore) ? d->drum.bore : SOME_BORE * d->drum.land;
    return at_scale(d, bore / 2);
}

/* Half the section: from the bore at the bed over both flanges and back. way -1: above
 * the axis. The slope looks toward the cord and bears the outer flange in the printer. */
static void draw_half(const struct drawing *d, double way)
{
    const struct drum_to_make *drum = &d->drum;
    double bore = bore_radius(d), land = at_scale(d, drum->land / 2);
    double flange = at_scale(d, drum->flange / 2), t = at_scale(d, drum->thickness);
    double foot = d->left + t + at_scale(d, drum->land_width);
    double slope = foot + at_scale(d, drum->slope), end = d->left + at_scale(d, drum->width);
    const double x[] = {d->left, d->left, d->left + t, d->left + t, foot, slope, end, end};
    const double r[] = {bore, flange, flange, land, land, flange, flange, bore};
    double points[16];
    for (size_t i = 0; i < 8; i++) {
        points[2 * i] = x[i];
        points[2 * i + 1] = d->middle + way * r[i];
    }
    canvas_polygon(d->canvas, points, 8, &ink_section);
}

/* Edges that are seen behind the cut, and the peg, which stands out from the land. */
static void draw_edges(const struct drawing *d)
{
    double bore = bore_radius(d), end = d->left + at_scale(d, d->drum.width);
    double land = d->middle - at_scale(d, d->drum.land / 2);
    double peg = at_scale(d, d->drum.peg), tall = at_scale(d, d->drum.flange_height);
    canvas_line(d->canvas, d->left, d->middle - bore, d->left, d->middle + bore, &ink_thin);
    canvas_line(d->canvas, end, d->middle - bore, end, d->middle + bore, &ink_thin);
    canvas_box(d->canvas, d->left + at_scale(d, d->drum.thickness), land - tall, peg, tall,
               &ink_thin);
    canvas_line(d->canvas, d->left - 6, d->middle, end + 6, d->middle, &ink_centre);
}

/* A dimension across a width: two lines out and an arrow between, or arrows toward them
 * where there is no room. Its letter stands in the middle where there is room, else to the
 * right, beyond `clear`. */
static void across(const struct drawing *d, double from, double to, double edge, double y,
                   const char *letter, double clear)
{
    struct canvas *c = d->canvas;
    double out = y > edge ? 3 : -3, room = canvas_width(c, false, letter) + 12;
    canvas_line(c, from, edge, from, y + out, &ink_thin);
    canvas_line(c, to, edge, to, y + out, &ink_thin);
    if (to - from > room) {
        canvas_span(c, from, y, to, y);
        canvas_sign(c, (from + to) / 2, y + FIGURE_DROP, ALIGN_MIDDLE, letter);
        return;
    }
    canvas_arrow(c, from - 9, y, from, y);
    canvas_arrow(c, to + 9, y, to, y);
    canvas_text(c, fmax(to + 12, clear + 3), y + FIGURE_DROP, ALIGN_LEFT, letter);
}

/* A diameter, at the left of the section. */
static void upright(const struct drawing *d, double radius, double edge, double x,
                    const char *letter)
{
    struct canvas *c = d->canvas;
    double top = d->middle - radius, bottom = d->middle + radius;
    canvas_line(c, edge, top, x - 3, top, &ink_thin);
    canvas_line(c, edge, bottom, x - 3, bottom, &ink_thin);
    canvas_span(c, x, top, x, bottom);
    canvas_sign(c, x, d->middle + FIGURE_DROP, ALIGN_MIDDLE, letter);
}

static void draw_section_sizes(const struct drawing *d)
{
    const struct drum_to_make *drum = &d->drum;
    double flange = at_scale(d, drum->flange / 2), land = at_scale(d, drum->land / 2);
    double t = at_scale(d, drum->thickness), foot = d->left + t + at_scale(d, drum->land_width);
    double slope = foot + at_scale(d, drum->slope), end = d->left + at_scale(d, drum->width);
    double top = d->middle - flange, bottom = d->middle + flange;
    upright(d, flange, d->left - 2, d->left - 34, "F");
    upright(d, land, d->left - 2, d->left - 22, "D");
    upright(d, bore_radius(d), d->left - 2, d->left - 10, "B");
    across(d, d->left, d->left + t, top - 2, top - 9, "T", 0);
    across(d, foot, slope, bottom + 2, bottom + 12, "S", end);
    across(d, d->left + t, foot, bottom + 2, bottom + 24, "W", end);
    across(d, d->left, end, bottom + 2, bottom + 37, "L", 0);
}

/* The notch is open toward the rim; the peg is seen in it from its end. */
static void draw_face(const struct drawing *d)
{
    const struct drum_to_make *drum = &d->drum;
    struct canvas *c = d->canvas;
    double flange = at_scale(d, drum->flange / 2), land = at_scale(d, drum->land / 2);
    double half = fmin(at_scale(d, drum->notch / 2), 0.7 * land), peg = at_scale(d, drum->peg);
    double rim = asin(half / flange) * 180 / M_PI, foot = sqrt(land * land - half * half);
    canvas_arc(c, d->face, d->middle, flange, -90 + rim, 270 - rim);
    canvas_to(c, d->face - half, d->middle - foot);
    canvas_arc(c, d->face, d->middle, land, -90 - asin(half / land) * 180 / M_PI,
               -90 + asin(half / land) * 180 / M_PI);
    canvas_close(c);
    canvas_ink(c, &ink_thick);
    canvas_circle(c, d->face, d->middle, land, &ink_hidden);
    canvas_circle(c, d->face, d->middle, bore_radius(d), &ink_thick);
    canvas_box(c, d->face - peg / 2, d->middle - flange, peg, flange - land, &ink_solid);
    canvas_line(c, d->face - flange - 6, d->middle, d->face + flange + 4, d->middle,
                &ink_centre);
    canvas_line(c, d->face, d->middle - land + 2, d->face, d->middle + flange + 6, &ink_centre);
    across(d, d->face - half, d->face + half, d->middle - flange - 1, d->middle - flange - 12,
           "N, peg P", 0);
}

/* "62.00 mm, 2.441 in". */
static const char *both_units(const struct drawing *d, double length)
{
    struct shown mm = show_places(1000 * length, 2), in = show_places(length / INCH, 3);
    return arena_format(d->ask->arena, "%s\u00a0mm, %s\u00a0in", mm.text, in.text);
}

/* The letters with their sizes, in two columns. */
static double draw_list(const struct drawing *d, double left, double top)
{
    const struct drum_to_make *drum = &d->drum;
    const struct {
        const char *name;
        double size;
    } rows[] = {{"R radius", drum->radius},
                {"D land", drum->land},
                {"W land, width", drum->land_width},
                {"F flange", drum->flange},
                {"T flange", drum->thickness},
                {"S slope 45°", drum->slope},
                {"L whole width", drum->width},
                {"P peg", drum->peg},
                {"N notch", drum->notch},
                {"B bore", drum->bore},
                {"H flange height", drum->flange_height},
                {"C cord of a turn", drum->turn}};
    enum { ROWS = sizeof rows / sizeof rows[0], HALF = (ROWS + 1) / 2 };
    for (int i = 0; i < ROWS; i++) {
        double x = i < HALF ? left : left + COLUMN, y = top + ROW * (i % HALF);
        canvas_text(d->canvas, x, y, ALIGN_LEFT, rows[i].name);
        canvas_text(d->canvas, x + COLUMN - 16, y, ALIGN_RIGHT,
                    isfinite(rows[i].size) ? both_units(d, rows[i].size) : "to fit your nose");
    }
    return top + ROW * HALF;
}

static double draw_notes(const struct drawing *d, double left, double top)
{
    struct canvas *c = d->canvas;
    double y = canvas_words(
        c, left, top, FIGURE_WIDTH - 8, ALIGN_LEFT,
        arena_format(d->ask->arena,
                     "Engrave on the flange: number, cord %s, and R once it is measured. To "
                     "print: flange T without slope on the bed, axis upright, no support. Peg: "
                     "a smooth pin of metal, not above the flange.",
                     quantity_text(d->ask->arena, &d->ask->shop->cord.diameter.q)));
    canvas_bold(c, left, y + ROW + 1, ALIGN_LEFT,
                "Measure it when it is made. Never run it under power.");
    return y + ROW + 1;
}

static double width_at(const struct drum_to_make *drum, int scale)
{
    return LEFT + BETWEEN + 8 + points_of(drum->width + drum->flange) / scale;
}

static double height_at(const struct drum_to_make *drum, int scale)
{
    return ABOVE + BELOW + points_of(drum->flange) / scale;
}

static int choose_scale(const struct drum_to_make *drum, double width, double height)
{
    int i = 0;
    while (i + 1 < SCALES &&
           (width_at(drum, scales[i]) > width || height_at(drum, scales[i]) > height))
        i++;
    return scales[i];
}

static void describe(const struct drawing *d)
{
    struct figure *figure = d->canvas->figure;
    struct arena *arena = d->ask->arena;
    const char *which = d->drum.wanted ? "for the radius that you want" : "like the fitted one";
    figure->to_scale = d->scale == 1;
    figure->caption = arena_format(
        arena,
        "A drum to make, %s, at scale 1:%d. Section and the side of the notch. Bore and "
        "register are yours: they must fit the nose, and the land must run true with them.",
        which, d->scale);
    figure->description = arena_format(
        arena,
        "A drum in section: a land of %s outside and %s wide between two flanges of %s; the "
        "inner side of one flange slopes by 45 degrees. In the other flange a notch of %s over "
        "a peg of %s. With the cord the effective radius is %s.",
        both_units(d, d->drum.land), both_units(d, d->drum.land_width),
        both_units(d, d->drum.flange), both_units(d, d->drum.notch), both_units(d, d->drum.peg),
        both_units(d, d->drum.radius));
}

static void draw_views(struct drawing *d, double left)
{
    double flange = at_scale(d, d->drum.flange / 2);
    d->left = left + LEFT;
    d->middle = ABOVE + flange;
    d->face = d->left + at_scale(d, d->drum.width) + BETWEEN + flange;
    draw_half(d, -1);
    draw_half(d, 1);
    draw_edges(d);
    draw_section_sizes(d);
    draw_face(d);
}

void drum_drawing_put(const struct figure_ask *ask, struct canvas *canvas, double width,
                      double height)
{
    struct drawing d = {.ask = ask, .canvas = canvas, .drum = drum_to_make(ask->shop)};
    bool beside = width >= 2 * FIGURE_WIDTH; /* the list has room beside the drawing */
    d.scale = beside ? choose_scale(&d.drum, width - FIGURE_WIDTH - 16, height)
                     : choose_scale(&d.drum, width, height - LIST);
    double needed = width_at(&d.drum, d.scale), below = height_at(&d.drum, d.scale);
    double left = beside ? needed + 16 : 4;
    draw_views(&d, beside ? 0 : fmax(0, FIGURE_WIDTH - needed) / 2);
    double end = draw_list(&d, left, beside ? ABOVE : below + 8);
    end = draw_notes(&d, left, end + 4) + 6;
    canvas->figure->width = beside ? left + FIGURE_WIDTH : FIGURE_WIDTH;
    canvas->figure->height = fmax(end, below);
    describe(&d);
}

void draw_drum_drawing(const struct figure_ask *ask, struct canvas *canvas)
{
    drum_drawing_put(ask, canvas, FIGURE_WIDTH, 420);
}
