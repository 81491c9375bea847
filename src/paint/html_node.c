/* The nodes of a page: what opens before the children, what closes behind them. */
#include "paint/escape.h"
#include "paint/html_parts.h"

#include <string.h>

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
