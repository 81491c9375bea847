/* A block's info string is its word and the rest: a name, "NAME: Caption" or nothing. Its body
 * is lines of "key: value", CSV, or labels with | between them. */
#include "doc/blocks.h"

#include "base/csv.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct block {
    struct arena *arena;
    struct diags *diags;
    const char *word, *rest, *body;
    struct node *node;
};

/* ---- what blocks share: lines, names, options, "quantity / unit" ---- */

/* A walk over the lines of a body that are not blank. */
struct lines {
    const char *next;
    struct place at;  /* of the line ... */
    const char *line; /* ... and its bytes, without the line end */
    size_t length;
};

static struct lines lines_of(const struct block *block)
{
    return (struct lines){.next = block->body, .at = block->node->at};
}

static bool next_line(struct lines *lines)
{
    while (*lines->next) {
        lines->line = lines->next;
        lines->length = strcspn(lines->line, "\n");
        lines->next += lines->length + (lines->line[lines->length] == '\n');
        lines->at.line++;
        if (strspn(lines->line, " \t") < lines->length)
            return true;
    }
    return false;
}

static bool is_name(const char *name, size_t length)
{
    static const char characters[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
    return length > 0 && strspn(name, characters) >= length && name[0] != '-' &&
           name[length - 1] != '-';
}

/* "NAME: Caption" behind the block's word; false after a fault. */
static bool read_title(const struct block *block, const char **name, const char **caption)
{
    const char *rest = block->rest;
    size_t length = strcspn(rest, ":");
    bool good = is_name(rest, length) && rest[length] == ':' && rest[length + 1];
    if (!good) {
        fault(block->diags, block->node->at,
              "the %s block has no name and caption; write it as in ```%s my-table: My "
              "caption",
              block->word, block->word);
        length = 0;
    }
    *name = arena_slice(block->arena, rest, length);
    *caption = rest + length + strspn(rest + length, ": ");
    return good;
}

/* "key: value" lines into the node's options. */
static void read_options(const struct block *block)
{
    struct node *node = block->node;
    for (struct lines lines = lines_of(block); next_line(&lines);) {
        const char *colon = memchr(lines.line, ':', lines.length);
        if (!colon || colon == lines.line) {
            fault(block->diags, lines.at,
                  "this line of the block is not an option; write it as 'key: value'");
            continue;
        }
        const char *value = colon + 1 + strspn(colon + 1, " ");
        size_t key_length = (size_t)(colon - lines.line);
        size_t value_length = (size_t)(lines.line + lines.length - value);
        *ARENA_PUSH(block->arena, node->options, node->option_count) =
            (struct table_option){.at = lines.at,
                                  .key = arena_slice(block->arena, lines.line, key_length),
                                  .value = arena_slice(block->arena, value, value_length)};
    }
}

/* "quantity / unit", or a quantity alone: then *unit is NULL. */
static void split_unit(struct arena *arena, const char *text, const char **quantity,
                       const char **unit)
{
    const char *slash = strstr(text, " / ");
    *quantity = slash ? arena_slice(arena, text, (size_t)(slash - text)) : text;
    *unit = slash ? slash + 3 : NULL;
}

/* ---- what the program makes: ```table NAME, ```figure NAME ---- */

static void read_made(const struct block *block)
{
    struct node *node = block->node;
    bool table = strcmp(block->word, "table") == 0;
    node->kind = table ? NODE_TABLE : NODE_FIGURE;
    if (is_name(block->rest, strlen(block->rest)))
        *(table ? &node->table_name : &node->figure_name) = block->rest;
    else
        fault(block->diags, node->at, "'%s' is no name of a %s; write it as in ```%s %s",
              block->rest, block->word, block->word, table ? "pull-windows" : "set-up");
    if (table)
        read_options(block);
    else if (block->body[strspn(block->body, " \t\n")])
        fault(block->diags, node->at, "the figure '%s' takes no options; leave its block empty",
              block->rest);
}

/* ---- a table written by hand: ```csv NAME: Caption ---- */

/* Is a cell written as a number, so that its column is set in figures? */
static bool looks_like_number(const char *text)
{
    text += strspn(text, "+-");
    if (strncmp(text, "\xE2\x88\x92", 3) == 0) /* the minus sign U+2212 */
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
    return COLUMN_NUMBER;
}

static void fill_table(struct table *table, const struct csv *csv)
{
    for (size_t column = 0; column < csv->column_count; column++) {
        const char *quantity, *unit;
        split_unit(table->arena, csv->cells[column].text, &quantity, &unit);
        table_column(table, kind_of_column(csv, column), quantity, unit);
    }
    for (size_t row = 1; row < csv->row_count; row++) {
        struct cell *cells = table_row(table);
        for (size_t column = 0; column < csv->column_count; column++)
            cells[column].shown = csv->cells[row * csv->column_count + column].text;
    }
}

static void read_csv(const struct block *block)
{
    struct node *node = block->node;
    const char *name, *caption;
    struct csv csv;
    size_t before;
    struct place below = node->at;
    below.line++;
    node->kind = NODE_TABLE;
    read_title(block, &name, &caption);
    node->table = table_new(block->arena, name, caption);
    node->table->at = node->at;
    before = diags_count(block->diags);
    csv_read(block->arena, block->diags, block->body, below, &csv);
    if (diags_count(block->diags) > before)
        return;
    /* A line end inside a quoted cell would end the line in every output. */
    for (size_t i = 0; i < csv.row_count * csv.column_count; i++)
        if (strpbrk(csv.cells[i].text, "\r\n\t"))
            fault(block->diags, csv.cells[i].at,
                  "the cell holds a line end or a tab; write it on one line with blanks");
    if (diags_count(block->diags) > before)
        return;
    if (csv.row_count < 2)
        fault(block->diags, node->at,
              "the %s block has no rows; write a line of heads and lines of cells below it",
              block->word);
    else
        fill_table(node->table, &csv);
}

/* ---- places to write in, on forms: ```boxes, ```lines ---- */

enum { MOST_ROWS = 60, MOST_SHARE = 9 };

static const char tick_box[] = "\u25a1";

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

/* Cuts a text in two at a mark; gives the second part, NULL where it has none. */
static char *cut(struct arena *arena, char *text, const char *mark)
{
    char *found = strstr(text, mark);
    if (!found)
        return NULL;
    char *rest = found + strlen(mark);
    *found = '\0';
    strcpy(text, trimmed(arena, text, strlen(text)));
    return trimmed(arena, rest, strlen(rest));
}

/* "label", "label / unit", "label = value" or "label: [] words [] words". */
static struct form_field read_field(struct arena *arena, char *text)
{
    struct form_field field = {.label = text, .share = take_share(text)};
    const char *choice = cut(arena, text, tick_box);
    if (!choice) {
        field.value = cut(arena, text, " = ");
        field.unit = cut(arena, text, " / ");
    }
    for (const char *end; choice; choice = end ? end + strlen(tick_box) : NULL) {
        end = strstr(choice, tick_box);
        *ARENA_PUSH(arena, field.choices, field.choice_count) =
            trimmed(arena, choice, end ? (size_t)(end - choice) : strlen(choice));
    }
    return field;
}

static void read_row(const struct block *block, const struct lines *lines)
{
    struct form *form = block->node->form;
    struct form_row *row = ARENA_PUSH(block->arena, form->rows, form->count);
    row->at = lines->at;
    for (const char *line = lines->line, *end = line + lines->length; line <= end;) {
        const char *bar = memchr(line, '|', (size_t)(end - line));
        size_t length = (size_t)((bar ? bar : end) - line);
        char *text = trimmed(block->arena, line, length);
        bool bare = form->ruled && strcmp(text, "...") == 0;
        struct form_field *field = ARENA_PUSH(block->arena, row->fields, row->count);
        if (bare)
            *text = '\0';
        *field = read_field(block->arena, text);
        if (!bare && !*field->label && !field->choice_count)
            fault(block->diags, lines->at,
                  "a place to write in has no label; write words before and behind each |");
        line += length + 1;
    }
}

static void read_fields(const struct block *block)
{
    struct node *node = block->node;
    node->kind = NODE_FIELDS;
    node->form = arena_get(block->arena, sizeof *node->form);
    node->form->ruled = strcmp(block->word, "lines") == 0;
    if (*block->rest)
        fault(block->diags, node->at,
              "nothing stands behind the word of this block; delete '%s'", block->rest);
    for (struct lines lines = lines_of(block); next_line(&lines);)
        read_row(block, &lines);
    if (node->form->count == 0)
        fault(block->diags, node->at,
              "the block has no places to write in; write labels with | between them");
}

/* ---- a table to write in, on forms: ```grid NAME: Caption ---- */

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

static void add_rows(const struct block *block, const struct cell *row)
{
    struct table *table = block->node->table;
    size_t size = table->column_count * sizeof *row;
    long from, to;
    if (!is_range(row[0].shown, &from, &to)) {
        memcpy(table_row(table), row, size);
        return;
    }
    if (from < 0 || to < from || to - from >= MOST_ROWS) {
        fault(block->diags, block->node->at,
              "'%s' is no range of rows; write it upward, with at most %d rows, as in 1..20",
              row[0].shown, MOST_ROWS);
        return;
    }
    for (long i = from; i <= to; i++) {
        struct cell *copy = memcpy(table_row(table), row, size);
        copy->shown = arena_format(block->arena, "%ld", i);
    }
}

/* A written table whose columns have shares, and whose rows may be ranges. */
static void read_grid(const struct block *block)
{
    read_csv(block);
    struct table *table = block->node->table;
    const struct cell *cells = table->cells;
    size_t rows = table->row_count;
    table->blank = true;
    table->cells = NULL;
    table->row_count = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        struct column *column = &table->columns[i];
        const char **last = column->unit ? &column->unit : &column->quantity;
        char *text = arena_text(block->arena, *last);
        column->kind = COLUMN_TEXT;
        column->share = take_share(text);
        *last = text;
    }
    for (size_t row = 0; row < rows; row++)
        add_rows(block, &cells[row * table->column_count]);
}

