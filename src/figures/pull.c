/* The whole set-up, from the front and from the nose end. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "physics/physics.h"

#include <math.h>

static const double AXIS = 92, BODY = 36, FLANGE = 41; /* height; radii of the drum */

static void draw_headstock(struct canvas *c)
{
    canvas_box(c, 6, 34, 86, 116, &ink_thick);
    canvas_box(c, 92, AXIS - 30, 8, 60, &ink_thick);
    canvas_box(c, 100, AXIS - 17, 12, 34, &ink_thick);
    canvas_text(c, 10, 48, ALIGN_LEFT, "headstock");
    canvas_text(c, 10, 146, ALIGN_LEFT, "power locked off");
    canvas_text(c, 98, 30, ALIGN_MIDDLE, "nose");
    canvas_leader(c, 99, 33, 106, AXIS - 12);
}

/* Five turns side by side, and the cord from the middle one's neighbour down. */
static void draw_drum(struct canvas *c)
{
    canvas_box(c, 112, AXIS - FLANGE, 5, 2 * FLANGE, &ink_thick);
    canvas_box(c, 117, AXIS - BODY, 40, 2 * BODY, &ink_thick);
    canvas_box(c, 157, AXIS - FLANGE, 5, 2 * FLANGE, &ink_thick);
    for (int i = 0; i < 5; i++) {
        double x = 128 + 3 * i;
        canvas_line(c, x, AXIS - BODY, x, AXIS + (i < 4 ? BODY : 0), &ink_thin);
    }
    canvas_text(c, 150, 30, ALIGN_MIDDLE, "drum");
    canvas_leader(c, 150, 33, 150, AXIS - BODY + 8);
    canvas_text(c, 168, AXIS + 28, ALIGN_LEFT, "one layer");
    canvas_leader(c, 166, AXIS + 26, 137, AXIS + 26);
}

static void draw_gauge(struct canvas *c, double x)
{
    canvas_box(c, x - 8, 160, 16, 26, &ink_sheet);
    canvas_box(c, x - 5, 164, 10, 8, &ink_thin);
    canvas_circle(c, x, 157.5, 2.5, &ink_thin);
    canvas_arrow(c, x, 186, x, 210);
}

static void draw_front(struct canvas *c, bool starting)
{
    const double cord = 140;
    canvas_bold(c, 6, 11, ALIGN_LEFT, "From the front");
    canvas_line(c, 2, AXIS, 186, AXIS, &ink_centre);
    draw_headstock(c);
    draw_drum(c);
    canvas_line(c, cord, AXIS, cord, 155, &ink_thick);
    const double square[] = {cord + 7, AXIS, cord + 7, AXIS + 7, cord, AXIS + 7};
    canvas_polyline(c, square, 3, &ink_thin);
    draw_gauge(c, cord);
    canvas_sign(c, 10, AXIS - 4, ALIGN_LEFT, "spindle's axis");
    canvas_text(c, 168, AXIS + 14, ALIGN_LEFT, "square: 90°");
    canvas_leader(c, 166, AXIS + 12, cord + 5, AXIS + 5);
    canvas_text(c, cord - 12, 177, ALIGN_RIGHT, "gauge, zeroed as it hangs");
    canvas_text(c, cord - 12, 206, ALIGN_RIGHT,
                starting ? "slow pull until it turns" : "slow, steady pull");
}

