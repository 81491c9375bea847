#include "figures/drum.h"

#include "doc/canvas.h"
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>

/* A drum to make, drawn to a scale: section and view from the nose end, with dimensions. */

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

/* Section through the shop's own drum and cord, in proportion: D, d and R. */

static const double AXIS_X = 104, AXIS_Y = 92, DRAWN = 62; /* radius of drum and cord */

/* The section of the drum, and the cord that goes round it and straight down. */
static void draw_drum(struct canvas *c, double drum, double cord)
{
    double bore = drum * 0.32;
    canvas_arc(c, AXIS_X, AXIS_Y, drum, 0, 360);
    canvas_close(c);
    canvas_move(c, AXIS_X + bore, AXIS_Y);
    canvas_arc(c, AXIS_X, AXIS_Y, bore, 0, 360);
    canvas_close(c);
    canvas_ink(c, &ink_section);
    canvas_arc(c, AXIS_X, AXIS_Y, drum + cord, -200, 0);
    canvas_to(c, AXIS_X + drum + cord, AXIS_Y + 76);
    canvas_ink(c, &ink_thin);
    canvas_line(c, AXIS_X + drum, AXIS_Y, AXIS_X + drum, AXIS_Y + 76, &ink_thin);
    canvas_line(c, AXIS_X - 74, AXIS_Y, AXIS_X + 80, AXIS_Y, &ink_centre);
    canvas_line(c, AXIS_X, AXIS_Y - 74, AXIS_X, AXIS_Y + 80, &ink_centre);
}

static void dimension_drum(struct canvas *c, double drum, const char *text)
{
    double x = AXIS_X - 88;
    canvas_line(c, x - 4, AXIS_Y - drum, AXIS_X, AXIS_Y - drum, &ink_thin);
    canvas_line(c, x - 4, AXIS_Y + drum, AXIS_X, AXIS_Y + drum, &ink_thin);
    canvas_span(c, x, AXIS_Y - drum, x, AXIS_Y + drum);
    canvas_sign(c, x - 12, AXIS_Y + 3, ALIGN_LEFT, text);
}

/* Right of the drum: what is too small to be dimensioned in place. */
static void dimension_cord(struct canvas *c, double drum, double cord, const char *text)
{
    double y = AXIS_Y + 50, left = AXIS_X + drum, right = left + cord;
    canvas_line(c, left - 14, y, left, y, &ink_thin);
    canvas_head(c, left, y, 0);
    canvas_line(c, right, y, right + 30, y, &ink_thin);
    canvas_head(c, right, y, 180);
    canvas_text(c, right + 33, y + FIGURE_DROP, ALIGN_LEFT, text);
}

static void dimension_radius(struct canvas *c, double radius, const char *text)
{
    double y = AXIS_Y + 68;
    canvas_line(c, AXIS_X + radius, AXIS_Y, AXIS_X + radius, y + 4, &ink_centre);
    canvas_span(c, AXIS_X, y, AXIS_X + radius, y);
    canvas_sign(c, AXIS_X + radius / 2, y + FIGURE_DROP, ALIGN_MIDDLE, text);
}

/* The same seen along the drum, much larger: the cord's turns lie on its surface. */
static void draw_detail(struct canvas *c)
{
    const double left = 206, surface = 138, cord = 11, first = left + 24;
    canvas_text(c, left, 92, ALIGN_LEFT, "Enlarged, along the drum:");
    canvas_box(c, left, surface, 84, 22, &ink_hatch);
    canvas_line(c, left, surface, left + 92, surface, &ink_thick);
    for (int i = 0; i < 3; i++)
        canvas_circle(c, first + 2 * cord * i, surface - cord, cord, &ink_section_back);
    canvas_line(c, left, surface - cord, left + 84, surface - cord, &ink_centre);
    canvas_line(c, first + 4 * cord, surface - 2 * cord, left + 92, surface - 2 * cord,
                &ink_thin);
    canvas_span(c, left + 88, surface - 2 * cord, left + 88, surface);
    canvas_text(c, left + 94, surface - cord + FIGURE_DROP, ALIGN_LEFT, "d");
    canvas_text(c, left, surface - 2 * cord - 7, ALIGN_LEFT, "line of pull");
    canvas_leader(c, left + 6, surface - 2 * cord - 4, left + 6, surface - cord);
}

