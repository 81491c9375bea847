/* The flow: strips that are put one below the other, each with its marks, and text in lines
 * into them. What a strip wants of its place (blank above, at what cost a sheet may begin with
 * it) is asked for before it is put. */
#include "layout/flow.h"

#include <stdlib.h>

static const double NOISE = 1e-6;

/* A turned sheet may have any of its upright edges at the fold: its own top and bottom are
 * blank as far as the inner margin is. */
void flow_begin(struct flow *flow, const struct layout *layout)
{
    const struct margins *margins = &layout->margins;
    flow->layout = layout;
    flow->width = layout->width - margins->inner - margins->outer;
    flow->height = layout->height - margins->top - margins->bottom;
    if (layout->turning) {
        flow->sideways_width = layout->height - 2 * margins->outer;
        flow->sideways_height = layout->width - margins->inner - margins->bottom;
    }
    flow->area = (struct area){.width = flow->width};
    flow->phrase.fonts = flow->fonts;
    flow->scratch = arena_new();
    flow->tag = print_tag(flow->arena, flow->print, TAG_DOCUMENT, -1);
}

void flow_end(struct flow *flow)
{
    phrase_free(&flow->phrase);
    lines_free(&flow->lines);
    arena_free(flow->scratch);
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

void flow_strip(struct flow *flow, double height)
{
    *ARENA_PUSH(flow->scratch, flow->strips, flow->strip_count) =
        (struct strip){.gap = flow->gap,
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
}

void flow_piece(struct flow *flow, struct piece piece)
{
    flow->strips[flow->strip_count - 1].pieces.count++;
    *ARENA_PUSH(flow->scratch, flow->pieces, flow->piece_count) = piece;
}

void flow_text(struct flow *flow, double x, double y, enum align align,
               const struct text_style *style, int tag, const char *text)
{
    flow_piece(flow, text_piece(flow->fonts, x, y, align, style, tag, text));
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

size_t flow_frame_open(struct flow *flow, enum frame_kind kind, double pad)
{
    *ARENA_PUSH(flow->scratch, flow->frames, flow->frame_count) =
        (struct frame){.kind = kind,
                       .first = flow->strip_count,
                       .x = flow->area.x,
                       .width = flow->area.width,
                       .pad = pad,
                       .outer = flow->inset};
    flow_strip(flow, pad);
    flow_cost(flow, BREAK_NEVER);
    flow->inset += pad;
    return flow->frame_count - 1;
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
    return parent < 0 ? -1 : print_tag(flow->arena, flow->print, kind, parent);
}

struct text_style flow_body_style(const struct flow *flow, enum face face)
{
    return (struct text_style){
        .face = face, .size = flow->type->body, .leading = flow->type->leading};
}

double flow_baseline(const struct flow *flow, const struct text_style *style)
{
    double ascent = fonts_ascent(flow->fonts), descent = fonts_descent(flow->fonts);
    return (style->leading - (ascent + descent) * style->size) / 2 + ascent * style->size;
}

/* ---- lines of text ---- */

/* The look of what stands below an inline node. */
static struct pen pen_below(struct flow *flow, const struct node *node, struct pen pen)
{
    if (node->kind == NODE_STRONG)
        pen.face = FACE_BOLD;
    if (node->kind == NODE_EMPHASIS && pen.face == FACE_REGULAR)
        pen.face = FACE_OBLIQUE; /* there is no bold oblique among the faces */
    if (node->kind == NODE_LINK) {
        pen.tag = flow_tag(flow, TAG_LINK, pen.tag);
        pen.link = (int)flow->link_count;
        *ARENA_PUSH(flow->scratch, flow->links, flow->link_count) =
            (struct flow_link){.uri = node->to_page ? NULL : node->target,
                               .to_page = node->to_page,
                               .to_anchor = node->to_anchor ? node->to_anchor : "",
                               .tag = pen.tag};
    }
    return pen;
}

static void read_children(struct flow *flow, const struct node *parent, struct pen pen);

/* The words of a link, and behind them room for the number of its page. */
static void read_below(struct flow *flow, const struct node *node, struct pen pen)
{
    read_children(flow, node, pen);
    if (!flow->names_pages || node->kind != NODE_LINK || !node->to_page ||
        !node->to_page->in_booklet)
        return;
    pen.number = true;
    phrase_blank(&flow->phrase);
    phrase_add(&flow->phrase, "(p.\u00a0888)", pen);
}

/* Recursion is as deep as inline nodes nest; the reader lets few nest. */
static void read_children(struct flow *flow, const struct node *parent, struct pen pen)
{
    struct pen mono = pen;
    mono.face = FACE_MONO;
    for (const struct node *node = parent->first; node; node = node->next) {
        if (node->first)
            read_below(flow, node, pen_below(flow, node, pen));
        else if (node->kind == NODE_TEXT || node->kind == NODE_CODE)
            phrase_add(&flow->phrase, node->text, node->kind == NODE_CODE ? mono : pen);
        else if (node->kind == NODE_SPACE)
            phrase_blank(&flow->phrase);
        else if (node->kind == NODE_BREAK)
            phrase_line_end(&flow->phrase);
    }
}

void lines_read(struct flow *flow, const struct node *parent, const struct text_style *style,
                int tag)
{
    phrase_begin(&flow->phrase, style);
    read_children(flow, parent, (struct pen){.face = style->face, .link = -1, .tag = tag});
}

void lines_read_plain(struct flow *flow, const char *text, const struct text_style *style,
                      int tag)
{
    phrase_begin(&flow->phrase, style);
    phrase_add(&flow->phrase, text, (struct pen){.face = style->face, .link = -1, .tag = tag});
}

/* Every line of a link is an area of its own, with the link's target; so is the number of its
 * page, which is the next piece of the strip. */
static void put_link(struct flow *flow, const struct pen *pen, double x, double y, double width,
                     double size)
{
    struct strip *strip = &flow->strips[flow->strip_count - 1];
    struct flow_link link = flow->links[pen->link];
    double ascent = fonts_ascent(flow->fonts) * size;
    link.x = x;
    link.y = y - ascent;
    link.width = width;
    link.height = ascent + fonts_descent(flow->fonts) * size;
    link.numbered = pen->number ? NUMBER_IN_LINE : UNNUMBERED;
    link.number = strip->pieces.count;
    if (strip->links.count++ == 0)
        strip->links.first = flow->link_count;
    *ARENA_PUSH(flow->scratch, flow->links, flow->link_count) = link;
    if (!pen->number)
        flow_line(flow, x, y + 0.14 * size, width, 0, 0.4);
}

/* Puts line `index` of flow->lines into the strip that is there; y: the baseline. Neighbouring
 * bits of one look are one piece; the blank between two pieces is drawn with either. */
static void put_line(struct flow *flow, size_t index, double x, double y,
                     const struct text_style *style)
{
    const struct phrase *phrase = &flow->phrase;
    const struct bit *bits = phrase->bits;
    struct text_style look = *style;
    size_t line = flow->lines.starts[index], line_end = flow->lines.starts[index + 1];
    for (size_t first = line, end; first < line_end; first = end) {
        for (end = first + 1; end < line_end && pen_same(&bits[end].pen, &bits[first].pen);)
            end++;
        bool blank_before =
            first > line && bits[first].join == JOIN_BLANK && bits[first].blank_is_mine;
        bool blank_after =
            end < line_end && bits[end].join == JOIN_BLANK && !bits[end].blank_is_mine;
        double width = phrase_width(phrase, first, end);
        x += first > line ? bits[first].blank : 0;
        if (bits[first].pen.link >= 0)
            put_link(flow, &bits[first].pen, x, y, width, style->size);
        look.face = bits[first].pen.face;
        look.size = phrase_size(look.face, style->size);
        flow_text(flow, x - (blank_before ? bits[first].blank : 0), y, ALIGN_LEFT, &look,
                  bits[first].pen.tag,
                  phrase_text(phrase, first, end, blank_before, blank_after, flow->arena));
        x += width;
    }
    if (line_end < phrase->count && bits[line_end].join >= JOIN_BLANK)
        flow_blank_after(flow);
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

static void put_labels(struct flow *flow, double y, double size)
{
    struct text_style look = {.size = size};
    for (size_t i = 0; i < flow->label_count; i++)
        flow_text(flow, flow->labels[i].right, y, ALIGN_RIGHT, &look, flow->labels[i].tag,
                  flow->labels[i].text);
    flow->label_count = 0;
}

/* Of several lines, neither the first nor the last may be parted from its neighbour. */
void lines_put(struct flow *flow, const struct text_style *style)
{
    phrase_break(&flow->phrase, flow->area.width, &flow->lines);
    double baseline = flow_baseline(flow, style);
    size_t count = flow->lines.count;
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            flow_cost(flow, i == 1 || i + 1 == count ? BREAK_WIDOW : BREAK_FREE);
        flow_strip(flow, style->leading);
        put_labels(flow, baseline, style->size);
        put_line(flow, i, flow->area.x, baseline, style);
    }
}

void lines_put_plain(struct flow *flow, enum tag_kind kind, const char *text,
                     const struct text_style *style)
{
    lines_read_plain(flow, text, style, flow_tag(flow, kind, flow->tag));
    lines_put(flow, style);
}

void lines_flush_labels(struct flow *flow)
{
    struct text_style style = flow_body_style(flow, FACE_REGULAR);
    if (flow->label_count == 0)
        return;
    flow_strip(flow, style.leading);
    put_labels(flow, flow_baseline(flow, &style), style.size);
}
