/* Tables and grids.
 *
 * A table is planned at each size of type, and the plan that is worth most is put: every
 * column has its least and its most width, and what the least ones leave is shared out so that
 * the rows take the least height. A cell loses a line wherever its column gets as wide as one
 * line less needs; these widths, its steps, are found once. Two columns that share a room are
 * then tried at every step of the first by one sweep: while it widens and the second narrows,
 * each step that either passes changes the height of one row. So a sweep takes as long as the
 * two columns have steps, whatever the number of rows. Each two columns in turn share what they
 * have and what nobody has, round after round, until nothing more is saved. What is left then
 * is spread: narrow columns first, and those of numbers after all others.
 *
 * A grid is planned once: its columns have the shares that were asked for. Heads, rows and
 * cells of both are measured and put alike; only the lines about them differ. */
#include "layout/table.h"

#include "base/memory.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double NOISE = 1e-6, SIZE_STEP = 0.5;

/* Rules: over and under a table, and room for the one under the heads; between rows. */
static const double RULE = 0.8, RULE_ROOM = 1, HAIRLINE = 0.3;

/* Of the rules around a strong row: at least this, and this share of the figures. */
static const double STRONG_RULE = 1.2, STRONG_SHARE = 0.06;

/* From line to line, share of the size. */
static const double LEADING = 1.2;

/* A head wider than this many of its own sizes is rather wrapped. */
static const double WIDE_HEAD = 6;

/* Left and right of each column, share of the words' size; columns come closer in the
 * smallest type alone, before the sheet is turned. */
static const double MARGIN = 0.45, TIGHT_MARGIN = 0.35;

/* From one written line to the next: 8 mm leave room for a hand with a pencil. */
static const double WRITTEN_ROW = 8 * MM;

/* A table with rows of several lines, or with few rows, has a hairline between them; else there
 * is a rule between two groups, so that the eye keeps its row. */
enum { FEW_ROWS = 7, GROUP = 5 };

/* Of grids: within a box, sizes of type, lines, and around the whole. */
static const double GRID_PAD = 3, GRID_HEADS = 8.5, GRID_LEADING = 1.18, SMALLER_CELLS = 0.5;

static const double BOX_RULE = 0.5, BOX_FRAME = 1, GRID_AFTER = 7;

/* ---- what cells look like ---- */

static bool row_is_strong(const struct table *table, size_t row)
{
    return table_cell(table, row, 0)->strong;
}

static const char *text_of(const struct table_plan *plan, size_t row, size_t column)
{
    return table_cell(plan->table, row, column)->shown;
}

/* Is the column one of numbers? Words in it stand on the right, and are not broken. */
static bool has_numbers(const struct table_plan *plan, size_t column)
{
    return plan->table->columns[column].kind == COLUMN_NUMBER;
}

/* Is the cell set on the decimal point of its column? */
static bool is_number(const struct table_plan *plan, size_t row, size_t column)
{
    const char *text = text_of(plan, row, column);
    if (!has_numbers(plan, column))
        return false;
    text += strspn(text, "+-");
    if (strncmp(text, "−", strlen("−")) == 0)
        text += strlen("−");
    return table_cell(plan->table, row, column)->has_value ||
           (*text && strchr("0123456789.", *text));
}

struct text_style table_head_style(const struct table_plan *plan)
{
    return (struct text_style){.face = FACE_BOLD,
                               .size = plan->heads,
                               .leading = plan->heads * plan->leading,
                               .narrow = true};
}

struct text_style table_cell_style(const struct table_plan *plan, size_t row, size_t column)
{
    const struct table *table = plan->table;
    bool number = has_numbers(plan, column);
    bool strong = table_cell(table, row, column)->strong || table->columns[column].strong ||
                  row_is_strong(table, row);
    struct text_style style = {.face = strong ? FACE_BOLD : FACE_REGULAR, .narrow = true};
    style.size = number ? plan->figures : plan->words;
    style.leading = style.size * plan->leading;
    return style;
}

/* Is the row there to be written in? It has blanks of underscores. */
static bool row_is_written(const struct table *table, size_t row)
{
    for (size_t i = 0; i < table->column_count; i++)
        if (strstr(table_cell(table, row, i)->shown, "___"))
            return true;
    return false;
}

