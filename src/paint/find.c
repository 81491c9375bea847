#include "paint/find.h"

#include "paint/escape.h"
#include "paint/html_parts.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_TERM = 60 }; /* bytes; a longer row head is a sentence, not a term */

/* A word, a heading, a table or a figure, and where it stands. */
struct entry {
    const char *text; /* HTML; behind its end stands the name of its place on the page */
    size_t page;
};

struct entries {
    struct entry *items;
    size_t count;
};

struct find {
    struct arena *arena;
    struct entries words;
    struct entries named; /* tables and figures */
};

struct find *find_new(void)
{
    struct arena *arena = arena_new();
    struct find *find = arena_get(arena, sizeof *find);
    find->arena = arena;
    return find;
}

void find_free(struct find *find)
{
    if (!find)
        return;
    free(find->words.items);
    free(find->named.items);
    arena_free(find->arena);
}

/* ---- what stands on a page ---- */

/* Empties the HTML. */
static void add_entry(struct find *find, struct entries *entries, size_t page,
                      struct buffer *html, const char *anchor)
{
    buffer_add(html, "", 1);
    buffer_text(html, anchor);
    *HEAP_PUSH(entries->items, entries->count) =
        (struct entry){arena_slice(find->arena, html->bytes, html->length), page};
    html->length = 0;
}

static void add_row_heads(struct find *find, size_t page, const struct table *table,
                          struct buffer *html)
{
    for (size_t row = 0; !table->no_row_heads && !table->blank && row < table->row_count;
         row++) {
        const char *head = table_cell(table, row, 0)->shown;
        if (!head[0] || strlen(head) > LONGEST_TERM)
            continue;
        escape_text(html, head);
        add_entry(find, &find->words, page, html, table->name);
    }
}

static void add_named(struct find *find, size_t page, const char *words, const char *name,
                      struct buffer *html)
{
    escape_text(html, words);
    add_entry(find, &find->named, page, html, name);
}

static void add_node(struct find *find, size_t page, const struct node *node,
                     struct buffer *html)
{
    const struct table *table = node->kind == NODE_TABLE ? node->table : NULL;
    if (node->kind == NODE_HEADING) {
        html_paint_plain(html, node);
        add_entry(find, &find->words, page, html, node->anchor);
    }
    if (table)
        add_named(find, page, table->caption, table->name, html);
    if (table && !table->computed)
        add_row_heads(find, page, table, html);
    if (node->kind == NODE_FIGURE && node->figure)
        add_named(find, page, node->figure->title, node->figure->name, html);
}

void find_add(struct find *find, const struct page *page)
{
    struct buffer html = {0};
    for (const struct node *node = page->root; node; node = node_following(page->root, node))
        add_node(find, page->number, node, &html);
    buffer_free(&html);
}

static const char *anchor_of(const struct entry *entry)
{
    return entry->text + strlen(entry->text) + 1;
}

static int by_text(const void *left, const void *right)
{
    const struct entry *a = left, *b = right;
    int order = strcasecmp(a->text, b->text);
    if (order)
        return order;
    return a->page == b->page ? strcmp(anchor_of(a), anchor_of(b)) : a->page < b->page ? -1 : 1;
}

void find_end(struct find *find)
{
    if (find->words.count)
        qsort(find->words.items, find->words.count, sizeof(struct entry), by_text);
}

/* ---- the index ---- */

static void paint_line(struct html_page *page, const struct entry *entry)
{
    buffer_text(page->out, "<li><a href=\"");
    html_link_to(page, entry->page);
    html_link_name(page, entry->page, anchor_of(entry));
    buffer_text(page->out, "\">");
    buffer_text(page->out, entry->text);
    buffer_text(page->out, "</a> <span>");
    escape_text(page->out, html_title(page->site, entry->page));
    buffer_text(page->out, "</span></li>\n");
}

static void paint_group(struct html_page *page, const struct entries *entries, const char *id,
                        const char *title)
{
    buffer_print(page->out,
                 "<div class=\"find-group\">\n<h2 id=\"%s\">%s</h2>\n"
                 "<ul class=\"find-lines\">\n",
                 id, title);
    for (size_t i = 0; i < entries->count; i++)
        paint_line(page, &entries->items[i]);
    buffer_text(page->out, "</ul>\n</div>\n");
}

void find_paint(struct buffer *out, const struct html_site *site, const struct find *find)
{
    struct html_page page = {.out = out, .site = site};
    buffer_text(
        out, "<div class=\"find-box\" id=\"find_box\" hidden>\n"
             "<label for=\"find_typed\">Show only the lines with these words</label>\n"
             "<input id=\"find_typed\" type=\"search\" autocomplete=\"off\" "
             "autocapitalize=\"off\" spellcheck=\"false\">\n"
             "<p><output for=\"find_typed\" id=\"find_count\"></output> lines</p>\n</div>\n");
    paint_group(&page, &find->named, "find_tables", "Tables and figures");
    paint_group(&page, &find->words, "find_words", "Words and headings, A to Z");
}
