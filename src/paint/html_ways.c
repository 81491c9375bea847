/* Ways through the site: contents of a page, the list of pages, previous and next. */
#include "paint/escape.h"
#include "paint/html_parts.h"

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

void html_name(struct html_page *page, size_t index, const char *name)
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

void html_page_label(struct html_page *page)
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

void html_paint_navigation(struct html_page *page)
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
void html_paint_shortcuts(struct html_page *page)
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