static bool is_tick(const struct table_plan *plan, size_t row, size_t column)
{
    return plan->boxed && strcmp(text_of(plan, row, column), "\u25a1") == 0;
}

/* How wide a number is up to its decimal point. */
static double whole_width(const struct table_plan *plan, const struct text_style *style,
                          const char *number)
{
    return fonts_width_of(plan->flow->fonts, style->face, style->size, number,
                          strcspn(number, "."));
}

/* ---- widths ---- */

/* How finely the least width for some lines is found; points. */
static const double STEP = 0.25;

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

/* The least width of a column for the text in flow->phrase: its longest word stays whole, and
 * its lines are no higher than this. More than the room where they need more. */
static double least_width(struct flow *flow, double leading, double room, double height)
{
    double least = phrase_least(&flow->phrase);
    size_t lines = (size_t)(height / leading);
    if (flow->phrase.count <= lines || lines_at(flow, least) <= lines)
        return least;
    double most = phrase_most(&flow->phrase);
    return fits(flow, lines, room) ? least_for(flow, lines, least, most) : most;
}

/* The steps of the text in flow->phrase. reach: no wider can the column get. */
static void find_steps(struct flow *flow, struct column_plan *column, size_t row, double reach,
                       double leading, bool unit)
{
    double width = column->least, most = fmax(width, phrase_most(&flow->phrase));
    size_t lines = lines_at(flow, width);
    lines = lines ? lines : 1;
    column->heights[row] = (double)(lines + unit) * leading;
    while (--lines && fits(flow, lines, reach)) {
        width = lines > 1 ? least_for(flow, lines, width, most) : most;
        *HEAP_PUSH(column->steps, column->step_count) = (struct cell_step){
            width, (double)(lines + unit) * leading, (double)(lines + 1 + unit) * leading, row};
    }
}

/* Of steps at one width a cell takes that to fewer lines last. */
static int narrower_first(const void *a, const void *b)
{
    const struct cell_step *one = a, *two = b;
    if (one->width != two->width)
        return one->width < two->width ? -1 : 1;
    if (one->row != two->row)
        return one->row < two->row ? -1 : 1;
    return one->height > two->height ? -1 : one->height < two->height;
}

static void find_column_steps(struct table_plan *plan, size_t index, double reach)
{
    const struct table *table = plan->table;
    struct flow *flow = plan->flow;
    struct column_plan *column = &plan->columns[index];
    struct text_style style = table_head_style(plan);
    column->heights = heap_get((table->row_count + 1) * sizeof *column->heights);
    lines_read_plain(flow, table->columns[index].quantity, &style, -1);
    find_steps(flow, column, 0, reach, style.leading, table->columns[index].unit);
    for (size_t row = 0; row < table->row_count; row++) {
        style = table_cell_style(plan, row, index);
        column->heights[row + 1] = style.leading;
        if (has_numbers(plan, index))
            continue;
        lines_read_plain(flow, text_of(plan, row, index), &style, -1);
        find_steps(flow, column, row + 1, reach, style.leading, false);
    }
    if (column->step_count)
        qsort(column->steps, column->step_count, sizeof *column->steps, narrower_first);
}

/* ---- how a width is shared ---- */

/* No column wants more; and how finely the last of the room is spread. */
static const double WIDEST = 1e5, LEVEL_STEP = 0.01;

/* What a line less in one cell is worth where another cell keeps the row as tall: it
 * tells two ways apart that save the same. */
static const double LESS_INK = 0.1;

/* Rounds over all pairs of columns; they end by themselves long before. */
enum { MOST_ROUNDS = 20 };

/* Two columns and what all rows cost at the widths that they have reached. */
struct pair {
    struct column_plan *a, *b;
    const double *others; /* the tallest of the other cells of each row */
    double cost;
};

static double pair_row_cost(const struct pair *pair, size_t row)
{
    double a = pair->a->heights[row], b = pair->b->heights[row];
    return fmax(pair->others[row], fmax(a, b)) + LESS_INK * (a + b);
}

