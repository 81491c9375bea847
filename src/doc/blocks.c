#include "doc/blocks.h"

#include "base/csv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void block_read_options(struct arena *arena, struct diags *diags, struct node *node,
                               const char *body);
static bool block_read_title(struct arena *arena, struct diags *diags, const char *word,
                             const char *rest, const struct node *node, const char **name,
                             const char **caption);
static void block_read_csv(struct arena *arena, struct diags *diags, const char *word,
                           const char *rest, const char *body, struct node *node);

/* The block of a graph that is left to the pencil. */

enum { LEAST_SQUARES = 4, SQUARES = 10, MOST_SQUARES = 40 };

static const double MOST_NUMBER = 1e6, LEAST_SPAN = 1e-3, LEAST_SHARE = 1e-4;

static const char how[] = "write it as in 'across: time / min' or 'across: year, 1 to 20'";

/* Between these a number on the scale has few enough signs to find room. */
static bool can_be_scale(double from, double to)
{
    double largest = fmax(fabs(from), fabs(to)), span = to - from;
    return largest < MOST_NUMBER && span >= LEAST_SPAN && span >= largest * LEAST_SHARE;
}

/* ", 1 to 20" at the end of an axis; false where it is wrong. */
static bool read_numbers(struct graph_axis *axis, const char *text)
{
    char *end;
    axis->from = strtod(text, &end);
    if (end == text || strncmp(end, " to ", 4) != 0)
        return false;
    const char *second = end + 4;
    axis->to = strtod(second, &end);
    axis->numbered = end > second && *end == '\0' && can_be_scale(axis->from, axis->to);
    return axis->numbered;
}

/* "quantity / unit, FROM to TO"; unit and numbers may be left out. */
static void read_axis(struct arena *arena, struct diags *diags,
                      const struct table_option *option, struct graph_axis *axis)
{
    const char *comma = strrchr(option->value, ',');
    size_t length = comma ? (size_t)(comma - option->value) : strlen(option->value);
    char *text = arena_slice(arena, option->value, length), *slash = strstr(text, " / ");
    bool good = !comma || read_numbers(axis, comma + 1 + strspn(comma + 1, " "));
    if (slash) {
        *slash = '\0';
        axis->unit = slash + 3;
    }
    axis->quantity = text;
    if (!good || !*text)
        fault(diags, option->at, "'%s' is no axis; %s", option->value, how);
}

static void read_option(struct arena *arena, struct diags *diags,
                        const struct table_option *option, struct graph *graph)
{
    if (strcmp(option->key, "across") == 0) {
        read_axis(arena, diags, option, &graph->across);
    } else if (strcmp(option->key, "up") == 0) {
        read_axis(arena, diags, option, &graph->up);
    } else if (strcmp(option->key, "squares") == 0) {
        char *end;
        long squares = strtol(option->value, &end, 10);
        if (*end == '\0' && squares >= LEAST_SQUARES && squares <= MOST_SQUARES)
            graph->squares = (int)squares;
        else
            fault(diags, option->at, "squares must be a whole number from %d to %d, not '%s'",
                  LEAST_SQUARES, MOST_SQUARES, option->value);
    } else if (strcmp(option->key, "window") == 0 && strcmp(option->value, "yes") == 0) {
        graph->window = true;
    } else {
        fault(diags, option->at,
              "'%s: %s' is no option of a graph; the options are across, up, squares and "
              "window: yes",
              option->key, option->value);
    }
}

/* rest: what stands behind the word "graph". */
static void graph_read(struct arena *arena, struct diags *diags, const char *rest,
                       const char *body, struct node *node)
{
    struct graph *graph = arena_get(arena, sizeof *graph);
    node->kind = NODE_FIGURE;
    node->graph = graph;
    if (block_read_title(arena, diags, "graph", rest, node, &graph->name, &graph->caption))
        node->figure_name = graph->name;
    graph->at = node->at;
    graph->across.quantity = graph->up.quantity = "";
    graph->squares = SQUARES;
    block_read_options(arena, diags, node, body);
    for (size_t i = 0; i < node->option_count; i++)
        read_option(arena, diags, &node->options[i], graph);
    if (!*graph->across.quantity || !(*graph->up.quantity || graph->window))
        fault(diags, node->at, "the graph lacks an axis; %s, and the same with 'up:'", how);
}

/* The fenced blocks of a form: boxes, lines, grid and graph. */

