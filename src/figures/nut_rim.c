/* What a turn is at the nut's rim, at its true diameter where that is known and fits. */
#include "drag/angle.h"
#include "figures/figures.h"
#include "shop/words.h"
#include "tree/points.h"
#include "verdict/nut_way.h"

#include <math.h>

static const double turns[] = {1, 2, 3, 5, 10};
enum { TURNS = sizeof turns / sizeof turns[0] };

static const double TOP = 64, MIDDLE = 96;      /* of the rim; x of its place of rest */
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

static const char *way_text(struct arena *arena, const struct nut_way *way)
{
    return arena_format(arena, "%s\u00a0%s", show_way(way, 0).text, way->unit);
}

/* "1.1 mm of rim", "4.2 µm along the spindle": what is known of a turn, as in the table. */
static const char *turn_words(const struct rim *rim, double degrees)
{
    struct arena *arena = rim->ask->arena;
    struct nut_way passed = nut_rim_way(rim->nut, degrees);
    struct nut_way travel = nut_travel_way(rim->nut, degrees);
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