static struct pair pair_of(const struct table_plan *plan, size_t a, size_t b, double *others)
{
    struct pair pair = {.a = &plan->columns[a], .b = &plan->columns[b], .others = others};
    for (size_t row = 0; row <= plan->table->row_count; row++) {
        others[row] = 0;
        for (size_t i = 0; i < plan->table->column_count; i++)
            if (i != a && i != b)
                others[row] = fmax(others[row], plan->columns[i].heights[row]);
        pair.cost += pair_row_cost(&pair, row);
    }
    return pair;
}

static void set_height(struct pair *pair, const struct column_plan *column, size_t row,
                       double height)
{
    pair->cost -= pair_row_cost(pair, row);
    column->heights[row] = height;
    pair->cost += pair_row_cost(pair, row);
}

/* Takes the steps up or down to this width of a column of the pair. */
static void set_width(struct pair *pair, struct column_plan *column, double width)
{
    const struct cell_step *steps = column->steps;
    for (; column->passed < column->step_count && steps[column->passed].width <= width + NOISE;
         column->passed++)
        set_height(pair, column, steps[column->passed].row, steps[column->passed].height);
    for (; column->passed && steps[column->passed - 1].width > width + NOISE; column->passed--)
        set_height(pair, column, steps[column->passed - 1].row,
                   steps[column->passed - 1].before);
}