enum { MOST_ROWS = 60, MOST_SHARE = 9 };

static const char tick[] = "\u25a1";

struct reader {
    struct arena *arena;
    struct diags *diags;
    struct place at; /* of the line that is read */
};

/* The text without the blanks at its ends. */
static char *trimmed(struct arena *arena, const char *text, size_t length)
{
    size_t skip = strspn(text, " \t");
    skip = skip < length ? skip : length;
    while (length > skip && strchr(" \t\r", text[length - 1]))
        length--;
    return arena_slice(arena, text + skip, length - skip);
}

/* Takes "*3" off the end of a text; 1 where there is none. */
static int take_share(char *text)
{
    size_t length = strlen(text);
    if (length < 2 || text[length - 2] != '*' || text[length - 1] < '1' ||
        text[length - 1] > '0' + MOST_SHARE)
        return 1;
    int share = text[length - 1] - '0';
    length -= 2;
    while (length && text[length - 1] == ' ')
        length--;
    text[length] = '\0';
    return share;
}

/* Cuts a text in two at a sign; NULL where it has none. */
static char *cut(struct arena *arena, char *text, const char *sign)
{
    char *found = strstr(text, sign);
    if (!found)
        return NULL;
    char *rest = found + strlen(sign);
    *found = '\0';
    strcpy(text, trimmed(arena, text, strlen(text)));
    return trimmed(arena, rest, strlen(rest));
}

/* The words behind each box, from those behind the first on. */
static void take_choices(struct reader *reader, struct form_field *field, const char *text)
{
    for (const char *end; text; text = end ? end + strlen(tick) : NULL) {
        end = strstr(text, tick);
        *ARENA_PUSH(reader->arena, field->choices, field->choice_count) =
            trimmed(reader->arena, text, end ? (size_t)(end - text) : strlen(text));
    }
}

/* "label", "label / unit", "label = value" or "label: [] words [] words". */
static struct form_field read_field(struct reader *reader, char *text)
{
    struct form_field field = {.label = text, .share = take_share(text)};
    char *choices = cut(reader->arena, text, tick);
    if (choices) {
        take_choices(reader, &field, choices);
        return field;
    }
    field.value = cut(reader->arena, text, " = ");
    field.unit = cut(reader->arena, text, " / ");
    return field;
}

static void read_row(struct reader *reader, struct form *form, const char *line, size_t length)
{
    struct form_row *row = ARENA_PUSH(reader->arena, form->rows, form->count);
    row->at = reader->at;
    for (const char *end = line + length; line <= end;) {
        const char *bar = memchr(line, '|', (size_t)(end - line));
        size_t field_length = (size_t)((bar ? bar : end) - line);
        char *text = trimmed(reader->arena, line, field_length);
        bool unlabelled = form->ruled && strcmp(text, "...") == 0;
        struct form_field *field = ARENA_PUSH(reader->arena, row->fields, row->count);
        if (unlabelled)
            *text = '\0';
        *field = read_field(reader, text);
        if (!unlabelled && !*field->label && !field->choice_count)
            fault(reader->diags, reader->at,
                  "a place to write in has no label; write words before and behind each |");
        line += field_length + 1;
    }
}

static void read_fields(struct reader *reader, const char *body, struct node *node)
{
    node->kind = NODE_FIELDS;
    while (*body) {
        size_t length = strcspn(body, "\n");
        reader->at.line++;
        if (strspn(body, " \t") < length)
            read_row(reader, node->form, body, length);
        body += length + (body[length] == '\n');
    }
    if (node->form->count == 0)
        fault(reader->diags, node->at,
              "the block has no places to write in; write labels with | between them");
}

/* "1..20" is twenty rows that are numbered so; false for any other text. */
static bool is_range(const char *text, long *from, long *to)
{
    char *end;
    *from = strtol(text, &end, 10);
    if (end == text || strncmp(end, "..", 2) != 0)
        return false;
    const char *second = end + 2;
    *to = strtol(second, &end, 10);
    return end > second && *end == '\0';
}