/* A letter of the drawing and what it means. */
static void name_line(struct canvas *c, double y, const char *letter, const char *words)
{
    if (letter[0])
        canvas_text(c, 206, y, ALIGN_LEFT, letter);
    canvas_text(c, 216, y, ALIGN_LEFT, words);
}

static void drum_section_describe(const struct figure_ask *ask, struct figure *figure,
                                  const char *drum, const char *cord, const char *radius)
{
    figure->caption = arena_format(
        ask->arena,
        "Drum and cord in the proportion of your own. The pull runs along the middle of the "
        "cord, so half the cord belongs to the radius: R = (D + d) / 2 = %s.",
        radius);
    figure->description = arena_format(
        ask->arena,
        "A section square to the spindle through the drum, hatched, with the cord lying on "
        "it and hanging straight down from its side. The drum's diameter D is %s, the cord's "
        "thickness d is %s. The effective radius R, from the spindle's axis to the middle of "
        "the cord, is %s.",
        drum, cord, radius);
}

void draw_drum_section(const struct figure_ask *ask, struct canvas *canvas)
{
    const struct quantity *drum = &ask->shop->drum.diameter.q,
                          *cord = &ask->shop->cord.diameter.q;
    const char *drum_text = quantity_text(ask->arena, drum);
    const char *cord_text = quantity_text(ask->arena, cord),
               *radius = arena_text(ask->arena, radius_words(ask->shop).text);
    double scale = DRAWN / (drum->base / 2 + cord->base);
    double drum_drawn = drum->base / 2 * scale, cord_drawn = cord->base * scale;
    draw_drum(canvas, drum_drawn, cord_drawn);
    dimension_drum(canvas, drum_drawn, "D");
    dimension_cord(canvas, drum_drawn, cord_drawn, "d");
    dimension_radius(canvas, drum_drawn + cord_drawn / 2, "R");
    draw_detail(canvas);
    name_line(canvas, 14, "D", arena_format(ask->arena, "drum, %s", drum_text));
    name_line(canvas, 26, "d", arena_format(ask->arena, "cord, %s", cord_text));
    name_line(canvas, 38, "R", "effective radius:");
    name_line(canvas, 48, "", "half of D and d together,");
    name_line(canvas, 58, "", radius);
    drum_section_describe(ask, canvas->figure, drum_text, cord_text, radius);
}

/* The doubt of a drag against the size of the drum: what the gauge and what drum and cord
 * add to it, with the fitted drum and the best of the common ones. */

enum { POINTS = 60 };

struct plot {
    const struct figure_ask *ask;
    struct canvas *canvas;
    const struct band *band;
    const struct unit *unit; /* of the fitted drum */
    struct drum_ratings drums;
    struct drum_rating curve[POINTS + 1];
    struct quantity sizes[POINTS + 1];
    struct axes axes;
};

static double size_of(const struct plot *plot, const struct quantity *drum)
{
    return unit_from_base(drum->base, plot->unit);
}

/* From the smallest to the largest drum, in even steps of size. */
static void work_out(struct plot *plot)
{
    const struct quantity *first = plot->drums.items[0].drum;
    const struct quantity *last = plot->drums.items[plot->drums.count - 1].drum;
    double from = first->base, to = fmax(last->base, 1.5 * from), most = 0;
    for (int i = 0; i <= POINTS; i++) {
        plot->sizes[i] = *first;
        plot->sizes[i].base = from + (to - from) * i / POINTS;
        plot->curve[i] = drum_rating_of(plot->ask->shop, plot->band, &plot->sizes[i]);
        most = fmax(most, plot->curve[i].whole);
    }
    plot->axes = (struct axes){.left = 34,
                               .top = 24,
                               .right = 260,
                               .bottom = 150,
                               .x_from = unit_from_base(from, plot->unit),
                               .x_to = unit_from_base(to, plot->unit),
                               .y_to = 1.45 * most,
                               .numbered = true};
}