/* A way to share, and the step that leads to it. */
struct way {
    double a_width, b_width, cost;
    struct cell_step step;
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

/* Shares out anew, in the best way, what two columns have and what nobody has. Gives what
 * nobody has afterwards: the second is left no wider than its lines need. */
static double share_pair(struct pair pair, double room, bool *better)
{
    struct column_plan *a = pair.a, *b = pair.b;
    struct way best = {.a_width = a->width, .b_width = b->width, .cost = pair.cost};
    bool found = false;
    room += a->width + b->width;
    set_width(&pair, a, a->least);
    struct cell_step first = {a->least, a->heights[0], 0, 0};
    for (size_t i = 0; i <= a->step_count; i++) {
        struct cell_step step = i ? a->steps[i - 1] : first;
        struct way way = {step.width, fmin(b->most, room - step.width), 0, step};
        if (way.a_width > a->most + NOISE || way.b_width < b->least - NOISE)
            break;
        set_width(&pair, a, way.a_width);
        set_width(&pair, b, way.b_width);
        way.cost = pair.cost;
        if (is_better(&way, &best, found)) {
            best = way;
            found = true;
        }
    }
    *better |= found;
    set_width(&pair, a, best.a_width);
    set_width(&pair, b, best.b_width);
    a->width = best.a_width;
    b->width = b->passed ? b->steps[b->passed - 1].width : b->least;
    return room - a->width - b->width;
}

static double save_height(struct table_plan *plan, double room)
{
    size_t count = plan->table->column_count;
    double *others = heap_get((plan->table->row_count + 1) * sizeof *others);
    bool better = true;
    for (int round = 0; better && round < MOST_ROUNDS; round++) {
        better = false;
        for (size_t a = 0; a < count; a++)
            for (size_t b = 0; b < count; b++)
                if (a != b)
                    room = share_pair(pair_of(plan, a, b, others), room, &better);
    }
    free(others);
    return room;
}

/* Room that the columns of numbers, or the others, take when none is wider than the level but
 * those that are so already, and none wider than it wants; they are given it if asked for. */
static double level_off(struct table_plan *plan, bool numbers, double level, bool give)
{
    double taken = 0;
    for (size_t i = 0; i < plan->table->column_count; i++) {
        struct column_plan *at = &plan->columns[i];
        double width = fmax(at->width, fmin(at->most, level));
        if (has_numbers(plan, i) != numbers)
            continue;
        taken += width - at->width;
        if (give)
            at->width = width;
    }
    return taken;
}

/* Widens the columns of one kind to one level, as high as the room allows. Gives the
 * room that is left. */
static double spread(struct table_plan *plan, bool numbers, double room)
{
    double low = 0, high = WIDEST;
    if (level_off(plan, numbers, high, false) <= room)
        low = high;
    while (high - low > LEVEL_STEP) {
        double middle = (low + high) / 2;
        if (level_off(plan, numbers, middle, false) <= room)
            low = middle;
        else
            high = middle;
    }
    return room - level_off(plan, numbers, low, true);
}

/* Sets the widths of the columns, which know their least and most; room: beside the least.
 * Nothing is to be weighed where all can have their most. */
static void share_out(struct table_plan *plan, double room)
{
    size_t count = plan->table->column_count;
    double wanted = 0;
    for (size_t i = 0; i < count; i++) {
        plan->columns[i].width = plan->columns[i].least;
        wanted += plan->columns[i].most - plan->columns[i].least;
    }
    if (wanted > room + NOISE) {
        for (size_t i = 0; i < count; i++)
            find_column_steps(plan, i, plan->columns[i].least + room + STEP);
        room = save_height(plan, room);
        for (size_t i = 0; i < count; i++) {
            free(plan->columns[i].steps);
            free(plan->columns[i].heights);
        }
    }
    spread(plan, true, spread(plan, false, room));
}

static void widen(double *width, double to)
{
    if (to > *width)
        *width = to;
}

static void measure_head(struct table_plan *plan, size_t column)
{
    struct flow *flow = plan->flow;
    struct column_plan *at = &plan->columns[column];
    const struct column *head = &plan->table->columns[column];
    struct text_style style = table_head_style(plan);
    lines_read_plain(flow, head->quantity, &style, -1);
    double least = least_width(flow, style.leading, plan->room, plan->height);
    double most = phrase_most(&flow->phrase);
    if (head->unit)
        widen(&least, fonts_width(flow->fonts, FACE_REGULAR, style.size, head->unit));
    widen(&at->least, least);
    widen(&at->most, fmax(least, fmin(most, WIDE_HEAD * style.size)));
}

static void measure_cell(struct table_plan *plan, size_t row, size_t column)
{
    struct flow *flow = plan->flow;
    struct column_plan *at = &plan->columns[column];
    const struct cell *cell = table_cell(plan->table, row, column);
    struct text_style style = table_cell_style(plan, row, column);
    if (is_number(plan, row, column)) {
        double all = fonts_width(flow->fonts, style.face, style.size, cell->shown);
        double whole = whole_width(plan, &style, cell->shown);
        widen(&at->whole, whole);
        widen(&at->fraction, all - whole);
        return;
    }
    lines_read_plain(flow, cell->shown, &style, -1);
    double most = phrase_most(&flow->phrase);
    bool undivided = has_numbers(plan, column) || cell->mark != MARK_NONE;
    widen(&at->most, most);
    widen(&at->least,
          undivided ? most : least_width(flow, style.leading, plan->room, plan->height));
}

/* Gives every column its least width, and shares what is left. */
static bool set_widths(struct table_plan *plan)
{
    const struct table *table = plan->table;
    double room = plan->room, x = plan->x;
    for (size_t i = 0; i < table->column_count; i++) {
        struct column_plan *at = &plan->columns[i];
        measure_head(plan, i);
        for (size_t row = 0; row < table->row_count; row++)
            measure_cell(plan, row, i);
        widen(&at->least, at->whole + at->fraction);
        widen(&at->most, at->least);
        room -= at->least + 2 * plan->margin;
    }
    if (room < -NOISE)
        return false;
    share_out(plan, fmax(room, 0));
    for (size_t i = 0; i < table->column_count; i++) {
        plan->columns[i].x = x + plan->margin;
        x += plan->columns[i].width + 2 * plan->margin;
    }
    plan->width = x - plan->x;
    return true;
}

/* The style of the unit below a head. */
static struct text_style unit_style(const struct table_plan *plan)
{
    struct text_style style = table_head_style(plan);
    style.face = FACE_REGULAR;
    return style;
}

/* Leaves the lines of the text, broken to its column, in flow->lines. */
static double text_height(const struct table_plan *plan, size_t column, const char *text,
                          const struct text_style *style, int tag)
{
    return lines_measure(plan->flow, text, style, plan->columns[column].width, tag);
}

static double row_height(struct table_plan *plan, size_t row)
{
    double height = 0;
    for (size_t i = 0; i < plan->table->column_count; i++) {
        struct text_style style = table_cell_style(plan, row, i);
        double cell = is_tick(plan, row, i) ? 0
                      : has_numbers(plan, i)
                          ? style.leading
                          : text_height(plan, i, text_of(plan, row, i), &style, -1);
        plan->hairlines |= cell > style.leading;
        widen(&height, cell);
    }
    height += 2 * plan->row_pad;
    if (plan->boxed)
        return fmax(height, plan->flow->type->writing_room);
    return row_is_written(plan->table, row) ? fmax(height, WRITTEN_ROW) : height;
}

/* Heads and rows, once the columns have their widths; false where a row is too tall. */
static bool measure_heights(struct table_plan *plan)
{
    const struct table *table = plan->table;
    struct text_style style = table_head_style(plan), unit = unit_style(plan);
    double most = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        double height = text_height(plan, i, table->columns[i].quantity, &style, -1);
        if (table->columns[i].unit)
            height += text_height(plan, i, table->columns[i].unit, &unit, -1);
        widen(&most, height);
    }
    plan->head_height = most + 2 * plan->row_pad + (plan->boxed ? 0 : RULE_ROOM);
    plan->row_heights =
        arena_get(plan->flow->scratch, table->row_count * sizeof *plan->row_heights);
    for (size_t row = 0; row < table->row_count; row++) {
        plan->row_heights[row] = row_height(plan, row);
        if (plan->row_heights[row] + plan->head_height > plan->height)
            return false;
    }
    return true;
}

