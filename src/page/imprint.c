#include "page/imprint.h"

#include "page/blocks.h"
#include "page/drawing.h"

static const double BOX_PAD = 5, BOX_SIDE = 8;

void imprint_notice_put(struct flow *flow, const struct imprint *imprint, int tag)
{
    if (!imprint->notice)
        return;
    double size = flow->type->body * 1.1;
    struct text_style style = {.face = FACE_BOLD, .size = size, .leading = size * 1.3};
    struct area area = {.width = flow->width};
    flow_gap(flow, flow->type->leading);
    size_t frame = flow_frame_open(flow, FRAME_NOTICE, area, BOX_PAD);
    lines_read_plain(flow, imprint->notice, &style, flow_tag(flow, TAG_PARAGRAPH, tag));
    lines_put(flow, area_within(area, BOX_SIDE, BOX_SIDE), &style);
    flow_frame_close(flow, frame);
    flow_gap(flow, flow->type->leading);
}

static void put_line(struct flow *flow, const char *text, double size, enum face face, int tag)
{
    struct text_style style = {.face = face, .size = size, .leading = size * 1.25};
    lines_read_plain(flow, text, &style, flow_tag(flow, TAG_PARAGRAPH, tag));
    lines_put(flow, (struct area){.width = flow->width}, &style);
}

void imprint_foot_put(struct flow *flow, const struct imprint *imprint, double size,
                      bool with_notice, int tag)
{
    size_t first = flow->strip_count;
    flow_gap(flow, size);
    flow->at_foot = true;
    flow_strip(flow, size * 0.4);
    flow_line(flow, 0, 0, flow->width, 0, 0.4);
    if (with_notice && imprint->notice)
        put_line(flow, imprint->notice, size * 1.15, FACE_BOLD, tag);
    put_line(flow, imprint_inputs(flow->arena, imprint), size, FACE_REGULAR, tag);
    for (size_t i = first + 1; i < flow->strip_count; i++)
        flow->strips[i].cost = BREAK_NEVER;
}
