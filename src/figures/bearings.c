/* The bearings and their nut: both arrangements in section, where and how their temperature is
 * watched, and what a turn is at the nut's rim. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/nut.h"
#include "judge/warmth.h"
#include "physics/physics.h"

#include <math.h>

/* ---- two opposed taper roller bearings in both arrangements, upper half in section, with the
 * way that the preload's force takes ---- */

/* Heights above the spindle's axis, and lengths along it. */
static const double BORE = 28, CUP = 66, HOUSING = 86, HALF = 15;

static const double APEX = 165, CUP_SLOPE = 0.315, CONE_SLOPE = 0.22; /* of the raceways */

static const struct ink ink_force = {.stroke = STROKE_THICK, .dash = DASH_HIDDEN};

/* One bearing: its middle on the axis, and the side to which the rollers' large ends look:
 * -1 left, 1 right. */
struct bearing {
    struct canvas *canvas;
    double x, axis;
    int large;
};

/* u: along the axis, positive toward the small ends; v: above the axis. */
static void polygon(const struct bearing *b, const double *points, size_t count,
                    const struct ink *ink)
{
    for (size_t i = 0; i < count; i++)
        canvas_to(b->canvas, b->x - b->large * points[2 * i], b->axis - points[2 * i + 1]);
    canvas_close(b->canvas);
    canvas_ink(b->canvas, ink);
}

static double raceway(double slope, double u)
{
    return slope * (APEX - u);
}

static void draw_roller(const struct bearing *b)
{
    double middle = (CUP_SLOPE + CONE_SLOPE) / 2, tilt = atan(middle);
    double half = (atan(CUP_SLOPE) - atan(CONE_SLOPE)) / 2;
    double ends[] = {APEX / cos(tilt) - 11.5, APEX / cos(tilt) + 11.5}, points[8];
    for (size_t i = 0; i < 4; i++) {
        double along = ends[i / 2], across = along * tan(half) * (i == 1 || i == 2 ? 1 : -1);
        points[2 * i] = APEX - along * cos(tilt) + across * sin(tilt);
        points[2 * i + 1] = along * sin(tilt) + across * cos(tilt);
    }
    polygon(b, points, 4, &ink_sheet);
}

static void draw_bearing(const struct bearing *b)
{
    const double rib = raceway(CONE_SLOPE, -HALF) + 7;
    const double cone[] = {-HALF - 3, BORE,
                           HALF,      BORE,
                           HALF,      raceway(CONE_SLOPE, HALF),
                           -HALF + 3, raceway(CONE_SLOPE, -HALF + 3),
                           -HALF + 2, rib,
                           -HALF - 3, rib};
    const double cup[] = {-HALF + 1, raceway(CUP_SLOPE, -HALF + 1),
                          HALF + 2,  raceway(CUP_SLOPE, HALF + 2),
                          HALF + 2,  CUP,
                          -HALF + 1, CUP};
    polygon(b, cone, 6, &ink_section);
    polygon(b, cup, 4, &ink_section_back);
    draw_roller(b);
}

/* The way of the force, on a band of paper, so that it is seen on hatching. */
static void draw_force(struct canvas *c, const double *points, size_t count)
{
    for (size_t i = 0; i + 1 < count; i++) {
        const double *p = &points[2 * i];
        double length = hypot(p[2] - p[0], p[3] - p[1]);
        double x = 1.6 * (p[3] - p[1]) / length, y = 1.6 * (p[2] - p[0]) / length;
        const double band[] = {p[0] + x, p[1] - y, p[2] + x, p[3] - y,
                               p[2] - x, p[3] + y, p[0] - x, p[1] + y};
        canvas_polygon(c, band, 4, &ink_paper);
    }
    canvas_polyline(c, points, count, &ink_force);
}

/* Half way between two points of one height: larger than a dimension's, as it stands on a
 * thick line. */
static void draw_force_head(struct canvas *c, double from, double to, double y)
{
    double x = (from + to) / 2, along = to > from ? 4 : -4;
    const double points[] = {x + along,       y,         x - along,
                             y + along * 0.7, x - along, y - along * 0.7};
    canvas_polygon(c, points, 3, &ink_solid);
}

/* Round trip: through the left bearing, from its cone's back face square through the roller to
 * its cup's back face, along the headstock, through the right bearing, back along the spindle.
 */