static void draw_end(struct canvas *c)
{
    const double x = 258;
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "From the nose end");
    canvas_circle(c, x, AXIS, FLANGE, &ink_thick);
    canvas_circle(c, x, AXIS, BODY, &ink_hidden);
    canvas_circle(c, x, AXIS, 14, &ink_thick);
    canvas_line(c, x - 48, AXIS, x + 48, AXIS, &ink_centre);
    canvas_line(c, x, AXIS - 48, x, AXIS + 48, &ink_centre);
    canvas_line(c, x + BODY, AXIS, x + BODY, AXIS + 19, &ink_hidden);
    canvas_line(c, x + BODY, AXIS + 19.6, x + BODY, 155, &ink_thick);
    draw_gauge(c, x + BODY);
    canvas_arc(c, x, AXIS, 24, 200, 330);
    canvas_ink(c, &ink_thin);
    canvas_head(c, x + 24 * 0.8660, AXIS - 24 * 0.5, 62);
    canvas_text(c, x + BODY - 12, 206, ALIGN_RIGHT, "pull");
    const double square[] = {x + BODY - 7, AXIS, x + BODY - 7, AXIS + 7, x + BODY, AXIS + 7};
    canvas_polyline(c, square, 3, &ink_thin);
    canvas_text(c, x + BODY - 5, 150, ALIGN_RIGHT, "leaves at a tangent");
}

void draw_set_up(const struct figure_ask *ask, struct canvas *canvas)
{
    bool starting = ask->shop->limits.torque == TORQUE_STARTING;
    canvas->figure->caption =
        starting
            ? "The cord hangs from a single layer on the drum, square to the spindle's "
              "axis, and the gauge is pulled slowly from rest until the spindle turns: the "
              "limits are for the breakaway. Level or upward does as well, if the cord leaves "
              "the drum at a tangent and the gauge is zeroed as it is held. Not to scale."
            : "The cord hangs from a single layer on the drum, square to the spindle's "
              "axis, and the gauge is pulled slowly and evenly. Level or upward does as well, "
              "if the cord leaves the drum at a tangent and the gauge is zeroed as it is held. "
              "Not to scale.";
    draw_front(canvas, starting);
    draw_end(canvas);
}

/* How the cord lies: right, and the two ways in which it goes wrong. */

static const double TOP = 30, WINDING_BODY = 62,
                    CORD = 4; /* of the drum; thickness of the cord */

static void winding_draw_drum(struct canvas *c, double x)
{
    canvas_box(c, x, TOP, 84, WINDING_BODY, &ink_thick);
    canvas_box(c, x - 5, TOP - 12, 5, WINDING_BODY + 24, &ink_thick);
    canvas_box(c, x + 84, TOP - 12, 5, WINDING_BODY + 24, &ink_thick);
    canvas_line(c, x - 9, TOP + WINDING_BODY / 2, x + 93, TOP + WINDING_BODY / 2, &ink_centre);
}

/* A turn on its layer, as it is seen from the side. */
static void draw_turn(struct canvas *c, double x, int layer)
{
    double out = CORD * layer;
    canvas_box(c, x, TOP - out, CORD, WINDING_BODY + 2 * out, &ink_sheet);
}

/* The cord that leaves below, this many degrees askew. */
static void draw_leaving(struct canvas *c, double x, double askew)
{
    double from = TOP + WINDING_BODY / 2, length = 64, lean = length * tan(radians(askew));
    const double cord[] = {
        x, from, x + CORD, from, x + CORD + lean, from + length, x + lean, from + length};
    canvas_polygon(c, cord, 4, &ink_sheet);
    double end = x + CORD / 2 + lean;
    canvas_arrow(c, end, from + length, end + 16 * tan(radians(askew)), from + length + 16);
}

static void draw_right(struct canvas *c, double x)
{
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Right: one layer");
    winding_draw_drum(c, x);
    for (int i = 0; i < 6; i++)
        draw_turn(c, x + 22 + CORD * i, 1);
    draw_leaving(c, x + 22 + CORD * 6, 0);
    canvas_words(c, x + 42, 157, 92, ALIGN_MIDDLE,
                 "Turn beside turn, and the cord leaves square.");
}

static void draw_overlapped(struct canvas *c, double x)
{
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Wrong: overlapped");
    winding_draw_drum(c, x);
    for (int i = 0; i < 6; i++)
        draw_turn(c, x + 22 + CORD * i, 1);
    draw_turn(c, x + 36, 2);
    draw_leaving(c, x + 36, 0);
    canvas_words(c, x + 42, 157, 92, ALIGN_MIDDLE,
                 "A larger radius: the drag is more than you work out.");
}