/* ---- paper to plot on, on forms: ```graph NAME: Caption ---- */

enum { LEAST_SQUARES = 4, SQUARES = 10, MOST_SQUARES = 40 };

static const double MOST_NUMBER = 1e6, LEAST_SPAN = 1e-3, LEAST_SHARE = 1e-4;

static const char how[] = "write it as in 'across: time / min' or 'across: year, 1 to 20'";

/* ", 1 to 20" at the end of an axis; false where it is wrong. */
static bool read_numbers(struct graph_axis *axis, const char *text)
{
    char *end;
    axis->from = strtod(text, &end);
    if (end == text || strncmp(end, " to ", 4) != 0)
        return false;
    const char *second = end + 4;
    axis->to = strtod(second, &end);
    /* Between these a number on the scale has few enough characters to find room. */
    double largest = fmax(fabs(axis->from), fabs(axis->to)), span = axis->to - axis->from;
    axis->numbered = end > second && *end == '\0' && largest < MOST_NUMBER &&
                     span >= LEAST_SPAN && span >= largest * LEAST_SHARE;
    return axis->numbered;
}

/* "quantity / unit, FROM to TO"; unit and numbers may be left out. */
static void read_axis(const struct block *block, const struct table_option *option,
                      struct graph_axis *axis)
{
    const char *comma = strrchr(option->value, ',');
    size_t length = comma ? (size_t)(comma - option->value) : strlen(option->value);
    bool good = !comma || read_numbers(axis, comma + 1 + strspn(comma + 1, " "));
    split_unit(block->arena, arena_slice(block->arena, option->value, length), &axis->quantity,
               &axis->unit);
    if (!good || !*axis->quantity)
        fault(block->diags, option->at, "'%s' is no axis; %s", option->value, how);
}

