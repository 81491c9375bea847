/* How the drag is pulled: the whole set-up, how the cord is wound and held, and what the gauge
 * reads while it is pulled. */
#include "figures/figures.h"
#include "figures/plot.h"
#include "physics/physics.h"

#include <math.h>

/* ---- the set-up, from the front and from the nose end ---- */

static const double AXIS = 92, BODY = 36, FLANGE = 41; /* height; radii of the drum */

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
    canvas_box(c, 6, 34, 86, 116, &ink_thick);
    canvas_box(c, 92, AXIS - 30, 8, 60, &ink_thick);
    canvas_box(c, 100, AXIS - 17, 12, 34, &ink_thick);
    canvas_text(c, 10, 48, ALIGN_LEFT, "headstock");
    canvas_text(c, 10, 146, ALIGN_LEFT, "power locked off");
    canvas_text(c, 98, 30, ALIGN_MIDDLE, "nose");
    canvas_leader(c, 99, 33, 106, AXIS - 12);
    canvas_box(c, 112, AXIS - FLANGE, 5, 2 * FLANGE, &ink_thick);
    canvas_box(c, 117, AXIS - BODY, 40, 2 * BODY, &ink_thick);
    canvas_box(c, 157, AXIS - FLANGE, 5, 2 * FLANGE, &ink_thick);
    for (int i = 0; i < 5; i++) { /* turns; the cord hangs from the last */
        double x = 128 + 3 * i;
        canvas_line(c, x, AXIS - BODY, x, AXIS + (i < 4 ? BODY : 0), &ink_thin);
    }
    canvas_text(c, 150, 30, ALIGN_MIDDLE, "drum");
    canvas_leader(c, 150, 33, 150, AXIS - BODY + 8);
    canvas_text(c, 168, AXIS + 28, ALIGN_LEFT, "one layer");
    canvas_leader(c, 166, AXIS + 26, 137, AXIS + 26);
    canvas_line(c, cord, AXIS, cord, 155, &ink_thick);
    const double square[] = {cord + 7, AXIS, cord + 7, AXIS + 7, cord, AXIS + 7};
    canvas_polyline(c, square, 3, &ink_thin);
    draw_gauge(c, cord);
    canvas_label(c, 10, AXIS - 4, ALIGN_LEFT, "spindle's axis");
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

void draw_set_up(const struct results *results, struct canvas *canvas)
{
    const struct shop *shop = results->shop;
    bool starting = shop_reads_starting(shop);
    canvas->figure->caption = arena_format(
        canvas->arena,
        "The cord hangs from a single layer on the drum, square to the spindle's axis, and the "
        "gauge is pulled slowly %s. Level or upward does as well, if the cord leaves the drum "
        "at a tangent and the gauge is zeroed as it is held. Not to scale.",
        starting ? "from rest until the spindle turns: the limits are for the starting drag"
                 : "and evenly");
    draw_front(canvas, starting);
    draw_end(canvas);
}

/* ---- how the cord lies: right, and the two ways in which it goes wrong ---- */

static const double TOP = 30, BARREL = 62, CORD = 4; /* of the drum; thickness of the cord */

/* A drum from the side with its heading, and so many turns in one layer. */
static void draw_winding_drum(struct canvas *c, double x, const char *heading, double first,
                              int turns)
{
    double axis = TOP + BARREL / 2;
    canvas_bold(c, x + 42, 10, ALIGN_MIDDLE, heading);
    canvas_box(c, x, TOP, 84, BARREL, &ink_thick);
    canvas_box(c, x - 5, TOP - 12, 5, BARREL + 24, &ink_thick);
    canvas_box(c, x + 84, TOP - 12, 5, BARREL + 24, &ink_thick);
    canvas_line(c, x - 9, axis, x + 93, axis, &ink_centre);
    for (int i = 0; i < turns; i++)
        canvas_box(c, x + first + CORD * i, TOP - CORD, CORD, BARREL + 2 * CORD, &ink_sheet);
}

/* The cord that leaves below, this many degrees askew. */
static void draw_leaving(struct canvas *c, double x, double askew)
{
    double from = TOP + BARREL / 2, to = from + 64, lean = 64 * tan(radians(askew));
    const double cord[] = {x, from, x + CORD, from, x + CORD + lean, to, x + lean, to};
    canvas_polygon(c, cord, 4, &ink_sheet);
    double end = x + CORD / 2 + lean;
    canvas_arrow(c, end, to, end + 16 * tan(radians(askew)), to + 16);
}

