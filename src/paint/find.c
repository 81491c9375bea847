#include "paint/find.h"

#include "paint/escape.h"
#include "paint/html_parts.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_TERM = 60 }; /* bytes; a longer row head is a sentence, not a term */

/* A word or a heading, and where it stands. */
struct entry {
    const char *text; /* HTML */
    const char *anchor;
    size_t page;
};

struct finder {
    struct arena *arena;
    struct html_page page;
    struct entry *entries;
    size_t count;
};

static void add_line(struct html_page *page, const struct entry *entry)
{
    buffer_text(page->out, "<li><a href=\"");
    html_link_to(page, entry->page);
    html_link_name(page, entry->page, entry->anchor);
    buffer_print(page->out, "\">%s</a> <span>", entry->text);
    escape_text(page->out, html_title(page->site, entry->page));
    buffer_text(page->out, "</span></li>\n");
}

/* Owned by the arena. */
static const char *taken(struct arena *arena, struct buffer *html)
{
    const char *text = arena_slice(arena, html->bytes, html->length);
    buffer_free(html);
    return text;
}

static const char *html_of(struct arena *arena, const char *text)
{
    struct buffer html = {0};
    escape_text(&html, text);
    return taken(arena, &html);
}

static void add_entry(struct finder *finder, size_t page, const char *html, const char *anchor)
{
    *ARENA_PUSH(finder->arena, finder->entries, finder->count) =
        (struct entry){html, anchor, page};
}

static void add_row_heads(struct finder *finder, size_t page, const struct table *table)
{
    for (size_t row = 0; !table->no_row_heads && !table->blank && row < table->row_count;
         row++) {
        const char *head = table_cell(table, row, 0)->shown;
        if (head[0] && strlen(head) <= LONGEST_TERM)
            add_entry(finder, page, html_of(finder->arena, head), table->name);
    }
}

static void add_heading(struct finder *finder, size_t page, const struct node *heading)
{
    struct buffer html = {0};
    html_paint_plain(&html, heading);
    add_entry(finder, page, taken(finder->arena, &html), heading->anchor);
}

static void collect_words(struct finder *finder, size_t page)
{
    const struct node *root = finder->page.site->pages[page]->root;
    for (const struct node *node = root; node; node = node_following(root, node)) {
        if (node->kind == NODE_HEADING)
            add_heading(finder, page, node);
        else if (node->kind == NODE_TABLE && node->table && !node->table->computed)
            add_row_heads(finder, page, node->table);
    }
}

static int by_text(const void *left, const void *right)
{
    const struct entry *a = left, *b = right;
    int order = strcasecmp(a->text, b->text);
    if (order)
        return order;
    return a->page == b->page ? strcmp(a->anchor, b->anchor) : a->page < b->page ? -1 : 1;
}

static void paint_words(struct finder *finder)
{
    struct html_page *page = &finder->page;
    for (size_t i = 0; i < page->site->page_count; i++)
        collect_words(finder, i);
    if (finder->count)
        qsort(finder->entries, finder->count, sizeof *finder->entries, by_text);
    buffer_text(page->out,
                "<div class=\"find-group\">\n<h2 id=\"find_words\">Words and headings, "
                "A to Z</h2>\n<ul class=\"find-lines\">\n");
    for (size_t i = 0; i < finder->count; i++)
        add_line(page, &finder->entries[i]);
    buffer_text(page->out, "</ul>\n</div>\n");
}

static void paint_named(struct finder *finder, size_t page, const char *words, const char *name)
{
    struct entry entry = {html_of(finder->arena, words), name, page};
    add_line(&finder->page, &entry);
}

static void paint_tables_of(struct finder *finder, size_t page)
{
    const struct node *root = finder->page.site->pages[page]->root;
    for (const struct node *node = root; node; node = node_following(root, node)) {
        if (node->kind == NODE_TABLE && node->table)
            paint_named(finder, page, node->table->caption, node->table->name);
        if (node->kind == NODE_FIGURE && node->figure)
            paint_named(finder, page, node->figure->title, node->figure->name);
    }
}

static void paint_tables(struct finder *finder)
{
    struct html_page *page = &finder->page;
    buffer_text(page->out,
                "<div class=\"find-group\">\n<h2 id=\"find_tables\">Tables and figures</h2>\n"
                "<ul class=\"find-lines\">\n");
    for (size_t i = 0; i < page->site->page_count; i++)
        paint_tables_of(finder, i);
    buffer_text(page->out, "</ul>\n</div>\n");
}

void find_paint(struct arena *arena, struct buffer *out, const struct html_site *site)
{
    struct finder finder = {.arena = arena, .page = {.out = out, .site = site}};
    buffer_text(
        out, "<div class=\"find-box\" id=\"find_box\" hidden>\n"
             "<label for=\"find_typed\">Show only the lines with these words</label>\n"
             "<input id=\"find_typed\" type=\"search\" autocomplete=\"off\" "
             "autocapitalize=\"off\" spellcheck=\"false\">\n"
             "<p><output for=\"find_typed\" id=\"find_count\"></output> lines</p>\n</div>\n");
    paint_tables(&finder);
    paint_words(&finder);
}
