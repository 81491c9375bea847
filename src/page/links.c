/* Where links lead, once everything has its place. */
#include "page/place.h"

#include <stdlib.h>
#include <string.h>

struct target {
    const char *file, *name;
    size_t strip;
};

static int by_name(const void *left, const void *right)
{
    const struct target *a = left, *b = right;
    int order = strcmp(a->file, b->file);
    if (order == 0)
        order = strcmp(a->name, b->name);
    if (order == 0)
        order = (a->strip > b->strip) - (a->strip < b->strip);
    return order;
}

static int same_name(const void *left, const void *right)
{
    const struct target *a = left, *b = right;
    int order = strcmp(a->file, b->file);
    return order ? order : strcmp(a->name, b->name);
}

/* Every place that was put, in the order of names. */
static struct target *sort_targets(struct flow *flow, size_t *count)
{
    struct target *targets = arena_get(flow->arena, (flow->anchor_count + 1) * sizeof *targets);
    *count = 0;
    for (size_t i = 0; i < flow->anchor_count; i++) {
        const struct flow_anchor *anchor = &flow->anchors[i];
        if (anchor->page && anchor->strip < flow->strip_count)
            targets[(*count)++] = (struct target){
                .file = anchor->page->file, .name = anchor->name, .strip = anchor->strip};
    }
    qsort(targets, *count, sizeof *targets, by_name);
    return targets;
}

static void write_number(struct flow *flow, const struct placed_link *placed, size_t to_sheet)
{
    struct sheet *sheet = &flow->print->sheets[placed->sheet];
    struct piece *piece = &sheet->pieces[placed->number_piece];
    piece->text = flow->print->sheets[to_sheet].label;
    piece->width = fonts_width(flow->fonts, piece->face, piece->size, piece->text);
    piece->x = placed->number_right - piece->width;
}

static void resolve(struct flow *flow, const struct placed_link *placed,
                    const struct target *targets, size_t count)
{
    const struct flow_link *link = &flow->links[placed->link];
    struct hot_area area = {.x = placed->x,
                            .y = placed->y,
                            .width = link->width,
                            .height = link->height,
                            .uri = link->uri,
                            .tag = link->tag};
    if (!link->uri) {
        struct target key = {.file = link->to_page->file, .name = link->to_anchor};
        const struct target *found = bsearch(&key, targets, count, sizeof *targets, same_name);
        if (!found)
            return; /* the card's page, which is no part of the booklet */
        area.to_sheet = flow->strips[found->strip].sheet;
        area.to_y = flow->strips[found->strip].y;
        if (link->numbered)
            write_number(flow, placed, area.to_sheet);
    }
    struct sheet *sheet = &flow->print->sheets[placed->sheet];
    *ARENA_PUSH(flow->arena, sheet->areas, sheet->area_count) = area;
}

void links_resolve(struct flow *flow)
{
    size_t count;
    const struct target *targets = sort_targets(flow, &count);
    for (size_t i = 0; i < flow->placed_count; i++)
        resolve(flow, &flow->placed[i], targets, count);
}
