/* Two opposed taper roller bearings in both arrangements, upper half in section, with
 * the way that the preload's force takes. */
#include "figures/figures.h"

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
static const double FACE = 18, BACK = 17;    /* of cone and cup, from the middle */

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
