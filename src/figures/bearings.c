/* Two opposed taper roller bearings in both arrangements, upper half in section, with
 * the way that the preload's force takes. */
#include "doc/canvas.h"
#include "figures/figures.h"
#include "figures/plot.h"
#include "judge/nut.h"
#include "judge/warmth.h"
#include "physics/physics.h"
#include "shop/shop.h"

#include <math.h>

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

/* The force through a bearing: from the cone's back face square through the roller to the
 * cup's back face. Points from the spindle outward. */
static void force_through(const struct bearing *b, double points[8])
{
    const double local[] = {-HALF - 3, BORE + 6, -6, BORE + 6, 4, 57, HALF + 2, 60};
    for (size_t i = 0; i < 4; i++) {
        points[2 * i] = b->x - b->large * local[2 * i];
        points[2 * i + 1] = b->axis - local[2 * i + 1];
    }
}

/* A band of paper below the force, so that it is seen on hatching. */
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

/* Larger than a dimension's: it stands on a thick line. */
static void draw_arrow_head(struct canvas *c, double x1, double y1, double x2, double y2)
{
    double x = (x1 + x2) / 2, y = (y1 + y2) / 2, length = hypot(x2 - x1, y2 - y1);
    double along_x = 4 * (x2 - x1) / length, along_y = 4 * (y2 - y1) / length;
    const double points[] = {x + along_x,
                             y + along_y,
                             x - along_x - along_y * 0.7,
                             y - along_y + along_x * 0.7,
                             x - along_x + along_y * 0.7,
                             y - along_y - along_x * 0.7};
    canvas_polygon(c, points, 3, &ink_solid);
}

/* Round trip: through the left bearing, along the headstock, through the right bearing,
 * back along the spindle. */
static void draw_round_trip(struct canvas *c, const struct bearing *left,
                            const struct bearing *right)
{
    double in[8], out[8], path[24], low = left->axis - 14, high = left->axis - 76;
    force_through(left, in);
    force_through(right, out);
    size_t n = 0;
    path[n++] = in[0], path[n++] = low;
    for (int i = 0; i < 8; i++)
        path[n++] = in[i];
    path[n++] = in[6], path[n++] = high, path[n++] = out[6], path[n++] = high;
    for (size_t i = 4; i-- > 0;)
        path[n++] = out[2 * i], path[n++] = out[2 * i + 1];
    double back[] = {out[0], out[1], out[0], low, path[0], low};
    draw_force(c, path, n / 2);
    draw_force(c, back, 3);
    draw_arrow_head(c, in[6], high, out[6], high);
    draw_arrow_head(c, out[0], low, path[0], low);
}

static const double LEFT = 108, RIGHT = 218; /* middles of the two bearings */

static const double FACE = 18, BACK = 17; /* of cone and cup, from the middle */

/* A part as a box: from one length to another, between two heights. */
static void draw_part(struct canvas *c, double axis, double from, double to, double low,
                      double high, const struct ink *ink)
{
    canvas_box(c, from, axis - high, to - from, high - low, ink);
}

/* The outline of something that reaches down to the axis: x, height, x, height, ... */
static void draw_spindle(struct canvas *c, double axis, const double *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        canvas_to(c, points[2 * i], axis - points[2 * i + 1]);
    canvas_ink(c, &ink_thick);
    canvas_line(c, 14, axis, 302, axis, &ink_centre);
    canvas_text(c, (LEFT + RIGHT) / 2, axis - 4, ALIGN_MIDDLE, "spindle");
}

static void draw_headstock(struct canvas *c, double axis, const double *points, size_t count)
{
    for (size_t i = 0; i < count; i++)
        canvas_to(c, points[2 * i], axis - points[2 * i + 1]);
    canvas_close(c);
    canvas_ink(c, &ink_section);
}

/* A name to the right of the text's y, and what it names. */
static void name_with_leader(struct canvas *c, double x, double y, const char *text,
                             double to_x, double to_y)
{
    double from = x < to_x ? x + canvas_width(c, false, text) + 2 : x - 2;
    canvas_text(c, x, y, ALIGN_LEFT, text);
    canvas_leader(c, from, y - FIGURE_DROP, to_x, to_y);
}