static void draw_round_trip(struct canvas *c, const struct bearing *left,
                            const struct bearing *right)
{
    const double u[] = {-HALF - 3, -6, 4, HALF + 2}, v[] = {BORE + 6, BORE + 6, 57, 60};
    double path[24], axis = left->axis, low = axis - 14, high = axis - 76;
    for (size_t i = 0; i < 4; i++) {
        double *in = &path[2 + 2 * i], *out = &path[20 - 2 * i];
        in[0] = left->x - left->large * u[i];
        out[0] = right->x - right->large * u[i];
        in[1] = out[1] = axis - v[i];
    }
    path[0] = path[2], path[1] = low;
    path[10] = path[8], path[12] = path[14], path[11] = path[13] = high;
    const double back[] = {path[20], path[21], path[20], low, path[0], low};
    draw_force(c, path, 11);
    draw_force(c, back, 3);
    draw_force_head(c, path[10], path[12], high);
    draw_force_head(c, path[20], path[0], low);
}

static const double LEFT = 108, RIGHT = 218; /* middles of the two bearings */

static const double FACE = 18, BACK = 17; /* of cone and cup, from the middle */

/* The headstock's section, and the outline of the spindle, which reaches down to the axis:
 * x, height, x, height, ... */
static void draw_housing(struct canvas *c, double axis, const double *body, size_t corners,
                         const double shaft[16])
{
    for (size_t i = 0; i < corners; i++)
        canvas_to(c, body[2 * i], axis - body[2 * i + 1]);
    canvas_close(c);
    canvas_ink(c, &ink_section);
    for (size_t i = 0; i < 8; i++)
        canvas_to(c, shaft[2 * i], axis - shaft[2 * i + 1]);
    canvas_ink(c, &ink_thick);
    canvas_line(c, 14, axis, 302, axis, &ink_centre);
    canvas_text(c, (LEFT + RIGHT) / 2, axis - 4, ALIGN_MIDDLE, "spindle");
}

struct part_name {
    double x, y; /* of the words; y above the axis */
    const char *words;
    double to_x, to_y; /* what they name; above the axis */
};

/* Both bearings, the left one's large ends to that side and the right one's to the other; the
 * way of the force through them; and the names of all parts. */
static void draw_insides(struct canvas *c, double axis, int large,
                         const struct part_name *names, size_t count)
{
    struct bearing left = {c, LEFT, axis, large}, right = {c, RIGHT, axis, -large};
    draw_bearing(&left);
    draw_bearing(&right);
    draw_round_trip(c, &left, &right);
    for (size_t i = 0; i < count; i++) {
        const struct part_name *n = &names[i];
        double from = n->x < n->to_x ? n->x + canvas_width(c, false, n->words) + 2 : n->x - 2;
        canvas_text(c, n->x, axis - n->y, ALIGN_LEFT, n->words);
        canvas_leader(c, from, axis - n->y - FIGURE_DROP, n->to_x, axis - n->to_y);
    }
}

/* Large ends outward; the nut presses the cones toward each other. */
static void draw_back_to_back(struct canvas *c, double axis)
{
    const double shoulder = CUP - 8, collar = BORE + 14, begin = RIGHT + FACE;
    const double shaft[] = {LEFT - 60,  0,      LEFT - 60,  BORE,   begin,      BORE,
                            begin,      collar, begin + 14, collar, begin + 14, BORE,
                            begin + 40, BORE,   begin + 40, 0};
    const double body[] = {LEFT - 28,    CUP,      LEFT + BACK,  CUP,    LEFT + BACK, shoulder,
                           RIGHT - BACK, shoulder, RIGHT - BACK, CUP,    RIGHT + 28,  CUP,
                           RIGHT + 28,   HOUSING,  LEFT - 28,    HOUSING};
    const struct part_name names[] = {
        {6, 64, "nut", LEFT - FACE - 8, BORE + 13}, {6, 44, "lock", LEFT - FACE - 23, BORE + 9},
        {151, 45, "rollers", LEFT + 5, 43},         {151, 33, "cone", LEFT + 11, BORE + 3},
        {274, 74, "headstock", RIGHT + 21, 77},     {274, 58, "cup", RIGHT + 3, CUP - 3},
        {274, 42, "collar", RIGHT + 25, BORE + 7}};
    draw_housing(c, axis, body, 8, shaft);
    canvas_box(c, LEFT - FACE - 16, axis - BORE - 18, 16, 18, &ink_section_back); /* nut */
    canvas_box(c, LEFT - FACE - 28, axis - BORE - 18, 11, 18, &ink_section);      /* lock */
    draw_insides(c, axis, -1, names, sizeof names / sizeof names[0]);
}