static void draw_askew(struct canvas *c, double x)
{
    const double middle = x + 26 + CORD / 2, from = TOP + WINDING_BODY / 2;
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Wrong: askew");
    winding_draw_drum(c, x);
    for (int i = 0; i < 3; i++)
        draw_turn(c, x + 14 + CORD * i, 1);
    draw_leaving(c, x + 26, 24);
    canvas_line(c, middle, from, middle, from + 80, &ink_hidden);
    canvas_arc(c, middle, from, 58, 90, 66);
    canvas_ink(c, &ink_thin);
    canvas_text(c, middle - 6, from + 62, ALIGN_RIGHT, "askew");
    canvas_words(c, x + 42, 157, 92, ALIGN_MIDDLE,
                 "Pull is lost: the drag is less than you work out.");
}

void draw_winding(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    draw_right(canvas, 10);
    draw_overlapped(canvas, 116);
    draw_askew(canvas, 222);
}

/* The cord's end on its peg: held while cord is wound on, off when it is used up, and why
 * it is never tied. Seen from the nose end. */

static const double RADIUS = 30, RELEASE_PEG_AXIS = 64,
                    PEG = 10; /* of the drum; its height; the peg */

/* A place at this angle and distance from the drum's middle. */
struct spot {
    double x, y;
};

static struct spot spot_at(double x, double degrees, double radius)
{
    double angle = radians(degrees);
    return (struct spot){x + radius * cos(angle), RELEASE_PEG_AXIS + radius * sin(angle)};
}

static void release_peg_draw_drum(struct canvas *c, double x)
{
    canvas_circle(c, x, RELEASE_PEG_AXIS, RADIUS, &ink_thick);
    canvas_circle(c, x, RELEASE_PEG_AXIS, 11, &ink_thick);
    canvas_line(c, x - 36, RELEASE_PEG_AXIS, x + 36, RELEASE_PEG_AXIS, &ink_centre);
    canvas_line(c, x, RELEASE_PEG_AXIS - 36, x, RELEASE_PEG_AXIS + 36, &ink_centre);
}

/* A thin peg that stands out from the rim. */
static void draw_peg(struct canvas *c, double x, double degrees)
{
    const double half = 3; /* degrees */
    struct spot a = spot_at(x, degrees - half, RADIUS), b = spot_at(x, degrees + half, RADIUS);
    struct spot d = spot_at(x, degrees + half * 0.75, RADIUS + PEG);
    struct spot e = spot_at(x, degrees - half * 0.75, RADIUS + PEG);
    const double points[] = {a.x, a.y, b.x, b.y, d.x, d.y, e.x, e.y};
    canvas_polygon(c, points, 4, &ink_sheet);
}

/* The gauge at the cord's end. */
static void release_peg_draw_gauge(struct canvas *c, double x)
{
    canvas_box(c, x - 5, RELEASE_PEG_AXIS + 58, 10, 15, &ink_sheet);
    canvas_box(c, x - 3, RELEASE_PEG_AXIS + 60, 6, 5, &ink_thin);
}

static void release_peg_draw_turn(struct canvas *c, double x, double from, double to)
{
    struct spot head = spot_at(x, to, 20);
    canvas_arc(c, x, RELEASE_PEG_AXIS, 20, from, to);
    canvas_ink(c, &ink_thin);
    canvas_head(c, head.x, head.y, to + 80);
}

