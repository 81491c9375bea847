#include "page/flow.h"

#include <stdlib.h>
#include <string.h>

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

int flow_tag(struct flow *flow, enum tag_kind kind, int parent)
{
    struct print *print = flow->print;
    *ARENA_PUSH(flow->arena, print->tags, print->tag_count) =
        (struct tag){.kind = kind, .parent = parent};
    return (int)print->tag_count - 1;
}

double flow_baseline(const struct flow *flow, const struct text_style *style)
{
    double ascent = fonts_ascent(flow->fonts), descent = fonts_descent(flow->fonts);
    return (style->leading - (ascent + descent) * style->size) / 2 + ascent * style->size;
}