static void name_parts(struct canvas *c, double axis)
{
    name_with_leader(c, 6, axis - 64, "nut", LEFT - FACE - 8, axis - BORE - 13);
    name_with_leader(c, 6, axis - 44, "lock", LEFT - FACE - 23, axis - BORE - 9);
    name_with_leader(c, 151, axis - 45, "rollers", LEFT + 5, axis - 43);
    name_with_leader(c, 151, axis - 33, "cone", LEFT + 11, axis - BORE - 3);
    name_with_leader(c, 274, axis - 74, "headstock", RIGHT + 21, axis - 77);
    name_with_leader(c, 274, axis - 58, "cup", RIGHT + 3, axis - CUP + 3);
    name_with_leader(c, 274, axis - 42, "collar", RIGHT + 25, axis - BORE - 7);
}

/* Large ends outward; the nut presses the cones toward each other. */
static void draw_back_to_back(struct canvas *c, double axis)
{
    struct bearing left = {c, LEFT, axis, -1}, right = {c, RIGHT, axis, 1};
    const double shoulder = CUP - 8, collar = BORE + 14, begin = RIGHT + FACE;
    const double shaft[] = {LEFT - 60,  0,      LEFT - 60,  BORE,   begin,      BORE,
                            begin,      collar, begin + 14, collar, begin + 14, BORE,
                            begin + 40, BORE,   begin + 40, 0};
    const double body[] = {LEFT - 28,    CUP,      LEFT + BACK,  CUP,    LEFT + BACK, shoulder,
                           RIGHT - BACK, shoulder, RIGHT - BACK, CUP,    RIGHT + 28,  CUP,
                           RIGHT + 28,   HOUSING,  LEFT - 28,    HOUSING};
    draw_headstock(c, axis, body, 8);
    draw_spindle(c, axis, shaft, 8);
    draw_part(c, axis, LEFT - FACE - 16, LEFT - FACE, BORE, BORE + 18, &ink_section_back);
    draw_part(c, axis, LEFT - FACE - 28, LEFT - FACE - 17, BORE, BORE + 18, &ink_section);
    draw_bearing(&left);
    draw_bearing(&right);
    draw_round_trip(c, &left, &right);
    name_parts(c, axis);
}

/* Large ends inward; a ring in the headstock presses the cups toward each other. */
static void draw_face_to_face(struct canvas *c, double axis)
{
    struct bearing left = {c, LEFT, axis, 1}, right = {c, RIGHT, axis, -1};
    const double thick = BORE + 10, shoulder = CUP - 10;
    const double shaft[] = {LEFT - 60,   0,     LEFT - 60,    BORE,  LEFT + FACE,  BORE,
                            LEFT + FACE, thick, RIGHT - FACE, thick, RIGHT - FACE, BORE,
                            RIGHT + 58,  BORE,  RIGHT + 58,   0};
    const double body[] = {LEFT - 36,  CUP,      RIGHT + BACK, CUP,     RIGHT + BACK, shoulder,
                           RIGHT + 32, shoulder, RIGHT + 32,   HOUSING, LEFT - 36,    HOUSING};
    draw_headstock(c, axis, body, 6);
    draw_spindle(c, axis, shaft, 8);
    draw_part(c, axis, LEFT - BACK - 15, LEFT - BACK, CUP - 12, CUP, &ink_section_back);
    draw_bearing(&left);
    draw_bearing(&right);
    draw_round_trip(c, &left, &right);
    name_with_leader(c, 6, axis - 57, "threaded ring", LEFT - BACK - 8, axis - CUP + 6);
    name_with_leader(c, 274, axis - 46, "shoulder", RIGHT + 25, axis - CUP + 5);
}

void draw_bearings(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    canvas_bold(canvas, 6, 12, ALIGN_LEFT, "Back to back: a nut on the spindle");
    canvas_line(canvas, 214, 9.5, 238, 9.5, &ink_force);
    canvas_text(canvas, 243, 12, ALIGN_LEFT, "way of the force");
    draw_back_to_back(canvas, 112);
    canvas_bold(canvas, 6, 142, ALIGN_LEFT, "Face to face: a ring in the headstock");
    draw_face_to_face(canvas, 242);
}

/* Where to measure the temperature of the bearings. */

static const double AXIS = 96;

