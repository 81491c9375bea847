/* Lines that stand as they are, in a thin frame: a grey ground would spoil a
 * black-and-white print. */
#include "page/blocks.h"

#include <math.h>
#include <string.h>

static const double PAD_X = 7, PAD_Y = 4;
static const char goes_on[] = "↳"; /* before the rest of a line that had to be divided */

/* Type may be so much smaller, points, where that saves dividing lines. */
static const double SMALLER = 1, SIZE_STEP = 0.25;

enum { FEW_LINES = 6 };

/* Bytes of the text that fit: up to a blank or a comma where there is one, else to a sign. */
static size_t fitting(const struct flow *flow, const struct text_style *style, const char *text,
                      size_t length, double measure)
{
    size_t fits = text_fitting(flow->fonts, style->face, style->size, text, length, measure);
    for (size_t at = fits, margin = strspn(text, " "); fits < length && at > margin; at--)
        if (strchr(" ,", text[at - 1]))
            return at;
    return fits;
}

static void put_line(struct flow *flow, const struct text_style *style, const char *text,
                     size_t length, struct area area, int tag)
{
    double y = flow_baseline(flow, style), indent = 0;
    do {
        size_t fits = fitting(flow, style, text, length, area.width - indent);
        if (indent > 0)
            flow_cost(flow, BREAK_NEVER);
        flow_strip(flow, style->leading);
        if (indent > 0)
            flow_text(flow, area.x + 0.4 * style->size, y, style, -1, goes_on);
        if (fits)
            flow_text(flow, area.x + indent, y, style, tag,
                      arena_slice(flow->arena, text, fits));
        text += fits;
        length -= fits;
        indent = 2 * style->size;
    } while (length);
}

static double widest_line(const struct flow *flow, const struct text_style *style,
                          const char *text)
{
    double widest = 0;
    while (*text) {
        size_t length = strcspn(text, "\n");
        widest =
            fmax(widest, fonts_width_of(flow->fonts, style->face, style->size, text, length));
        text += length + (text[length] == '\n');
    }
    return widest;
}

/* The largest style in which no line is divided; the plain one where there is none. */
static struct text_style style_for(const struct flow *flow, const char *text, double measure)
{
    double size = flow->type->literal, least = size - SMALLER;
    struct text_style style = {.face = FACE_MONO, .size = size, .leading = size * 1.4};
    double widest = widest_line(flow, &style, text) / size;
    while (size > least && widest * size > measure)
        size -= SIZE_STEP;
    if (widest * size <= measure)
        style.size = size;
    return style;
}

static void put_lines(struct flow *flow, const struct text_style *style, const char *text,
                      struct area area, int tag)
{
    while (*text) {
        size_t length = strcspn(text, "\n");
        put_line(flow, style, text, length, area, tag);
        text += length + (text[length] == '\n');
    }
}

/* Both of the first and of the last lines stay together, few lines all of them, and what is
 * left of a divided line stays with its beginning. */
static void set_costs(struct flow *flow, size_t first)
{
    size_t count = flow->strip_count - first;
    for (size_t i = 1; i < count; i++)
        if ((i == 1 || i + 1 == count || count <= FEW_LINES) &&
            flow->strips[first + i].cost < BREAK_WIDOW)
            flow->strips[first + i].cost = BREAK_WIDOW;
}

void literal_put(struct flow *flow, const struct node *node, struct area area, int tag)
{
    const struct type_scale *type = flow->type;
    struct area inner = area_within(area, PAD_X, PAD_X);
    struct text_style style = style_for(flow, node->text, inner.width);
    int literal = flow_tag(flow, TAG_LITERAL, tag);
    flow_gap(flow, type->leading / 2);
    size_t frame = flow_frame_open(flow, FRAME_LITERAL, area, PAD_Y);
    size_t first = flow->strip_count;
    put_lines(flow, &style, node->text, inner, literal);
    set_costs(flow, first);
    if (first < flow->strip_count)
        flow->strips[first].cost = BREAK_NEVER;
    flow_frame_close(flow, frame);
    flow_gap(flow, type->leading / 2);
}
