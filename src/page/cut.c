#include "page/cut.h"

#include <math.h>

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

double cut_loose(const struct strip *strip)
{
    return fmax(0, strip->gap - TIGHT);
}

double cut_height_as_first(const struct strip *strip)
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
    filling->loose += cut_loose(strip);
    return true;
}

/* Weighs all sheets that begin with this strip. */
static void try_sheets(struct search *search, size_t first)
{
    const struct flow *flow = search->flow;
    bool sideways = search->found[first - search->first].sideways;
    struct filling filling = {.first = first,
                              .room = sideways ? flow->sideways_height : flow->height,
                              .used = cut_height_as_first(strip_at(search, first)),
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

const struct cut *cut_sheets(struct flow *flow, const struct layout *layout, size_t first,
                             size_t end, size_t *count)
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
