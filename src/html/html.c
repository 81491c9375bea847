#include "html/html.h"

#include "doc/canvas.h"
#include "html/policy.h"
#include "html/svg.h"

#include <stdbool.h>
#include <string.h>

static void html_paint_node(struct html_page *page, const struct node *top);
static void html_name(struct html_page *page, size_t index, const char *name);
static void html_paint_navigation(struct html_page *page);
static void html_paint_shortcuts(struct html_page *page);
static void html_paint_table(struct html_page *page, const struct table *table);
static void html_paint_figure(struct html_page *page, const struct figure *figure);

/* User text made safe to stand in an HTML page or in a link. */

static const char *reference_of(char sign)
{
    switch (sign) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    default:
        return "&#39;";
    }
}

void escape_text(struct buffer *out, const char *text)
{
    for (;;) {
        size_t plain = strcspn(text, "&<>\"'");
        buffer_add(out, text, plain);
        text += plain;
        if (!*text)
            return;
        buffer_text(out, reference_of(*text++));
    }
}

static bool is_safe(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           c == '-' || c == '.' || c == '_';
}

void escape_link(struct buffer *out, const char *name)
{
    for (;;) {
        size_t plain = 0;
        while (is_safe(name[plain]))
            plain++;
        buffer_add(out, name, plain);
        name += plain;
        if (!*name)
            return;
        buffer_print(out, "%%%02X", (unsigned)(unsigned char)*name++);
    }
}

/* Places to write in, as a list of labels and what stands or will stand beside them. */

static void paint_choices(struct buffer *out, const struct form_field *field)
{
    for (size_t i = 0; i < field->choice_count; i++) {
        buffer_text(out, "<span class=\"tick\"><span class=\"tick-box\">\u25a1</span> ");
        escape_text(out, field->choices[i]);
        buffer_text(out, "</span> ");
    }
}

static void paint_field(struct buffer *out, const struct form_field *field)
{
    buffer_text(out, "<div");
    if (field->share > 1)
        buffer_print(out, " class=\"share-%d\"", field->share);
    buffer_text(out, "><dt>");
    escape_text(out, *field->label ? field->label : "\u00a0");
    buffer_text(out, "</dt><dd>");
    paint_choices(out, field);
    if (field->value)
        escape_text(out, field->value);
    if (field->unit) {
        buffer_text(out, "<span class=\"unit\">");
        escape_text(out, field->unit);
        buffer_text(out, "</span>");
    }
    buffer_text(out, "</dd></div>\n");
}

void html_paint_form(struct html_page *page, const struct form *form)
{
    buffer_print(page->out, "<div class=\"form %s\">\n", form->ruled ? "lines" : "boxes");
    for (size_t row = 0; row < form->count; row++) {
        buffer_text(page->out, "<dl>\n");
        for (size_t i = 0; i < form->rows[row].count; i++)
            paint_field(page->out, &form->rows[row].fields[i]);
        buffer_text(page->out, "</dl>\n");
    }
    buffer_text(page->out, "</div>\n");
}

/* The offline site: one HTML page for every content page. */

/* A page of the site: the template's pieces, with its slots filled. */

/* The page's title as it stands in the text; NULL where there is none. */
static const struct node *title_heading(const struct html_page *page)
{
    const struct node *first = page->site->pages[page->index]->root->first;
    return first && first->kind == NODE_HEADING && first->level == 1 ? first : NULL;
}

/* In the single file the first page's title is the title of all: other pages' headings stand a
 * level lower. */
static bool html_is_below_another(const struct html_page *page)
{
    return page->single && page->index > 0;
}

static void paint_extra_heading(struct html_page *page, const struct html_extra *extra)
{
    const char *tag = html_is_below_another(page) ? "h2" : "h1";
    buffer_print(page->out, "<%s>", tag);
    escape_text(page->out, extra->title);
    buffer_print(page->out, "</%s>\n", tag);
}

void html_paint_heading(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    const struct node *heading = extra ? NULL : title_heading(page);
    if (extra)
        paint_extra_heading(page, extra);
    else if (heading)
        html_paint_node(page, heading);
}

void html_paint_main(struct html_page *page)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    if (extra) {
        extra->paint(page->out, page->site, extra->with);
        return;
    }
    const struct node *heading = title_heading(page);
    const struct node *block =
        heading ? heading->next : page->site->pages[page->index]->root->first;
    for (; block; block = block->next)
        html_paint_node(page, block);
}

