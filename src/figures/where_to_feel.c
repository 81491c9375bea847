/* Where to measure the temperature of the bearings. */
#include "figures/figures.h"

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
