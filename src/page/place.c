#include "page/place.h"

#include "page/cut.h"

static void add_sheet(struct flow *flow, const struct layout *layout, bool sideways)
{
    struct print *print = flow->print;
    *ARENA_PUSH(flow->arena, print->sheets, print->sheet_count) =
        (struct sheet){.width = sideways ? layout->height : layout->width,
                       .height = sideways ? layout->width : layout->height,
                       .label = ""};
}

/* Where on the sheet the strips lie; gives the y below the last. */
static double set_heights(struct flow *flow, size_t first, const struct cut *cut, double top,
                          double room)
{
    size_t end = cut->end;
    double y = top + cut_height_as_first(&flow->strips[first]) - flow->strips[first].height;
    size_t foot = end;
    for (size_t i = first; i < end; i++) {
        struct strip *strip = &flow->strips[i];
        if (i > first)
            y += strip->gap - cut->squeeze * cut_loose(strip);
        strip->y = y;
        strip->sheet = flow->print->sheet_count - 1;
        y += strip->height;
        if (strip->at_foot && foot == end)
            foot = i;
    }
    double down = top + room - y;
    if (foot == end || down < 0)
        return y;
    for (size_t i = foot; i < end; i++)
        flow->strips[i].y += down;
    return top + room;
}

static void add_piece(struct flow *flow, struct piece piece)
{
    struct sheet *sheet = &flow->print->sheets[flow->print->sheet_count - 1];
    *ARENA_PUSH(flow->marks, sheet->pieces, sheet->piece_count) = piece;
}

static void draw_frame(struct flow *flow, const struct frame *frame, double left, double top,
                       double bottom)
{
    struct piece piece = {.kind = PIECE_BOX,
                          .tag = -1,
                          .x = left + frame->x,
                          .y = top,
                          .width = frame->width,
                          .height = bottom - top};
    static const double lines[] = {[FRAME_QUOTE] = 1.2,
                                   [FRAME_LITERAL] = 0.4,
                                   [FRAME_CAUTION] = 2.2,
                                   [FRAME_NOTICE] = 1.5};
    double line = lines[frame->kind];
    piece.line = line;
    if (frame->kind == FRAME_QUOTE) {
        piece.kind = PIECE_LINE;
        piece.x += line / 2;
        piece.width = 0;
    } else {
        piece.x += line / 2;
        piece.y += line / 2;
        piece.width -= line;
        piece.height -= line;
    }
    add_piece(flow, piece);
}

/* The frames that have strips on this sheet; those that go on are closed for now. */
static void draw_frames(struct flow *flow, size_t first, size_t end, double left, double top)
{
    while (flow->open_frame < flow->frame_count && flow->frames[flow->open_frame].end <= first)
        flow->open_frame++;
    const struct strip *last = &flow->strips[end - 1];
    for (size_t i = flow->open_frame; i < flow->frame_count; i++) {
        const struct frame *frame = &flow->frames[i];
        if (frame->first >= end)
            break;
        if (frame->end <= first)
            continue;
        double upper =
            frame->first >= first ? flow->strips[frame->first].y : top + frame->outer;
        const struct strip *lowest = frame->end <= end ? &flow->strips[frame->end - 1] : last;
        double pads = frame->end <= end ? 0 : flow->strips[end].inset - frame->outer;
        draw_frame(flow, frame, left, upper, lowest->y + lowest->height + pads);
    }
}

static void copy_pieces(struct flow *flow, const struct strip *strip, double left, double y)
{
    for (size_t i = 0; i < strip->pieces.count; i++) {
        struct piece piece = flow->pieces[strip->pieces.first + i];
        piece.x += left;
        piece.y += y;
        add_piece(flow, piece);
    }
}

static void copy_links(struct flow *flow, const struct strip *strip, double left)
{
    size_t pieces = flow->print->sheets[strip->sheet].piece_count;
    for (size_t i = 0; i < strip->links.count; i++) {
        struct flow_link link = flow->links[strip->links.first + i];
        link.x += left;
        link.y += strip->y;
        link.number_piece += pieces - strip->pieces.first;
        link.number_right += left;
        *HEAP_PUSH(flow->placed, flow->placed_count) =
            (struct placed_link){.link = link, .sheet = strip->sheet};
    }
}

/* A table that is divided has a rule under its part before the break. */
static void close_table(struct flow *flow, const struct repeat *repeat, double left, double y)
{
    add_piece(flow, decoration(PIECE_LINE, left + repeat->x, y, repeat->width, 0, 0.8));
}

static void place_sheet(struct flow *flow, const struct layout *layout, size_t first,
                        const struct cut *cut)
{
    size_t sheet = flow->print->sheet_count, end = cut->end;
    add_sheet(flow, layout, cut->sideways);
    double left = layout_left(layout, sheet, cut->sideways);
    double top = cut->sideways ? layout->margins.inner : layout->margins.top;
    double room = cut->sideways ? flow->sideways_height : flow->height;
    double y = set_heights(flow, first, cut, top, room);
    draw_frames(flow, first, end, left, top);
    const struct strip *begin = &flow->strips[first];
    if (begin->repeat)
        copy_pieces(flow, &begin->repeat->strip, left, top + begin->inset);
    for (size_t i = first; i < end; i++) {
        copy_links(flow, &flow->strips[i], left);
        copy_pieces(flow, &flow->strips[i], left, flow->strips[i].y);
    }
    if (end < flow->strip_count && flow->strips[end].repeat)
        close_table(flow, flow->strips[end].repeat, left, y);
}

void flow_place(struct flow *flow, const struct layout *layout, size_t first, size_t end)
{
    if (first == end)
        return;
    size_t count;
    const struct cut *cuts = cut_sheets(flow, layout, first, end, &count);
    for (size_t i = 0; i < count; i++) {
        place_sheet(flow, layout, first, &cuts[i]);
        first = cuts[i].end;
    }
}
