#include "layout/cut.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Where the flow is cut into sheets: over the whole of it, as well as it can be.
 *
 * Every strip may be the first of a sheet. The least cost to get there is found from the
 * least costs of the strips before it from which one sheet reaches so far; tracing back from
 * the end gives the cuts. Then the strips are put on their sheets, and what leads from one to
 * another is resolved. */

static const double NOISE = 1e-6;

/* A gap keeps at least this much, in points: a caption stays apart from its table. */
static const double TIGHT = 3;

/* What parting costs, and what one sheet more: to keep a table whole is worth half-empty
 * sheets, to keep a heading with its text is worth more than that. */
static const double break_costs[] = {
    [BREAK_FREE] = 0, [BREAK_GROUP] = 0.1, [BREAK_NEAR] = 0.6,    [BREAK_LEAD] = 8,
    [BREAK_KEEP] = 9, [BREAK_WIDOW] = 30,  [BREAK_HEADING] = 200, [BREAK_NEVER] = 1e4};

static const double SHEET = 1;

/* A table is divided as seldom as can be. */
static const double DIVIDE = 0.8;

/* Blank at the foot, by its share of the sheet: within a chapter by that and its square, at
 * the chapter's end by its square alone. A line moved to the last sheet only to fill it
 * always costs: BLANK is more than twice BLANK_AT_END. */
static const double BLANK = 1.5, BLANK_AT_END = 0.74;

/* A sheet that is less full than this looks forgotten. */
static const double BARE_FILL = 0.2, BARE = 2;

/* Gaps squeezed as far as they go; less by the square. */
static const double SQUEEZE = 0.3;

/* A chapter may begin below the end of another: not in the lower part of a sheet, and with
 * at least so much of itself. It is found more easily at the top of a sheet. */
static const double RUN_ON_MOST = 0.6, RUN_ON_LEAST = 0.2, RUN_ON = 0.4;

/* What one sheet holds: the strips from the end of the one before. */
struct cut {
    size_t end;     /* the strip that the next sheet begins with */
    double squeeze; /* share of every loose gap that is taken away, 0 to layout.give */
    bool sideways;
};

struct found {
    double cost; /* of the best way to this strip as the first of a sheet; < 0: none yet */
    size_t from; /* the strip that the sheet before begins with */
    double squeeze;
    bool sideways; /* the sheet that begins here */
};

struct search {
    const struct flow *flow;
    size_t first, end;
    double give;
    struct found *found; /* of strip first + i; one more for the end */
};

/* A sheet while strips are put on it. */
struct filling {
    size_t first;
    double room, used, loose; /* loose: of its gaps */
    double cost;              /* of chapters that began below others */
    double opened;            /* where the last of these began; < 0: none */
};

/* The part of a strip's gap that may be squeezed. */
static double loose_gap(const struct strip *strip)
{
    return fmax(0, strip->gap - TIGHT);
}

/* Height that a strip takes as the first of a sheet. */
static double height_as_first(const struct strip *strip)
{
    double repeat = strip->repeat ? strip->repeat->strip.height : 0;
    return strip->inset + repeat + strip->height;
}

static bool is_end(const struct search *search, size_t at)
{
    return at == search->end;
}

static const struct strip *strip_at(const struct search *search, size_t at)
{
    return &search->flow->strips[at];
}

/* Does something new begin here, so that blank before it is no fault? */
static bool begins_anew(const struct search *search, size_t at)
{
    return is_end(search, at) || strip_at(search, at)->opens ||
           strip_at(search, at)->turn != TURN_NONE;
}

static double blank_cost(const struct search *search, double fill, size_t next)
{
    double blank = fmax(0, 1 - fill);
    double bare = BARE * fmax(0, 1 - fill / BARE_FILL);
    return bare + (begins_anew(search, next) ? BLANK_AT_END * blank * blank
                                             : BLANK * blank + blank * blank);
}

static double parting_cost(const struct search *search, size_t next)
{
    if (begins_anew(search, next))
        return 0;
    const struct strip *strip = strip_at(search, next);
    return break_costs[strip->cost] + (strip->repeat ? DIVIDE : 0);
}

/* Takes the sheet that ends before `next`, with so much squeezed, if it is the best yet. */
static void take(struct search *search, const struct filling *filling, size_t next,
                 double squeeze)
{
    double tight = search->give > 0 ? squeeze / search->give : 0;
    double fill = (filling->used - squeeze * filling->loose) / filling->room;
    double cost = search->found[filling->first - search->first].cost + filling->cost + SHEET +
                  SQUEEZE * tight * tight + blank_cost(search, fill, next);
    cost += parting_cost(search, next);
    struct found *found = &search->found[next - search->first];
    if (found->cost >= 0 && found->cost <= cost)
        return;
    found->cost = cost;
    found->from = filling->first;
    found->squeeze = squeeze;
}

/* May the sheet end before `next`? Then it is weighed. */
static void try_end(struct search *search, const struct filling *filling, size_t next)
{
    double inset = is_end(search, next) ? 0 : strip_at(search, next)->inset;
    double over = filling->used + inset - filling->room;
    double squeeze = over > NOISE ? over / fmax(filling->loose, NOISE) : 0;
    bool alone = next == filling->first + 1;
    bool opening = filling->opened >= 0 && !begins_anew(search, next) &&
                   filling->used - filling->opened < RUN_ON_LEAST * filling->room;
    if (alone || (squeeze <= search->give + NOISE && !opening))
        take(search, filling, next, fmin(squeeze, search->give));
}

