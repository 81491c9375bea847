/* Reads the tables of the documentation, docs/NAME.md, to hold them against the code.
 * Tests run from the top of the tree. Needs reader_fixture.h. */
#ifndef TESTS_DOC_TABLE_H
#define TESTS_DOC_TABLE_H

#include "base/file.h"

enum { DOC_CELLS = 6, DOC_ROWS = 120 };

struct doc_row {
    char *cells[DOC_CELLS];
    size_t count;
};

struct doc_table {
    struct doc_row rows[DOC_ROWS]; /* without the heads */
    size_t count;
};

static inline char *doc_text(const char *name)
{
    struct file_text text = {0};
    if (!file_read_text(arena, diags, name, &text))
        fail_msg("%s cannot be read; run the test from the top of the tree", name);
    return arena_text(arena, text.bytes);
}

/* Cuts a line "| a | b |" into its cells. */
static inline struct doc_row doc_row(char *line)
{
    struct doc_row row = {0};
    char *at = strchr(line, '|') + 1;
    for (char *end; (end = strchr(at, '|')) && row.count < DOC_CELLS; at = end + 1) {
        *end = '\0';
        char *last = end;
        while (last > at && last[-1] == ' ')
            *--last = '\0';
        row.cells[row.count++] = at + strspn(at, " ");
    }
    return row;
}

/* The table whose line of heads begins with these words, behind this heading. */
static inline struct doc_table doc_table(const char *file, const char *heading,
                                         const char *heads)
{
    struct doc_table table = {0};
    char *at = strstr(doc_text(file), heading);
    at = at ? strstr(at, heads) : NULL;
    if (!at)
        fail_msg("%s has no table '%s' under '%s'", file, heads, heading);
    strsep(&at, "\n");
    strsep(&at, "\n"); /* the rule */
    for (char *line; (line = strsep(&at, "\n")) && *line == '|';) {
        assert_true(table.count < DOC_ROWS);
        table.rows[table.count++] = doc_row(line);
    }
    return table;
}

/* The next text between two backticks, NULL behind the last. *at moves on. */
static inline const char *doc_code(const char **at)
{
    const char *open = strchr(*at, '`'), *close = open ? strchr(open + 1, '`') : NULL;
    if (!close)
        return NULL;
    *at = close + 1;
    return arena_slice(arena, open + 1, (size_t)(close - open - 1));
}

/* The row whose first cell names this in code, NULL where none does. */
static inline struct doc_row *doc_find(struct doc_table *table, const char *name)
{
    for (size_t i = 0; i < table->count; i++) {
        const char *at = table->rows[i].cells[0];
        for (const char *code; (code = doc_code(&at));)
            if (strcmp(code, name) == 0)
                return &table->rows[i];
    }
    return NULL;
}

/* How many names stand in code in the first cells. */
static inline size_t doc_names(const struct doc_table *table)
{
    size_t names = 0;
    for (size_t i = 0; i < table->count; i++)
        for (const char *at = table->rows[i].cells[0]; doc_code(&at);)
            names++;
    return names;
}

#endif