static void paint_notice(struct html_page *page)
{
    if (!page->site->notice)
        return;
    buffer_text(page->out, "<p class=\"notice\">");
    escape_text(page->out, page->site->notice);
    buffer_text(page->out, "</p>");
}

void html_fill_common_slot(struct html_page *page, enum slot slot)
{
    const struct html_site *site = page->site;
    switch (slot) {
    case SLOT_NOTICE:
        paint_notice(page);
        break;
    case SLOT_BOOK:
        escape_text(page->out, site->pages[0]->title);
        break;
    case SLOT_INPUTS:
        escape_text(page->out, site->inputs);
        break;
    case SLOT_FINGERPRINT:
        escape_text(page->out, site->fingerprint);
        break;
    case SLOT_SHORTCUTS:
        html_paint_shortcuts(page);
        break;
    case SLOT_NAVIGATION:
        html_paint_navigation(page);
        break;
    default:
        break;
    }
}

static void paint_style(struct html_page *page, const struct html_extra *extra)
{
    buffer_text(page->out, "<link rel=\"stylesheet\" href=\"style.css\">");
    if (extra && extra->style)
        buffer_print(page->out, "\n<link rel=\"stylesheet\" href=\"%s\">", extra->style_file);
}

static void paint_policy(struct html_page *page, const struct html_extra *extra)
{
    struct policy policy = {0};
    if (extra && extra->script)
        policy = (struct policy){
            .scripts = {extra->script}, .script_count = 1, .has_engine = extra->has_engine};
    policy_paint(page->out, &policy);
}

static void fill_slot(struct html_page *page, enum slot slot)
{
    const struct html_extra *extra = html_extra_at(page->site, page->index);
    switch (slot) {
    case SLOT_POLICY:
        paint_policy(page, extra);
        break;
    case SLOT_STYLE:
        paint_style(page, extra);
        break;
    case SLOT_SCRIPTS:
        if (extra && extra->script)
            script_paint(page->out, extra->script);
        break;
    case SLOT_TITLE:
        escape_text(page->out, html_title(page->site, page->index));
        break;
    case SLOT_SHEET:
        buffer_print(page->out, "%zu of %zu", page->index + 1, html_page_count(page->site));
        break;
    case SLOT_HEADING:
        html_paint_heading(page);
        break;
    case SLOT_CONTENTS:
        html_paint_contents(page);
        break;
    case SLOT_MAIN:
        html_paint_main(page);
        break;
    case SLOT_PREVIOUS:
        html_paint_previous(page);
        break;
    case SLOT_NEXT:
        html_paint_next(page);
        break;
    default:
        html_fill_common_slot(page, slot);
    }
}

void html_paint(struct buffer *out, const struct html_site *site, size_t page)
{
    struct html_page painted = {.out = out, .site = site, .index = page};
    const struct html_template *template = site->template;
    for (size_t i = 0; i < template->count; i++) {
        const struct template_piece *piece = &template->pieces[i];
        buffer_add(out, piece->bytes, piece->length);
        fill_slot(&painted, piece->slot);
    }
}

/* The nodes of a page: what opens before the children, what closes behind them. */

/* Nodes that are one element around their children, and no more. */
static const char *plain_tag(const struct node *node)
{
    switch (node->kind) {
    case NODE_PARAGRAPH:
        return "p";
    case NODE_ITEM:
        return "li";
    case NODE_QUOTE:
        return "blockquote";
    case NODE_EMPHASIS:
        return "em";
    case NODE_STRONG:
        return "strong";
    default:
        return NULL;
    }
}

/* In a tight list the items' text stands without paragraphs. */
static bool is_tight_paragraph(const struct node *node)
{
    const struct node *item = node->parent;
    return node->kind == NODE_PARAGRAPH && item && item->kind == NODE_ITEM && item->parent &&
           item->parent->tight;
}

static void open_list(struct buffer *out, const struct node *list)
{
    if (list->level == 0)
        buffer_text(out, "<ul>\n");
    else if (list->level == 1)
        buffer_text(out, "<ol>\n");
    else
        buffer_print(out, "<ol start=\"%d\">\n", list->level);
}

static int level_of(const struct html_page *page, const struct node *heading)
{
    return heading->level + html_is_below_another(page);
}

