/* How wide the columns of a table must and may be. */
#include "page/lines.h"
#include "page/table_share.h"
#include "tree/points.h"

#include <math.h>
#include <string.h>

/* A head wider than this many of its own sizes is rather wrapped. */
static const double WIDE_HEAD = 6;

static const double NOISE = 1e-6;

/* Left and right of each column, share of the words' size; columns come closer in the
 * smallest type alone, before the sheet is turned. */
static const double MARGIN = 0.45, TIGHT_MARGIN = 0.35;

/* From one written line to the next: 8 mm leave room for a hand with a pencil. */
static const double WRITTEN_ROW = 8 * MM;

/* A table with rows of several lines, or with few rows, has a hairline between them. */
enum { FEW_ROWS = 7 };

bool table_row_is_strong(const struct table *table, size_t row)
{
    return !table->no_row_heads && table_cell(table, row, 0)->strong;
}

bool table_cell_is_number(const struct table *table, size_t row, size_t column)
{
    const struct cell *cell = table_cell(table, row, column);
    if (table->columns[column].kind != COLUMN_NUMBER)
        return false;
    const char *text = cell->shown;
    text += strspn(text, "+-");
    if (strncmp(text, "−", strlen("−")) == 0)
        text += strlen("−");
    return cell->has_value || (*text && strchr("0123456789.", *text));
}

size_t table_whole_length(const char *number)
{
    return strcspn(number, ".");
}

struct text_style table_head_style(const struct table_plan *plan)
{
    return (struct text_style){
        .face = FACE_BOLD, .size = plan->heads, .leading = plan->heads * 1.2};
}

struct text_style table_cell_style(const struct table_plan *plan, size_t row, size_t column)
{
    const struct table *table = plan->table;
    bool number = table->columns[column].kind == COLUMN_NUMBER;
    bool strong = table_cell(table, row, column)->strong || table->columns[column].strong ||
                  table_row_is_strong(table, row);
    struct text_style style = {.face = strong ? FACE_BOLD : FACE_REGULAR};
    style.size = number ? plan->figures : plan->words;
    style.leading = style.size * 1.2;
    return style;
}

static void widen(double *width, double to)
{
    if (to > *width)
        *width = to;
}

static void measure_head(struct flow *flow, struct table_plan *plan, size_t column)
{
    struct column_plan *at = &plan->columns[column];
    const struct column *head = &plan->table->columns[column];
    struct text_style style = table_head_style(plan);
    lines_read_cell(flow, head->quantity, &style, -1);
    double least = table_least(flow, style.leading, plan->room, plan->height);
    double most = phrase_most(&flow->phrase);
    if (head->unit)
        widen(&least, fonts_width(flow->fonts, FACE_REGULAR, style.size, head->unit));
    widen(&at->least, least);
    widen(&at->most, fmax(least, fmin(most, WIDE_HEAD * style.size)));
}

static void measure_number(struct flow *flow, struct table_plan *plan, size_t row,
                           size_t column)
{
    const char *shown = table_cell(plan->table, row, column)->shown;
    struct column_plan *at = &plan->columns[column];
    struct text_style style = table_cell_style(plan, row, column);
    double all = fonts_width(flow->fonts, style.face, style.size, shown);
    double whole =
        fonts_width_of(flow->fonts, style.face, style.size, shown, table_whole_length(shown));
    widen(&at->whole, whole);
    widen(&at->fraction, all - whole);
}

static void measure_text(struct flow *flow, struct table_plan *plan, size_t row, size_t column)
{
    const struct cell *cell = table_cell(plan->table, row, column);
    struct column_plan *at = &plan->columns[column];
    struct text_style style = table_cell_style(plan, row, column);
    bool whole = plan->table->columns[column].kind == COLUMN_NUMBER || cell->mark != MARK_NONE;
    lines_read_cell(flow, cell->shown, &style, -1);
    double most = phrase_most(&flow->phrase);
    widen(&at->most, most);
    widen(&at->least,
          whole ? most : table_least(flow, style.leading, plan->room, plan->height));
}