bool table_plan_make(struct flow *flow, struct table_plan *plan, const struct table *table,
                     double size, struct area area, double height)
{
    const struct type_scale *type = flow->type;
    bool last_way = size < type->table_most && size <= type->table_least;
    *plan = (struct table_plan){.flow = flow,
                                .table = table,
                                .room = area.width,
                                .height = height,
                                .figures = size,
                                .words = fmax(size * type->table_text, type->table_words_least),
                                .heads = fmax(size * type->table_head, type->table_words_least),
                                .leading = LEADING,
                                .row_pad = type->table_row_pad * size,
                                .x = area.x,
                                .hairlines = table->row_count < FEW_ROWS};
    plan->margin = (last_way ? TIGHT_MARGIN : MARGIN) * plan->words;
    plan->columns = arena_get(flow->scratch, table->column_count * sizeof *plan->columns);
    return set_widths(plan) && measure_heights(plan);
}

/* A grid's columns have the widths that were asked for; all rows have room to write. */
static struct table_plan plan_grid(struct flow *flow, const struct table *table)
{
    double all = 0, before = 0;
    struct area area = flow->area;
    struct table_plan plan = {.flow = flow,
                              .table = table,
                              .room = area.width,
                              .height = INFINITY,
                              .figures = flow->type->body - SMALLER_CELLS,
                              .words = flow->type->body - SMALLER_CELLS,
                              .heads = GRID_HEADS,
                              .leading = GRID_LEADING,
                              .margin = GRID_PAD,
                              .row_pad = GRID_PAD,
                              .x = area.x,
                              .width = area.width,
                              .boxed = true};
    plan.columns = arena_get(flow->scratch, table->column_count * sizeof *plan.columns);
    for (size_t i = 0; i < table->column_count; i++)
        all += table->columns[i].share;
    for (size_t i = 0; i < table->column_count; i++) {
        double share = table->columns[i].share;
        plan.columns[i].x = area.x + area.width * before / all + GRID_PAD;
        plan.columns[i].width = area.width * share / all - 2 * GRID_PAD;
        before += share;
    }
    measure_heights(&plan);
    return plan;
}

/* ---- heads and rows ---- */

/* Puts flow->lines into a column, on the right where it is one of figures. */
static void put_lines(const struct table_plan *plan, size_t column, double top,
                      const struct text_style *style)
{
    const struct column_plan *at = &plan->columns[column];
    lines_put_all(plan->flow, (struct area){at->x, at->width}, top,
                  has_numbers(plan, column) ? ALIGN_RIGHT : ALIGN_LEFT, style);
}

/* The heads of a table stand on its rule, those of a grid under the edge of their boxes; there
 * a unit follows what it is of, elsewhere it is put first. */