/* Puts the strip `next` on the sheet too; false where that cannot be. */
static bool go_on(const struct search *search, struct filling *filling, size_t next)
{
    const struct strip *strip = strip_at(search, next);
    if (strip->turn != TURN_NONE ||
        filling->used - search->give * filling->loose > filling->room + NOISE)
        return false;
    if (strip->opens) {
        if (filling->used > RUN_ON_MOST * filling->room)
            return false;
        filling->opened = filling->used;
        filling->cost += RUN_ON;
    }
    filling->used += strip->gap + strip->height;
    filling->loose += loose_gap(strip);
    return true;
}

/* Weighs all sheets that begin with this strip. */
static void try_sheets(struct search *search, size_t first)
{
    const struct flow *flow = search->flow;
    bool sideways = search->found[first - search->first].sideways;
    struct filling filling = {.first = first,
                              .room = sideways ? flow->sideways_height : flow->height,
                              .used = height_as_first(strip_at(search, first)),
                              .opened = -1};
    for (size_t next = first + 1;; next++) {
        try_end(search, &filling, next);
        if (is_end(search, next) || !go_on(search, &filling, next))
            return;
    }
}

static const struct cut *trace(struct search *search, struct arena *arena, size_t *count)
{
    size_t sheets = 0;
    for (size_t at = search->end; at != search->first;
         at = search->found[at - search->first].from)
        sheets++;
    struct cut *cuts = arena_get(arena, sheets * sizeof *cuts);
    *count = sheets;
    for (size_t at = search->end; at != search->first;) {
        const struct found *found = &search->found[at - search->first];
        cuts[--sheets] =
            (struct cut){.end = at,
                         .squeeze = found->squeeze,
                         .sideways = search->found[found->from - search->first].sideways};
        at = found->from;
    }
    return cuts;
}

static const struct cut *cut_sheets(struct flow *flow, const struct layout *layout,
                                    size_t first, size_t end, size_t *count)
{
    struct search search = {.flow = flow, .first = first, .end = end, .give = layout->give};
    search.found = arena_get(flow->scratch, (end - first + 1) * sizeof *search.found);
    bool sideways = false;
    for (size_t i = first; i <= end; i++) {
        if (i < end && flow->strips[i].turn != TURN_NONE)
            sideways = flow->strips[i].turn == TURN_SIDEWAYS;
        search.found[i - first] = (struct found){.cost = -1, .sideways = sideways};
    }
    search.found[0].cost = 0;
    for (size_t i = first; i < end; i++)
        if (search.found[i - first].cost >= 0)
            try_sheets(&search, i);
    return trace(&search, flow->scratch, count);
}

/* ---- onto the sheets ---- */

static void add_sheet(struct flow *flow, const struct layout *layout, bool sideways)
{
    print_sheet(flow->arena, flow->print, sideways ? layout->height : layout->width,
                sideways ? layout->width : layout->height, "");
}

/* Where on the sheet the strips lie; gives the y below the last. */
static double set_heights(struct flow *flow, size_t first, const struct cut *cut, double top,
                          double room)
{
    size_t end = cut->end;
    double y = top + height_as_first(&flow->strips[first]) - flow->strips[first].height;
    size_t foot = end;
    for (size_t i = first; i < end; i++) {
        struct strip *strip = &flow->strips[i];
        if (i > first)
            y += strip->gap - cut->squeeze * loose_gap(strip);
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
    sheet_put(flow->arena, &flow->print->sheets[flow->print->sheet_count - 1], piece);
}

static void draw_frame(struct flow *flow, const struct frame *frame, double left, double top,
                       double bottom)
{
    static const double lines[] = {[FRAME_QUOTE] = 1.2,
                                   [FRAME_LITERAL] = 0.4,
                                   [FRAME_CAUTION] = 2.2,
                                   [FRAME_NOTICE] = 1.5};
    double line = lines[frame->kind], x = left + frame->x + line / 2;
    if (frame->kind == FRAME_QUOTE)
        add_piece(flow, decoration(PIECE_LINE, x, top, 0, bottom - top, line));
    else
        add_piece(flow, decoration(PIECE_BOX, x, top + line / 2, frame->width - line,
                                   bottom - top - line, line));
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

/* ---- anchors and links ---- */

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

static void add_to_outline(struct flow *flow, const struct flow_anchor *anchor,
                           const struct strip *strip)
{
    struct print *print = flow->print;
    *ARENA_PUSH(flow->arena, print->outline, print->outline_count) = (struct outline_entry){
        .title = anchor->title, .level = anchor->level, .sheet = strip->sheet, .y = strip->y};
}

void flow_note_anchors(struct flow *flow, int lowest)
{
    for (size_t i = 0; i < flow->anchor_count; i++) {
        const struct flow_anchor *anchor = &flow->anchors[i];
        if (anchor->strip >= flow->strip_count)
            continue;
        const struct strip *strip = &flow->strips[anchor->strip];
        if (anchor->page)
            *HEAP_PUSH(flow->targets, flow->target_count) =
                (struct placed_anchor){.file = anchor->page->file,
                                       .name = arena_text(flow->arena, anchor->name),
                                       .sheet = strip->sheet,
                                       .y = strip->y};
        if (anchor->title && anchor->level <= lowest)
            add_to_outline(flow, anchor, strip);
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

static void resolve_link(struct flow *flow, const struct placed_link *placed)
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

void flow_resolve_links(struct flow *flow)
{
    if (flow->target_count)
        qsort(flow->targets, flow->target_count, sizeof *flow->targets, by_name);
    for (size_t i = 0; i < flow->placed_count; i++)
        resolve_link(flow, &flow->placed[i]);
}
