/* The tree of a page as HTML: of each node what opens before its children, and what closes
 * behind them. Tables, figures and places to write in have none. */
#include "doc/canvas.h"
#include "html/markup.h"
#include "html/page.h"
#include "html/svg.h"

#include <string.h>

/* ---- places to write in, as a list of labels and what stands or will stand beside them ----
 */

static void paint_field(struct buffer *out, const struct form_field *field)
{
    if (field->share > 1)
        buffer_print(out, "<div class=\"share-%d\">", field->share);
    else
        buffer_text(out, "<div>");
    markup(out, "<dt>%s</dt><dd>", *field->label ? field->label : "\u00a0");
    for (size_t i = 0; i < field->choice_count; i++)
        markup(out, "<span class=\"tick\"><span class=\"tick-box\">\u25a1</span> %s</span> ",
               field->choices[i]);
    if (field->value)
        escape_text(out, field->value);
    if (field->unit)
        markup(out, "<span class=\"unit\">%s</span>", field->unit);
    buffer_text(out, "</dd></div>\n");
}

static void paint_form(struct buffer *out, const struct form *form)
{
    markup(out, "<div class=\"form %s\">\n", form->ruled ? "lines" : "boxes");
    for (size_t row = 0; row < form->count; row++) {
        buffer_text(out, "<dl>\n");
        for (size_t i = 0; i < form->rows[row].count; i++)
            paint_field(out, &form->rows[row].fields[i]);
        buffer_text(out, "</dl>\n");
    }
    buffer_text(out, "</div>\n");
}

/* ---- a table: caption, heads that carry the unit, cells, notes ---- */

/* " class=\"number strong\"", or nothing. */
static void add_classes(struct buffer *out, const char *const classes[], size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count; i++)
        if (classes[i]) {
            markup(out, any ? " %s" : " class=\"%s", classes[i]);
            any = true;
        }
    if (any)
        buffer_text(out, "\"");
}

static void paint_head(struct buffer *out, const struct column *column)
{
    /* How wide a column of a blank grid is beside the others. */
    static const char *const shares[] = {NULL,      NULL,      "share-2", "share-3", "share-4",
                                         "share-5", "share-6", "share-7", "share-8", "share-9"};
    const char *classes[] = {column->kind == COLUMN_NUMBER ? "number" : NULL,
                             column->strong ? "read" : NULL, shares[column->share]};
    buffer_text(out, "<th scope=\"col\"");
    add_classes(out, classes, sizeof classes / sizeof classes[0]);
    markup(out, ">%s", column->quantity);
    if (column->unit)
        markup(out, "<span class=\"unit\"> / %s</span>", column->unit);
    buffer_text(out, "</th>");
}

/* A date is not broken at its hyphens, and as a row's head wants no more room than it has. */
static bool is_date(const char *text)
{
    return strlen(text) == 10 && strspn(text, "0123456789-") == 10 && text[4] == '-' &&
           text[7] == '-';
}

static void paint_cell(struct buffer *out, const struct table *table, size_t row, size_t at)
{
    static const char *const states[] = {[MARK_NONE] = NULL,
                                         [MARK_BELOW] = "state-below",
                                         [MARK_INSIDE] = "state-inside",
                                         [MARK_ABOVE] = "state-above"};
    const struct column *column = &table->columns[at];
    const struct cell *cell = table_cell(table, row, at);
    const char *classes[] = {column->kind == COLUMN_NUMBER ? "number" : NULL,
                             column->strong ? "read" : NULL, cell->strong ? "strong" : NULL,
                             states[cell->mark], is_date(cell->shown) ? "date" : NULL};
    bool head = at == 0;
    buffer_text(out, head ? "<th scope=\"row\"" : "<td");
    add_classes(out, classes, sizeof classes / sizeof classes[0]);
    buffer_text(out, ">");
    if (table->blank && strcmp(cell->shown, "\u25a1") == 0) {
        buffer_text(out, "<span class=\"tick-box\">\u25a1</span>");
    } else {
        if (cell->has_value)
            buffer_print(out, "<data value=\"%.17g\">", cell->value);
        markup(out, cell->has_value ? "%s</data>" : "%s", cell->shown);
    }
    buffer_text(out, head ? "</th>" : "</td>");
}

