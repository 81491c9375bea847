/* Which column gets the width that is left.
 *
 * A cell loses a line wherever its column gets as wide as one line less needs. These widths
 * are measured once, and stand in order for each column as its steps. Two columns that share
 * a room are tried at every step of the first by one sweep: while it widens and the second
 * narrows, each step that either passes changes the height of one row. So a sweep takes as
 * long as the two columns have steps, whatever the number of rows. */
#include "page/table_share.h"

#include "base/memory.h"
#include "page/lines.h"

#include <math.h>
#include <stdlib.h>

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

/* From this width of its column on a cell is so tall, and not as tall as before. */
struct step {
    double width, height, before;
    size_t row;
};

/* Of one column: its steps, the narrowest first, and how tall its cells are after so many
 * of them. */
struct stair {
    struct step *steps;
    size_t count, taken;
    double *heights;
};

/* The heads count as a row, the first. */
struct share {
    struct flow *flow;
    struct table_plan *plan;
    size_t rows, columns;
    struct stair *stairs; /* of each column */
    double *others;       /* the tallest cell of each row but for two columns */
};

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

double table_least(struct flow *flow, double leading, double room, double height)
{
    double least = phrase_least(&flow->phrase);
    size_t lines = (size_t)(height / leading);
    if (flow->phrase.count <= lines || lines_at(flow, least) <= lines)
        return least;
    double most = phrase_most(&flow->phrase);
    return fits(flow, lines, room) ? least_for(flow, lines, least, most) : most;
}

/* The steps of the text in flow->phrase. reach: no wider can the column get. */
static void measure_steps(struct share *share, size_t column, size_t row, double reach,
                          double leading, bool unit)
{
    struct flow *flow = share->flow;
    struct stair *stair = &share->stairs[column];
    double least = share->plan->columns[column].least, width = least;
    double most = fmax(least, phrase_most(&flow->phrase));
    size_t lines = lines_at(flow, least);
    lines = lines ? lines : 1;
    stair->heights[row] = (double)(lines + unit) * leading;
    while (--lines && fits(flow, lines, reach)) {
        width = lines > 1 ? least_for(flow, lines, width, most) : most;
        *HEAP_PUSH(stair->steps, stair->count) = (struct step){
            width, (double)(lines + unit) * leading, (double)(lines + 1 + unit) * leading, row};
    }
}

static void measure_cell(struct share *share, size_t column, size_t row, double reach)
{
    const struct table *table = share->plan->table;
    const struct column *head = &table->columns[column];
    struct text_style style = row == 0 ? table_head_style(share->plan)
                                       : table_cell_style(share->plan, row - 1, column);
    const char *text = row == 0 ? head->quantity : table_cell(table, row - 1, column)->shown;
    if (row > 0 && head->kind == COLUMN_NUMBER) {
        share->stairs[column].heights[row] = style.leading;
        return;
    }
    lines_read_cell(share->flow, text, &style, -1);
    measure_steps(share, column, row, reach, style.leading, row == 0 && head->unit);
}

/* Of steps at one width a cell takes that to fewer lines last. */
static int narrower_first(const void *a, const void *b)
{
    const struct step *one = a, *two = b;
    if (one->width != two->width)
        return one->width < two->width ? -1 : 1;
    if (one->row != two->row)
        return one->row < two->row ? -1 : 1;
    return one->height > two->height ? -1 : one->height < two->height;
}

static void measure_column(struct share *share, size_t column, double reach)
{
    struct stair *stair = &share->stairs[column];
    stair->heights = heap_get(share->rows * sizeof *stair->heights);
    for (size_t row = 0; row < share->rows; row++)
        measure_cell(share, column, row, reach);
    if (stair->count)
        qsort(stair->steps, stair->count, sizeof *stair->steps, narrower_first);
}

/* What a row costs where two of its cells are so tall. */
static double row_cost(double others, double a, double b)
{
    return fmax(others, fmax(a, b)) + LESS_INK * (a + b);
}

/* Two columns and what all rows cost at the widths that they have reached. */
struct pair {
    struct stair *a, *b;
    const double *others;
    double cost;
};

static void set_height(struct pair *pair, const struct stair *stair, size_t row, double height)
{
    double others = pair->others[row];
    pair->cost -= row_cost(others, pair->a->heights[row], pair->b->heights[row]);
    stair->heights[row] = height;
    pair->cost += row_cost(others, pair->a->heights[row], pair->b->heights[row]);
}