static void draw_lathe(struct canvas *c)
{
    canvas_box(c, 84, 50, 120, 92, &ink_thick);        /* headstock */
    canvas_box(c, 204, AXIS - 30, 9, 60, &ink_thick);  /* front cap */
    canvas_box(c, 76, AXIS - 24, 8, 48, &ink_thick);   /* rear cap */
    canvas_box(c, 213, AXIS - 14, 16, 28, &ink_thick); /* nose */
    canvas_box(c, 50, AXIS - 32, 14, 64, &ink_thick);  /* pulley */
    canvas_box(c, 40, AXIS - 14, 36, 28, &ink_hidden); /* spindle's tail */
    canvas_box(c, 24, 142, 200, 14, &ink_thick);       /* bed */
    canvas_line(c, 30, AXIS, 244, AXIS, &ink_centre);
    canvas_box(c, 172, AXIS - 22, 26, 44, &ink_hidden); /* front bearing */
    canvas_box(c, 90, AXIS - 18, 20, 36, &ink_hidden);  /* rear bearing */
    canvas_text(c, 144, 66, ALIGN_MIDDLE, "headstock");
    canvas_sign(c, 142, AXIS + 3, ALIGN_MIDDLE, "bearings");
}

/* A place to measure: a number in a ring, and its words. */
static void draw_place(struct canvas *c, const char *number, double x, double y, double to_x,
                       double to_y)
{
    canvas_leader(c, x, y, to_x, to_y);
    canvas_circle(c, x, y, 6.5, &ink_sheet);
    canvas_bold(c, x, y + 2.7, ALIGN_MIDDLE, number);
}

void draw_where_to_feel(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    draw_lathe(canvas);
    draw_place(canvas, "1", 224, 40, 209, AXIS - 26);
    canvas_words(canvas, 234, 38, 80, ALIGN_LEFT,
                 "front cap, over the bearing: read here, always at one marked spot");
    draw_place(canvas, "2", 70, 34, 80, AXIS - 20);
    canvas_text(canvas, 80, 36, ALIGN_LEFT, "rear cap: it may be the hotter one");
    draw_place(canvas, "3", 262, 112, 262, 112);
    canvas_words(canvas, 272, 110, 42, ALIGN_LEFT, "the room, in the shade");
    canvas_text(canvas, 6, 14, ALIGN_LEFT, "not here: belt and pulley");
    canvas_leader(canvas, 40, 17, 56, AXIS - 28);
}

/* Temperature of the cap while a spindle runs in: how it should and should not go. A
 * sketch, not data. */

static const double ROOM = 12, LOOK = 62, STOP = 88; /* heights of the plots */

enum { STAGES = 4 };

static struct axes axes_at(double left)
{
    return (struct axes){
        .left = left, .top = 36, .right = left + 134, .bottom = 146, .x_to = 128, .y_to = 104};
}

/* From stage to stage the temperature rises less and less, and settles. */
static void draw_good(struct canvas *c, const struct axes *axes)
{
    const double heights[] = {ROOM, 28, 38, 46, 52};
    canvas_move(c, axes_x(axes, 0), axes_y(axes, ROOM));
    for (int i = 0; i < STAGES; i++) {
        double from = 30.0 * i, high = heights[i + 1];
        canvas_curve(c, axes_x(axes, from + 6), axes_y(axes, high - 1), axes_x(axes, from + 12),
                     axes_y(axes, high), axes_x(axes, from + 30), axes_y(axes, high));
    }
    canvas_ink(c, &ink_thick);
    for (int i = 1; i < STAGES; i++)
        axes_tick(c, axes, axes_x(axes, 30.0 * i));
    axes_text_below(c, axes, axes_x(axes, 45), "stages of speed");
    canvas_text(c, axes_x(axes, 52), axes_y(axes, 28), ALIGN_LEFT, "settles before the");
    canvas_text(c, axes_x(axes, 52), axes_y(axes, 28) + FIGURE_LEAD, ALIGN_LEFT, "next stage");
}