static void add_rows(struct reader *reader, struct table *table, const struct cell *row,
                     size_t columns)
{
    long from, to;
    if (!is_range(row[0].shown, &from, &to)) {
        memcpy(table_row(table), row, columns * sizeof *row);
        return;
    }
    if (from < 0 || to < from || to - from >= MOST_ROWS) {
        fault(reader->diags, reader->at,
              "'%s' is no range of rows; write it upward, with at most %d rows, as in 1..20",
              row[0].shown, MOST_ROWS);
        return;
    }
    for (long i = from; i <= to; i++) {
        struct cell *copy = memcpy(table_row(table), row, columns * sizeof *row);
        copy->shown = arena_format(reader->arena, "%ld", i);
    }
}

/* A written table whose columns have shares, and whose rows may be ranges. */
static void read_grid(struct reader *reader, const char *rest, const char *body,
                      struct node *node)
{
    block_read_csv(reader->arena, reader->diags, "grid", rest, body, node);
    struct table *table = node->table;
    const struct cell *cells = table->cells;
    size_t rows = table->row_count;
    table->blank = true;
    table->cells = NULL;
    table->row_count = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        struct column *column = &table->columns[i];
        char *last = arena_text(reader->arena, column->unit ? column->unit : column->quantity);
        column->kind = COLUMN_TEXT;
        column->share = take_share(last);
        *(column->unit ? &column->unit : &column->quantity) = last;
    }
    for (size_t row = 0; row < rows; row++)
        add_rows(reader, table, &cells[row * table->column_count], table->column_count);
}

bool form_block_read(struct arena *arena, struct diags *diags, const char *info,
                     const char *body, struct node *node)
{
    struct reader reader = {.arena = arena, .diags = diags, .at = node->at};
    const char *rest;
    if (block_is(info, "boxes", &rest) || block_is(info, "lines", &rest)) {
        node->form = arena_get(arena, sizeof *node->form);
        node->form->ruled = block_is(info, "lines", &rest);
        if (*rest)
            fault(diags, node->at, "nothing stands behind the word of this block; delete '%s'",
                  rest);
        read_fields(&reader, body, node);
    } else if (block_is(info, "grid", &rest)) {
        read_grid(&reader, rest, body, node);
    } else if (block_is(info, "graph", &rest)) {
        graph_read(arena, diags, rest, body, node);
    } else {
        return false;
    }
    return true;
}

/* The fenced blocks that are more than literal lines: tables and figures; what only forms
 * have is handed on to doc/blocks.h. */

bool block_is(const char *info, const char *word, const char **rest)
{
    size_t length = strlen(word);
    if (strncmp(info, word, length) != 0 || (info[length] && info[length] != ' '))
        return false;
    *rest = info + length + strspn(info + length, " ");
    return true;
}

