/* A table: caption, heads that carry the unit, cells, notes. */
#include "paint/escape.h"
#include "paint/html_parts.h"

#include <string.h>

static bool has_row_heads(const struct table *table)
{
    return !table->no_row_heads;
}

/* A strong row head means the whole row. */
static bool row_is_strong(const struct table *table, size_t row)
{
    return has_row_heads(table) && table_cell(table, row, 0)->strong;
}

/* " class=\"number strong\"", or nothing. */
static void add_classes(struct buffer *out, const char *const classes[], size_t count)
{
    const char *before = " class=\"";
    bool any = false;
    for (size_t i = 0; i < count; i++)
        if (classes[i]) {
            buffer_text(out, before);
            buffer_text(out, classes[i]);
            before = " ";
            any = true;
        }
    if (any)
        buffer_text(out, "\"");
}

static const char *kind_class(const struct column *column)
{
    return column->kind == COLUMN_NUMBER ? "number" : NULL;
}

static const char *column_class(const struct column *column)
{
    return column->strong ? "read" : NULL;
}

/* How wide a column of a blank grid is beside the others. */
static const char *share_class(const struct column *column)
{
    static const char *const classes[] = {NULL,      NULL,      "share-2", "share-3",
                                          "share-4", "share-5", "share-6", "share-7",
                                          "share-8", "share-9"};
    return classes[column->share];
}

static const char *mark_class(enum mark mark)
{
    static const char *const classes[] = {[MARK_NONE] = NULL,
                                          [MARK_BELOW] = "state-below",
                                          [MARK_INSIDE] = "state-inside",
                                          [MARK_ABOVE] = "state-above"};
    return classes[mark];
}

/* A date is not broken at its hyphens, and as a row's head wants no more room than it has. */
static const char *date_class(const struct cell *cell)
{
    const char *text = cell->shown;
    return strlen(text) == 10 && strspn(text, "0123456789-") == 10 && text[4] == '-' &&
                   text[7] == '-'
               ? "date"
               : NULL;
}

static void paint_head(struct buffer *out, const struct column *column)
{
    const char *classes[] = {kind_class(column), column_class(column), share_class(column)};
    buffer_text(out, "<th scope=\"col\"");
    add_classes(out, classes, sizeof classes / sizeof classes[0]);
    buffer_text(out, ">");
    escape_text(out, column->quantity);
    if (column->unit) {
        buffer_text(out, "<span class=\"unit\"> / ");
        escape_text(out, column->unit);
        buffer_text(out, "</span>");
    }
    buffer_text(out, "</th>");
}

static void paint_heads(struct buffer *out, const struct table *table)
{
    buffer_text(out, "<thead>\n<tr>");
    for (size_t i = 0; i < table->column_count; i++)
        paint_head(out, &table->columns[i]);
    buffer_text(out, "</tr>\n</thead>\n");
}

/* A cell of a blank grid that is a box to tick. */
static bool is_tick(const struct table *table, const struct cell *cell)
{
    return table->blank && strcmp(cell->shown, "\u25a1") == 0;
}

static void paint_shown(struct buffer *out, const struct cell *cell)
{
    if (cell->has_value)
        buffer_print(out, "<data value=\"%.17g\">", cell->value);
    escape_text(out, cell->shown);
    if (cell->has_value)
        buffer_text(out, "</data>");
}

static void paint_cell(struct buffer *out, const struct table *table, size_t row, size_t at)
{
    const struct column *column = &table->columns[at];
    const struct cell *cell = table_cell(table, row, at);
    const char *classes[] = {kind_class(column), column_class(column),
                             cell->strong ? "strong" : NULL, mark_class(cell->mark),
                             date_class(cell)};
    bool head = at == 0 && has_row_heads(table);
    buffer_text(out, head ? "<th scope=\"row\"" : "<td");
    add_classes(out, classes, sizeof classes / sizeof classes[0]);
    buffer_text(out, ">");
    if (is_tick(table, cell))
        buffer_text(out, "<span class=\"tick-box\">\u25a1</span>");
    else
        paint_shown(out, cell);
    buffer_text(out, head ? "</th>" : "</td>");
}

static void paint_rows(struct buffer *out, const struct table *table)
{
    buffer_text(out, "<tbody>\n");
    for (size_t row = 0; row < table->row_count; row++) {
        buffer_text(out, row_is_strong(table, row) ? "<tr class=\"strong\">" : "<tr>");
        for (size_t column = 0; column < table->column_count; column++)
            paint_cell(out, table, row, column);
        buffer_text(out, "</tr>\n");
    }
    buffer_text(out, "</tbody>\n");
}

/* name="TABLE_part", for an id or a reference to one. */
static void add_reference(struct html_page *page, const char *attribute,
                          const struct table *table, const char *part)
{
    buffer_print(page->out, " %s=\"", attribute);
    html_name(page, page->index, table->name);
    buffer_print(page->out, "%s\"", part);
}

static void paint_notes(struct html_page *page, const struct table *table)
{
    if (!table->note_count)
        return;
    buffer_text(page->out, "<div class=\"notes\"");
    add_reference(page, "id", table, "_notes");
    buffer_text(page->out, ">\n");
    for (size_t i = 0; i < table->note_count; i++) {
        buffer_text(page->out, "<p>");
        escape_text(page->out, table->notes[i]);
        buffer_text(page->out, "</p>\n");
    }
    buffer_text(page->out, "</div>\n");
}

/* A table wider than the screen scrolls in a region of its own, which the keyboard
 * must reach. The caption's inner span stays in sight meanwhile. */
void html_paint_table(struct html_page *page, const struct table *table)
{
    struct buffer *out = page->out;
    buffer_text(out,
                "<div class=\"table\">\n<div class=\"scroll\" role=\"region\" tabindex=\"0\"");
    buffer_text(out, " aria-labelledby=\"");
    html_name(page, page->index, table->name);
    buffer_text(out, "_caption");
    html_page_label(page);
    buffer_text(out, table->blank ? "\">\n<table class=\"grid\"" : "\">\n<table");
    add_reference(page, "id", table, "");
    if (table->note_count)
        add_reference(page, "aria-describedby", table, "_notes");
    buffer_text(out, ">\n<caption");
    add_reference(page, "id", table, "_caption");
    buffer_text(out, "><span>");
    escape_text(out, table->caption);
    buffer_text(out, "</span></caption>\n");
    paint_heads(out, table);
    paint_rows(out, table);
    buffer_text(out, "</table>\n</div>\n");
    paint_notes(page, table);
    buffer_text(out, "</div>\n");
}
