#include "page/table_share.h"

#include "page/lines.h"

#include <math.h>

static const double NOISE = 1e-6;

/* How finely the least width for some lines is found; points. */
static const double STEP = 0.25;

/* No column wants more; and how finely the last of the room is spread. */
static const double WIDEST = 1e5, LEVEL_STEP = 0.01;

/* What a line less in one cell is worth where another cell keeps the row as tall: it
 * tells two ways apart that save the same. */
static const double LESS_INK = 0.1;

/* Rounds over all pairs of columns; they end by themselves long before. */
enum { MOST_ROUNDS = 20 };

/* The least width at which a cell takes so many lines: widths[0] for one line, ... */
struct cell_need {
    double *widths;
    size_t count;
    double leading;
    bool unit; /* a head with a line more, for its unit */
};

/* The heads count as a row, the first. */
struct share {
    struct flow *flow;
    struct table_plan *plan;
    size_t rows, columns;
    struct cell_need *needs; /* column after column */
    double *others;          /* the tallest cell of each row but for two columns */
    double *rest;            /* what this row and all below it cost at least */
};

static struct cell_need *need_of(const struct share *share, size_t column, size_t row)
{
    return &share->needs[column * share->rows + row];
}

static size_t lines_at(struct flow *flow, double width)
{
    phrase_break(&flow->phrase, width + NOISE, &flow->lines);
    return flow->lines.count;
}

/* Does the text in flow->phrase, whose words have been gathered, fit in so many lines? */
static bool fits(struct flow *flow, size_t lines, double width)
{
    return lines_suffice(flow->lines.words, flow->lines.word_count, width + NOISE, lines);
}

static bool breaks_well(struct flow *flow, size_t lines, double width)
{
    return lines_at(flow, width) <= lines;
}

typedef bool is_enough(struct flow *flow, size_t lines, double width);

/* Between a width that is too little for so many lines and one that is enough. */
static double narrow_down(struct flow *flow, size_t lines, double little, double enough,
                          is_enough *good)
{
    while (enough - little > STEP) {
        double middle = (little + enough) / 2;
        if (good(flow, lines, middle))
            enough = middle;
        else
            little = middle;
    }
    return enough;
}

/* Where the words fit they nearly always break well, too, which takes longer to find. */
static double least_for(struct flow *flow, size_t lines, double little, double most)
{
    double width = narrow_down(flow, lines, little, most, fits);
    return breaks_well(flow, lines, width) ? width
                                           : narrow_down(flow, lines, width, most, breaks_well);
}

/* Of the text in flow->phrase, in a column of this least width. */
static void measure_need(struct share *share, struct cell_need *need, double least)
{
    struct flow *flow = share->flow;
    double most = fmax(least, phrase_most(&flow->phrase));
    need->count = lines_at(flow, least);
    need->count = need->count ? need->count : 1;
    need->widths = arena_get(flow->scratch, need->count * sizeof *need->widths);
    need->widths[need->count - 1] = least;
    for (size_t lines = need->count - 1; lines > 1; lines--)
        need->widths[lines - 1] = least_for(flow, lines, need->widths[lines], most);
    if (need->count > 1)
        need->widths[0] = most;
}

static void measure_cell(struct share *share, size_t column, size_t row)
{
    const struct table *table = share->plan->table;
    const struct column *head = &table->columns[column];
    struct cell_need *need = need_of(share, column, row);
    double least = share->plan->columns[column].least;
    struct text_style style = row == 0 ? table_head_style(share->plan)
                                       : table_cell_style(share->plan, row - 1, column);
    const char *text = row == 0 ? head->quantity : table_cell(table, row - 1, column)->shown;
    need->leading = style.leading;
    need->unit = row == 0 && head->unit;
    if (row > 0 && head->kind == COLUMN_NUMBER) {
        static double one_line = 0;
        need->widths = &one_line;
        need->count = 1;
        return;
    }
    lines_read_cell(share->flow, text, &style, -1);
    measure_need(share, need, least);
}

static double height_at(const struct cell_need *need, double width)
{
    size_t lines = 1;
    while (lines < need->count && need->widths[lines - 1] > width + NOISE)
        lines++;
    return (double)(lines + need->unit) * need->leading;
}

/* What a row costs where two of its cells are so tall. */
static double row_cost(double others, double a, double b)
{
    return fmax(others, fmax(a, b)) + LESS_INK * (a + b);
}

static void find_others(struct share *share, size_t a, size_t b)
{
    share->rest[share->rows] = 0;
    for (size_t row = share->rows; row-- > 0;) {
        share->others[row] = 0;
        for (size_t i = 0; i < share->columns; i++)
            if (i != a && i != b)
                share->others[row] =
                    fmax(share->others[row],
                         height_at(need_of(share, i, row), share->plan->columns[i].width));
        share->rest[row] =
            share->rest[row + 1] + row_cost(share->others[row],
                                            height_at(need_of(share, a, row), INFINITY),
                                            height_at(need_of(share, b, row), INFINITY));
    }
}

/* Two columns and their widths, and what all rows then cost. */
struct pair {
    size_t a, b;
    double a_width, b_width, cost;
};

