/* The drum: one to make, to a scale with its dimensions; the shop's own with its cord; and the
 * doubt of a drag against its size. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"
#include "report/words.h"

#include <math.h>

/* ---- a drum to make ---- */

/* The usual scales of drawings (ISO 5455), for drums of up to two metres. */
static const int scales[] = {1, 2, 5, 10, 20, 50};

enum { SCALES = sizeof scales / sizeof scales[0] };

/* Blank beside the section for its dimensions, between the views, above and below, and
 * the least that the rings of a tiny drum want. Points. */
static const double LEFT = 38, BETWEEN = 16, ABOVE = 30, BELOW = 46;

/* The list of dimensions and the notes: a row, a column, the height of all. */
static const double ROW = 10.4, COLUMN = 158, LIST = 7 * 10.4 + 4 * FIGURE_LEAD + 20;

struct drawing {
    const struct shop *shop;
    struct canvas *canvas;
    struct drum_to_make drum;
    int scale;
    /* On the paper, points. Radii: */
    double bore, land, flange;
    /* x of the section: bed side, inner side of the flange, both ends of the slope, far side */
    double left, inside, foot, slope, end;
    double middle; /* y of the axis */
    double face;   /* x of the middle of the view */
};

static double at_scale(const struct drawing *d, double length)
{
    return points_of(length) / d->scale;
}

static void place_views(struct drawing *d, double left)
{
    const struct drum_to_make *drum = &d->drum;
    d->bore = at_scale(d, drum->opening / 2);
    d->land = at_scale(d, drum->land / 2);
    d->flange = at_scale(d, drum->flange / 2);
    d->left = left;
    d->inside = left + at_scale(d, drum->thickness);
    d->foot = d->inside + at_scale(d, drum->land_width);
    d->slope = d->foot + at_scale(d, drum->slope);
    d->end = left + at_scale(d, drum->width);
    d->middle = ABOVE + d->flange;
    d->face = d->end + BETWEEN + d->flange;
}

/* From the bore at the bed over both flanges and back, above and below the axis, and the edges
 * that are seen behind the cut, and the peg, which stands out from the land. The slope looks
 * toward the cord and bears the outer flange in the printer. */
static void draw_section(const struct drawing *d)
{
    struct canvas *c = d->canvas;
    const double x[] = {d->left, d->left,  d->inside, d->inside,
                        d->foot, d->slope, d->end,    d->end};
    const double r[] = {d->bore, d->flange, d->flange, d->land,
                        d->land, d->flange, d->flange, d->bore};
    for (int sign = -1; sign <= 1; sign += 2) {
        for (size_t i = 0; i < 8; i++)
            canvas_to(c, x[i], d->middle + sign * r[i]);
        canvas_close(c);
        canvas_ink(c, &ink_section);
    }
    double top = d->middle - d->bore, bottom = d->middle + d->bore;
    double tall = at_scale(d, d->drum.peg_height);
    canvas_line(c, d->left, top, d->left, bottom, &ink_thin);
    canvas_line(c, d->end, top, d->end, bottom, &ink_thin);
    canvas_box(c, d->inside, d->middle - d->land - tall, at_scale(d, d->drum.peg), tall,
               &ink_thin);
    canvas_line(c, d->left - 6, d->middle, d->end + 6, d->middle, &ink_centre);
}

/* A dimension across a width: two lines out and an arrow between, or arrows toward them
 * where there is no room. Its letter stands in the middle where there is room, else to the
 * right, beyond `clear`. */
static void across(struct canvas *c, double from, double to, double edge, double y,
                   const char *letter, double clear)
{
    double out = y > edge ? 3 : -3, room = canvas_width(c, false, letter) + 12;
    canvas_line(c, from, edge, from, y + out, &ink_thin);
    canvas_line(c, to, edge, to, y + out, &ink_thin);
    if (to - from > room) {
        canvas_span(c, from, y, to, y);
        canvas_label(c, (from + to) / 2, y + FIGURE_DROP, ALIGN_MIDDLE, letter);
        return;
    }
    canvas_arrow(c, from - 9, y, from, y);
    canvas_arrow(c, to + 9, y, to, y);
    canvas_text(c, fmax(to + 12, clear + 3), y + FIGURE_DROP, ALIGN_LEFT, letter);
}

