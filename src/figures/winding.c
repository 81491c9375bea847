/* How the cord lies: right, and the two ways in which it goes wrong. */
#include "drag/angle.h"
#include "figures/figures.h"

#include <math.h>

static const double TOP = 30, BODY = 62, CORD = 4; /* of the drum; thickness of the cord */

static void draw_drum(struct canvas *c, double x)
{
    canvas_box(c, x, TOP, 84, BODY, &ink_thick);
    canvas_box(c, x - 5, TOP - 12, 5, BODY + 24, &ink_thick);
    canvas_box(c, x + 84, TOP - 12, 5, BODY + 24, &ink_thick);
    canvas_line(c, x - 9, TOP + BODY / 2, x + 93, TOP + BODY / 2, &ink_centre);
}

/* A turn on its layer, as it is seen from the side. */
static void draw_turn(struct canvas *c, double x, int layer)
{
    double out = CORD * layer;
    canvas_box(c, x, TOP - out, CORD, BODY + 2 * out, &ink_sheet);
}

/* The cord that leaves below, this many degrees askew. */
static void draw_leaving(struct canvas *c, double x, double askew)
{
    double from = TOP + BODY / 2, length = 64, lean = length * tan(radians(askew));
    const double cord[] = {
        x, from, x + CORD, from, x + CORD + lean, from + length, x + lean, from + length};
    canvas_polygon(c, cord, 4, &ink_sheet);
    double end = x + CORD / 2 + lean;
    canvas_arrow(c, end, from + length, end + 16 * tan(radians(askew)), from + length + 16);
}

static void draw_right(struct canvas *c, double x)
{
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Right: one layer");
    draw_drum(c, x);
    for (int i = 0; i < 6; i++)
        draw_turn(c, x + 22 + CORD * i, 1);
    draw_leaving(c, x + 22 + CORD * 6, 0);
    canvas_words(c, x + 42, 157, 92, ALIGN_MIDDLE,
                 "Turn beside turn, and the cord leaves square.");
}

static void draw_overlapped(struct canvas *c, double x)
{
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Wrong: overlapped");
    draw_drum(c, x);
    for (int i = 0; i < 6; i++)
        draw_turn(c, x + 22 + CORD * i, 1);
    draw_turn(c, x + 36, 2);
    draw_leaving(c, x + 36, 0);
    canvas_words(c, x + 42, 157, 92, ALIGN_MIDDLE,
                 "A larger radius: the drag is more than you work out.");
}

static void draw_askew(struct canvas *c, double x)
{
    const double middle = x + 26 + CORD / 2, from = TOP + BODY / 2;
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, "Wrong: askew");
    draw_drum(c, x);
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