/* Large ends inward; a ring in the headstock presses the cups toward each other. */
static void draw_face_to_face(struct canvas *c, double axis)
{
    const double thick = BORE + 10, shoulder = CUP - 10;
    const double shaft[] = {LEFT - 60,   0,     LEFT - 60,    BORE,  LEFT + FACE,  BORE,
                            LEFT + FACE, thick, RIGHT - FACE, thick, RIGHT - FACE, BORE,
                            RIGHT + 58,  BORE,  RIGHT + 58,   0};
    const double body[] = {LEFT - 36,  CUP,      RIGHT + BACK, CUP,     RIGHT + BACK, shoulder,
                           RIGHT + 32, shoulder, RIGHT + 32,   HOUSING, LEFT - 36,    HOUSING};
    const struct part_name names[] = {{6, 57, "threaded ring", LEFT - BACK - 8, CUP - 6},
                                      {274, 46, "shoulder", RIGHT + 25, CUP - 5}};
    draw_housing(c, axis, body, 6, shaft);
    canvas_box(c, LEFT - BACK - 15, axis - CUP, 15, 12, &ink_section_back); /* ring */
    draw_insides(c, axis, 1, names, sizeof names / sizeof names[0]);
}

void draw_bearings(const struct results *results, struct canvas *canvas)
{
    (void)results;
    canvas_bold(canvas, 6, 12, ALIGN_LEFT, "Back to back: a nut on the spindle");
    canvas_line(canvas, 214, 9.5, 238, 9.5, &ink_force);
    canvas_text(canvas, 243, 12, ALIGN_LEFT, "way of the force");
    draw_back_to_back(canvas, 112);
    canvas_bold(canvas, 6, 142, ALIGN_LEFT, "Face to face: a ring in the headstock");
    draw_face_to_face(canvas, 242);
}

/* ---- where to measure the temperature of the bearings ---- */

static const double AXIS = 96;

void draw_where_to_feel(const struct results *results, struct canvas *canvas)
{
    /* A number in a ring, led to its place, with words beside it no wider than this. */
    const struct {
        double x, y, to_x, to_y, words_y, width;
        const char *number, *words;
    } places[] = {{224, 40, 209, AXIS - 26, 38, 80, "1",
                   "front cap, over the bearing: read here, always at one marked spot"},
                  {70, 34, 80, AXIS - 20, 36, 200, "2", "rear cap: it may be the hotter one"},
                  {262, 112, 262, 112, 110, 42, "3", "the room, in the shade"}};
    (void)results;
    canvas_box(canvas, 84, 50, 120, 92, &ink_thick);        /* headstock */
    canvas_box(canvas, 204, AXIS - 30, 9, 60, &ink_thick);  /* front cap */
    canvas_box(canvas, 76, AXIS - 24, 8, 48, &ink_thick);   /* rear cap */
    canvas_box(canvas, 213, AXIS - 14, 16, 28, &ink_thick); /* nose */
    canvas_box(canvas, 50, AXIS - 32, 14, 64, &ink_thick);  /* pulley */
    canvas_box(canvas, 40, AXIS - 14, 36, 28, &ink_hidden); /* spindle's tail */
    canvas_box(canvas, 24, 142, 200, 14, &ink_thick);       /* bed */
    canvas_line(canvas, 30, AXIS, 244, AXIS, &ink_centre);
    canvas_box(canvas, 172, AXIS - 22, 26, 44, &ink_hidden); /* front bearing */
    canvas_box(canvas, 90, AXIS - 18, 20, 36, &ink_hidden);  /* rear bearing */
    canvas_text(canvas, 144, 66, ALIGN_MIDDLE, "headstock");
    canvas_label(canvas, 142, AXIS + 3, ALIGN_MIDDLE, "bearings");
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        double x = places[i].x, y = places[i].y;
        canvas_leader(canvas, x, y, places[i].to_x, places[i].to_y);
        canvas_circle(canvas, x, y, 6.5, &ink_sheet);
        canvas_bold(canvas, x, y + 2.7, ALIGN_MIDDLE, places[i].number);
        canvas_words(canvas, x + 10, places[i].words_y, places[i].width, ALIGN_LEFT,
                     places[i].words);
    }
    canvas_text(canvas, 6, 14, ALIGN_LEFT, "not here: belt and pulley");
    canvas_leader(canvas, 40, 17, 56, AXIS - 28);
}