/* Diameters stand so far left of the section, widths below and above it. */
static void draw_section_sizes(const struct drawing *d)
{
    struct canvas *c = d->canvas;
    const struct {
        double radius, off;
        const char *letter;
    } diameters[] = {{d->flange, 34, "F"}, {d->land, 22, "D"}, {d->bore, 10, "B"}};
    for (int i = 0; i < 3; i++) {
        double top = d->middle - diameters[i].radius, bottom = d->middle + diameters[i].radius;
        double x = d->left - diameters[i].off;
        canvas_line(c, d->left - 2, top, x - 3, top, &ink_thin);
        canvas_line(c, d->left - 2, bottom, x - 3, bottom, &ink_thin);
        canvas_span(c, x, top, x, bottom);
        canvas_label(c, x, d->middle + FIGURE_DROP, ALIGN_MIDDLE, diameters[i].letter);
    }
    double top = d->middle - d->flange - 2, bottom = d->middle + d->flange + 2;
    across(c, d->left, d->inside, top, top - 7, "T", 0);
    across(c, d->foot, d->slope, bottom, bottom + 10, "S", d->end);
    across(c, d->inside, d->foot, bottom, bottom + 22, "W", d->end);
    across(c, d->left, d->end, bottom, bottom + 35, "L", 0);
}

/* The view from the nose end. The notch is open toward the rim; the peg is seen in it. */
static void draw_face(const struct drawing *d)
{
    struct canvas *c = d->canvas;
    double x = d->face, y = d->middle, land = d->land, flange = d->flange;
    double half = fmin(at_scale(d, d->drum.notch / 2), 0.7 * land);
    double peg = at_scale(d, d->drum.peg);
    double rim = asin(half / flange) * 180 / M_PI, foot = asin(half / land) * 180 / M_PI;
    canvas_arc(c, x, y, flange, -90 + rim, 270 - rim);
    canvas_to(c, x - half, y - sqrt(land * land - half * half));
    canvas_arc(c, x, y, land, -90 - foot, -90 + foot);
    canvas_close(c);
    canvas_ink(c, &ink_thick);
    canvas_circle(c, x, y, land, &ink_hidden);
    canvas_circle(c, x, y, d->bore, &ink_thick);
    canvas_box(c, x - peg / 2, y - land - at_scale(d, d->drum.peg_height), peg,
               at_scale(d, d->drum.peg_height), &ink_solid);
    canvas_line(c, x - flange - 6, y, x + flange + 4, y, &ink_centre);
    canvas_line(c, x, y - land + 2, x, y + flange + 6, &ink_centre);
    across(c, x - half, x + half, y - flange - 1, y - flange - 12, "N, peg P", 0);
}

/* "62.00 mm, 2.441 in". */
static const char *both_units(const struct drawing *d, double length)
{
    struct shown mm = show_places(1000 * length, 2), in = show_places(length / INCH, 3);
    return arena_format(d->canvas->arena, "%s\u00a0mm, %s\u00a0in", mm.text, in.text);
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
                {"P peg, width", drum->peg},
                {"G peg, height", drum->peg_height},
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
        arena_format(
            d->canvas->arena,
            "For a cord of %s. Cut into the free face: number and D, and scratch in D as "
            "measured. To print: flange T without slope on the bed, axis upright, no "
            "support: out/drum.stl and drum.3mf.",
            quantity_text(d->canvas->arena, &d->shop->cord.diameter.q)));
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
    struct arena *arena = d->canvas->arena;
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

