#include "layout/flow.h"

#include <stdlib.h>

/* The flow: strips that are put one below the other, each with its marks, and text in lines
 * into them. What a strip wants of its place (blank above, at what cost a sheet may begin with
 * it) is asked for before it is put. */

static const double NOISE = 1e-6;

void flow_begin(struct flow *flow)
{
    flow->phrase.fonts = flow->fonts;
    flow->scratch = arena_new();
}

void flow_end(struct flow *flow)
{
    phrase_free(&flow->phrase);
    lines_free(&flow->lines);
    arena_free(flow->scratch);
    free(flow->placed);
    free(flow->targets);
}

void flow_gap(struct flow *flow, double gap)
{
    if (gap > flow->gap)
        flow->gap = gap;
}

void flow_cost(struct flow *flow, enum break_cost cost)
{
    if (cost > flow->cost)
        flow->cost = cost;
}

struct strip *flow_strip(struct flow *flow, double height)
{
    struct strip *strip = ARENA_PUSH(flow->scratch, flow->strips, flow->strip_count);
    *strip = (struct strip){.gap = flow->gap,
                            .height = height,
                            .inset = flow->inset,
                            .cost = flow->cost,
                            .turn = flow->turn,
                            .at_foot = flow->at_foot,
                            .opens = flow->opens,
                            .pieces = {flow->piece_count, 0},
                            .links = {flow->link_count, 0},
                            .chapter = flow->chapter};
    flow->gap = 0;
    flow->cost = BREAK_FREE;
    flow->turn = TURN_NONE;
    flow->at_foot = flow->opens = false;
    return strip;
}

void flow_piece(struct flow *flow, struct piece piece)
{
    flow->strips[flow->strip_count - 1].pieces.count++;
    *ARENA_PUSH(flow->scratch, flow->pieces, flow->piece_count) = piece;
}

void flow_text(struct flow *flow, double x, double y, const struct text_style *style, int tag,
               const char *text)
{
    flow_piece(flow, text_piece(flow->fonts, x, y, style, tag, text));
}

void flow_text_right(struct flow *flow, double x, double y, const struct text_style *style,
                     int tag, const char *text)
{
    double width = fonts_width(flow->fonts, style->face, style->size, text);
    flow_text(flow, x - width, y, style, tag, text);
}

void flow_line(struct flow *flow, double x, double y, double width, double height, double line)
{
    flow_piece(flow, decoration(PIECE_LINE, x, y, width, height, line));
}

void flow_box(struct flow *flow, double x, double y, double width, double height, double line)
{
    struct piece piece = decoration(PIECE_BOX, x, y, width, height, line);
    piece.filled = line == 0;
    flow_piece(flow, piece);
}

void flow_blank_after(struct flow *flow)
{
    flow->pieces[flow->piece_count - 1].blank_after = true;
}

struct flow_anchor *flow_anchor(struct flow *flow, const char *name)
{
    struct flow_anchor *anchor = ARENA_PUSH(flow->scratch, flow->anchors, flow->anchor_count);
    *anchor =
        (struct flow_anchor){.page = flow->page, .name = name, .strip = flow->strip_count};
    return anchor;
}

/* A blank strip inside a frame, at its upper or lower edge. */
static void add_pad(struct flow *flow, double pad)
{
    flow_strip(flow, pad);
    flow_cost(flow, BREAK_NEVER);
}

size_t flow_frame_open(struct flow *flow, enum frame_kind kind, struct area area, double pad)
{
    size_t index = flow->frame_count;
    struct frame *frame = ARENA_PUSH(flow->scratch, flow->frames, flow->frame_count);
    *frame = (struct frame){.kind = kind,
                            .first = flow->strip_count,
                            .x = area.x,
                            .width = area.width,
                            .pad = pad,
                            .outer = flow->inset};
    add_pad(flow, pad);
    flow->inset += pad;
    return index;
}

