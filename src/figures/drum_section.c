/* Section through the shop's own drum and cord, in proportion: D, d and R. */
#include "figures/figures.h"
#include "shop/words.h"
#include "verdict/radius.h"

static const double AXIS_X = 104, AXIS_Y = 92, DRAWN = 62; /* radius of drum and cord */

/* The section of the drum, and the cord that goes round it and straight down. */
static void draw_drum(struct canvas *c, double drum, double cord)
{
    double bore = drum * 0.32;
    canvas_arc(c, AXIS_X, AXIS_Y, drum, 0, 360);
    canvas_close(c);
    canvas_move(c, AXIS_X + bore, AXIS_Y);
    canvas_arc(c, AXIS_X, AXIS_Y, bore, 0, 360);
    canvas_close(c);
    canvas_ink(c, &ink_section);
    canvas_arc(c, AXIS_X, AXIS_Y, drum + cord, -200, 0);
    canvas_to(c, AXIS_X + drum + cord, AXIS_Y + 76);
    canvas_ink(c, &ink_thin);
    canvas_line(c, AXIS_X + drum, AXIS_Y, AXIS_X + drum, AXIS_Y + 76, &ink_thin);
    canvas_line(c, AXIS_X - 74, AXIS_Y, AXIS_X + 80, AXIS_Y, &ink_centre);
    canvas_line(c, AXIS_X, AXIS_Y - 74, AXIS_X, AXIS_Y + 80, &ink_centre);
}

static void dimension_drum(struct canvas *c, double drum, const char *text)
{
    double x = AXIS_X - 88;
    canvas_line(c, x - 4, AXIS_Y - drum, AXIS_X, AXIS_Y - drum, &ink_thin);
    canvas_line(c, x - 4, AXIS_Y + drum, AXIS_X, AXIS_Y + drum, &ink_thin);
    canvas_span(c, x, AXIS_Y - drum, x, AXIS_Y + drum);
    canvas_sign(c, x - 12, AXIS_Y + 3, ALIGN_LEFT, text);
}

/* Right of the drum: what is too small to be dimensioned in place. */
static void dimension_cord(struct canvas *c, double drum, double cord, const char *text)
{
    double y = AXIS_Y + 50, left = AXIS_X + drum, right = left + cord;
    canvas_line(c, left - 14, y, left, y, &ink_thin);
    canvas_head(c, left, y, 0);
    canvas_line(c, right, y, right + 30, y, &ink_thin);
    canvas_head(c, right, y, 180);
    canvas_text(c, right + 33, y + FIGURE_DROP, ALIGN_LEFT, text);
}

static void dimension_radius(struct canvas *c, double radius, const char *text)
{
    double y = AXIS_Y + 68;
    canvas_line(c, AXIS_X + radius, AXIS_Y, AXIS_X + radius, y + 4, &ink_centre);
    canvas_span(c, AXIS_X, y, AXIS_X + radius, y);
    canvas_sign(c, AXIS_X + radius / 2, y + FIGURE_DROP, ALIGN_MIDDLE, text);
}

/* The same seen along the drum, much larger: the cord's turns lie on its surface. */
static void draw_detail(struct canvas *c)
{
    const double left = 206, surface = 138, cord = 11, first = left + 24;
    canvas_text(c, left, 92, ALIGN_LEFT, "Enlarged, along the drum:");
    canvas_box(c, left, surface, 84, 22, &ink_hatch);
    canvas_line(c, left, surface, left + 92, surface, &ink_thick);
    for (int i = 0; i < 3; i++)
        canvas_circle(c, first + 2 * cord * i, surface - cord, cord, &ink_section_back);
    canvas_line(c, left, surface - cord, left + 84, surface - cord, &ink_centre);
    canvas_line(c, first + 4 * cord, surface - 2 * cord, left + 92, surface - 2 * cord,
                &ink_thin);
    canvas_span(c, left + 88, surface - 2 * cord, left + 88, surface);
    canvas_text(c, left + 94, surface - cord + FIGURE_DROP, ALIGN_LEFT, "d");
    canvas_text(c, left, surface - 2 * cord - 7, ALIGN_LEFT, "line of pull");
    canvas_leader(c, left + 6, surface - 2 * cord - 4, left + 6, surface - cord);
}

/* A letter of the drawing and what it means. */
static void name_line(struct canvas *c, double y, const char *letter, const char *words)
{
    if (letter[0])
        canvas_text(c, 206, y, ALIGN_LEFT, letter);
    canvas_text(c, 216, y, ALIGN_LEFT, words);
}

static void describe(const struct figure_ask *ask, struct figure *figure, const char *drum,
                     const char *cord, const char *radius)
{
    figure->caption = arena_format(
        ask->arena,
        "Drum and cord in the proportion of your own. The pull runs along the middle of the "
        "cord, so half the cord belongs to the radius: R = (D + d) / 2 = %s.",
        radius);
    figure->description = arena_format(
        ask->arena,
        "A section square to the spindle through the drum, hatched, with the cord lying on "
        "it and hanging straight down from its side. The drum's diameter D is %s, the cord's "
        "thickness d is %s. The effective radius R, from the spindle's axis to the middle of "
        "the cord, is %s.",
        drum, cord, radius);
}

void draw_drum_section(const struct figure_ask *ask, struct canvas *canvas)
{
    const struct quantity *drum = &ask->shop->drum.diameter.q,
                          *cord = &ask->shop->cord.diameter.q;
    const char *drum_text = quantity_text(ask->arena, drum);
    const char *cord_text = quantity_text(ask->arena, cord),
               *radius = arena_text(ask->arena, radius_words(ask->shop).text);
    double scale = DRAWN / (drum->base / 2 + cord->base);
    double drum_drawn = drum->base / 2 * scale, cord_drawn = cord->base * scale;
    draw_drum(canvas, drum_drawn, cord_drawn);
    dimension_drum(canvas, drum_drawn, "D");
    dimension_cord(canvas, drum_drawn, cord_drawn, "d");
    dimension_radius(canvas, drum_drawn + cord_drawn / 2, "R");
    draw_detail(canvas);
    name_line(canvas, 14, "D", arena_format(ask->arena, "drum, %s", drum_text));
    name_line(canvas, 26, "d", arena_format(ask->arena, "cord, %s", cord_text));
    name_line(canvas, 38, "R", "effective radius:");
    name_line(canvas, 48, "", "half of D and d together,");
    name_line(canvas, 58, "", radius);
    describe(ask, canvas->figure, drum_text, cord_text, radius);
}