static void paint_rows(struct buffer *out, const struct table *table)
{
    buffer_text(out, "<thead>\n<tr>");
    for (size_t i = 0; i < table->column_count; i++)
        paint_head(out, &table->columns[i]);
    buffer_text(out, "</tr>\n</thead>\n<tbody>\n");
    for (size_t row = 0; row < table->row_count; row++) {
        /* A strong row head means the whole row. */
        bool strong = table_cell(table, row, 0)->strong;
        buffer_text(out, strong ? "<tr class=\"strong\">" : "<tr>");
        for (size_t column = 0; column < table->column_count; column++)
            paint_cell(out, table, row, column);
        buffer_text(out, "</tr>\n");
    }
    buffer_text(out, "</tbody>\n");
}

/* id="NAME_ending", or another attribute that is a name. */
static void add_name(struct html_page *page, const char *attribute, const char *name,
                     const char *ending)
{
    markup(page->out, " %s=\"", attribute);
    html_put_name(page, name, ending);
    buffer_text(page->out, "\"");
}

/* A table wider than the screen scrolls in a region of its own, which the keyboard
 * must reach. The caption's inner span stays in sight meanwhile. */
static void paint_table(struct html_page *page, const struct table *table)
{
    struct buffer *out = page->out;
    buffer_text(out,
                "<div class=\"table\">\n<div class=\"scroll\" role=\"region\" tabindex=\"0\"");
    html_put_label(page, table->name, "_caption");
    buffer_text(out, table->blank ? ">\n<table class=\"grid\"" : ">\n<table");
    add_name(page, "id", table->name, "");
    if (table->note_count)
        add_name(page, "aria-describedby", table->name, "_notes");
    buffer_text(out, ">\n<caption");
    add_name(page, "id", table->name, "_caption");
    markup(out, "><span>%s</span></caption>\n", table->caption);
    paint_rows(out, table);
    buffer_text(out, "</table>\n</div>\n");
    if (table->note_count) {
        buffer_text(out, "<div class=\"notes\"");
        add_name(page, "id", table->name, "_notes");
        buffer_text(out, ">\n");
        for (size_t i = 0; i < table->note_count; i++)
            markup(out, "<p>%s</p>\n", table->notes[i]);
        buffer_text(out, "</div>\n");
    }
    buffer_text(out, "</div>\n");
}

/* ---- a figure: its drawing, which scrolls where the screen is narrow, and its caption ---- */

static void paint_figure(struct html_page *page, const struct figure *figure)
{
    buffer_text(page->out, figure->width > FIGURE_WIDTH ? "<figure class=\"wide\"" : "<figure");
    add_name(page, "id", figure->name, "");
    buffer_text(page->out, ">\n<div class=\"scroll\" role=\"region\" tabindex=\"0\"");
    add_name(page, "aria-labelledby", figure->name, "_caption");
    buffer_text(page->out, ">\n");
    svg_paint(page->out, figure);
    buffer_text(page->out, "</div>\n<figcaption");
    add_name(page, "id", figure->name, "_caption");
    markup(page->out, ">%s</figcaption>\n</figure>\n", figure->caption);
}

/* ---- nodes ---- */

/* Those that open and close always alike; of the others only what closes. */
static const struct {
    const char *open, *close;
} elements[] = {
    [NODE_PARAGRAPH] = {"<p>", "</p>\n"},
    [NODE_ITEM] = {"<li>", "</li>\n"},
    [NODE_QUOTE] = {"<blockquote>\n", "</blockquote>\n"},
    [NODE_CAUTION] = {"", "</aside>\n"},
    [NODE_RULE] = {"<hr>\n", ""},
    [NODE_EMPHASIS] = {"<em>", "</em>"},
    [NODE_STRONG] = {"<strong>", "</strong>"},
    [NODE_LINK] = {"", "</a>"},
    [NODE_SPACE] = {"\n", ""},
    [NODE_BREAK] = {"<br>\n", ""},
};