/* ---- temperature of the cap while a spindle runs in, as it should and should not go: a
 * sketch, not data ---- */

static const double ROOM = 12, LOOK = 62, STOP = 88; /* heights of the plots */

static struct plot warmth_plot(struct canvas *canvas, double left)
{
    struct plot plot = {canvas, left, 36, left + 134, 146, .x_to = 128, .y_to = 104};
    plot_across(&plot, plot_y(&plot, ROOM), &ink_centre);
    plot_across(&plot, plot_y(&plot, LOOK), &ink_hidden);
    plot_across(&plot, plot_y(&plot, STOP), &ink_thin);
    return plot;
}

/* From stage to stage the temperature rises less and less, and settles. */
static void draw_good(struct canvas *c, const struct plot *plot)
{
    const double heights[] = {28, 38, 46, 52};
    plot_to(plot, 0, ROOM);
    for (int i = 0; i < 4; i++) {
        double from = 30.0 * i, high = heights[i];
        plot_curve(plot, from + 6, high - 1, from + 12, high, from + 30, high);
    }
    canvas_ink(c, &ink_thick);
    for (int i = 1; i < 4; i++)
        plot_tick(plot, plot_x(plot, 30.0 * i));
    plot_text_below(plot, plot_x(plot, 45), "stages of speed");
    double x = plot_x(plot, 52), y = plot_y(plot, 28);
    canvas_text(c, x, y, ALIGN_LEFT, "settles before the");
    canvas_text(c, x, y + FIGURE_LEAD, ALIGN_LEFT, "next stage");
}

static void draw_bad(struct canvas *c, const struct plot *plot)
{
    double x = plot_x(plot, 62), y = plot_y(plot, 28);
    plot_to(plot, 0, ROOM);
    plot_curve(plot, 10, 30, 20, 34, 36, 36);
    plot_curve(plot, 64, 40, 92, 58, 104, 100);
    canvas_ink(c, &ink_thick);
    canvas_text(c, x, y, ALIGN_LEFT, "rises faster and");
    canvas_text(c, x, y + FIGURE_LEAD, ALIGN_LEFT, "faster: stop");
    canvas_leader(c, plot_x(plot, 78), y - 7, plot_x(plot, 84), plot_y(plot, 53));
}

void draw_run_in(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    struct arena *arena = canvas->arena;
    struct plot good = warmth_plot(canvas, 12), bad = warmth_plot(canvas, 170);
    double stop = plot_y(&good, STOP) - 3, look = plot_y(&good, LOOK) - 3;
    double room = plot_y(&good, ROOM) - 3, good_end = good.right - 2;
    draw_good(canvas, &good);
    draw_bad(canvas, &bad);
    plot_axes(&good, "time", "temperature of the cap");
    plot_axes(&bad, "time", "temperature of the cap");
    canvas_bold(canvas, (good.left + good.right) / 2, 14, ALIGN_MIDDLE, "Good");
    canvas_bold(canvas, (bad.left + bad.right) / 2, 14, ALIGN_MIDDLE, "Bad");
    canvas_label(canvas, good_end, stop, ALIGN_RIGHT,
                 arena_format(arena, "%s, or room + %s: stop",
                              quantity_text(arena, &shop->run_in.stop.q),
                              quantity_text(arena, &shop->run_in.rise.q)));
    canvas_label(canvas, good_end, look, ALIGN_RIGHT,
                 arena_format(arena, "room + %d °C: look closer", RUN_IN_LOOK_CELSIUS));
    canvas_label(canvas, good_end, room, ALIGN_RIGHT, "room");
    canvas_label(canvas, bad.left + 5, stop, ALIGN_LEFT, "stop");
    canvas_label(canvas, bad.left + 5, look, ALIGN_LEFT, "look closer");
    canvas_label(canvas, bad.right - 2, room, ALIGN_RIGHT, "room");
}

/* ---- what a turn is at the nut's rim, at its true diameter where that is known and fits ----
 */

static const double turns[] = {1, 2, 3, 5, 10}; /* degrees */

enum { TURNS = sizeof turns / sizeof turns[0] };

static const double RIM_TOP = 64, MIDDLE = 96; /* of the rim; x of its place of rest */

static const double LARGEST = 300, OTHER = 100; /* radii: drawn true; drawn otherwise */

struct rim {
    struct canvas *canvas;
    const struct nut *nut;
    double radius; /* as drawn */
    bool known;    /* in truth */
};

static double rim_x(double degrees, double radius)
{
    return MIDDLE + radius * sin(radians(degrees));
}