static void open_heading(struct html_page *page, const struct node *heading)
{
    buffer_print(page->out, "<h%d id=\"", level_of(page, heading));
    html_name(page, page->index, heading->anchor);
    buffer_text(page->out, "\">");
}

static void add_caution_name(struct html_page *page)
{
    char name[32];
    snprintf(name, sizeof name, "caution_%d", page->caution_count);
    html_name(page, page->index, name);
}

/* The word stands in the text, so that no colour or box is needed to see it. */
static void open_caution(struct html_page *page, const struct node *caution)
{
    page->caution_count++;
    buffer_text(page->out, "<aside class=\"caution\" role=\"note\" aria-labelledby=\"");
    add_caution_name(page);
    buffer_text(page->out, "\">\n<p class=\"caution-title\" id=\"");
    add_caution_name(page);
    buffer_text(page->out, "\">CAUTION");
    if (caution->text && caution->text[0]) {
        buffer_text(page->out, ": ");
        escape_text(page->out, caution->text);
    }
    buffer_text(page->out, "</p>\n");
}

/* An address that stands for itself needs no address behind it in print. */
static bool is_bare(const struct node *link)
{
    const struct node *only = link->first;
    return only && !only->next && only->kind == NODE_TEXT &&
           strcmp(only->text, link->target) == 0;
}

/* In the single file a place has a name of its own; a page's file has not. */
static void add_target(struct html_page *page, const struct node *link)
{
    size_t index = link->to_page->number;
    if (!page->single || !link->to_anchor)
        html_link_to(page, index);
    if (link->to_anchor)
        html_link_name(page, index, link->to_anchor);
}

static void open_link(struct html_page *page, const struct node *link)
{
    buffer_text(page->out, is_bare(link) ? "<a class=\"bare\" href=\"" : "<a href=\"");
    if (link->to_page)
        add_target(page, link);
    else
        escape_text(page->out, link->target);
    buffer_text(page->out, "\">");
}

/* The line end behind <pre> is no part of the text: HTML drops it. */
static void paint_literal(struct buffer *out, const struct node *literal)
{
    buffer_text(out, "<pre tabindex=\"0\">\n");
    escape_text(out, literal->text);
    buffer_text(out, "</pre>\n");
}

static void paint_code(struct buffer *out, const struct node *code)
{
    buffer_text(out, "<code>");
    escape_text(out, code->text);
    buffer_text(out, "</code>");
}

static void paint_tag(struct buffer *out, const char *bracket, const char *name)
{
    buffer_text(out, bracket);
    buffer_text(out, name);
    buffer_text(out, ">");
}

static void open_plain(struct buffer *out, const struct node *node)
{
    if (!is_tight_paragraph(node))
        paint_tag(out, "<", plain_tag(node));
    if (node->kind == NODE_QUOTE)
        buffer_text(out, "\n");
}

static void open_node(struct html_page *page, const struct node *node)
{
    switch (node->kind) {
    case NODE_PAGE:
        break;
    case NODE_HEADING:
        open_heading(page, node);
        break;
    case NODE_LIST:
        open_list(page->out, node);
        break;
    case NODE_CAUTION:
        open_caution(page, node);
        break;
    case NODE_TABLE:
        html_paint_table(page, node->table);
        break;
    case NODE_FIGURE:
        html_paint_figure(page, node->figure);
        break;
    case NODE_FIELDS:
        html_paint_form(page, node->form);
        break;
    case NODE_LITERAL:
        paint_literal(page->out, node);
        break;
    case NODE_RULE:
        buffer_text(page->out, "<hr>\n");
        break;
    case NODE_TEXT:
        escape_text(page->out, node->text);
        break;
    case NODE_CODE:
        paint_code(page->out, node);
        break;
    case NODE_LINK:
        open_link(page, node);
        break;
    case NODE_SPACE:
        buffer_text(page->out, "\n");
        break;
    case NODE_BREAK:
        buffer_text(page->out, "<br>\n");
        break;
    default:
        open_plain(page->out, node);
    }
}

static void close_plain(struct buffer *out, const struct node *node)
{
    if (!plain_tag(node))
        return;
    if (!is_tight_paragraph(node))
        paint_tag(out, "</", plain_tag(node));
    if (!node_is_inline(node))
        buffer_text(out, "\n");
}

