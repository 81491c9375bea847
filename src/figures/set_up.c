/* The whole set-up, from the front and from the nose end. */
#include "figures/figures.h"

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