static double rim_y(const struct rim *rim, double degrees, double radius)
{
    return RIM_TOP + rim->radius - radius * cos(radians(degrees));
}

static const char *distance_text(struct arena *arena, const struct nut_distance *distance)
{
    return arena_format(arena, "%s\u00a0%s", distance->shown.text, distance->unit);
}

/* "1.1 mm of rim, 4.2 µm axially": what is known of a turn, as in the table. */
static const char *turn_words(const struct rim *rim, double degrees)
{
    struct arena *arena = rim->canvas->arena;
    struct nut_distance passed = nut_rim_distance(rim->nut, degrees);
    struct nut_distance travel = nut_travel_distance(rim->nut, degrees);
    const char *text = arena_format(arena, "%.0f°", degrees);
    if (rim->known)
        text = arena_format(arena, "%s: %s of rim", text, distance_text(arena, &passed));
    if (isfinite(travel.value))
        text = arena_format(arena, "%s%s %s axially", text, rim->known ? "," : ":",
                            distance_text(arena, &travel));
    return text;
}

/* A mark at the rim, led to its words in the column at the right. */
static const char *draw_turn(const struct rim *rim, int index)
{
    struct canvas *c = rim->canvas;
    const char *words = turn_words(rim, turns[index]);
    double degrees = turns[index], inner = rim->radius - 7;
    double x = rim_x(degrees, rim->radius), y = rim_y(rim, degrees, rim->radius);
    double row = 14 + 12.0 * index, column = 150;
    canvas_line(c, rim_x(degrees, inner), rim_y(rim, degrees, inner), x, y, &ink_thin);
    canvas_line(c, x, y, column - 3, row - 2.6, &ink_thin);
    canvas_text(c, column, row, ALIGN_LEFT, words);
    return words;
}

static void draw_rim(const struct rim *rim)
{
    struct canvas *c = rim->canvas;
    double left = fmin(42, asin(fmin(1, 84 / rim->radius)) * 180 / M_PI), right = 15;
    double y = RIM_TOP + rim->radius, inner = rim->radius - 20;
    canvas_arc(c, MIDDLE, y, rim->radius, -90 - left, -90 + right);
    canvas_ink(c, &ink_thick);
    canvas_arc(c, MIDDLE, y, rim->radius - 12, -90 - left, -90 + right);
    canvas_ink(c, &ink_thin);
    canvas_line(c, MIDDLE, RIM_TOP - 18, MIDDLE, RIM_TOP + 22, &ink_centre);
    canvas_text(c, MIDDLE - 4, RIM_TOP - 12, ALIGN_RIGHT, "mark before the turn");
    canvas_arc(c, MIDDLE, y, inner, -90 - 14, -90 - 2);
    canvas_ink(c, &ink_thin);
    canvas_head(c, rim_x(-2, inner), rim_y(rim, -2, inner), -2);
}

void draw_nut_rim(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    struct arena *arena = canvas->arena;
    const struct measure *diameter = &shop->nut.outside_diameter;
    double radius = given(diameter) ? 500 * MM * diameter->q.base : 0;
    bool to_scale = radius >= 30 && radius <= LARGEST;
    struct rim rim = {canvas, &shop->nut, to_scale ? radius : OTHER, given(diameter)};
    const char *said = "The rim of the nut with marks.", *scale = "Not to scale.";
    draw_rim(&rim);
    for (int i = 0; i < TURNS; i++)
        said = arena_format(arena, "%s%s %s", said, i ? ";" : "", draw_turn(&rim, i));
    if (to_scale) { /* with a length for a rule to check */
        double left = 168, y = 92, right = left + 30 * MM;
        canvas_line(canvas, left, y - 4, left, y + 4, &ink_thin);
        canvas_line(canvas, right, y - 4, right, y + 4, &ink_thin);
        canvas_span(canvas, left, y, right, y);
        canvas_label(canvas, (left + right) / 2, y + FIGURE_DROP, ALIGN_MIDDLE, "30 mm");
        scale = arena_format(arena,
                             "In the booklet to scale 1:1, if a rule on the bar reads 30 mm: "
                             "the rim is %s across.",
                             quantity_text(arena, &diameter->q));
    }
    canvas->figure->to_scale = to_scale;
    canvas->figure->caption =
        arena_format(arena, "A turn of the nut, at its rim and along the spindle. %s", scale);
    canvas->figure->description = arena_format(arena, "%s.", said);
}
