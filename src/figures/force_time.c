/* The reading of one pull against time: a sketch, not data. */
#include "figures/axes.h"
#include "figures/figures.h"

#include <math.h>

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