void flow_frame_close(struct flow *flow, size_t frame)
{
    flow_cost(flow, BREAK_NEVER);
    flow->gap = 0;
    flow_strip(flow, flow->frames[frame].pad);
    flow->frames[frame].end = flow->strip_count;
    flow->inset = flow->frames[frame].outer;
}

double flow_height(const struct flow *flow, size_t first, size_t end)
{
    double height = 0;
    for (size_t i = first; i < end; i++)
        height += flow->strips[i].height + (i > first ? flow->strips[i].gap : 0);
    return height;
}

void flow_keep(struct flow *flow, size_t first, double room)
{
    if (flow_height(flow, first, flow->strip_count) > room)
        return;
    for (size_t i = first + 1; i < flow->strip_count; i++)
        if (flow->strips[i].cost < BREAK_KEEP)
            flow->strips[i].cost = BREAK_KEEP;
}

void flow_hold(struct flow *flow, size_t first)
{
    for (size_t i = first; i < flow->strip_count; i++)
        flow->strips[i].cost = BREAK_NEVER;
}

int flow_tag(struct flow *flow, enum tag_kind kind, int parent)
{
    return print_tag(flow->arena, flow->print, kind, parent);
}

struct text_style flow_body_style(const struct flow *flow)
{
    return (struct text_style){.size = flow->type->body, .leading = flow->type->leading};
}

double flow_baseline(const struct flow *flow, const struct text_style *style)
{
    double ascent = fonts_ascent(flow->fonts), descent = fonts_descent(flow->fonts);
    return (style->leading - (ascent + descent) * style->size) / 2 + ascent * style->size;
}

/* ---- lines of text ---- */

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
    flow->phrase.narrow = style->narrow;
    phrase_begin(&flow->phrase, style->size);
    read_children(flow, parent, plain_pen(style, tag));
}

void lines_read_plain(struct flow *flow, const char *text, const struct text_style *style,
                      int tag)
{
    flow->phrase.narrow = style->narrow;
    phrase_begin(&flow->phrase, style->size);
    phrase_add(&flow->phrase, text, plain_pen(style, tag));
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

/* Puts line `index` of flow->lines into the strip that is there; y: the baseline. */
static void put_line(struct flow *flow, size_t index, double x, double y,
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
        flow_blank_after(flow);
}

/* Of n lines, neither the first nor the last may be parted from its neighbour. */
static enum break_cost cost_of_line(size_t index, size_t count)
{
    return index == 1 || index + 1 == count ? BREAK_WIDOW : BREAK_FREE;
}

double lines_measure(struct flow *flow, const char *text, const struct text_style *style,
                     double width, int tag)
{
    lines_read_plain(flow, text, style, tag);
    flow->failed |= phrase_least(&flow->phrase) > width + NOISE;
    phrase_break(&flow->phrase, width + NOISE, &flow->lines);
    return (double)flow->lines.count * style->leading;
}

void lines_put_all(struct flow *flow, struct area area, double y, enum align align,
                   const struct text_style *style)
{
    const size_t *starts = flow->lines.starts;
    double baseline = y + flow_baseline(flow, style);
    for (size_t i = 0; i < flow->lines.count; i++) {
        double x = area.x;
        if (align == ALIGN_RIGHT)
            x += area.width - phrase_width(&flow->phrase, starts[i], starts[i + 1]);
        put_line(flow, i, x, baseline + (double)i * style->leading, style);
    }
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
        put_line(flow, i, area.x, baseline, style);
    }
}

void lines_put_plain(struct flow *flow, const char *text, struct area area,
                     const struct text_style *style, int tag)
{
    lines_read_plain(flow, text, style, tag);
    lines_put(flow, area, style);
}

void lines_flush_labels(struct flow *flow, const struct text_style *style)
{
    if (flow->label_count == 0)
        return;
    flow_strip(flow, style->leading);
    put_labels(flow, flow_baseline(flow, style), style);
}
