#include "layout/share.h"

#include "base/memory.h"

#include <math.h>
#include <stdlib.h>

/* Two columns that share a room are tried at every step of the first by one sweep: while it
 * widens and the second narrows, each step that either passes changes the height of one row.
 * So a sweep takes as long as the two columns have steps, whatever the number of rows. */

static const double NOISE = 1e-6;

/* No column wants more; and how finely the last of the room is spread. */
static const double WIDEST = 1e5, LEVEL_STEP = 0.01;

/* What a line less in one cell is worth where another cell keeps the row as tall: it
 * tells two ways apart that save the same. */
static const double LESS_INK = 0.1;

/* Rounds over all pairs of columns; they end by themselves long before. */
enum { MOST_ROUNDS = 20 };

struct share {
    struct share_column *columns;
    size_t count, rows;
    double *others; /* the tallest cell of each row but for two columns */
};

/* Of steps at one width a cell takes that to fewer lines last. */
static int narrower_first(const void *a, const void *b)
{
    const struct share_step *one = a, *two = b;
    if (one->width != two->width)
        return one->width < two->width ? -1 : 1;
    if (one->row != two->row)
        return one->row < two->row ? -1 : 1;
    return one->height > two->height ? -1 : one->height < two->height;
}

/* What a row costs where two of its cells are so tall. */
static double row_cost(double others, double a, double b)
{
    return fmax(others, fmax(a, b)) + LESS_INK * (a + b);
}

/* Two columns and what all rows cost at the widths that they have reached. */
struct pair {
    struct share_column *a, *b;
    const double *others;
    double cost;
};

static void set_height(struct pair *pair, const struct share_column *column, size_t row,
                       double height)
{
    double others = pair->others[row];
    pair->cost -= row_cost(others, pair->a->heights[row], pair->b->heights[row]);
    column->heights[row] = height;
    pair->cost += row_cost(others, pair->a->heights[row], pair->b->heights[row]);
}

/* Takes the steps up or down to this width of a column of the pair. */
static void set_width(struct pair *pair, struct share_column *column, double width)
{
    for (; column->taken < column->count && column->steps[column->taken].width <= width + NOISE;
         column->taken++)
        set_height(pair, column, column->steps[column->taken].row,
                   column->steps[column->taken].height);
    for (; column->taken && column->steps[column->taken - 1].width > width + NOISE;
         column->taken--)
        set_height(pair, column, column->steps[column->taken - 1].row,
                   column->steps[column->taken - 1].before);
}

/* The least width at which no cell takes more lines than after the steps taken. */
static double without_slack(const struct share_column *column)
{
    return column->taken ? column->steps[column->taken - 1].width : column->least;
}

static struct pair pair_of(const struct share *share, size_t a, size_t b)
{
    struct pair pair = {
        .a = &share->columns[a], .b = &share->columns[b], .others = share->others};
    for (size_t row = 0; row < share->rows; row++) {
        double others = 0;
        for (size_t i = 0; i < share->count; i++)
            if (i != a && i != b)
                others = fmax(others, share->columns[i].heights[row]);
        share->others[row] = others;
        pair.cost += row_cost(others, pair.a->heights[row], pair.b->heights[row]);
    }
    return pair;
}

/* A way to share, and the step that leads to it. */
struct way {
    double a_width, b_width, cost;
    struct share_step step;
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
    struct share_column *columns = share->columns;
    struct pair pair = pair_of(share, a, b);
    struct way best = {
        .a_width = columns[a].width, .b_width = columns[b].width, .cost = pair.cost};
    bool found = false;
    room += columns[a].width + columns[b].width;
    set_width(&pair, pair.a, columns[a].least);
    struct share_step first = {columns[a].least, pair.a->heights[0], 0, 0};
    for (size_t i = 0; i <= pair.a->count; i++) {
        struct share_step step = i ? pair.a->steps[i - 1] : first;
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
    columns[b].width = without_slack(pair.b);
    return room - columns[a].width - columns[b].width;
}

static double save_height(struct share *share, double room)
{
    bool better = true;
    for (int round = 0; better && round < MOST_ROUNDS; round++) {
        better = false;
        for (size_t a = 0; a < share->count; a++)
            for (size_t b = 0; b < share->count; b++)
                if (a != b)
                    room = share_pair(share, a, b, room, &better);
    }
    return room;
}

static double at_level(const struct share_column *at, double level)
{
    return fmax(at->width, fmin(at->most, level));
}

/* Room that the columns of one kind take when none is wider than the level but those
 * that are so already, and none wider than it wants. */
static double taken_at(const struct share *share, bool last, double level)
{
    double taken = 0;
    for (size_t i = 0; i < share->count; i++)
        if (share->columns[i].last == last)
            taken += at_level(&share->columns[i], level) - share->columns[i].width;
    return taken;
}

/* Widens the columns of one kind to one level, as high as the room allows. Gives the
 * room that is left. */
static double spread(const struct share *share, bool last, double room)
{
    double low = 0, high = WIDEST;
    if (taken_at(share, last, high) <= room)
        low = high;
    while (high - low > LEVEL_STEP) {
        double middle = (low + high) / 2;
        if (taken_at(share, last, middle) <= room)
            low = middle;
        else
            high = middle;
    }
    room -= taken_at(share, last, low);
    for (size_t i = 0; i < share->count; i++)
        if (share->columns[i].last == last)
            share->columns[i].width = at_level(&share->columns[i], low);
    return room;
}

void share_width(struct share_column *columns, size_t count, size_t rows, double room)
{
    struct share share = {.columns = columns, .count = count, .rows = rows};
    share.others = heap_get((rows + 1) * sizeof *share.others);
    for (size_t i = 0; i < count; i++) {
        columns[i].width = columns[i].least;
        if (columns[i].count)
            qsort(columns[i].steps, columns[i].count, sizeof *columns[i].steps, narrower_first);
    }
    if (rows)
        room = save_height(&share, room);
    room = spread(&share, false, room);
    spread(&share, true, room);
    free(share.others);
}