enum part { PART_WHOLE, PART_GAUGE, PART_RADIUS };

static double part_of(const struct drum_rating *rating, enum part part)
{
    const double parts[] = {rating->whole, rating->gauge, rating->radius};
    return parts[part];
}

static void draw_curve(struct plot *plot, enum part part, const struct ink *ink)
{
    for (int i = 0; i <= POINTS; i++)
        canvas_to(plot->canvas, axes_x(&plot->axes, size_of(plot, &plot->sizes[i])),
                  axes_y(&plot->axes, part_of(&plot->curve[i], part)));
    canvas_ink(plot->canvas, ink);
}

/* At the right ends of the curves, from the upper one down, and clear of each other. */
static void name_curves(struct plot *plot)
{
    static const char *const names[] = {"in all", "gauge", "drum and cord"};
    const struct drum_rating *end = &plot->curve[POINTS];
    enum part order[] = {PART_WHOLE, PART_GAUGE, PART_RADIUS};
    if (end->radius > end->gauge) {
        order[1] = PART_RADIUS;
        order[2] = PART_GAUGE;
    }
    double lowest = plot->axes.bottom - 4;
    for (int i = 2; i >= 0; i--)
        lowest = axes_name_right(plot->canvas, &plot->axes, 4,
                                 axes_y(&plot->axes, part_of(end, order[i])), lowest,
                                 names[order[i]]);
}

static const char *drum_words(const struct plot *plot, const struct drum_rating *rating,
                              const char *what)
{
    return arena_format(plot->ask->arena, "%s: %s", what,
                        quantity_text(plot->ask->arena, rating->drum));
}

static const struct drum_rating *fitted_of(const struct plot *plot)
{
    size_t i = 0;
    while (!plot->drums.items[i].fitted)
        i++;
    return &plot->drums.items[i];
}

static const struct drum_rating *best_of(const struct plot *plot)
{
    bool any = plot->drums.best < plot->drums.count;
    return any ? &plot->drums.items[plot->drums.best] : NULL;
}

/* A drum on the upper curve with its words in one of two rows above. */
struct drum_mark {
    const struct ink *ink;
    const char *words;
    double x, y;           /* on the curve */
    double left, baseline; /* of the words */
};

static struct drum_mark mark_of(const struct plot *plot, const struct drum_rating *rating,
                                const char *what, const struct ink *ink)
{
    return (struct drum_mark){.ink = ink,
                              .words = drum_words(plot, rating, what),
                              .x = axes_x(&plot->axes, size_of(plot, rating->drum)),
                              .y = axes_y(&plot->axes, rating->whole)};
}

static void draw_mark(struct plot *plot, const struct drum_mark *mark)
{
    canvas_line(plot->canvas, mark->x, mark->y, mark->x, plot->axes.bottom, &ink_hidden);
    canvas_circle(plot->canvas, mark->x, mark->y, 2.5, mark->ink);
    if (!mark->words)
        return;
    canvas_line(plot->canvas, mark->x, mark->y - 2.5, mark->x, mark->baseline + 3, &ink_thin);
    canvas_text(plot->canvas, mark->left, mark->baseline, ALIGN_LEFT, mark->words);
}

/* In the upper row the words stand over their drum, as far as the plot goes. */
static void put_upper(const struct plot *plot, struct drum_mark *mark)
{
    double width = canvas_width(plot->canvas, false, mark->words);
    double left = fmax(mark->x - width / 2, plot->axes.left + 5);
    mark->left = fmin(left, FIGURE_WIDTH - 4 - width);
    mark->baseline = plot->axes.top + 6;
}