static void draw_bad(struct canvas *c, const struct axes *axes)
{
    canvas_move(c, axes_x(axes, 0), axes_y(axes, ROOM));
    canvas_curve(c, axes_x(axes, 10), axes_y(axes, 30), axes_x(axes, 20), axes_y(axes, 34),
                 axes_x(axes, 36), axes_y(axes, 36));
    canvas_curve(c, axes_x(axes, 64), axes_y(axes, 40), axes_x(axes, 92), axes_y(axes, 58),
                 axes_x(axes, 104), axes_y(axes, 100));
    canvas_ink(c, &ink_thick);
    canvas_text(c, axes_x(axes, 62), axes_y(axes, 28), ALIGN_LEFT, "rises faster and");
    canvas_text(c, axes_x(axes, 62), axes_y(axes, 28) + FIGURE_LEAD, ALIGN_LEFT,
                "faster: stop");
    canvas_leader(c, axes_x(axes, 78), axes_y(axes, 28) - 7, axes_x(axes, 84),
                  axes_y(axes, 53));
}

static void draw_lines(struct canvas *c, const struct axes *axes)
{
    const double heights[] = {ROOM, LOOK, STOP};
    const struct ink *const inks[] = {&ink_centre, &ink_hidden, &ink_thin};
    for (int i = 0; i < 3; i++)
        axes_across(c, axes, axes_y(axes, heights[i]), inks[i]);
}

static const char *stop_words(const struct figure_ask *ask)
{
    return arena_format(ask->arena, "%s, or room + %s: stop", stop_text(ask->arena, ask->shop),
                        rise_text(ask->arena, ask->shop));
}

void draw_run_in(const struct figure_ask *ask, struct canvas *canvas)
{
    struct axes good = axes_at(12), bad = axes_at(170);
    draw_lines(canvas, &good);
    draw_lines(canvas, &bad);
    draw_good(canvas, &good);
    draw_bad(canvas, &bad);
    axes_draw(canvas, &good, "time", "temperature of the cap");
    axes_draw(canvas, &bad, "time", "temperature of the cap");
    canvas_bold(canvas, (good.left + good.right) / 2, 14, ALIGN_MIDDLE, "Good");
    canvas_bold(canvas, (bad.left + bad.right) / 2, 14, ALIGN_MIDDLE, "Bad");
    canvas_sign(canvas, good.right - 2, axes_y(&good, STOP) - 3, ALIGN_RIGHT, stop_words(ask));
    canvas_sign(canvas, good.right - 2, axes_y(&good, LOOK) - 3, ALIGN_RIGHT,
                arena_format(ask->arena, "room + %d °C: look closer", RUN_IN_LOOK_CELSIUS));
    canvas_sign(canvas, good.right - 2, axes_y(&good, ROOM) - 3, ALIGN_RIGHT, "room");
    canvas_sign(canvas, bad.left + 5, axes_y(&bad, STOP) - 3, ALIGN_LEFT, "stop");
    canvas_sign(canvas, bad.left + 5, axes_y(&bad, LOOK) - 3, ALIGN_LEFT, "look closer");
    canvas_sign(canvas, bad.right - 2, axes_y(&bad, ROOM) - 3, ALIGN_RIGHT, "room");
}

/* What a turn is at the nut's rim, at its true diameter where that is known and fits. */

static const double turns[] = {1, 2, 3, 5, 10};

enum { TURNS = sizeof turns / sizeof turns[0] };

static const double TOP = 64, MIDDLE = 96; /* of the rim; x of its place of rest */

static const double LARGEST = 300, OTHER = 100; /* radii: drawn true; drawn otherwise */

struct rim {
    const struct figure_ask *ask;
    struct canvas *canvas;
    const struct nut *nut;
    double radius; /* as drawn */
    bool known, to_scale;
};

static double x_at(double degrees, double radius)
{
    return MIDDLE + radius * sin(radians(degrees));
}

static double y_at(const struct rim *rim, double degrees, double radius)
{
    return TOP + rim->radius - radius * cos(radians(degrees));
}

static const char *way_text(struct arena *arena, const struct nut_distance *way)
{
    return arena_format(arena, "%s\u00a0%s", show_distance(way, 0).text, way->unit);
}

