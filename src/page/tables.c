#include "page/tables.h"

#include "page/lines.h"
#include "page/table_plan.h"

#include <math.h>

static const double SIZE_STEP = 0.5, NOISE = 1e-6;

/* Rows that a divided table has at least on its first and its last sheet. */
enum { LEAST_FIRST_ROWS = 8, LEAST_LAST_ROWS = 2 };

/* A heading and the line before a table go to the table's turned sheet with it, if
 * they take no more than this share of the sheet. */
static const double MOST_LEAD = 0.3;

static double plan_height(const struct table_plan *plan)
{
    double height = plan->head_height;
    for (size_t row = 0; row < plan->table->row_count; row++)
        height += plan->row_heights[row];
    return height;
}

/* Smaller type must save more lines than it loses in size, by half as much again: pages
 * are there to be read, and a table is read along its rows. */
static const double SIZE_WORTH = 1.5;

static double plan_cost(const struct table_plan *plan)
{
    return plan_height(plan) / plan->figures / pow(plan->figures, SIZE_WORTH);
}

/* At best each row is one line, in the largest type. */
static double least_cost(const struct flow *flow, const struct table *table)
{
    return (double)table->row_count / pow(flow->type->table_most, SIZE_WORTH);
}

/* Plans the table at the size of type that is worth most; of equal ones the larger.
 * False where it fits at none. */
static bool plan_best(struct flow *flow, struct table_plan *plan, const struct table *table,
                      struct area area, double height)
{
    double least = INFINITY;
    struct table_plan tried;
    *plan = (struct table_plan){0};
    for (double size = flow->type->table_most; size >= flow->type->table_least;
         size -= SIZE_STEP) {
        if (!table_plan_make(flow, &tried, table, size, area, height))
            continue;
        double cost = plan_cost(&tried);
        if (cost < least * (1 - NOISE)) {
            least = cost;
            *plan = tried;
        }
    }
    return plan->table;
}

static bool plan_upright(struct flow *flow, struct table_plan *plan, const struct table *table,
                         struct area area)
{
    return plan_best(flow, plan, table, area, flow->height);
}

static bool plan_sideways(struct flow *flow, struct table_plan *plan, const struct table *table)
{
    struct area area = {.width = flow->sideways_width};
    if (flow->inset > 0 || area.width <= 0)
        return false; /* a frame cannot go over to a turned sheet */
    return plan_best(flow, plan, table, area, flow->sideways_height);
}

/* Begins a turned sheet; what must not be parted from the table comes along. */
static void turn_sheet(struct flow *flow)
{
    size_t first = flow->strip_count;
    bool held = flow->cost >= BREAK_LEAD;
    while (held && first > 0 && flow->strips[first - 1].inset == 0 &&
           flow->strips[first - 1].turn != TURN_SIDEWAYS) {
        first--;
        held = flow->strips[first].cost >= BREAK_LEAD && flow->strips[first].turn == TURN_NONE;
    }
    double lead = flow_height(flow, first, flow->strip_count);
    if (first < flow->strip_count && lead < MOST_LEAD * flow->sideways_height)
        flow->strips[first].turn = TURN_SIDEWAYS;
    else
        flow->turn = TURN_SIDEWAYS;
}

static struct text_style caption_style(const struct flow *flow)
{
    double size =
        fmax(fmin(flow->type->table_most, flow->type->body), flow->type->table_caption_least);
    return (struct text_style){.face = FACE_BOLD, .size = size, .leading = size * 1.25};
}

static void caption_put(struct flow *flow, const char *text, double x, double width, int tag)
{
    struct text_style style = caption_style(flow);
    size_t first = flow->strip_count;
    lines_read_plain(flow, text, &style, tag < 0 ? -1 : flow_tag(flow, TAG_CAPTION, tag));
    lines_put(flow, (struct area){.x = x, .width = width}, &style);
    for (size_t i = first + 1; i < flow->strip_count; i++)
        flow->strips[i].cost = BREAK_NEVER;
    flow_gap(flow, style.size * 0.3);
    flow_cost(flow, BREAK_NEVER);
}

/* Moves the strips from first on into one strip beside the flow. */
static struct strip take_strips(struct flow *flow, size_t first)
{
    struct strip whole = flow->strips[first];
    double y = 0;
    for (size_t i = first; i < flow->strip_count; i++) {
        const struct strip *strip = &flow->strips[i];
        y += i > first ? strip->gap : 0;
        for (size_t p = 0; p < strip->pieces.count; p++)
            flow->pieces[strip->pieces.first + p].y += y;
        y += strip->height;
    }
    whole.height = y;
    whole.pieces.count = flow->piece_count - whole.pieces.first;
    flow->strip_count = first;
    return whole;
}

