#include "page/lines.h"

static struct pen plain_pen(const struct text_style *style, int tag)
{
    return (struct pen){.face = style->face, .link = -1, .tag = tag};
}

static int add_link(struct flow *flow, const struct node *node, int tag)
{
    struct flow_link *link = ARENA_PUSH(flow->scratch, flow->links, flow->link_count);
    *link = (struct flow_link){.uri = node->to_page ? NULL : node->target,
                               .to_page = node->to_page,
                               .to_anchor = node->to_anchor ? node->to_anchor : "",
                               .tag = tag};
    return (int)flow->link_count - 1;
}

/* The look of what stands below an inline node. */
static struct pen pen_below(struct flow *flow, const struct node *node, struct pen pen)
{
    switch (node->kind) {
    case NODE_STRONG:
        pen.face = FACE_BOLD;
        break;
    case NODE_EMPHASIS:
        if (pen.face == FACE_REGULAR)
            pen.face = FACE_OBLIQUE; /* there is no bold oblique among the faces */
        break;
    case NODE_LINK:
        pen.tag = pen.tag < 0 ? -1 : flow_tag(flow, TAG_LINK, pen.tag);
        pen.link = add_link(flow, node, pen.tag);
        break;
    default:
        break;
    }
    return pen;
}

static void read_leaf(struct flow *flow, const struct node *node, struct pen pen)
{
    struct phrase *phrase = &flow->phrase;
    switch (node->kind) {
    case NODE_TEXT:
        phrase_add(phrase, node->text, pen);
        break;
    case NODE_CODE:
        pen.face = FACE_MONO;
        phrase_add(phrase, node->text, pen);
        break;
    case NODE_SPACE:
        phrase_blank(phrase);
        break;
    case NODE_BREAK:
        phrase_line_end(phrase);
        break;
    default:
        break;
    }
}

/* Recursion is as deep as inline nodes nest; the reader lets few nest. */
static void read_children(struct flow *flow, const struct node *parent, struct pen pen)
{
    for (const struct node *node = parent->first; node; node = node->next) {
        if (node->first)
            read_children(flow, node, pen_below(flow, node, pen));
        else
            read_leaf(flow, node, pen);
    }
}

void lines_read(struct flow *flow, const struct node *parent, const struct text_style *style,
                int tag)
{
    phrase_begin(&flow->phrase, style->size);
    read_children(flow, parent, plain_pen(style, tag));
}

void lines_read_plain(struct flow *flow, const char *text, const struct text_style *style,
                      int tag)
{
    phrase_begin(&flow->phrase, style->size);
    phrase_add(&flow->phrase, text, plain_pen(style, tag));
}

void lines_read_cell(struct flow *flow, const char *text, const struct text_style *style,
                     int tag)
{
    flow->phrase.narrow = true;
    lines_read_plain(flow, text, style, tag);
    flow->phrase.narrow = false;
}

/* Bits of one line and one look, drawn as one piece. */
struct run {
    size_t first, end;
    bool blank_before, blank_after;
};

static struct run find_run(const struct phrase *phrase, size_t first, size_t line_first,
                           size_t line_end)
{
    const struct bit *bits = phrase->bits;
    struct run run = {.first = first, .end = first + 1};
    while (run.end < line_end && pen_same(&bits[run.end].pen, &bits[first].pen))
        run.end++;
    run.blank_before =
        first > line_first && bits[first].join == JOIN_BLANK && bits[first].blank_is_mine;
    run.blank_after =
        run.end < line_end && bits[run.end].join == JOIN_BLANK && !bits[run.end].blank_is_mine;
    return run;
}

/* Every line of a link is an area of its own, with the link's target. */
static void put_link(struct flow *flow, const struct run *run, double x, double y, double width,
                     double size)
{
    struct flow_link *link = &flow->links[flow->phrase.bits[run->first].pen.link];
    struct strip *strip = &flow->strips[flow->strip_count - 1];
    struct flow_link area = *link;
    double ascent = fonts_ascent(flow->fonts) * size;
    area.x = x;
    area.y = y - ascent;
    area.width = width;
    area.height = ascent + fonts_descent(flow->fonts) * size;
    if (strip->links.count == 0)
        strip->links.first = flow->link_count;
    strip->links.count++;
    *ARENA_PUSH(flow->scratch, flow->links, flow->link_count) = area;
    flow_line(flow, x, y + 0.14 * size, width, 0, 0.4);
}

static void put_run(struct flow *flow, const struct run *run, double x, double y, double width,
                    const struct text_style *style)
{
    const struct bit *first = &flow->phrase.bits[run->first];
    if (first->pen.link >= 0)
        put_link(flow, run, x, y, width, style->size);
    struct text_style look = *style;
    look.face = first->pen.face;
    look.size = phrase_size(look.face, style->size);
    double blank = run->blank_before ? first->blank : 0;
    flow_text(flow, x - blank, y, &look, first->pen.tag,
              phrase_text(&flow->phrase, run->first, run->end, run->blank_before,
                          run->blank_after, flow->arena));
}

void lines_put_one(struct flow *flow, size_t index, double x, double y,
                   const struct text_style *style)
{
    const struct phrase *phrase = &flow->phrase;
    size_t first = flow->lines.starts[index], end = flow->lines.starts[index + 1];
    for (size_t at = first; at < end;) {
        struct run run = find_run(phrase, at, first, end);
        double width = phrase_width(phrase, run.first, run.end);
        if (at > first)
            x += phrase->bits[at].blank;
        put_run(flow, &run, x, y, width, style);
        x += width;
        at = run.end;
    }
    if (end < phrase->count && phrase->bits[end].join >= JOIN_BLANK)
        flow->pieces[flow->piece_count - 1].blank_after = true;
}

/* Of n lines, neither the first nor the last may be parted from its neighbour. */
static enum break_cost cost_of_line(size_t index, size_t count)
{
    return index == 1 || index + 1 == count ? BREAK_WIDOW : BREAK_FREE;
}

double lines_break(struct flow *flow, double width, const struct text_style *style)
{
    flow->failed |= phrase_least(&flow->phrase) > width;
    phrase_break(&flow->phrase, width, &flow->lines);
    return (double)flow->lines.count * style->leading;
}

void lines_put_all(struct flow *flow, double x, double y, const struct text_style *style)
{
    double baseline = y + flow_baseline(flow, style);
    for (size_t i = 0; i < flow->lines.count; i++)
        lines_put_one(flow, i, x, baseline + (double)i * style->leading, style);
}

static void put_labels(struct flow *flow, double y, const struct text_style *style)
{
    struct text_style look = {.face = FACE_REGULAR, .size = style->size};
    for (size_t i = 0; i < flow->label_count; i++)
        flow_text_right(flow, flow->labels[i].right, y, &look, flow->labels[i].tag,
                        flow->labels[i].text);
    flow->label_count = 0;
}

void lines_put(struct flow *flow, struct area area, const struct text_style *style)
{
    phrase_break(&flow->phrase, area.width, &flow->lines);
    double baseline = flow_baseline(flow, style);
    for (size_t i = 0; i < flow->lines.count; i++) {
        if (i > 0)
            flow_cost(flow, cost_of_line(i, flow->lines.count));
        flow_strip(flow, style->leading);
        put_labels(flow, baseline, style);
        lines_put_one(flow, i, area.x, baseline, style);
    }
}

void lines_flush_labels(struct flow *flow, const struct text_style *style)
{
    if (flow->label_count == 0)
        return;
    flow_strip(flow, style->leading);
    put_labels(flow, flow_baseline(flow, style), style);
}