static void put_head(const struct table_plan *plan, size_t column, int tag)
{
    const struct column *head = &plan->table->columns[column];
    struct text_style style = table_head_style(plan), unit = unit_style(plan);
    if (plan->boxed) {
        double top = plan->row_pad - 0.5;
        double height = text_height(plan, column, head->quantity, &style, tag);
        put_lines(plan, column, top, &style);
        if (head->unit) {
            flow_blank_after(plan->flow);
            text_height(plan, column, head->unit, &unit, tag);
            put_lines(plan, column, top + height, &unit);
        }
        return;
    }
    double bottom = plan->head_height - plan->row_pad;
    if (head->unit) {
        bottom -= style.leading;
        text_height(plan, column, head->unit, &unit, tag);
        put_lines(plan, column, bottom, &unit);
    }
    double height = text_height(plan, column, head->quantity, &style, tag);
    put_lines(plan, column, bottom - height, &style);
}

static void line_across(const struct table_plan *plan, double y, double line)
{
    flow_line(plan->flow, plan->x, y, plan->width, 0, line);
}

/* Lines between the columns of a grid, and the one below. */
static void put_box_rules(const struct table_plan *plan, double height, double below)
{
    size_t count = plan->table->column_count;
    for (size_t i = 0; i <= count; i++) {
        bool edge = i == 0 || i == count;
        double x = i < count ? plan->columns[i].x - plan->margin : plan->x + plan->width;
        flow_line(plan->flow, x, 0, 0, height, edge ? BOX_FRAME : BOX_RULE);
    }
    line_across(plan, height, below);
}

/* The heads as a strip. tag: the table's; with -1 they are decoration, as they are where the
 * table goes on. */
static void put_heads(const struct table_plan *plan, int tag)
{
    struct flow *flow = plan->flow;
    int row = flow_tag(flow, TAG_ROW, tag);
    flow_strip(flow, plan->head_height);
    line_across(plan, 0, plan->boxed ? BOX_FRAME : RULE);
    if (plan->boxed)
        put_box_rules(plan, plan->head_height, BOX_FRAME);
    else
        line_across(plan, plan->head_height - RULE / 2, RULE / 2);
    for (size_t i = 0; i < plan->table->column_count; i++)
        put_head(plan, i, flow_tag(flow, TAG_HEAD_CELL, row));
}

/* Where a text so high begins. Beside figures of its own size it stands on the first line;
 * below blanks of underscores, for the hand writes above. */
static double top_of(const struct table_plan *plan, size_t row, double height)
{
    double room = plan->row_heights[row];
    if (plan->boxed)
        return (room - height) / 2;
    if (row_is_written(plan->table, row))
        return room - plan->row_pad - height;
    return plan->figures - plan->words < NOISE ? plan->row_pad : (room - height) / 2;
}

static void put_cell(const struct table_plan *plan, size_t row, size_t column, int tag)
{
    struct flow *flow = plan->flow;
    const struct column_plan *at = &plan->columns[column];
    const char *shown = text_of(plan, row, column);
    struct text_style style = table_cell_style(plan, row, column);
    if (is_tick(plan, row, column)) {
        flow_box(flow, at->x + (at->width - TICK_SIDE) / 2,
                 (plan->row_heights[row] - TICK_SIDE) / 2, TICK_SIDE, TICK_SIDE, BOX_RULE);
    } else if (is_number(plan, row, column)) {
        double point = at->x + at->width - at->fraction;
        double top = top_of(plan, row, style.leading);
        flow_text(flow, point - whole_width(plan, &style, shown),
                  top + flow_baseline(flow, &style), ALIGN_LEFT, &style, tag, shown);
    } else {
        double height = text_height(plan, column, shown, &style, tag);
        put_lines(plan, column, top_of(plan, row, height), &style);
    }
}

/* A rule below each group of rows, or a hairline below each row; heavier ones around
 * the row that the reader looks for. No grey ground: it spoils figures when a sheet
 * is copied in black and white. */
static void put_rules(const struct table_plan *plan, size_t row)
{
    const struct table *table = plan->table;
    bool strong = row_is_strong(table, row);
    double heavy = fmax(STRONG_RULE, STRONG_SHARE * plan->figures);
    if (row > 0 && (strong || row_is_strong(table, row - 1)))
        line_across(plan, 0, heavy);
    else if (row > 0 && (plan->hairlines || row % GROUP == 0))
        line_across(plan, 0, HAIRLINE);
    if (row + 1 == table->row_count)
        line_across(plan, plan->row_heights[row], strong ? heavy : RULE);
}

