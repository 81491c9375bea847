/* The cord's end on its peg: held while cord is wound on, off when it is used up, and why
 * it is never tied. Seen from the nose end. */
#include "drag/angle.h"
#include "figures/figures.h"

#include <math.h>

static const double RADIUS = 30, AXIS = 64, PEG = 10; /* of the drum; its height; the peg */

/* A place at this angle and distance from the drum's middle. */
struct spot {
    double x, y;
};

static struct spot spot_at(double x, double degrees, double radius)
{
    double angle = radians(degrees);
    return (struct spot){x + radius * cos(angle), AXIS + radius * sin(angle)};
}

static void draw_drum(struct canvas *c, double x)
{
    canvas_circle(c, x, AXIS, RADIUS, &ink_thick);
    canvas_circle(c, x, AXIS, 11, &ink_thick);
    canvas_line(c, x - 36, AXIS, x + 36, AXIS, &ink_centre);
    canvas_line(c, x, AXIS - 36, x, AXIS + 36, &ink_centre);
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
static void draw_gauge(struct canvas *c, double x)
{
    canvas_box(c, x - 5, AXIS + 58, 10, 15, &ink_sheet);
    canvas_box(c, x - 3, AXIS + 60, 6, 5, &ink_thin);
}

static void draw_turn(struct canvas *c, double x, double from, double to)
{
    struct spot head = spot_at(x, to, 20);
    canvas_arc(c, x, AXIS, 20, from, to);
    canvas_ink(c, &ink_thin);
    canvas_head(c, head.x, head.y, to + 80);
}

static void draw_held(struct canvas *c, double x)
{
    struct spot loop = spot_at(x, -140, RADIUS + 4);
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Right: over a peg");
    draw_drum(c, x);
    draw_peg(c, x, -140);
    canvas_circle(c, loop.x, loop.y, 3, &ink_thick);
    canvas_arc(c, x, AXIS, RADIUS + 2, -134, 0);
    canvas_to(c, x + RADIUS + 2, AXIS + 58);
    canvas_ink(c, &ink_thick);
    draw_gauge(c, x + RADIUS + 2);
    canvas_arrow(c, x + RADIUS + 2, AXIS + 73, x + RADIUS + 2, AXIS + 88);
    draw_turn(c, x, 205, 320);
    canvas_words(c, x, 168, 92, ALIGN_MIDDLE, "The pull holds the loop on its peg.");
}

static void draw_off(struct canvas *c, double x)
{
    struct spot tip = spot_at(x, 38, RADIUS + PEG + 8);
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Cord used up");
    draw_drum(c, x);
    draw_peg(c, x, 38);
    canvas_circle(c, tip.x, tip.y + 3, 3, &ink_thick);
    canvas_line(c, tip.x, tip.y + 6, tip.x, AXIS + 58, &ink_thick);
    draw_gauge(c, tip.x);
    canvas_arrow(c, tip.x, AXIS + 73, tip.x, AXIS + 88);
    draw_turn(c, x, 205, 320);
    canvas_words(
        c, x, 168, 92, ALIGN_MIDDLE,
        "The peg points along the pull: the loop slips off, the spindle turns on freely.");
}

static void draw_tied(struct canvas *c, double x)
{
    struct spot knot = spot_at(x, 250, RADIUS + 2);
    double left = x - RADIUS - 2;
    canvas_bold(c, x, 11, ALIGN_MIDDLE, "Wrong: tied");
    draw_drum(c, x);
    canvas_arc(c, x, AXIS, RADIUS + 2, 250, 180);
    canvas_to(c, left, AXIS + 58);
    canvas_ink(c, &ink_thick);
    draw_gauge(c, left);
    canvas_circle(c, knot.x, knot.y, 3, &ink_solid);
    canvas_arrow(c, left - 9, AXIS + 73, left - 9, AXIS + 46);
    draw_turn(c, x, 205, 320);
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
