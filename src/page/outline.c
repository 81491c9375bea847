#include "page/outline.h"

void outline_make(struct flow *flow, int lowest)
{
    struct print *print = flow->print;
    for (size_t i = 0; i < flow->anchor_count; i++) {
        const struct flow_anchor *anchor = &flow->anchors[i];
        if (!anchor->title || anchor->level > lowest || anchor->strip >= flow->strip_count)
            continue;
        *ARENA_PUSH(flow->arena, print->outline, print->outline_count) =
            (struct outline_entry){.title = anchor->title,
                                   .level = anchor->level,
                                   .sheet = flow->strips[anchor->strip].sheet,
                                   .y = flow->strips[anchor->strip].y};
    }
}