/* "1.1 mm of rim", "4.2 µm along the spindle": what is known of a turn, as in the table. */
static const char *turn_words(const struct rim *rim, double degrees)
{
    struct arena *arena = rim->ask->arena;
    struct nut_distance passed = nut_rim_distance(rim->nut, degrees);
    struct nut_distance travel = nut_travel_distance(rim->nut, degrees);
    const char *text = arena_format(arena, "%.0f°", degrees);
    if (rim->known)
        text = arena_format(arena, "%s: %s of rim", text, way_text(arena, &passed));
    if (isfinite(travel.value))
        text = arena_format(arena, "%s%s %s along the spindle", text, rim->known ? "," : ":",
                            way_text(arena, &travel));
    return text;
}

/* A mark at the rim, led to its words in the column at the right. */
static void draw_turn(const struct rim *rim, int index)
{
    struct canvas *c = rim->canvas;
    double degrees = turns[index], inner = rim->radius - 7;
    double x = x_at(degrees, rim->radius), y = y_at(rim, degrees, rim->radius);
    double row = 14 + 12.0 * index, column = 150;
    canvas_line(c, x_at(degrees, inner), y_at(rim, degrees, inner), x, y, &ink_thin);
    canvas_line(c, x, y, column - 3, row - 2.6, &ink_thin);
    canvas_text(c, column, row, ALIGN_LEFT, turn_words(rim, degrees));
}

static void draw_rim(const struct rim *rim)
{
    struct canvas *c = rim->canvas;
    double left = fmin(42, asin(fmin(1, 84 / rim->radius)) * 180 / M_PI), right = 15;
    double y = TOP + rim->radius;
    canvas_arc(c, MIDDLE, y, rim->radius, -90 - left, -90 + right);
    canvas_ink(c, &ink_thick);
    canvas_arc(c, MIDDLE, y, rim->radius - 12, -90 - left, -90 + right);
    canvas_ink(c, &ink_thin);
    canvas_line(c, MIDDLE, TOP - 18, MIDDLE, TOP + 22, &ink_centre);
    canvas_text(c, MIDDLE - 4, TOP - 12, ALIGN_RIGHT, "mark before the turn");
    canvas_arc(c, MIDDLE, y, rim->radius - 20, -90 - 14, -90 - 2);
    canvas_ink(c, &ink_thin);
    canvas_head(c, x_at(-2, rim->radius - 20), y_at(rim, -2, rim->radius - 20), -2);
}

/* What a rule must read on the paper. */
static void draw_check(const struct rim *rim)
{
    struct canvas *c = rim->canvas;
    double left = 168, y = 92, right = left + 30 * MM;
    canvas_line(c, left, y - 4, left, y + 4, &ink_thin);
    canvas_line(c, right, y - 4, right, y + 4, &ink_thin);
    canvas_span(c, left, y, right, y);
    canvas_sign(c, (left + right) / 2, y + FIGURE_DROP, ALIGN_MIDDLE, "30 mm");
}

static void describe(const struct rim *rim)
{
    struct arena *arena = rim->ask->arena;
    const char *scale =
        rim->to_scale ? arena_format(arena,
                                     "In the booklet to scale 1:1, if a rule on the bar reads "
                                     "30 mm: the rim is %s across.",
                                     quantity_text(arena, &rim->nut->outside_diameter.q))
                      : "Not to scale.";
    rim->canvas->figure->caption =
        arena_format(arena, "A turn of the nut, at its rim and along the spindle. %s", scale);
    rim->canvas->figure->description = arena_format(
        arena, "The rim of the nut with marks. %s; %s; %s; %s; %s.", turn_words(rim, turns[0]),
        turn_words(rim, turns[1]), turn_words(rim, turns[2]), turn_words(rim, turns[3]),
        turn_words(rim, turns[4]));
}

void draw_nut_rim(const struct figure_ask *ask, struct canvas *canvas)
{
    const struct nut *nut = &ask->shop->nut;
    struct rim rim = {.ask = ask, .canvas = canvas, .nut = nut, .radius = OTHER};
    rim.known = given(&nut->outside_diameter);
    double radius = rim.known ? 500 * MM * nut->outside_diameter.q.base : 0;
    rim.to_scale = radius >= 30 && radius <= LARGEST;
    if (rim.to_scale)
        rim.radius = radius;
    canvas->figure->to_scale = rim.to_scale;
    draw_rim(&rim);
    for (int i = 0; i < TURNS; i++)
        draw_turn(&rim, i);
    if (rim.to_scale)
        draw_check(&rim);
    describe(&rim);
}