void draw_winding(const struct results *results, struct canvas *canvas)
{
    const double right = 10, overlapped = 116, askew = 222;
    const double middle = askew + 26 + CORD / 2, axis = TOP + BARREL / 2;
    (void)results;
    draw_winding_drum(canvas, right, "Right: one layer", 22, 6);
    draw_leaving(canvas, right + 22 + CORD * 6, 0);
    canvas_words(canvas, right + 42, 157, 92, ALIGN_MIDDLE,
                 "Turn beside turn, and the cord leaves square.");
    draw_winding_drum(canvas, overlapped, "Wrong: overlapped", 22, 6);
    canvas_box(canvas, overlapped + 36, TOP - 2 * CORD, CORD, BARREL + 4 * CORD, &ink_sheet);
    draw_leaving(canvas, overlapped + 36, 0);
    canvas_words(canvas, overlapped + 42, 157, 92, ALIGN_MIDDLE,
                 "A larger radius: the drag is more than you work out.");
    draw_winding_drum(canvas, askew, "Wrong: askew", 14, 3);
    draw_leaving(canvas, askew + 26, 24);
    canvas_line(canvas, middle, axis, middle, axis + 80, &ink_hidden);
    canvas_arc(canvas, middle, axis, 58, 90, 66);
    canvas_ink(canvas, &ink_thin);
    canvas_text(canvas, middle - 6, axis + 62, ALIGN_RIGHT, "askew");
    canvas_words(canvas, askew + 42, 157, 92, ALIGN_MIDDLE,
                 "Pull is lost: the drag is less than you work out.");
}

/* ---- the cord's end on its peg, from the nose end: held while cord is wound on, off when it
 * is used up, and why it is never tied ---- */

static const double RADIUS = 30, PEG_AXIS = 64, PEG = 10; /* of the drum; height; the peg */

/* A place at this angle and distance from the drum's middle. */
struct spot {
    double x, y;
};

static struct spot spot_at(double x, double degrees, double radius)
{
    double angle = radians(degrees);
    return (struct spot){x + radius * cos(angle), PEG_AXIS + radius * sin(angle)};
}