/* In a tight list the items' text stands without paragraphs. */
static bool is_tight_paragraph(const struct node *node)
{
    const struct node *item = node->parent;
    return node->kind == NODE_PARAGRAPH && item && item->kind == NODE_ITEM && item->parent &&
           item->parent->tight;
}

/* The word stands in the text, so that no colour or box is needed to see it. */
static void open_caution(struct html_page *page, const struct node *caution)
{
    char ending[16]; /* "_" and an int */
    snprintf(ending, sizeof ending, "_%d", ++page->caution_count);
    buffer_text(page->out, "<aside class=\"caution\" role=\"note\"");
    add_name(page, "aria-labelledby", "caution", ending);
    buffer_text(page->out, ">\n<p class=\"caution-title\"");
    add_name(page, "id", "caution", ending);
    buffer_text(page->out, ">CAUTION");
    if (caution->text && caution->text[0])
        markup(page->out, ": %s", caution->text);
    buffer_text(page->out, "</p>\n");
}

/* An address that stands for itself needs no address behind it in print. */
static bool is_bare(const struct node *link)
{
    const struct node *only = link->first;
    return only && !only->next && only->kind == NODE_TEXT &&
           strcmp(only->text, link->target) == 0;
}

static void open_link(struct html_page *page, const struct node *link)
{
    buffer_text(page->out, is_bare(link) ? "<a class=\"bare\" href=\"" : "<a href=\"");
    if (link->to_page)
        html_put_link(page, link->to_page->number, link->to_anchor);
    else
        escape_text(page->out, link->target);
    buffer_text(page->out, "\">");
}

static void open_node(struct html_page *page, const struct node *node)
{
    struct buffer *out = page->out;
    switch (node->kind) {
    case NODE_PAGE:
        break;
    case NODE_HEADING:
        buffer_print(out, "<h%d", node->level + html_lowered(page));
        add_name(page, "id", node->anchor, "");
        buffer_text(out, ">");
        break;
    case NODE_LIST:
        if (node->level > 1)
            buffer_print(out, "<ol start=\"%d\">\n", node->level);
        else
            buffer_text(out, node->level ? "<ol>\n" : "<ul>\n");
        break;
    case NODE_CAUTION:
        open_caution(page, node);
        break;
    case NODE_TABLE:
        paint_table(page, node->table);
        break;
    case NODE_FIGURE:
        paint_figure(page, node->figure);
        break;
    case NODE_FIELDS:
        paint_form(out, node->form);
        break;
    case NODE_LITERAL: /* HTML drops the line end behind <pre> */
        markup(out, "<pre tabindex=\"0\">\n%s</pre>\n", node->text);
        break;
    case NODE_TEXT:
        escape_text(out, node->text);
        break;
    case NODE_CODE:
        markup(out, "<code>%s</code>", node->text);
        break;
    case NODE_LINK:
        open_link(page, node);
        break;
    default:
        if (!is_tight_paragraph(node))
            buffer_text(out, elements[node->kind].open);
    }
}

static void close_node(struct html_page *page, const struct node *node)
{
    if (node->kind == NODE_HEADING)
        buffer_print(page->out, "</h%d>\n", node->level + html_lowered(page));
    else if (node->kind == NODE_LIST)
        buffer_text(page->out, node->level ? "</ol>\n" : "</ul>\n");
    else if (is_tight_paragraph(node))
        buffer_text(page->out, "\n");
    else if (elements[node->kind].close)
        buffer_text(page->out, elements[node->kind].close);
}

void html_paint_node(struct html_page *page, const struct node *top)
{
    for (const struct node *node = top; node;) {
        open_node(page, node);
        if (node->first) {
            node = node->first;
            continue;
        }
        close_node(page, node);
        while (node != top && !node->next) {
            node = node->parent;
            close_node(page, node);
        }
        node = node == top ? NULL : node->next;
    }
}

void html_paint_plain(struct buffer *out, const struct node *top)
{
    for (const struct node *node = top; node; node = node_following(top, node)) {
        if (node->kind == NODE_TEXT || node->kind == NODE_CODE)
            escape_text(out, node->text);
        else if (node->kind == NODE_SPACE || node->kind == NODE_BREAK)
            buffer_text(out, " ");
    }
}