/* One row, as a strip; its first cell heads it. */
static void put_row(const struct table_plan *plan, size_t row, int table_tag)
{
    struct flow *flow = plan->flow;
    int row_tag = flow_tag(flow, TAG_ROW, table_tag);
    bool last = row + 1 == plan->table->row_count;
    flow_strip(flow, plan->row_heights[row]);
    if (plan->boxed)
        put_box_rules(plan, plan->row_heights[row], last ? BOX_FRAME : BOX_RULE);
    else
        put_rules(plan, row);
    for (size_t i = 0; i < plan->table->column_count; i++) {
        int tag = flow_tag(flow, i == 0 ? TAG_HEAD_CELL : TAG_CELL, row_tag);
        flow->print->tags[tag].row_head = i == 0;
        put_cell(plan, row, i, tag);
    }
}

/* ---- whole tables ---- */

/* Rows that a divided table has at least on its first and its last sheet. */
enum { LEAST_FIRST_ROWS = 8, LEAST_LAST_ROWS = 2 };

/* A heading and the line before a table go to the table's turned sheet with it, if
 * they take no more than this share of the sheet. */
static const double MOST_LEAD = 0.3;

/* Smaller type must save more lines than it loses in size, by half as much again: pages
 * are there to be read, and a table is read along its rows. */
static const double SIZE_WORTH = 1.5;

static double plan_cost(const struct table_plan *plan)
{
    double height = plan->head_height;
    for (size_t row = 0; row < plan->table->row_count; row++)
        height += plan->row_heights[row];
    return height / plan->figures / pow(plan->figures, SIZE_WORTH);
}

/* Plans the table at the size of type that is worth most; of equal ones the larger.
 * False where it fits at none. */
