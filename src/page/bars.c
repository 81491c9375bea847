#include "page/bars.h"
#include "tree/points.h"

static const double LINE = 0.25, TICK = 5.5, END_TICK = 8.5, SIZE = 7;
static const double BOX_WIDTH = 38, BOX_HEIGHT = 18;

static const struct {
    double division;
    int count;
    const char *whole, *unit;
} bars[] = {
    [BAR_MM] = {10 * MM, 10, "100\u00a0mm", "mm"}, [BAR_INCH] = {36, 8, "4\u00a0in", "in"}};

double bar_length(enum bar_unit unit)
{
    return bars[unit].division * bars[unit].count;
}

static void draw_ticks(struct drawing *drawing, double x, double y, enum bar_unit unit,
                       enum bar_way way)
{
    for (int i = 0; i <= bars[unit].count; i++) {
        double at = i * bars[unit].division;
        double tick = i == 0 || i == bars[unit].count ? END_TICK : TICK;
        if (way == BAR_ACROSS)
            drawing_line(drawing, x + at, y - tick, 0, tick, LINE);
        else
            drawing_line(drawing, x, y + at, tick, 0, LINE);
    }
}

static void draw_across(struct drawing *drawing, double x, double y, enum bar_unit unit,
                        const struct text_style *style)
{
    double end = x + bar_length(unit);
    drawing_line(drawing, x, y, bar_length(unit), 0, LINE);
    drawing_text(drawing, x, y + BAR_BELOW - 1, ALIGN_MIDDLE, style, "0");
    drawing_text(drawing, end, y + BAR_BELOW - 1, ALIGN_MIDDLE, style, bars[unit].whole);
    double box = end + BAR_BESIDE - 14 - BOX_WIDTH;
    drawing_text(drawing, box - 4, y + 1, ALIGN_RIGHT, style, "measured");
    drawing_box(drawing, box, y - BOX_HEIGHT / 2 - 1.5, BOX_WIDTH, BOX_HEIGHT, 0.5);
    drawing_text(drawing, box + BOX_WIDTH + 3, y + 1, ALIGN_LEFT, style, bars[unit].unit);
}

static void draw_down(struct drawing *drawing, double x, double y, enum bar_unit unit,
                      const struct text_style *style)
{
    double length = bar_length(unit), middle = y + length / 2, left = x + END_TICK + 1;
    drawing_line(drawing, x, y, 0, length, LINE);
    drawing_text(drawing, left + 1, y + 2.5, ALIGN_LEFT, style, "0");
    drawing_text(drawing, left + 1, y + length + 2.5, ALIGN_LEFT, style, bars[unit].whole);
    drawing_text(drawing, left, middle - BOX_HEIGHT / 2 - 3, ALIGN_LEFT, style, "measured");
    drawing_box(drawing, left, middle - BOX_HEIGHT / 2, BOX_WIDTH - 2, BOX_HEIGHT, 0.5);
    drawing_text(drawing, left, middle + BOX_HEIGHT / 2 + SIZE + 1, ALIGN_LEFT, style,
                 bars[unit].unit);
}

void bar_draw(struct drawing *drawing, double x, double y, enum bar_unit unit, enum bar_way way)
{
    struct text_style style = {.size = SIZE};
    drawing_tag(drawing, TAG_PARAGRAPH);
    draw_ticks(drawing, x, y, unit, way);
    if (way == BAR_ACROSS)
        draw_across(drawing, x, y, unit, &style);
    else
        draw_down(drawing, x, y, unit, &style);
}