/* In the lower row they stand beside it, where the other drum's line does not pass. */
static bool put_lower(const struct plot *plot, struct drum_mark *mark, double other)
{
    double width = canvas_width(plot->canvas, false, mark->words);
    const double lefts[] = {mark->x - width, mark->x - 2};
    mark->baseline = plot->axes.top + 18;
    for (int i = 0; i < 2; i++) {
        mark->left = lefts[i];
        if (mark->left > plot->axes.left + 5 && mark->left + width < FIGURE_WIDTH - 4 &&
            (other < mark->left - 2 || other > mark->left + width + 1))
            return true;
    }
    return false;
}

static void mark_drums(struct plot *plot)
{
    const struct drum_rating *fitted = fitted_of(plot), *best = best_of(plot);
    bool same = best && best == fitted;
    struct drum_mark own =
        mark_of(plot, fitted, same ? "fitted, and best" : "fitted", &ink_solid);
    put_upper(plot, &own);
    if (best && !same) {
        struct drum_mark other = mark_of(plot, best, "best", &ink_sheet);
        put_upper(plot, &other);
        if (!put_lower(plot, &own, other.x)) {
            put_upper(plot, &own);
            if (!put_lower(plot, &other, own.x))
                other.words = NULL; /* the caption tells what a ring is */
        }
        draw_mark(plot, &other);
    }
    draw_mark(plot, &own);
}

/* " U where the known weights do not reach ..."; "" where they reach all along the curve. */
static const char *reach_words(const struct plot *plot)
{
    char text[REACH_TEXT];
    if (!gauge_reach_ends(plot->ask->shop, plot->curve[POINTS].pull, plot->curve[0].pull, text))
        return "";
    return arena_format(plot->ask->arena, " %s.", text);
}

static void drum_error_describe(struct plot *plot)
{
    struct arena *arena = plot->ask->arena;
    const struct drum_rating *best = best_of(plot);
    plot->canvas->figure->caption = arena_format(
        arena,
        "Doubt of a drag at the aim of your band, %s, as a standard uncertainty. Full dot: "
        "the fitted drum. %s%s",
        band_text(arena, plot->band),
        best                ? "Ring: the best of the common drums that the gauge can read."
        : plot->drums.alike ? "All drums that the gauge can read are alike within a tenth."
                            : "No drum here is within the reach of the gauge.",
        reach_words(plot));
    plot->canvas->figure->description = arena_format(
        arena,
        "A plot of the doubt over the drum's diameter. The gauge's share grows with the drum, "
        "the share of drum and cord falls. %s; %s.",
        drum_words(plot, fitted_of(plot), "Fitted"),
        best                ? drum_words(plot, best, "best")
        : plot->drums.alike ? "all that the gauge can read are alike within a tenth"
                            : "no drum here is within the reach of the gauge");
}

void draw_drum_error(const struct figure_ask *ask, struct canvas *canvas)
{
    struct plot *plot = arena_get(ask->arena, sizeof *plot);
    plot->ask = ask;
    plot->canvas = canvas;
    plot->band = shop_own_band(ask->shop);
    plot->unit = ask->shop->drum.diameter.q.unit;
    rate_drums(ask->shop, plot->band, &plot->drums);
    work_out(plot);
    axes_draw(canvas, &plot->axes, axes_name(canvas, "diameter of the drum", plot->unit->shown),
              "doubt / % of the drag");
    axes_ticks_x(canvas, &plot->axes, axes_step(plot->axes.x_to - plot->axes.x_from, 8));
    axes_ticks_y(canvas, &plot->axes, axes_step(plot->axes.y_to, 6));
    draw_curve(plot, PART_GAUGE, &ink_hidden);
    draw_curve(plot, PART_RADIUS, &ink_centre);
    draw_curve(plot, PART_WHOLE, &ink_thick);
    mark_drums(plot);
    name_curves(plot);
    drum_error_describe(plot);
}