/* What a sheet begins with on which the table goes on. */
static const struct repeat *make_repeat(struct flow *flow, const struct table_plan *plan,
                                        double width)
{
    struct repeat *repeat = arena_get(flow->scratch, sizeof *repeat);
    size_t first = flow->strip_count;
    caption_put(flow, arena_format(flow->scratch, "%s (continued)", plan->table->caption),
                plan->x, width, -1);
    table_head_put(flow, plan, -1);
    repeat->strip = take_strips(flow, first);
    repeat->x = plan->x;
    repeat->width = plan->width;
    return repeat;
}

/* Where rows stand in groups, a table is best divided between two of them. */
static enum break_cost row_cost(const struct table_plan *plan, size_t row)
{
    const struct table *table = plan->table;
    if (row == 0)
        return BREAK_NEVER;
    if (row < LEAST_FIRST_ROWS || row + LEAST_LAST_ROWS > table->row_count)
        return BREAK_WIDOW;
    return !plan->hairlines && row % TABLE_GROUP ? BREAK_GROUP : BREAK_FREE;
}

static void notes_put(struct flow *flow, const struct table *table, struct area area, int tag)
{
    const struct type_scale *type = flow->type;
    struct text_style style = {.size = type->note, .leading = type->note * 1.25};
    flow_gap(flow, style.size * 0.4);
    for (size_t i = 0; i < table->note_count; i++) {
        size_t first = flow->strip_count;
        lines_read_plain(flow, table->notes[i], &style, flow_tag(flow, TAG_NOTE, tag));
        lines_put(flow, area, &style);
        for (size_t k = first; k < flow->strip_count; k++)
            flow->strips[k].cost = BREAK_NEVER;
        flow_gap(flow, style.size * 0.15);
    }
}

/* Even a table that fits on one sheet may be divided: when it fills the sheet and a
 * heading stands before it. */
static void set_repeats(struct flow *flow, const struct table_plan *plan, size_t first_row,
                        double width)
{
    const struct repeat *repeat = make_repeat(flow, plan, width);
    for (size_t row = 1; row < plan->table->row_count; row++)
        flow->strips[first_row + row].repeat = repeat;
}

static void put_planned(struct flow *flow, const struct table_plan *plan, struct area area,
                        double room, int tag)
{
    const struct table *table = plan->table;
    size_t first = flow->strip_count;
    int table_tag = flow_tag(flow, TAG_TABLE, tag);
    flow_anchor(flow, table->name);
    caption_put(flow, table->caption, area.x, area.width, table_tag);
    table_head_put(flow, plan, table_tag);
    size_t first_row = flow->strip_count;
    for (size_t row = 0; row < table->row_count; row++) {
        flow_cost(flow, row_cost(plan, row));
        table_row_put(flow, plan, row, table_tag);
    }
    notes_put(flow, table, area, tag);
    flow_keep(flow, first, room);
    set_repeats(flow, plan, first_row, area.width);
}

static void report(struct flow *flow, const struct table *table)
{
    flow->failed = true;
    if (!flow->trial)
        fault(flow->diags, table->at,
              "the table '%s' is too wide for the page at every size and even turned; shorten "
              "its longest words or divide it into two tables",
              table->name);
}

/* Turning a booklet is a nuisance: a table stands on a turned sheet where it fits no other,
 * or where it is so much better there, with half as many lines, say, in larger type. */
static const double TURN_WORTH = 2;

static void put_sideways(struct flow *flow, const struct table_plan *plan, int tag)
{
    turn_sheet(flow);
    put_planned(flow, plan, (struct area){.width = flow->sideways_width}, flow->sideways_height,
                tag);
    flow->turn = TURN_UPRIGHT;
}

void table_put(struct flow *flow, const struct table *table, struct area area, int tag)
{
    struct table_plan upright, sideways;
    bool fits = plan_upright(flow, &upright, table, area);
    bool may_turn = !fits || plan_cost(&upright) > TURN_WORTH * least_cost(flow, table);
    if (may_turn && plan_sideways(flow, &sideways, table) &&
        (!fits || plan_cost(&upright) > TURN_WORTH * plan_cost(&sideways)))
        put_sideways(flow, &sideways, tag);
    else if (fits)
        put_planned(flow, &upright, area, flow->height, tag);
    else
        report(flow, table);
}
