/* Where the flow is cut into sheets: over the whole of it, as well as it can be.
 *
 * Every strip may be the first of a sheet. The least cost to get there is found from the
 * least costs of the strips before it from which one sheet reaches so far; tracing back from
 * the end gives the cuts. Then the strips are put on their sheets, and what leads from one to
 * another is resolved. */
#include "layout/flow.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

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

/* The best way to a strip as the first of a sheet, or to the end. */
struct way {
    double cost;    /* < 0: none yet */
    size_t from;    /* the strip that the sheet before begins with, */
    double squeeze; /* and the share of its loose gaps that is taken away, 0 to layout.give */
    bool sideways;  /* is the sheet turned that begins here? */
    size_t next;    /* on the way that is taken: what the next sheet begins with */
};

/* Strips to place, counted from the first of them. */
struct search {
    const struct flow *flow;
    const struct strip *strips;
    size_t count;
    struct way *ways; /* to each strip; one more to the end */
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

/* What a sheet has above the strip that it begins with. */
static double above_first(const struct strip *strip)
{
    return strip->inset + (strip->repeat ? strip->repeat->strip.height : 0);
}

/* Does something new begin here, so that blank before it is no fault? */
static bool begins_anew(const struct search *search, size_t at)
{
    return at == search->count || search->strips[at].opens ||
           search->strips[at].turn != TURN_NONE;
}

/* What it costs to get to `next` by way of a sheet that ends there, with so much squeezed. */
static double sheet_cost(const struct search *search, const struct filling *filling,
                         size_t next, double squeeze)
{
    double give = search->flow->layout->give, tight = give > 0 ? squeeze / give : 0;
    double fill = (filling->used - squeeze * filling->loose) / filling->room;
    double blank = fmax(0, 1 - fill), bare = BARE * fmax(0, 1 - fill / BARE_FILL);
    double cost =
        search->ways[filling->first].cost + filling->cost + SHEET + SQUEEZE * tight * tight;
    if (begins_anew(search, next))
        return cost + (bare + BLANK_AT_END * blank * blank);
    const struct strip *strip = &search->strips[next];
    return cost + (bare + (BLANK * blank + blank * blank)) +
           (break_costs[strip->cost] + (strip->repeat ? DIVIDE : 0));
}

/* May the sheet end before `next`? Then it is taken, if it is the best yet. */
static void try_end(struct search *search, const struct filling *filling, size_t next)
{
    double give = search->flow->layout->give;
    double inset = next == search->count ? 0 : search->strips[next].inset;
    double over = filling->used + inset - filling->room;
    double squeeze = over > NOISE ? over / fmax(filling->loose, NOISE) : 0;
    bool opening = filling->opened >= 0 && !begins_anew(search, next) &&
                   filling->used - filling->opened < RUN_ON_LEAST * filling->room;
    if (next > filling->first + 1 && (squeeze > give + NOISE || opening))
        return;
    squeeze = fmin(squeeze, give);
    double cost = sheet_cost(search, filling, next, squeeze);
    struct way *way = &search->ways[next];
    if (way->cost >= 0 && way->cost <= cost)
        return;
    way->cost = cost;
    way->from = filling->first;
    way->squeeze = squeeze;
}

/* Puts the strip `next` on the sheet too; false where that cannot be. */
static bool go_on(const struct search *search, struct filling *filling, size_t next)
{
    const struct strip *strip = &search->strips[next];
    double give = search->flow->layout->give;
    if (strip->turn != TURN_NONE ||
        filling->used - give * filling->loose > filling->room + NOISE)
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
    const struct strip *strip = &search->strips[first];
    struct filling filling = {.first = first,
                              .room = search->ways[first].sideways ? flow->sideways_height
                                                                   : flow->height,
                              .used = above_first(strip) + strip->height,
                              .opened = -1};
    size_t next = first + 1;
    try_end(search, &filling, next);
    while (next < search->count && go_on(search, &filling, next))
        try_end(search, &filling, ++next);
}

/* ---- onto the sheets ---- */

/* A sheet and what lies on it: strips from first to before end. */
struct placing {
    size_t first, end;
    struct sheet *sheet;
    double left, top, room;
};

/* Where on the sheet the strips lie; gives the y below the last. */
static double set_heights(struct flow *flow, const struct placing *on, double squeeze)
{
    size_t foot = on->end;
    double y = on->top + above_first(&flow->strips[on->first]);
    for (size_t i = on->first; i < on->end; i++) {
        struct strip *strip = &flow->strips[i];
        if (i > on->first)
            y += strip->gap - squeeze * loose_gap(strip);
        strip->x = on->left;
        strip->y = y;
        strip->sheet = flow->print->sheet_count - 1;
        y += strip->height;
        if (strip->at_foot && foot == on->end)
            foot = i;
    }
    double down = on->top + on->room - y;
    if (foot == on->end || down < 0)
        return y;
    for (size_t i = foot; i < on->end; i++)
        flow->strips[i].y += down;
    return on->top + on->room;
}

/* The frames that have strips on this sheet; those that go on are closed for now. */
static void draw_frames(struct flow *flow, const struct placing *on)
{
    static const double lines[] = {[FRAME_QUOTE] = 1.2,
                                   [FRAME_LITERAL] = 0.4,
                                   [FRAME_CAUTION] = 2.2,
                                   [FRAME_NOTICE] = 1.5};
    while (flow->open_frame < flow->frame_count &&
           flow->frames[flow->open_frame].end <= on->first)
        flow->open_frame++;
    for (size_t i = flow->open_frame; i < flow->frame_count; i++) {
        const struct frame *frame = &flow->frames[i];
        if (frame->first >= on->end)
            break;
        if (frame->end <= on->first)
            continue;
        bool begins = frame->first >= on->first, ends = frame->end <= on->end;
        double upper = begins ? flow->strips[frame->first].y : on->top + frame->outer;
        const struct strip *lowest = &flow->strips[(ends ? frame->end : on->end) - 1];
        double pads = ends ? 0 : flow->strips[on->end].inset - frame->outer;
        double line = lines[frame->kind], x = on->left + frame->x + line / 2;
        double height = lowest->y + lowest->height + pads - upper;
        sheet_put(flow->arena, on->sheet,
                  frame->kind == FRAME_QUOTE
                      ? decoration(PIECE_LINE, x, upper, 0, height, line)
                      : decoration(PIECE_BOX, x, upper + line / 2, frame->width - line,
                                   height - line, line));
    }
}

static void copy_pieces(struct flow *flow, struct sheet *sheet, const struct strip *strip,
                        double left, double y)
{
    for (size_t i = 0; i < strip->pieces.count; i++) {
        struct piece piece = flow->pieces[strip->pieces.first + i];
        piece.x += left;
        piece.y += y;
        sheet_put(flow->arena, sheet, piece);
    }
}

/* A table that is divided has a rule under its part before the break, and its head again. */
static void place_sheet(struct flow *flow, size_t first, size_t end, bool sideways,
                        double squeeze)
{
    const struct layout *layout = flow->layout;
    double width = layout->width, height = layout->height;
    struct placing on = {.first = first,
                         .end = end,
                         .left = layout_left(layout, flow->print->sheet_count, sideways),
                         .top = sideways ? layout->margins.inner : layout->margins.top,
                         .room = sideways ? flow->sideways_height : flow->height};
    on.sheet = print_sheet(flow->arena, flow->print, sideways ? height : width,
                           sideways ? width : height, "");
    double y = set_heights(flow, &on, squeeze);
    draw_frames(flow, &on);
    const struct strip *begin = &flow->strips[first];
    if (begin->repeat)
        copy_pieces(flow, on.sheet, &begin->repeat->strip, on.left, on.top + begin->inset);
    for (size_t i = first; i < end; i++) {
        flow->strips[i].mark = on.sheet->piece_count;
        copy_pieces(flow, on.sheet, &flow->strips[i], on.left, flow->strips[i].y);
    }
    const struct repeat *goes_on = end < flow->strip_count ? flow->strips[end].repeat : NULL;
    if (goes_on)
        sheet_put(flow->arena, on.sheet,
                  decoration(PIECE_LINE, on.left + goes_on->x, y, goes_on->width, 0, 0.8));
}

/* The best way over all strips that are not placed yet is found from each first strip of a
 * sheet to the next, and then traced back. */
void flow_place(struct flow *flow)
{
    size_t before = flow->placed_count, count = flow->strip_count - before;
    struct way *ways = arena_get(flow->scratch, (count + 1) * sizeof *ways);
    struct search search = {flow, flow->strips + before, count, ways};
    bool sideways = false;
    for (size_t i = 0; i <= count; i++) {
        if (i < count && search.strips[i].turn != TURN_NONE)
            sideways = search.strips[i].turn == TURN_SIDEWAYS;
        ways[i] = (struct way){.cost = i == 0 ? 0 : -1, .sideways = sideways};
    }
    for (size_t i = 0; i < count; i++)
        if (ways[i].cost >= 0)
            try_sheets(&search, i);
    for (size_t at = count; at > 0; at = ways[at].from)
        ways[ways[at].from].next = at;
    for (size_t at = 0; at < count; at = ways[at].next)
        place_sheet(flow, before + at, before + ways[at].next, ways[at].sideways,
                    ways[ways[at].next].squeeze);
    flow->placed_count = flow->strip_count;
}

/* ---- anchors and links ---- */

static int same_name(const void *left, const void *right)
{
    const struct flow_anchor *a = left, *b = right;
    int order = strcmp(a->page->file, b->page->file);
    return order ? order : strcmp(a->name, b->name);
}

/* Of two with one name the first leads. */
static int by_name(const void *left, const void *right)
{
    const struct flow_anchor *a = left, *b = right;
    int order = same_name(a, b);
    return order ? order : (a->strip > b->strip) - (a->strip < b->strip);
}

/* Those that a strip followed and that stand on a page are kept, by name; headings come into
 * the outline before. */
static void sort_anchors(struct flow *flow, int lowest)
{
    struct print *print = flow->print;
    size_t count = 0;
    for (size_t i = 0; i < flow->anchor_count; i++) {
        struct flow_anchor anchor = flow->anchors[i];
        if (anchor.strip >= flow->strip_count)
            continue;
        if (anchor.title && anchor.level <= lowest)
            *ARENA_PUSH(flow->arena, print->outline, print->outline_count) =
                (struct outline_entry){.title = anchor.title,
                                       .level = anchor.level,
                                       .sheet = flow->strips[anchor.strip].sheet,
                                       .y = flow->strips[anchor.strip].y};
        if (anchor.page)
            flow->anchors[count++] = anchor;
    }
    flow->anchor_count = count;
    if (count)
        qsort(flow->anchors, count, sizeof *flow->anchors, by_name);
}

/* Writes the number of a page in its line, none where the line stands on that page, and moves
 * what follows in the line to it; `links` of them are still to be resolved. */
static void number_in_line(struct flow *flow, const struct strip *strip, struct flow_link *link,
                           size_t links, size_t to)
{
    struct sheet *sheet = &flow->print->sheets[strip->sheet];
    struct piece *piece = &sheet->pieces[strip->mark + link->number];
    double width = piece->width, x = piece->x;
    const char *blank = piece->text[0] == ' ' ? " " : "";
    piece->text = to == strip->sheet ? ""
                                     : arena_format(flow->arena, "%s(p.\u00a0%s)", blank,
                                                    flow->print->sheets[to].label);
    piece->width = fonts_width(flow->fonts, piece->face, piece->size, piece->text);
    double less = width - piece->width;
    for (size_t i = link->number + 1; i < strip->pieces.count; i++)
        if (sheet->pieces[strip->mark + i].x > x)
            sheet->pieces[strip->mark + i].x -= less;
    link->width -= less;
    for (size_t i = 1; i < links; i++)
        link[i].x -= less;
}

static void resolve_link(struct flow *flow, const struct strip *strip, struct flow_link *link,
                         size_t links)
{
    struct sheet *sheet = &flow->print->sheets[strip->sheet];
    struct hot_area area = {.x = strip->x + link->x,
                            .y = strip->y + link->y,
                            .width = link->width,
                            .height = link->height,
                            .uri = link->uri,
                            .tag = link->tag};
    if (!link->uri) {
        struct flow_anchor key = {.page = link->to_page, .name = link->to_anchor};
        const struct flow_anchor *found =
            bsearch(&key, flow->anchors, flow->anchor_count, sizeof key, same_name);
        if (!found)
            return; /* the card's page, which is no part of the booklet */
        area.to_sheet = flow->strips[found->strip].sheet;
        area.to_y = flow->strips[found->strip].y;
    }
    if (link->numbered == NUMBER_IN_LINE) {
        number_in_line(flow, strip, link, links, area.to_sheet);
        area.width = link->width;
        if (area.width <= 0)
            return;
    } else if (link->numbered == NUMBER_AT_RIGHT) {
        struct piece *piece = &sheet->pieces[strip->mark + link->number];
        piece->text = flow->print->sheets[area.to_sheet].label;
        piece->width = fonts_width(flow->fonts, piece->face, piece->size, piece->text);
        piece->x = area.x + area.width - piece->width;
    }
    *ARENA_PUSH(flow->arena, sheet->areas, sheet->area_count) = area;
}

void flow_resolve(struct flow *flow, int lowest)
{
    sort_anchors(flow, lowest);
    for (size_t i = 0; i < flow->strip_count; i++) {
        const struct strip *strip = &flow->strips[i];
        for (size_t k = 0; k < strip->links.count; k++)
            resolve_link(flow, strip, &flow->links[strip->links.first + k],
                         strip->links.count - k);
    }
}