static bool plan_best(struct flow *flow, struct table_plan *plan, const struct table *table,
                      struct area area, double height)
{
    double least = INFINITY;
    struct table_plan tried;
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
    return isfinite(least);
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

static void put_caption(struct flow *flow, const char *text, const struct text_style *style,
                        double gap)
{
    size_t first = flow->strip_count;
    lines_put_plain(flow, TAG_CAPTION, text, style);
    flow_hold(flow, first + 1);
    flow_gap(flow, gap);
    flow_cost(flow, BREAK_NEVER);
}

/* The caption and the heads of a table, as parts of flow->tag. */
static void put_beginning(const struct table_plan *plan, const char *caption)
{
    const struct type_scale *type = plan->flow->type;
    double size = fmax(fmin(type->table_most, type->body), type->table_caption_least);
    struct text_style style = {.face = FACE_BOLD, .size = size, .leading = size * 1.25};
    put_caption(plan->flow, caption, &style, size * 0.3);
    put_heads(plan, plan->flow->tag);
}

/* What a sheet begins with on which the table goes on: caption and heads, put as any others,
 * then taken out of the flow as one strip. */
static const struct repeat *make_repeat(const struct table_plan *plan)
{
    struct flow *flow = plan->flow;
    struct repeat *repeat = arena_get(flow->scratch, sizeof *repeat);
    struct area outer = flow->area;
    int outer_tag = flow->tag;
    size_t first = flow->strip_count;
    double y = 0;
    flow->area.x = plan->x;
    flow->tag = -1;
    put_beginning(plan, arena_format(flow->scratch, "%s (continued)", plan->table->caption));
    flow->area = outer;
    flow->tag = outer_tag;
    for (size_t i = first; i < flow->strip_count; i++) {
        const struct strip *strip = &flow->strips[i];
        y += i > first ? strip->gap : 0;
        for (size_t p = 0; p < strip->pieces.count; p++)
            flow->pieces[strip->pieces.first + p].y += y;
        y += strip->height;
    }
    *repeat = (struct repeat){flow->strips[first], plan->x, plan->width};
    repeat->strip.height = y;
    repeat->strip.pieces.count = flow->piece_count - repeat->strip.pieces.first;
    flow->strip_count = first;
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
    return !plan->hairlines && row % GROUP ? BREAK_GROUP : BREAK_FREE;
}

static void put_notes(struct flow *flow, const struct table *table)
{
    double size = flow->type->note;
    struct text_style style = {.size = size, .leading = size * 1.25};
    flow_gap(flow, size * 0.4);
    for (size_t i = 0; i < table->note_count; i++) {
        size_t first = flow->strip_count;
        lines_put_plain(flow, TAG_NOTE, table->notes[i], &style);
        flow_hold(flow, first);
        flow_gap(flow, size * 0.15);
    }
}

/* Even a table that fits on one sheet, of the height of `room`, may be divided: when it fills
 * the sheet and a heading stands before it. */
static void put_planned(const struct table_plan *plan, double room)
{
    struct flow *flow = plan->flow;
    const struct table *table = plan->table;
    size_t first = flow->strip_count;
    int outer = flow->tag;
    flow->tag = flow_tag(flow, TAG_TABLE, outer);
    flow_anchor(flow, table->name);
    put_beginning(plan, table->caption);
    size_t first_row = flow->strip_count;
    for (size_t row = 0; row < table->row_count; row++) {
        flow_cost(flow, row_cost(plan, row));
        put_row(plan, row, flow->tag);
    }
    flow->tag = outer;
    put_notes(flow, table);
    flow_keep(flow, first, room);
    const struct repeat *repeat = make_repeat(plan);
    for (size_t row = 1; row < table->row_count; row++)
        flow->strips[first_row + row].repeat = repeat;
}

/* Turning a booklet is a nuisance: a table stands on a turned sheet where it fits no other,
 * or where it is so much better there, with half as many lines, say, in larger type. */
static const double TURN_WORTH = 2;

/* Does it fit in the least type? Hardly any table fits in larger type alone. */
static bool fits_small(struct flow *flow, const struct table *table, struct area turned)
{
    struct table_plan plan;
    double size = flow->type->table_least;
    return table_plan_make(flow, &plan, table, size, flow->area, flow->height) ||
           (flow->inset <= 0 && turned.width > 0 &&
            table_plan_make(flow, &plan, table, size, turned, flow->sideways_height));
}

/* A frame cannot go over to a turned sheet. */
void table_put(struct flow *flow, const struct table *table)
{
    struct table_plan upright, sideways;
    struct area outer = flow->area, turned = {.width = flow->sideways_width};
    if (flow->dry && fits_small(flow, table, turned))
        return;
    bool fits = plan_best(flow, &upright, table, outer, flow->height);
    /* At best each row is one line, in the largest type. */
    double least_cost = (double)table->row_count / pow(flow->type->table_most, SIZE_WORTH);
    bool may_turn = flow->inset <= 0 && turned.width > 0 &&
                    (!fits || plan_cost(&upright) > TURN_WORTH * least_cost);
    if (may_turn && plan_best(flow, &sideways, table, turned, flow->sideways_height) &&
        (!fits || plan_cost(&upright) > TURN_WORTH * plan_cost(&sideways))) {
        turn_sheet(flow);
        flow->area = turned;
        put_planned(&sideways, flow->sideways_height);
        flow->area = outer;
        flow->turn = TURN_UPRIGHT;
    } else if (fits) {
        put_planned(&upright, flow->height);
    } else {
        flow->failed = true;
        if (!flow->trial)
            fault(flow->diags, table->at,
                  "the table '%s' is too wide for the page at every size and even turned; "
                  "shorten its longest words or divide it into two tables",
                  table->name);
    }
}

/* No grid is divided or turned: it stands on a form, which has one sheet. */
void grid_put(struct flow *flow, const struct table *table)
{
    struct text_style caption = flow_body_style(flow, FACE_BOLD);
    bool failed = flow->failed;
    int outer = flow->tag;
    flow->tag = flow_tag(flow, TAG_TABLE, outer);
    flow->failed = false;
    flow_gap(flow, GRID_AFTER);
    flow_anchor(flow, table->name);
    put_caption(flow, table->caption, &caption, 2);
    struct table_plan plan = plan_grid(flow, table);
    put_heads(&plan, flow->tag);
    flow_cost(flow, BREAK_NEVER);
    for (size_t row = 0; row < table->row_count; row++)
        put_row(&plan, row, flow->tag);
    flow->writing_rows += table->row_count;
    if (flow->failed && !flow->trial)
        fault(flow->diags, table->at,
              "the grid '%s' has a column too narrow for its words; shorten them, or give the "
              "column a larger share, as in 'remarks *3'",
              table->name);
    flow->failed |= failed;
    flow->tag = outer;
    flow_gap(flow, GRID_AFTER);
}