static bool block_is_name(const char *name, size_t length)
{
    static const char signs[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
    return length > 0 && strspn(name, signs) >= length && name[0] != '-' &&
           name[length - 1] != '-';
}

/* One line of a table block: "key: value". */
static void blocks_read_option(struct arena *arena, struct diags *diags, struct node *node,
                               const char *line, size_t length, struct place at)
{
    const char *colon = memchr(line, ':', length);
    if (!colon || colon == line) {
        fault(diags, at, "this line of the block is not an option; write it as 'key: value'");
        return;
    }
    const char *value = colon + 1;
    value += strspn(value, " ");
    size_t key_length = (size_t)(colon - line), value_length = (size_t)(line + length - value);
    *ARENA_PUSH(arena, node->options, node->option_count) =
        (struct table_option){.at = at,
                              .key = arena_slice(arena, line, key_length),
                              .value = arena_slice(arena, value, value_length)};
}

/* "key: value" lines into the node's options. */
static void block_read_options(struct arena *arena, struct diags *diags, struct node *node,
                               const char *body)
{
    struct place at = node->at;
    while (*body) {
        size_t length = strcspn(body, "\n");
        at.line++;
        if (strspn(body, " \t") < length)
            blocks_read_option(arena, diags, node, body, length, at);
        body += length + (body[length] == '\n');
    }
}

static void read_computed(struct arena *arena, struct diags *diags, const char *name,
                          const char *body, struct node *node)
{
    node->kind = NODE_TABLE;
    if (block_is_name(name, strlen(name)))
        node->table_name = name;
    else
        fault(diags, node->at,
              "'%s' is no name of a table; write it as in ```table pull-windows", name);
    block_read_options(arena, diags, node, body);
}

/* Is a cell written as a number, so that its column is set in figures? */
static bool looks_like_number(const char *text)
{
    text += strspn(text, "+-");
    if (strncmp(text, "\xE2\x88\x92", 3) == 0)
        text += 3;
    return *text && text[strspn(text, "0123456789.")] == '\0';
}

static enum column_kind kind_of_column(const struct csv *csv, size_t column)
{
    for (size_t row = 1; row < csv->row_count; row++) {
        const char *text = csv->cells[row * csv->column_count + column].text;
        if (*text && !looks_like_number(text))
            return COLUMN_TEXT;
    }
    return csv->row_count > 1 ? COLUMN_NUMBER : COLUMN_TEXT;
}

static void add_column(struct table *table, const struct csv *csv, size_t column)
{
    const char *head = csv->cells[column].text, *slash = strstr(head, " / ");
    const char *quantity =
        slash ? arena_slice(table->arena, head, (size_t)(slash - head)) : head;
    table_column(table, kind_of_column(csv, column), quantity, slash ? slash + 3 : NULL);
}

static void fill_table(struct table *table, const struct csv *csv)
{
    for (size_t column = 0; column < csv->column_count; column++)
        add_column(table, csv, column);
    for (size_t row = 1; row < csv->row_count; row++) {
        struct cell *cells = table_row(table);
        for (size_t column = 0; column < csv->column_count; column++)
            cells[column].shown = csv->cells[row * csv->column_count + column].text;
    }
}

/* A line end inside a quoted cell would end the line in every output. */
static void check_cells(struct diags *diags, const struct csv *csv)
{
    for (size_t i = 0; i < csv->row_count * csv->column_count; i++)
        if (strpbrk(csv->cells[i].text, "\r\n\t"))
            fault(diags, csv->cells[i].at,
                  "the cell holds a line end or a tab; write it on one line with blanks");
}

/* "NAME: Caption" behind a block's word, "csv" for one; false after a fault. */
static bool block_read_title(struct arena *arena, struct diags *diags, const char *word,
                             const char *rest, const struct node *node, const char **name,
                             const char **caption)
{
    size_t length = strcspn(rest, ":");
    bool good = block_is_name(rest, length) && rest[length] == ':' && rest[length + 1];
    if (!good) {
        fault(diags, node->at,
              "the %s block has no name and caption; write it as in ```%s my-table: My "
              "caption",
              word, word);
        length = 0;
    }
    *name = arena_slice(arena, rest, length);
    *caption = rest + length + strspn(rest + length, ": ");
    return good;
}

/* A table of the CSV in a block's body, with the name and caption behind its word. */
static void block_read_csv(struct arena *arena, struct diags *diags, const char *word,
                           const char *rest, const char *body, struct node *node)
{
    const char *name, *caption;
    node->kind = NODE_TABLE;
    block_read_title(arena, diags, word, rest, node, &name, &caption);
    struct table *table = table_new(arena, name, caption);
    struct csv csv;
    size_t before = diags_count(diags);
    struct place below = node->at;
    below.line++;
    csv_read(arena, diags, body, below, &csv);
    if (diags_count(diags) == before)
        check_cells(diags, &csv);
    bool readable = diags_count(diags) == before;
    if (readable && csv.row_count < 2)
        fault(diags, node->at,
              "the %s block has no rows; write a line of heads and lines of "
              "cells below it",
              word);
    else if (readable)
        fill_table(table, &csv);
    table->at = node->at;
    node->table = table;
}

static void read_figure(struct diags *diags, const char *name, const char *body,
                        struct node *node)
{
    node->kind = NODE_FIGURE;
    if (block_is_name(name, strlen(name)))
        node->figure_name = name;
    else
        fault(diags, node->at, "'%s' is no name of a figure; write it as in ```figure set-up",
              name);
    if (body[strspn(body, " \t\n")])
        fault(diags, node->at, "the figure '%s' takes no options; leave its block empty", name);
}

void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node)
{
    const char *rest;
    if (block_is(info, "table", &rest)) {
        read_computed(arena, diags, rest, body, node);
    } else if (block_is(info, "csv", &rest)) {
        block_read_csv(arena, diags, "csv", rest, body, node);
    } else if (block_is(info, "figure", &rest)) {
        read_figure(diags, rest, body, node);
    } else if (!form_block_read(arena, diags, info, body, node)) {
        node->kind = NODE_LITERAL;
        node->text = body;
        fault(diags, node->at,
              "'%s' is no block known here; the blocks are table, figure, csv, caution, boxes, "
              "lines, grid and graph, and bare fences for literal lines",
              info);
    }
}
