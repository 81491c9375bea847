#include "read/blocks.h"

#include "read/csv.h"
#include "read/forms.h"

#include <string.h>

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
static void read_option(struct arena *arena, struct diags *diags, struct node *node,
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

void block_read_options(struct arena *arena, struct diags *diags, struct node *node,
                        const char *body)
{
    struct place at = node->at;
    while (*body) {
        size_t length = strcspn(body, "\n");
        at.line++;
        if (strspn(body, " \t") < length)
            read_option(arena, diags, node, body, length, at);
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

bool block_read_title(struct arena *arena, struct diags *diags, const char *word,
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

void block_read_csv(struct arena *arena, struct diags *diags, const char *word,
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
