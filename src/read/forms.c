#include "read/forms.h"

#include "read/blocks.h"
#include "read/graphs.h"

#include <stdlib.h>
#include <string.h>

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