static void draw_held(struct canvas *c, double x)
{
    struct spot loop = spot_at(x, -140, RADIUS + 4);
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Right: over a peg");
    release_peg_draw_drum(c, x);
    draw_peg(c, x, -140);
    canvas_circle(c, loop.x, loop.y, 3, &ink_thick);
    canvas_arc(c, x, RELEASE_PEG_AXIS, RADIUS + 2, -134, 0);
    canvas_to(c, x + RADIUS + 2, RELEASE_PEG_AXIS + 58);
    canvas_ink(c, &ink_thick);
    release_peg_draw_gauge(c, x + RADIUS + 2);
    canvas_arrow(c, x + RADIUS + 2, RELEASE_PEG_AXIS + 73, x + RADIUS + 2,
                 RELEASE_PEG_AXIS + 88);
    release_peg_draw_turn(c, x, 205, 320);
    canvas_words(c, x, 168, 92, ALIGN_MIDDLE, "The pull holds the loop on its peg.");
}

static void draw_off(struct canvas *c, double x)
{
    struct spot tip = spot_at(x, 38, RADIUS + PEG + 8);
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Cord used up");
    release_peg_draw_drum(c, x);
    draw_peg(c, x, 38);
    canvas_circle(c, tip.x, tip.y + 3, 3, &ink_thick);
    canvas_line(c, tip.x, tip.y + 6, tip.x, RELEASE_PEG_AXIS + 58, &ink_thick);
    release_peg_draw_gauge(c, tip.x);
    canvas_arrow(c, tip.x, RELEASE_PEG_AXIS + 73, tip.x, RELEASE_PEG_AXIS + 88);
    release_peg_draw_turn(c, x, 205, 320);
    canvas_words(
        c, x, 168, 92, ALIGN_MIDDLE,
        "The peg points along the pull: the loop slips off, the spindle turns on freely.");
}

static void draw_tied(struct canvas *c, double x)
{
    struct spot knot = spot_at(x, 250, RADIUS + 2);
    double left = x - RADIUS - 2;
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Wrong: tied");
    release_peg_draw_drum(c, x);
    canvas_arc(c, x, RELEASE_PEG_AXIS, RADIUS + 2, 250, 180);
    canvas_to(c, left, RELEASE_PEG_AXIS + 58);
    canvas_ink(c, &ink_thick);
    release_peg_draw_gauge(c, left);
    canvas_circle(c, knot.x, knot.y, 3, &ink_solid);
    canvas_arrow(c, left - 9, RELEASE_PEG_AXIS + 73, left - 9, RELEASE_PEG_AXIS + 46);
    release_peg_draw_turn(c, x, 205, 320);
    canvas_words(c, x, 168, 92, ALIGN_MIDDLE,
                 "The cord winds on again and pulls in whatever hangs on it.");
}

void draw_release_peg(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    draw_held(canvas, 52);
    draw_off(canvas, 156);
    draw_tied(canvas, 264);
}

/* The reading of one pull against time: a sketch, not data. */

/* Times at which the parts of a pull begin, in points from the left. */
static const double PEAK = 34, SETTLED = 78, STEADY_END = 226, STOP = 258;

static const double STEADY = 52, WAVE = 5; /* heights: of the pull, of its wave */

static const struct axes axes = {
    .left = 20, .top = 34, .right = 292, .bottom = 146, .x_to = 272, .y_to = 112};

/* Two turns lie between the settling and the end: two waves. */
static double steady_at(double time)
{
    return STEADY + WAVE * sin((time - SETTLED) / (STEADY_END - SETTLED) * 4 * M_PI);
}

static void walk_to(struct canvas *c, double time, double pull)
{
    canvas_to(c, axes_x(&axes, time), axes_y(&axes, pull));
}

static void curve_to(struct canvas *c, double t1, double p1, double t2, double p2, double time,
                     double pull)
{
    canvas_curve(c, axes_x(&axes, t1), axes_y(&axes, p1), axes_x(&axes, t2), axes_y(&axes, p2),
                 axes_x(&axes, time), axes_y(&axes, pull));
}