/* Under its heading, over its words; from the nose end. */
static void draw_peg_drum(struct canvas *c, double x, const char *heading)
{
    canvas_bold(c, x, 11, ALIGN_MIDDLE, heading);
    canvas_circle(c, x, PEG_AXIS, RADIUS, &ink_thick);
    canvas_circle(c, x, PEG_AXIS, 11, &ink_thick);
    canvas_line(c, x - 36, PEG_AXIS, x + 36, PEG_AXIS, &ink_centre);
    canvas_line(c, x, PEG_AXIS - 36, x, PEG_AXIS + 36, &ink_centre);
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

/* At the cord's end. */
static void draw_small_gauge(struct canvas *c, double x)
{
    canvas_box(c, x - 5, PEG_AXIS + 58, 10, 15, &ink_sheet);
    canvas_box(c, x - 3, PEG_AXIS + 60, 6, 5, &ink_thin);
}

/* The way that the drum turns, and what is to be said of it. */
static void finish_peg_drum(struct canvas *c, double x, const char *words)
{
    struct spot head = spot_at(x, 320, 20);
    canvas_arc(c, x, PEG_AXIS, 20, 205, 320);
    canvas_ink(c, &ink_thin);
    canvas_head(c, head.x, head.y, 400);
    canvas_words(c, x, 168, 92, ALIGN_MIDDLE, words);
}

static void draw_held(struct canvas *c, double x)
{
    struct spot loop = spot_at(x, -140, RADIUS + 4);
    double cord = x + RADIUS + 2;
    draw_peg_drum(c, x, "Right: over a peg");
    draw_peg(c, x, -140);
    canvas_circle(c, loop.x, loop.y, 3, &ink_thick);
    canvas_arc(c, x, PEG_AXIS, RADIUS + 2, -134, 0);
    canvas_to(c, cord, PEG_AXIS + 58);
    canvas_ink(c, &ink_thick);
    draw_small_gauge(c, cord);
    canvas_arrow(c, cord, PEG_AXIS + 73, cord, PEG_AXIS + 88);
    finish_peg_drum(c, x, "The pull holds the loop on its peg.");
}

static void draw_off(struct canvas *c, double x)
{
    struct spot tip = spot_at(x, 38, RADIUS + PEG + 8);
    draw_peg_drum(c, x, "Cord used up");
    draw_peg(c, x, 38);
    canvas_circle(c, tip.x, tip.y + 3, 3, &ink_thick);
    canvas_line(c, tip.x, tip.y + 6, tip.x, PEG_AXIS + 58, &ink_thick);
    draw_small_gauge(c, tip.x);
    canvas_arrow(c, tip.x, PEG_AXIS + 73, tip.x, PEG_AXIS + 88);
    finish_peg_drum(
        c, x,
        "The peg points along the pull: the loop slips off, the spindle turns on freely.");
}

static void draw_tied(struct canvas *c, double x)
{
    struct spot knot = spot_at(x, 250, RADIUS + 2);
    double left = x - RADIUS - 2;
    draw_peg_drum(c, x, "Wrong: tied");
    canvas_arc(c, x, PEG_AXIS, RADIUS + 2, 250, 180);
    canvas_to(c, left, PEG_AXIS + 58);
    canvas_ink(c, &ink_thick);
    draw_small_gauge(c, left);
    canvas_circle(c, knot.x, knot.y, 3, &ink_solid);
    canvas_arrow(c, left - 9, PEG_AXIS + 73, left - 9, PEG_AXIS + 46);
    finish_peg_drum(c, x, "The cord winds on again and pulls in whatever hangs on it.");
}

void draw_release_peg(const struct results *results, struct canvas *canvas)
{
    (void)results;
    draw_held(canvas, 52);
    draw_off(canvas, 156);
    draw_tied(canvas, 264);
}

/* ---- the reading of one pull against time: a sketch, not data ---- */

/* Times at which the parts of a pull begin, in points from the left. */
static const double PEAK = 34, SETTLED = 78, STEADY_END = 226, STOP = 258;

static const double STEADY = 52, WAVE = 5; /* heights: of the pull, of its wave */

/* Two turns lie between the settling and the end: two waves. */
static void walk_steady(const struct plot *plot, double from)
{
    for (double time = from; time <= STEADY_END; time += 2)
        plot_to(plot, time,
                STEADY + WAVE * sin((time - SETTLED) / (STEADY_END - SETTLED) * 4 * M_PI));
}

static void draw_reading(const struct plot *plot)
{
    plot_to(plot, 0, 0);
    plot_to(plot, 10, 0);
    plot_curve(plot, 22, 4, 28, 84, PEAK, 88);
    plot_curve(plot, 40, 88, 42, 42, 52, 42);
    plot_curve(plot, 62, 42, 66, 49, SETTLED, STEADY);
    walk_steady(plot, SETTLED + 2);
    plot_curve(plot, STEADY_END + 10, STEADY + WAVE * 0.8, STEADY_END + 14, 4, STOP, 0);
    canvas_ink(plot->canvas, &ink_thick);
}

/* The part that counts, hatched below the reading, between the least and the most of it. */
static void draw_steady(const struct plot *plot)
{
    plot_to(plot, SETTLED, 0);
    walk_steady(plot, SETTLED);
    plot_to(plot, STEADY_END, 0);
    canvas_close(plot->canvas);
    canvas_ink(plot->canvas, &ink_hatch);
    for (int i = -1; i <= 1; i++) {
        double y = plot_y(plot, STEADY + i * WAVE);
        canvas_line(plot->canvas, plot_x(plot, SETTLED), y, plot_x(plot, STEADY_END) + 6, y,
                    i == 0 ? &ink_centre : &ink_hidden);
    }
}

static void draw_turns(const struct plot *plot)
{
    struct canvas *c = plot->canvas;
    double y = plot_y(plot, 74), turn = (STEADY_END - SETTLED) / 2;
    for (int i = 0; i < 3; i++) {
        double x = plot_x(plot, SETTLED + i * turn);
        canvas_line(c, x, plot->bottom, x, y - 4, &ink_thin);
        if (i < 2)
            canvas_span(c, x, y, plot_x(plot, SETTLED + (i + 1) * turn), y);
    }
    for (int i = 0; i < 2; i++)
        canvas_label(c, plot_x(plot, SETTLED + turn * (i + 0.5)), y + FIGURE_DROP, ALIGN_MIDDLE,
                     "one turn");
    canvas_bold(c, plot_x(plot, SETTLED + turn), y - 10, ALIGN_MIDDLE,
                "Read here: whole turns, steady pull");
}

static void name_steady(const struct plot *plot)
{
    double middle = plot_x(plot, SETTLED + 74), y = plot_y(plot, 24);
    canvas_text(plot->canvas, plot_x(plot, 44), 46, ALIGN_LEFT, "breakaway");
    canvas_label(plot->canvas, middle, y, ALIGN_MIDDLE, "steady pull: half way between");
    canvas_label(plot->canvas, middle, y + FIGURE_LEAD, ALIGN_MIDDLE,
                 "the lowest and the highest");
}

static void name_starting(const struct plot *plot)
{
    struct figure *figure = plot->canvas->figure;
    canvas_bold(plot->canvas, plot_x(plot, 44), 46, ALIGN_LEFT, "Read here: the highest");
    canvas_text(plot->canvas, plot_x(plot, SETTLED + 74), plot_y(plot, 24), ALIGN_MIDDLE,
                "the spindle turns: this does not count");
    figure->caption = "A sketch, not data: one pull from rest. The highest reading, as the "
                      "spindle starts, is the starting pull. You may stop there.";
    figure->description =
        "A curve of the reading over time. It climbs to a peak, which is marked as the reading "
        "to take, and falls as the spindle turns. What follows, a lower level with waves, does "
        "not count.";
}

void draw_force_time(const struct results *results, struct canvas *canvas)
{
    struct plot plot = {canvas, 20, 34, 292, 146, .x_to = 272, .y_to = 112};
    bool starting = shop_reads_starting(results->shop);
    if (!starting) {
        draw_steady(&plot);
        draw_turns(&plot);
    }
    draw_reading(&plot);
    plot_axes(&plot, "time", "reading of the gauge");
    (starting ? name_starting : name_steady)(&plot);
    canvas_leader(canvas, plot_x(&plot, 43), 46, plot_x(&plot, PEAK + 1), plot_y(&plot, 88));
    plot_text_below(&plot, plot_x(&plot, 44), "settles");
    canvas_text(canvas, plot_x(&plot, STEADY_END + 9), plot_y(&plot, 66), ALIGN_LEFT,
                "slows down");
}