static void measure_column(struct flow *flow, struct table_plan *plan, size_t column)
{
    const struct table *table = plan->table;
    struct column_plan *at = &plan->columns[column];
    *at = (struct column_plan){0};
    measure_head(flow, plan, column);
    for (size_t row = 0; row < table->row_count; row++) {
        if (table_cell_is_number(table, row, column))
            measure_number(flow, plan, row, column);
        else
            measure_text(flow, plan, row, column);
    }
    widen(&at->least, at->whole + at->fraction);
    widen(&at->most, at->least);
}

/* Gives every column its least width, and shares what is left. */
static bool set_widths(struct flow *flow, struct table_plan *plan)
{
    double room = plan->room;
    for (size_t i = 0; i < plan->table->column_count; i++)
        room -= plan->columns[i].least + 2 * plan->margin;
    if (room < -NOISE)
        return false;
    table_share(flow, plan, fmax(room, 0));
    double x = plan->x;
    for (size_t i = 0; i < plan->table->column_count; i++) {
        plan->columns[i].x = x + plan->margin;
        x += plan->columns[i].width + 2 * plan->margin;
    }
    plan->width = x - plan->x;
    return true;
}

static size_t count_lines(struct flow *flow, const char *text, const struct text_style *style,
                          double width)
{
    lines_read_cell(flow, text, style, -1);
    phrase_break(&flow->phrase, width + NOISE, &flow->lines);
    return flow->lines.count;
}

static void measure_head_height(struct flow *flow, struct table_plan *plan)
{
    struct text_style style = table_head_style(plan);
    size_t most = 0;
    for (size_t i = 0; i < plan->table->column_count; i++) {
        const struct column *head = &plan->table->columns[i];
        size_t lines = count_lines(flow, head->quantity, &style, plan->columns[i].width);
        lines += head->unit != NULL;
        most = lines > most ? lines : most;
    }
    plan->head_height = (double)most * style.leading + 2 * plan->row_pad + 1;
}

bool table_row_is_written(const struct table *table, size_t row)
{
    for (size_t i = 0; i < table->column_count; i++)
        if (strstr(table_cell(table, row, i)->shown, "___"))
            return true;
    return false;
}

static double row_height(struct flow *flow, struct table_plan *plan, size_t row)
{
    double height = 0;
    for (size_t i = 0; i < plan->table->column_count; i++) {
        struct text_style style = table_cell_style(plan, row, i);
        size_t lines = 1;
        if (plan->table->columns[i].kind == COLUMN_TEXT)
            lines = count_lines(flow, table_cell(plan->table, row, i)->shown, &style,
                                plan->columns[i].width);
        plan->hairlines |= lines > 1;
        widen(&height, (double)lines * style.leading);
    }
    height += 2 * plan->row_pad;
    return table_row_is_written(plan->table, row) ? fmax(height, WRITTEN_ROW) : height;
}

bool table_plan_make(struct flow *flow, struct table_plan *plan, const struct table *table,
                     double size, struct area area, double height)
{
    const struct type_scale *type = flow->type;
    *plan = (struct table_plan){
        .table = table, .room = area.width, .height = height, .figures = size, .x = area.x};
    plan->words = fmax(size * type->table_text, type->table_words_least);
    plan->heads = fmax(size * type->table_head, type->table_words_least);
    bool last_way = size < type->table_most && size <= type->table_least;
    plan->margin = (last_way ? TIGHT_MARGIN : MARGIN) * plan->words;
    plan->row_pad = type->table_row_pad * size;
    plan->hairlines = table->row_count < FEW_ROWS;
    plan->columns = arena_get(flow->scratch, table->column_count * sizeof *plan->columns);
    plan->row_heights = arena_get(flow->scratch, table->row_count * sizeof *plan->row_heights);
    for (size_t i = 0; i < table->column_count; i++)
        measure_column(flow, plan, i);
    if (!set_widths(flow, plan))
        return false;
    measure_head_height(flow, plan);
    for (size_t row = 0; row < table->row_count; row++) {
        plan->row_heights[row] = row_height(flow, plan, row);
        if (plan->row_heights[row] + plan->head_height > plan->height)
            return false;
    }
    return true;
}