void draw_drum_to_make(const struct shop *shop, struct canvas *canvas, double width,
                       double height)
{
    struct drawing d = {.shop = shop, .canvas = canvas, .drum = drum_to_make(shop)};
    bool beside = width >= 2 * FIGURE_WIDTH; /* the list has room beside the drawing */
    d.scale = beside ? choose_scale(&d.drum, width - FIGURE_WIDTH - 16, height)
                     : choose_scale(&d.drum, width, height - LIST);
    double needed = width_at(&d.drum, d.scale), below = height_at(&d.drum, d.scale);
    double left = beside ? needed + 16 : 4;
    place_views(&d, LEFT + (beside ? 0 : fmax(0, FIGURE_WIDTH - needed) / 2));
    draw_section(&d);
    draw_section_sizes(&d);
    draw_face(&d);
    double end = draw_list(&d, left, beside ? ABOVE : below + 8);
    end = draw_notes(&d, left, end + 4) + 6;
    canvas->figure->width = beside ? left + FIGURE_WIDTH : FIGURE_WIDTH;
    canvas->figure->height = fmax(end, below);
    describe(&d);
}

void draw_drum_drawing(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    draw_drum_to_make(shop, canvas, FIGURE_WIDTH, 420);
}

/* ---- section through the shop's own drum and cord, in proportion: D, d and R ---- */

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