/* Stops where it is sure to cost more than the limit: then it is no good anyway. */
static void weigh_pair(const struct share *share, struct pair *pair, double limit)
{
    double cost = 0;
    size_t row = 0;
    for (; row < share->rows && cost + share->rest[row] <= limit; row++)
        cost +=
            row_cost(share->others[row], height_at(need_of(share, pair->a, row), pair->a_width),
                     height_at(need_of(share, pair->b, row), pair->b_width));
    pair->cost = cost + share->rest[row];
}

/* The least width at which no cell takes more lines than at this one. */
static double without_slack(const struct share *share, size_t column, double width)
{
    double least = share->plan->columns[column].least;
    for (size_t row = 0; row < share->rows; row++) {
        const struct cell_need *need = need_of(share, column, row);
        for (size_t i = 0; i < need->count; i++)
            if (need->widths[i] <= width + NOISE)
                least = fmax(least, need->widths[i]);
    }
    return least;
}

/* With the first column at this width the second gets the rest. */
static void try_pair(const struct share *share, struct pair *best, double a_width, double room)
{
    const struct column_plan *a = &share->plan->columns[best->a];
    const struct column_plan *b = &share->plan->columns[best->b];
    struct pair pair = *best;
    pair.a_width = a_width;
    pair.b_width = fmin(b->most, room - a_width);
    if (a_width > a->most + NOISE || pair.b_width < b->least - NOISE)
        return;
    weigh_pair(share, &pair, best->cost);
    if (pair.cost < best->cost - NOISE)
        *best = pair;
}

/* Shares out anew, in the best way, what two columns have and what nobody has. Gives
 * what nobody has afterwards. */
static double share_pair(struct share *share, size_t a, size_t b, double room, bool *better)
{
    struct column_plan *columns = share->plan->columns;
    struct pair best = {.a = a, .b = b};
    best.a_width = columns[a].width;
    best.b_width = columns[b].width;
    room += best.a_width + best.b_width;
    find_others(share, a, b);
    weigh_pair(share, &best, INFINITY);
    double before = best.cost;
    double tried = 0; /* cells of few words all want the same */
    for (size_t row = 0; row < share->rows; row++) {
        const struct cell_need *need = need_of(share, a, row);
        for (size_t i = 0; i < need->count; i++) {
            double width = fmax(need->widths[i], columns[a].least);
            if (width != tried)
                try_pair(share, &best, width, room);
            tried = width;
        }
    }
    *better |= best.cost < before - NOISE;
    columns[a].width = best.a_width;
    columns[b].width = without_slack(share, b, best.b_width);
    return room - columns[a].width - columns[b].width;
}

static double save_height(struct share *share, double room)
{
    bool better = true;
    for (int round = 0; better && round < MOST_ROUNDS; round++) {
        better = false;
        for (size_t a = 0; a < share->columns; a++)
            for (size_t b = 0; b < share->columns; b++)
                if (a != b)
                    room = share_pair(share, a, b, room, &better);
    }
    return room;
}

static double at_level(const struct column_plan *at, double level)
{
    return fmax(at->width, fmin(at->most, level));
}

/* Room that the columns of one kind take when none is wider than the level but those
 * that are so already, and none wider than it wants. */
static double taken_at(const struct table_plan *plan, enum column_kind kind, double level)
{
    double taken = 0;
    for (size_t i = 0; i < plan->table->column_count; i++)
        if (plan->table->columns[i].kind == kind)
            taken += at_level(&plan->columns[i], level) - plan->columns[i].width;
    return taken;
}

/* Widens the columns of one kind to one level, as high as the room allows. Gives the
 * room that is left. */
static double spread(struct table_plan *plan, enum column_kind kind, double room)
{
    double low = 0, high = WIDEST;
    if (taken_at(plan, kind, high) <= room)
        low = high;
    while (high - low > LEVEL_STEP) {
        double middle = (low + high) / 2;
        if (taken_at(plan, kind, middle) <= room)
            low = middle;
        else
            high = middle;
    }
    room -= taken_at(plan, kind, low);
    for (size_t i = 0; i < plan->table->column_count; i++)
        if (plan->table->columns[i].kind == kind)
            plan->columns[i].width = at_level(&plan->columns[i], low);
    return room;
}

static bool all_have_room(const struct table_plan *plan, double room)
{
    for (size_t i = 0; i < plan->table->column_count; i++)
        room -= plan->columns[i].most - plan->columns[i].least;
    return room >= -NOISE;
}

void table_share(struct flow *flow, struct table_plan *plan, double room)
{
    struct share share = {.flow = flow,
                          .plan = plan,
                          .rows = plan->table->row_count + 1,
                          .columns = plan->table->column_count};
    for (size_t i = 0; i < share.columns; i++)
        plan->columns[i].width = plan->columns[i].least;
    if (!all_have_room(plan, room)) {
        share.needs =
            arena_get(flow->scratch, share.columns * share.rows * sizeof *share.needs);
        share.others = arena_get(flow->scratch, share.rows * sizeof *share.others);
        share.rest = arena_get(flow->scratch, (share.rows + 1) * sizeof *share.rest);
        for (size_t column = 0; column < share.columns; column++)
            for (size_t row = 0; row < share.rows; row++)
                measure_cell(&share, column, row);
        room = save_height(&share, room);
    }
    room = spread(plan, COLUMN_TEXT, room);
    spread(plan, COLUMN_NUMBER, room);
}
