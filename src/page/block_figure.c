/* A figure as wide as the column, its caption below: one thing that is not divided. */
#include "page/blocks.h"
#include "page/drawing.h"
#include "tree/figure.h"

#include <math.h>

/* Lines and texts should look alike in all figures: none is made much larger. */
static const double MOST_SCALE = 1.15;

static double scale_of(const struct figure *figure, double width)
{
    return figure->to_scale ? 1 : fmin(MOST_SCALE, width / figure->width);
}

static double least_text(const struct figure *figure)
{
    double least = INFINITY;
    for (size_t i = 0; i < figure->text_count; i++)
        least = fmin(least, figure->texts[i].size);
    return least;
}

static void put_caption(struct flow *flow, const char *text, struct area area, int tag)
{
    double size = fmax(flow->type->note, FIGURE_LEAST_TEXT);
    struct text_style style = {.size = size, .leading = size * 1.25};
    size_t first = flow->strip_count;
    flow_gap(flow, style.size * 0.5);
    lines_read_plain(flow, text, &style, flow_tag(flow, TAG_CAPTION, tag));
    lines_put(flow, area, &style);
    for (size_t i = first; i < flow->strip_count; i++)
        flow->strips[i].cost = BREAK_NEVER;
}

static void put_drawing(struct flow *flow, const struct figure *figure, struct area area,
                        double scale, int tag)
{
    double x = area.x + fmax(0, (area.width - scale * figure->width) / 2);
    int drawing = flow_tag(flow, TAG_FIGURE, tag);
    flow->print->tags[drawing].alternative = arena_text(flow->arena, figure->description);
    flow_strip(flow, scale * figure->height);
    size_t count;
    const struct piece *pieces =
        figure_pieces(flow->scratch, flow->fonts, figure, x, 0, scale, drawing, &count);
    for (size_t i = 0; i < count; i++)
        flow_piece(flow, pieces[i]);
}

static void report(struct flow *flow, const struct figure *figure)
{
    flow->failed = true;
    if (!flow->trial)
        fault(flow->diags, figure->at,
              "the figure '%s' does not fit the page in a size that can be read; take a "
              "larger paper, or leave the figure out",
              figure->name);
}

void figure_put(struct flow *flow, const struct figure *figure, struct area area, int tag)
{
    double scale = scale_of(figure, area.width);
    size_t first = flow->strip_count;
    flow_anchor(flow, figure->name);
    put_drawing(flow, figure, area, scale, tag);
    put_caption(flow, figure->caption, area, tag);
    if (scale * figure->width > area.width + 0.01 ||
        scale * least_text(figure) < FIGURE_LEAST_TEXT ||
        flow_height(flow, first, flow->strip_count) > flow->height)
        report(flow, figure);
}