static void close_node(struct html_page *page, const struct node *node)
{
    switch (node->kind) {
    case NODE_HEADING:
        buffer_print(page->out, "</h%d>\n", level_of(page, node));
        break;
    case NODE_LIST:
        buffer_text(page->out, node->level ? "</ol>\n" : "</ul>\n");
        break;
    case NODE_CAUTION:
        buffer_text(page->out, "</aside>\n");
        break;
    case NODE_LINK:
        buffer_text(page->out, "</a>");
        break;
    default:
        close_plain(page->out, node);
    }
}

/* A node with everything below it. */
static void html_paint_node(struct html_page *page, const struct node *top)
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

/* Ways through the site: contents of a page, the list of pages, previous and next. */

static const char first_file[] = "index.html", ending[] = ".html";

size_t html_page_count(const struct html_site *site)
{
    return site->page_count + site->extra_count;
}

const struct html_extra *html_extra_at(const struct html_site *site, size_t index)
{
    return index < site->page_count ? NULL : &site->extras[index - site->page_count];
}

const char *html_title(const struct html_site *site, size_t index)
{
    const struct html_extra *extra = html_extra_at(site, index);
    return extra ? extra->title : site->pages[index]->title;
}

const char *html_file_name(struct arena *arena, const struct html_site *site, size_t page)
{
    if (page == 0)
        return first_file;
    if (html_extra_at(site, page))
        return html_extra_at(site, page)->file;
    return arena_format(arena, "%s%s", site->pages[page]->name, ending);
}

void html_link_to(struct html_page *page, size_t index)
{
    const struct html_extra *extra = html_extra_at(page->site, index);
    if (page->single) {
        buffer_print(page->out, "#s%zu", index + 1);
    } else if (index == 0) {
        buffer_text(page->out, first_file);
    } else if (extra) {
        buffer_text(page->out, extra->file);
    } else {
        escape_link(page->out, page->site->pages[index]->name);
        buffer_text(page->out, ending);
    }
}

static void add_page_name(struct html_page *page, size_t index)
{
    if (page->single)
        buffer_print(page->out, "s%zu_", index + 1);
}

/* A name within page `index`, as an id or behind '#' in a link: in the single file
 * with the page's own before it, so that no two are the same. */
static void html_name(struct html_page *page, size_t index, const char *name)
{
    add_page_name(page, index);
    escape_text(page->out, name);
}

void html_link_name(struct html_page *page, size_t index, const char *name)
{
    buffer_text(page->out, "#");
    add_page_name(page, index);
    escape_link(page->out, name);
}

/* For what is named by a title or caption: in the single file a blank and the name of
 * the page's own title, so that two alike are told apart; else nothing. */
static void html_page_label(struct html_page *page)
{
    const struct node *first = page->site->pages[page->index]->root->first;
    if (!page->single || !first || first->kind != NODE_HEADING)
        return;
    buffer_text(page->out, " ");
    html_name(page, page->index, first->anchor);
}

static bool is_in_contents(const struct node *node)
{
    return node->kind == NODE_HEADING && node->level == 2;
}

static void paint_contents_line(struct html_page *page, const struct node *heading)
{
    buffer_text(page->out, "<li><a href=\"");
    html_link_name(page, page->index, heading->anchor);
    buffer_text(page->out, "\">");
    html_paint_plain(page->out, heading);
    buffer_text(page->out, "</a></li>\n");
}

static void open_contents(struct html_page *page)
{
    buffer_text(page->out, "<nav class=\"contents\" aria-labelledby=\"");
    html_name(page, page->index, "_contents");
    html_page_label(page);
    buffer_text(page->out, "\">\n<p id=\"");
    html_name(page, page->index, "_contents");
    buffer_text(page->out, "\">On this page</p>\n<ul>\n");
}

void html_paint_contents(struct html_page *page)
{
    if (html_extra_at(page->site, page->index))
        return;
    const struct node *root = page->site->pages[page->index]->root;
    bool any = false;
    for (const struct node *node = root; node; node = node_following(root, node)) {
        if (!is_in_contents(node))
            continue;
        if (!any)
            open_contents(page);
        any = true;
        paint_contents_line(page, node);
    }
    if (any)
        buffer_text(page->out, "</ul>\n</nav>");
}

