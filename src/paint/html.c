/* A page of the site: the template's pieces, with its slots filled. */
#include "paint/html.h"

#include "paint/escape.h"
#include "paint/html_parts.h"
#include "paint/template.h"

static const char first_file[] = "index.html", ending[] = ".html";

const char *html_file_name(struct arena *arena, const struct html_site *site, size_t page)
{
    if (page == 0)
        return first_file;
    return arena_format(arena, "%s%s", site->pages[page]->name, ending);
}

void html_link_to(struct html_page *page, size_t index)
{
    if (index == 0) {
        buffer_text(page->out, first_file);
    } else {
        escape_link(page->out, page->site->pages[index]->name);
        buffer_text(page->out, ending);
    }
}

static const struct page *this_page(const struct html_page *page)
{
    return page->site->pages[page->index];
}

/* The page's title as it stands in the text; NULL where there is none. */
static const struct node *title_heading(const struct html_page *page)
{
    const struct node *first = this_page(page)->root->first;
    return first && first->kind == NODE_HEADING && first->level == 1 ? first : NULL;
}

static void paint_heading(struct html_page *page)
{
    const struct node *heading = title_heading(page);
    if (heading)
        html_paint_node(page, heading);
}

static void paint_main(struct html_page *page)
{
    const struct node *heading = title_heading(page);
    const struct node *block = heading ? heading->next : this_page(page)->root->first;
    for (; block; block = block->next)
        html_paint_node(page, block);
}

static bool is_in_contents(const struct node *node)
{
    return node->kind == NODE_HEADING && node->level == 2;
}

static void paint_contents_line(struct html_page *page, const struct node *heading)
{
    buffer_text(page->out, "<li><a href=\"#");
    escape_link(page->out, heading->anchor);
    buffer_text(page->out, "\">");
    html_paint_plain(page->out, heading);
    buffer_text(page->out, "</a></li>\n");
}

/* A page without second-level headings has no contents, not an empty list. */
static void paint_contents(struct html_page *page)
{
    const struct node *root = this_page(page)->root;
    bool any = false;
    for (const struct node *node = root; node; node = node_following(root, node)) {
        if (!is_in_contents(node))
            continue;
        if (!any)
            buffer_text(page->out, "<nav class=\"contents\" aria-labelledby=\"_contents\">\n"
                                   "<p id=\"_contents\">On this page</p>\n<ul>\n");
        any = true;
        paint_contents_line(page, node);
    }
    if (any)
        buffer_text(page->out, "</ul>\n</nav>");
}

static void paint_navigation(struct html_page *page)
{
    buffer_text(page->out, "<ol>\n");
    for (size_t i = 0; i < page->site->page_count; i++) {
        buffer_text(page->out, "<li><a href=\"");
        html_link_to(page, i);
        buffer_text(page->out, i == page->index ? "\" aria-current=\"page\">" : "\">");
        escape_text(page->out, page->site->pages[i]->title);
        buffer_text(page->out, "</a></li>\n");
    }
    buffer_text(page->out, "</ol>");
}

static void paint_turn(struct html_page *page, const char *word, const char *relation,
                       size_t index)
{
    buffer_print(page->out, "<a rel=\"%s\" href=\"", relation);
    html_link_to(page, index);
    buffer_print(page->out, "\"><span>%s</span> ", word);
    escape_text(page->out, page->site->pages[index]->title);
    buffer_text(page->out, "</a>");
}

static void paint_notice(struct html_page *page)
{
    if (!page->site->notice)
        return;
    buffer_text(page->out, "<p class=\"notice\">");
    escape_text(page->out, page->site->notice);
    buffer_text(page->out, "</p>");
}

static void fill_text_slot(struct html_page *page, enum slot slot)
{
    const struct html_site *site = page->site;
    switch (slot) {
    case SLOT_TITLE:
        escape_text(page->out, this_page(page)->title);
        break;
    case SLOT_BOOK:
        escape_text(page->out, site->pages[0]->title);
        break;
    case SLOT_SHEET:
        buffer_print(page->out, "%zu of %zu", page->index + 1, site->page_count);
        break;
    case SLOT_INPUTS:
        escape_text(page->out, site->inputs);
        break;
    case SLOT_FINGERPRINT:
        escape_text(page->out, site->fingerprint);
        break;
    default:
        break;
    }
}

static void fill_slot(struct html_page *page, enum slot slot)
{
    switch (slot) {
    case SLOT_NOTICE:
        paint_notice(page);
        break;
    case SLOT_HEADING:
        paint_heading(page);
        break;
    case SLOT_CONTENTS:
        paint_contents(page);
        break;
    case SLOT_MAIN:
        paint_main(page);
        break;
    case SLOT_PREVIOUS:
        if (page->index > 0)
            paint_turn(page, "Previous", "prev", page->index - 1);
        break;
    case SLOT_NEXT:
        if (page->index + 1 < page->site->page_count)
            paint_turn(page, "Next", "next", page->index + 1);
        break;
    case SLOT_NAVIGATION:
        paint_navigation(page);
        break;
    default:
        fill_text_slot(page, slot);
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