/* Takes the steps up or down to this width of a column of the pair. */
static void set_width(struct pair *pair, struct stair *stair, double width)
{
    for (; stair->taken < stair->count && stair->steps[stair->taken].width <= width + NOISE;
         stair->taken++)
        set_height(pair, stair, stair->steps[stair->taken].row,
                   stair->steps[stair->taken].height);
    for (; stair->taken && stair->steps[stair->taken - 1].width > width + NOISE; stair->taken--)
        set_height(pair, stair, stair->steps[stair->taken - 1].row,
                   stair->steps[stair->taken - 1].before);
}

/* The least width at which no cell takes more lines than after the steps taken. */
static double without_slack(const struct stair *stair, double least)
{
    return stair->taken ? stair->steps[stair->taken - 1].width : least;
}

static struct pair pair_of(const struct share *share, size_t a, size_t b)
{
    struct pair pair = {
        .a = &share->stairs[a], .b = &share->stairs[b], .others = share->others};
    for (size_t row = 0; row < share->rows; row++) {
        double others = 0;
        for (size_t i = 0; i < share->columns; i++)
            if (i != a && i != b)
                others = fmax(others, share->stairs[i].heights[row]);
        share->others[row] = others;
        pair.cost += row_cost(others, pair.a->heights[row], pair.b->heights[row]);
    }
    return pair;
}

/* A way to share, and the step that leads to it. */
struct way {
    double a_width, b_width, cost;
    struct step step;
};

/* Of ways that cost the same the first is the one there was, then what the upper row wants,
 * then what takes fewer lines in it. */
static bool is_better(const struct way *way, const struct way *best, bool found)
{
    if (fabs(way->cost - best->cost) > NOISE)
        return way->cost < best->cost;
    if (!found || way->step.row != best->step.row)
        return found && way->step.row < best->step.row;
    return way->step.height < best->step.height;
}

/* Shares out anew, in the best way, what two columns have and what nobody has. Gives
 * what nobody has afterwards. */
static double share_pair(struct share *share, size_t a, size_t b, double room, bool *better)
{
    struct column_plan *columns = share->plan->columns;
    struct pair pair = pair_of(share, a, b);
    struct way best = {
        .a_width = columns[a].width, .b_width = columns[b].width, .cost = pair.cost};
    bool found = false;
    room += columns[a].width + columns[b].width;
    set_width(&pair, pair.a, columns[a].least);
    struct step first = {columns[a].least, pair.a->heights[0], 0, 0};
    for (size_t i = 0; i <= pair.a->count; i++) {
        struct step step = i ? pair.a->steps[i - 1] : first;
        struct way way = {step.width, fmin(columns[b].most, room - step.width), 0, step};
        if (way.a_width > columns[a].most + NOISE || way.b_width < columns[b].least - NOISE)
            break;
        set_width(&pair, pair.a, way.a_width);
        set_width(&pair, pair.b, way.b_width);
        way.cost = pair.cost;
        if (is_better(&way, &best, found)) {
            best = way;
            found = true;
        }
    }
    *better |= found;
    set_width(&pair, pair.a, best.a_width);
    set_width(&pair, pair.b, best.b_width);
    columns[a].width = best.a_width;
    columns[b].width = without_slack(pair.b, columns[b].least);
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

/* Widens columns from their least where that saves height. Gives the room that is left. */
static double widen_to_save(struct flow *flow, struct table_plan *plan, double room)
{
    struct share share = {.flow = flow,
                          .plan = plan,
                          .rows = plan->table->row_count + 1,
                          .columns = plan->table->column_count};
    share.stairs = heap_get(share.columns * sizeof *share.stairs);
    share.others = heap_get(share.rows * sizeof *share.others);
    for (size_t i = 0; i < share.columns; i++)
        measure_column(&share, i, plan->columns[i].least + room + STEP);
    room = save_height(&share, room);
    for (size_t i = 0; i < share.columns; i++) {
        free(share.stairs[i].steps);
        free(share.stairs[i].heights);
    }
    free(share.stairs);
    free(share.others);
    return room;
}

void table_share(struct flow *flow, struct table_plan *plan, double room)
{
    for (size_t i = 0; i < plan->table->column_count; i++)
        plan->columns[i].width = plan->columns[i].least;
    if (!all_have_room(plan, room))
        room = widen_to_save(flow, plan, room);
    room = spread(plan, COLUMN_TEXT, room);
    spread(plan, COLUMN_NUMBER, room);
}