static void paint_navigation_line(struct html_page *page, size_t index)
{
    bool here = index == page->index && !page->single;
    buffer_text(page->out, "<li><a href=\"");
    html_link_to(page, index);
    buffer_text(page->out, here ? "\" aria-current=\"page\">" : "\">");
    escape_text(page->out, html_title(page->site, index));
    buffer_text(page->out, "</a></li>\n");
}

static void paint_navigation_lines(struct html_page *page, size_t from, size_t to)
{
    for (size_t i = from; i < to; i++)
        paint_navigation_line(page, i);
}

/* In a long book no one looks through the list of all pages, and on every page it would
 * grow with the square of their number: it is whole on the first page alone, and short
 * on the others: the first page, those around, and those that the program makes. */
enum { SHORT = 100, AROUND = 5 };

static bool is_list_short(const struct html_site *site, size_t index)
{
    return site->page_count > SHORT && index > 0;
}

/* The page behind the last one in a page's list, extras aside. */
static size_t list_end(const struct html_site *site, size_t index)
{
    size_t count = site->page_count, end = index + AROUND + 1;
    return is_list_short(site, index) && end < count ? end : count;
}

size_t html_last_title(const struct html_site *site, size_t index)
{
    return list_end(site, index) - 1;
}

/* Links to all pages; to the page before and the page behind. */
static void html_paint_navigation(struct html_page *page)
{
    const struct html_site *site = page->site;
    size_t count = site->page_count, from = 0;
    if (is_list_short(site, page->index)) {
        size_t middle = page->index < count ? page->index : count;
        from = middle > AROUND ? middle - AROUND : 0;
    }
    buffer_text(page->out, "<ol>\n");
    if (from > 0)
        paint_navigation_line(page, 0);
    paint_navigation_lines(page, from, list_end(site, page->index));
    paint_navigation_lines(page, count, html_page_count(site));
    buffer_text(page->out, "</ol>");
}

/* The pages that answer, from the top of every page: hands are greasy, the list is long. */
static void html_paint_shortcuts(struct html_page *page)
{
    const struct html_site *site = page->site;
    for (size_t i = site->page_count; i < html_page_count(site); i++) {
        bool here = i == page->index && !page->single;
        buffer_text(page->out, "<a href=\"");
        html_link_to(page, i);
        buffer_text(page->out, here ? "\" aria-current=\"page\">" : "\">");
        escape_text(page->out, html_extra_at(site, i)->brief);
        buffer_text(page->out, "</a>\n");
    }
}

static void paint_turn(struct html_page *page, const char *word, const char *relation,
                       size_t index)
{
    buffer_print(page->out, "<a rel=\"%s\" href=\"", relation);
    html_link_to(page, index);
    buffer_print(page->out, "\"><span>%s</span> ", word);
    escape_text(page->out, html_title(page->site, index));
    buffer_text(page->out, "</a>");
}

void html_paint_previous(struct html_page *page)
{
    if (page->index > 0)
        paint_turn(page, "Previous", "prev", page->index - 1);
}

void html_paint_next(struct html_page *page)
{
    if (page->index + 1 < html_page_count(page->site))
        paint_turn(page, "Next", "next", page->index + 1);
}

/* A table: caption, heads that carry the unit, cells, notes. */

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
static void html_paint_table(struct html_page *page, const struct table *table)
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

/* A figure: its drawing, which scrolls where the screen is narrow, and its caption. */

static void add_name(struct html_page *page, const char *attribute, const char *name)
{
    buffer_print(page->out, " %s=\"", attribute);
    html_name(page, page->index, name);
    buffer_text(page->out, "\"");
}

static void html_paint_figure(struct html_page *page, const struct figure *figure)
{
    struct buffer caption = {0};
    buffer_print(&caption, "%s_caption", figure->name);
    buffer_text(page->out, figure->width > FIGURE_WIDTH ? "<figure class=\"wide\"" : "<figure");
    add_name(page, "id", figure->name);
    buffer_text(page->out, ">\n<div class=\"scroll\" role=\"region\" tabindex=\"0\"");
    add_name(page, "aria-labelledby", caption.bytes);
    buffer_text(page->out, ">\n");
    svg_paint(page->out, figure);
    buffer_text(page->out, "</div>\n<figcaption");
    add_name(page, "id", caption.bytes);
    buffer_text(page->out, ">");
    escape_text(page->out, figure->caption);
    buffer_text(page->out, "</figcaption>\n</figure>\n");
    buffer_free(&caption);
}