static void read_graph_option(const struct block *block, const struct table_option *option,
                              struct graph *graph)
{
    if (strcmp(option->key, "across") == 0) {
        read_axis(block, option, &graph->across);
    } else if (strcmp(option->key, "up") == 0) {
        read_axis(block, option, &graph->up);
    } else if (strcmp(option->key, "squares") == 0) {
        char *end;
        long squares = strtol(option->value, &end, 10);
        if (*end == '\0' && squares >= LEAST_SQUARES && squares <= MOST_SQUARES)
            graph->squares = (int)squares;
        else
            fault(block->diags, option->at,
                  "squares must be a whole number from %d to %d, not '%s'", LEAST_SQUARES,
                  MOST_SQUARES, option->value);
    } else if (strcmp(option->key, "window") == 0 && strcmp(option->value, "yes") == 0) {
        graph->window = true;
    } else {
        fault(block->diags, option->at,
              "'%s: %s' is no option of a graph; the options are across, up, squares and "
              "window: yes",
              option->key, option->value);
    }
}

static void read_graph(const struct block *block)
{
    struct node *node = block->node;
    struct graph *graph = arena_get(block->arena, sizeof *graph);
    node->kind = NODE_FIGURE;
    node->graph = graph;
    if (read_title(block, &graph->name, &graph->caption))
        node->figure_name = graph->name;
    graph->at = node->at;
    graph->across.quantity = graph->up.quantity = "";
    graph->squares = SQUARES;
    read_options(block);
    for (size_t i = 0; i < node->option_count; i++)
        read_graph_option(block, &node->options[i], graph);
    if (!*graph->across.quantity || !(*graph->up.quantity || graph->window))
        fault(block->diags, node->at, "the graph lacks an axis; %s, and the same with 'up:'",
              how);
}

/* ---- all of them ---- */

bool block_is(const char *info, const char *word, const char **rest)
{
    size_t length = strlen(word);
    if (strncmp(info, word, length) != 0 || (info[length] && info[length] != ' '))
        return false;
    *rest = info + length + strspn(info + length, " ");
    return true;
}

void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node)
{
    static const struct {
        const char *word;
        void (*read)(const struct block *block);
    } kinds[] = {{"table", read_made},   {"figure", read_made},  {"csv", read_csv},
                 {"boxes", read_fields}, {"lines", read_fields}, {"grid", read_grid},
                 {"graph", read_graph}};
    struct block block = {.arena = arena, .diags = diags, .body = body, .node = node};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (block_is(info, kinds[i].word, &block.rest)) {
            block.word = kinds[i].word;
            kinds[i].read(&block);
            return;
        }
    node->kind = NODE_LITERAL;
    node->text = body;
    fault(diags, node->at,
          "'%s' is no block known here; the blocks are table, figure, csv, caution, boxes, "
          "lines, grid and graph, and bare fences for literal lines",
          info);
}
