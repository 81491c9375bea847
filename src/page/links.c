#include "page/links.h"

#include <stdlib.h>
#include <string.h>

static int same_name(const void *left, const void *right)
{
    const struct placed_anchor *a = left, *b = right;
    int order = strcmp(a->file, b->file);
    return order ? order : strcmp(a->name, b->name);
}

/* Of two with one name the first leads. */
static int by_name(const void *left, const void *right)
{
    const struct placed_anchor *a = left, *b = right;
    int order = same_name(a, b);
    if (order == 0)
        order = (a->sheet > b->sheet) - (a->sheet < b->sheet);
    return order ? order : (a->y > b->y) - (a->y < b->y);
}

void links_note_anchors(struct flow *flow)
{
    for (size_t i = 0; i < flow->anchor_count; i++) {
        const struct flow_anchor *anchor = &flow->anchors[i];
        if (!anchor->page || anchor->strip >= flow->strip_count)
            continue;
        *HEAP_PUSH(flow->targets, flow->target_count) =
            (struct placed_anchor){.file = anchor->page->file,
                                   .name = arena_text(flow->arena, anchor->name),
                                   .sheet = flow->strips[anchor->strip].sheet,
                                   .y = flow->strips[anchor->strip].y};
    }
}

static void write_number(struct flow *flow, const struct placed_link *placed, size_t to_sheet)
{
    struct sheet *sheet = &flow->print->sheets[placed->sheet];
    struct piece *piece = &sheet->pieces[placed->link.number_piece];
    piece->text = flow->print->sheets[to_sheet].label;
    piece->width = fonts_width(flow->fonts, piece->face, piece->size, piece->text);
    piece->x = placed->link.number_right - piece->width;
}

static void resolve(struct flow *flow, const struct placed_link *placed)
{
    const struct flow_link *link = &placed->link;
    struct hot_area area = {.x = link->x,
                            .y = link->y,
                            .width = link->width,
                            .height = link->height,
                            .uri = link->uri,
                            .tag = link->tag};
    if (!link->uri) {
        struct placed_anchor key = {.file = link->to_page->file, .name = link->to_anchor};
        const struct placed_anchor *found =
            bsearch(&key, flow->targets, flow->target_count, sizeof key, same_name);
        if (!found)
            return; /* the card's page, which is no part of the booklet */
        area.to_sheet = found->sheet;
        area.to_y = found->y;
        if (link->numbered)
            write_number(flow, placed, area.to_sheet);
    }
    struct sheet *sheet = &flow->print->sheets[placed->sheet];
    *ARENA_PUSH(flow->arena, sheet->areas, sheet->area_count) = area;
}

void links_resolve(struct flow *flow)
{
    if (flow->target_count)
        qsort(flow->targets, flow->target_count, sizeof *flow->targets, by_name);
    for (size_t i = 0; i < flow->placed_count; i++)
        resolve(flow, &flow->placed[i]);
}