/* D left of the drum; d, too small to be dimensioned in place, right of it; R below. */
static void draw_dimensions(struct canvas *c, double drum, double cord)
{
    double x = AXIS_X - 88;
    canvas_line(c, x - 4, AXIS_Y - drum, AXIS_X, AXIS_Y - drum, &ink_thin);
    canvas_line(c, x - 4, AXIS_Y + drum, AXIS_X, AXIS_Y + drum, &ink_thin);
    canvas_span(c, x, AXIS_Y - drum, x, AXIS_Y + drum);
    canvas_label(c, x - 12, AXIS_Y + 3, ALIGN_LEFT, "D");
    double y = AXIS_Y + 50, left = AXIS_X + drum, right = left + cord;
    canvas_line(c, left - 14, y, left, y, &ink_thin);
    canvas_head(c, left, y, 0);
    canvas_line(c, right, y, right + 30, y, &ink_thin);
    canvas_head(c, right, y, 180);
    canvas_text(c, right + 33, y + FIGURE_DROP, ALIGN_LEFT, "d");
    double below = AXIS_Y + 68, radius = drum + cord / 2;
    canvas_line(c, AXIS_X + radius, AXIS_Y, AXIS_X + radius, below + 4, &ink_centre);
    canvas_span(c, AXIS_X, below, AXIS_X + radius, below);
    canvas_label(c, AXIS_X + radius / 2, below + FIGURE_DROP, ALIGN_MIDDLE, "R");
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

void draw_drum_section(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    const struct quantity *drum = &shop->drum.diameter.q, *cord = &shop->cord.diameter.q;
    struct arena *arena = canvas->arena;
    const char *drum_text = quantity_text(arena, drum), *cord_text = quantity_text(arena, cord);
    const char *radius = radius_text(arena, shop);
    double scale = DRAWN / (drum->base / 2 + cord->base);
    double drum_drawn = drum->base / 2 * scale, cord_drawn = cord->base * scale;
    draw_drum(canvas, drum_drawn, cord_drawn);
    draw_dimensions(canvas, drum_drawn, cord_drawn);
    draw_detail(canvas);
    const char *const key[][2] = {{"D", arena_format(arena, "drum, %s", drum_text)},
                                  {"d", arena_format(arena, "cord, %s", cord_text)},
                                  {"R", "effective radius:"}};
    for (int i = 0; i < 3; i++) {
        canvas_text(canvas, 206, 14 + 12 * i, ALIGN_LEFT, key[i][0]);
        canvas_text(canvas, 216, 14 + 12 * i, ALIGN_LEFT, key[i][1]);
    }
    canvas_text(canvas, 216, 48, ALIGN_LEFT, "half of D and d together,");
    canvas_text(canvas, 216, 58, ALIGN_LEFT, radius);
    canvas->figure->caption = arena_format(
        arena,
        "Drum and cord in the proportion of your own. The pull runs along the middle of the "
        "cord, so half the cord belongs to the radius: R = (D + d) / 2 = %s.",
        radius);
    canvas->figure->description = arena_format(
        arena,
        "A section square to the spindle through the drum, hatched, with the cord lying on "
        "it and hanging straight down from its side. The drum's diameter D is %s, the cord's "
        "thickness d is %s. The effective radius R, from the spindle's axis to the middle of "
        "the cord, is %s.",
        drum_text, cord_text, radius);
}

/* ---- the doubt of a drag against the size of the drum: what the gauge and what drum and cord
 * add to it, with the fitted drum and the best of the common ones ---- */

enum { POINTS = 60 };

struct drum_error {
    struct plot plot; /* x: diameter in the unit of the fitted drum; y: % of the drag */
    const struct results *results;
    const struct band *band;
    struct drum_ratings drums;
    const struct drum_rating *fitted, *best; /* among them; best: NULL for none */
    struct drum_rating curve[POINTS + 1];
    struct quantity sizes[POINTS + 1];
};

/* From the smallest to the largest drum, in even steps of size. */
static void rate_sizes(struct drum_error *e)
{
    rate_drums(e->results, e->band, &e->drums);
    e->fitted = e->drums.items;
    while (!e->fitted->fitted)
        e->fitted++;
    e->best = e->drums.best < e->drums.count ? &e->drums.items[e->drums.best] : NULL;
    const struct quantity *first = e->drums.items[0].drum;
    const struct quantity *last = e->drums.items[e->drums.count - 1].drum;
    double from = first->base, to = fmax(last->base, 1.5 * from), most = 0;
    for (int i = 0; i <= POINTS; i++) {
        e->sizes[i] = *first;
        e->sizes[i].base = from + (to - from) * i / POINTS;
        e->curve[i] = drum_rating_of(e->results, e->band, &e->sizes[i]);
        most = fmax(most, e->curve[i].whole);
    }
    e->plot.x_from = unit_from_base(from, e->plot.x_unit);
    e->plot.x_to = unit_from_base(to, e->plot.x_unit);
    e->plot.y_to = 1.45 * most;
}

enum part { PART_WHOLE, PART_GAUGE, PART_RADIUS };

static double part_of(const struct drum_rating *rating, enum part part)
{
    const double parts[] = {rating->whole, rating->gauge, rating->radius};
    return parts[part];
}

static void draw_curve(const struct drum_error *e, enum part part, const struct ink *ink)
{
    for (int i = 0; i <= POINTS; i++)
        plot_to(&e->plot, e->sizes[i].base, part_of(&e->curve[i], part));
    canvas_ink(e->plot.canvas, ink);
}

/* At the right ends of the curves, from the lowest up, and clear of each other. */
static void name_curves(const struct drum_error *e)
{
    static const char *const names[] = {"in all", "gauge", "drum and cord"};
    const struct drum_rating *end = &e->curve[POINTS];
    bool radius_over = end->radius > end->gauge;
    const enum part upward[] = {radius_over ? PART_GAUGE : PART_RADIUS,
                                radius_over ? PART_RADIUS : PART_GAUGE, PART_WHOLE};
    double lowest = e->plot.bottom - 4;
    for (int i = 0; i < 3; i++)
        lowest = plot_name_right(&e->plot, 4, plot_y(&e->plot, part_of(end, upward[i])), lowest,
                                 names[upward[i]]);
}

static const char *drum_words(const struct drum_error *e, const struct drum_rating *rating,
                              const char *what)
{
    struct arena *arena = e->plot.canvas->arena;
    return arena_format(arena, "%s: %s", what, quantity_text(arena, rating->drum));
}

/* A drum on the upper curve with its words in one of two rows above. */
struct drum_mark {
    const struct ink *ink;
    const char *words;
    double x, y, width;    /* on the curve; of the words */
    double left, baseline; /* of the words */
};

/* In the upper row the words stand over their drum, as far as the plot goes. */
static void put_upper(const struct plot *plot, struct drum_mark *mark)
{
    double left = fmax(mark->x - mark->width / 2, plot->left + 5);
    mark->left = fmin(left, FIGURE_WIDTH - 4 - mark->width);
    mark->baseline = plot->top + 6;
}

/* In the lower row they stand beside it, where the other drum's line does not pass. */
static bool put_lower(const struct plot *plot, struct drum_mark *mark, double other)
{
    const double lefts[] = {mark->x - mark->width, mark->x - 2};
    mark->baseline = plot->top + 18;
    for (int i = 0; i < 2; i++) {
        double left = mark->left = lefts[i], right = left + mark->width;
        if (left > plot->left + 5 && right < FIGURE_WIDTH - 4 &&
            (other < left - 2 || other > right + 1))
            return true;
    }
    return false;
}

static struct drum_mark new_mark(const struct drum_error *e, const struct drum_rating *rating,
                                 const char *what, const struct ink *ink)
{
    struct drum_mark mark = {.ink = ink,
                             .words = drum_words(e, rating, what),
                             .x = plot_x(&e->plot, rating->drum->base),
                             .y = plot_y(&e->plot, rating->whole)};
    mark.width = canvas_width(e->plot.canvas, false, mark.words);
    put_upper(&e->plot, &mark);
    return mark;
}

static void draw_mark(const struct plot *plot, const struct drum_mark *mark)
{
    struct canvas *c = plot->canvas;
    canvas_line(c, mark->x, mark->y, mark->x, plot->bottom, &ink_hidden);
    canvas_circle(c, mark->x, mark->y, 2.5, mark->ink);
    if (!mark->words)
        return;
    canvas_line(c, mark->x, mark->y - 2.5, mark->x, mark->baseline + 3, &ink_thin);
    canvas_text(c, mark->left, mark->baseline, ALIGN_LEFT, mark->words);
}

static void mark_drums(const struct drum_error *e)
{
    const struct plot *plot = &e->plot;
    bool same = e->best == e->fitted;
    struct drum_mark own =
        new_mark(e, e->fitted, same ? "fitted, and best" : "fitted", &ink_solid);
    if (e->best && !same) {
        struct drum_mark other = new_mark(e, e->best, "best", &ink_sheet);
        if (!put_lower(plot, &own, other.x)) {
            put_upper(plot, &own);
            if (!put_lower(plot, &other, own.x))
                other.words = NULL; /* the caption tells what a ring is */
        }
        draw_mark(plot, &other);
    }
    draw_mark(plot, &own);
}

static void describe_drum_error(const struct drum_error *e)
{
    struct arena *arena = e->plot.canvas->arena;
    struct figure *figure = e->plot.canvas->figure;
    const char *best = e->best ? "Ring: the best of the common drums that the gauge can read."
                       : e->drums.alike
                           ? "All drums that the gauge can read are alike within a tenth."
                           : "No drum here is within the reach of the gauge.";
    const char *best_drum = e->best ? drum_words(e, e->best, "best")
                            : e->drums.alike
                                ? "all that the gauge can read are alike within a tenth"
                                : "no drum here is within the reach of the gauge";
    const char *reach =
        gauge_reach_words(arena, e->results, e->curve[POINTS].pull, e->curve[0].pull);
    figure->caption = arena_format(
        arena,
        "Doubt of a drag at the aim of your band, %s, as a standard uncertainty. Full dot: "
        "the fitted drum. %s%s%s%s",
        band_text(arena, e->band), best, reach[0] ? " " : "", reach, reach[0] ? "." : "");
    figure->description = arena_format(
        arena,
        "A plot of the doubt over the drum's diameter. The gauge's share grows with the drum, "
        "the share of drum and cord falls. %s; %s.",
        drum_words(e, e->fitted, "Fitted"), best_drum);
}

void draw_drum_error(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    struct drum_error *e = arena_get(canvas->arena, sizeof *e);
    const struct unit *unit = shop->drum.diameter.q.unit;
    e->results = results;
    e->band = results->band;
    e->plot = (struct plot){canvas, 34, 24, 260, 150, .x_unit = unit, .numbered = true};
    rate_sizes(e);
    plot_axes(&e->plot, axis_name(canvas->arena, "diameter of the drum", unit->shown),
              "doubt / % of the drag");
    plot_ticks_x(&e->plot, 8);
    plot_ticks_y(&e->plot, 6);
    draw_curve(e, PART_GAUGE, &ink_hidden);
    draw_curve(e, PART_RADIUS, &ink_centre);
    draw_curve(e, PART_WHOLE, &ink_thick);
    mark_drums(e);
    name_curves(e);
    describe_drum_error(e);
}