static void draw_reading(struct canvas *c)
{
    walk_to(c, 0, 0);
    walk_to(c, 10, 0);
    curve_to(c, 22, 4, 28, 84, PEAK, 88);
    curve_to(c, 40, 88, 42, 42, 52, 42);
    curve_to(c, 62, 42, 66, 49, SETTLED, STEADY);
    for (double time = SETTLED + 2; time <= STEADY_END; time += 2)
        walk_to(c, time, steady_at(time));
    curve_to(c, STEADY_END + 10, STEADY + WAVE * 0.8, STEADY_END + 14, 4, STOP, 0);
    canvas_ink(c, &ink_thick);
}

/* The part that counts, hatched below the reading. */
static void hatch_steady(struct canvas *c)
{
    walk_to(c, SETTLED, 0);
    for (double time = SETTLED; time <= STEADY_END; time += 2)
        walk_to(c, time, steady_at(time));
    walk_to(c, STEADY_END, 0);
    canvas_close(c);
    canvas_ink(c, &ink_hatch);
}

static void draw_limits(struct canvas *c)
{
    const double heights[] = {STEADY - WAVE, STEADY, STEADY + WAVE};
    for (int i = 0; i < 3; i++) {
        double y = axes_y(&axes, heights[i]);
        canvas_line(c, axes_x(&axes, SETTLED), y, axes_x(&axes, STEADY_END) + 6, y,
                    i == 1 ? &ink_centre : &ink_hidden);
    }
}

static void draw_zones(struct canvas *c, bool starting)
{
    const double times[] = {SETTLED, (SETTLED + STEADY_END) / 2, STEADY_END};
    double y = axes_y(&axes, 74);
    for (int i = 0; i < 3; i++) {
        double x = axes_x(&axes, times[i]);
        canvas_line(c, x, axes.bottom, x, y - 4, &ink_thin);
        if (i < 2)
            canvas_span(c, x, y, axes_x(&axes, times[i + 1]), y);
    }
    canvas_sign(c, axes_x(&axes, SETTLED + 37), y + FIGURE_DROP, ALIGN_MIDDLE, "one turn");
    canvas_sign(c, axes_x(&axes, SETTLED + 111), y + FIGURE_DROP, ALIGN_MIDDLE, "one turn");
    if (starting)
        canvas_text(c, axes_x(&axes, SETTLED + 74), y - 10, ALIGN_MIDDLE,
                    "steady pull, in whole turns");
    else
        canvas_bold(c, axes_x(&axes, SETTLED + 74), y - 10, ALIGN_MIDDLE,
                    "Read here: whole turns, steady pull");
}

void draw_force_time(const struct figure_ask *ask, struct canvas *canvas)
{
    bool starting = ask->shop->limits.torque == TORQUE_STARTING;
    hatch_steady(canvas);
    draw_limits(canvas);
    draw_zones(canvas, starting);
    draw_reading(canvas);
    axes_draw(canvas, &axes, "time", "reading of the gauge");
    if (starting)
        canvas_bold(canvas, axes_x(&axes, 44), 46, ALIGN_LEFT, "Read here: the breakaway");
    else
        canvas_text(canvas, axes_x(&axes, 44), 46, ALIGN_LEFT, "breakaway");
    canvas_leader(canvas, axes_x(&axes, 43), 46, axes_x(&axes, PEAK + 1), axes_y(&axes, 88));
    axes_text_below(canvas, &axes, axes_x(&axes, 44), "settles");
    canvas_sign(canvas, axes_x(&axes, SETTLED + 74), axes_y(&axes, 24), ALIGN_MIDDLE,
                "steady pull: half way between");
    canvas_sign(canvas, axes_x(&axes, SETTLED + 74), axes_y(&axes, 24) + FIGURE_LEAD,
                ALIGN_MIDDLE, "the lowest and the highest");
    canvas_text(canvas, axes_x(&axes, STEADY_END + 9), axes_y(&axes, 66), ALIGN_LEFT,
                "slows down");
}
