/* Temperature of the cap while a spindle runs in: how it should and should not go. A
 * sketch, not data. */
#include "verdict/run_in.h"
#include "figures/axes.h"
#include "figures/figures.h"
#include "shop/words.h"

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
