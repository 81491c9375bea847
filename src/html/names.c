/* What the pages of a site are called, and how they link to each other: each in a file of its
 * own, or all in one, where every name has its page's own before it. */
#include "html/markup.h"
#include "html/page.h"

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

static const char *name_of(const struct html_site *site, size_t index)
{
    const struct html_extra *extra = html_extra_at(site, index);
    if (index == 0)
        return "index";
    return extra ? extra->name : site->pages[index]->name;
}

const char *html_file_name(struct arena *arena, const struct html_site *site, size_t index)
{
    return arena_format(arena, "%s.html", name_of(site, index));
}

int html_lowered(const struct html_page *page)
{
    return page->single && page->index > 0;
}

const struct node *html_title_heading(const struct html_page *page)
{
    const struct node *first = page->site->pages[page->index]->root->first;
    return first && first->kind == NODE_HEADING && first->level == 1 ? first : NULL;
}

void html_put_link(struct html_page *page, size_t index, const char *name)
{
    if (page->single) {
        buffer_print(page->out, name ? "#s%zu_" : "#s%zu", index + 1);
    } else {
        escape_link(page->out, name_of(page->site, index));
        buffer_text(page->out, name ? ".html#" : ".html");
    }
    if (name)
        escape_link(page->out, name);
}

void html_put_name(struct html_page *page, const char *name, const char *ending)
{
    if (page->single)
        buffer_print(page->out, "s%zu_", page->index + 1);
    markup(page->out, "%s%s", name, ending);
}

void html_put_label(struct html_page *page, const char *name, const char *ending)
{
    const struct node *title = page->single ? html_title_heading(page) : NULL;
    buffer_text(page->out, " aria-labelledby=\"");
    html_put_name(page, name, ending);
    if (title) {
        buffer_text(page->out, " ");
        html_put_name(page, title->anchor, "");
    }
    buffer_text(page->out, "\"");
}
