#include "paint/find.h"

#include "base/spool.h"
#include "paint/escape.h"
#include "paint/html_parts.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum {
    LONGEST_TERM = 60,    /* bytes; a longer row head is a sentence, not a term */
    MOST_HELD = 128 << 10 /* bytes of entries; those of a longer book wait in a file */
};

/* Tables and figures in order, then words and headings from A to Z. */
enum group { GROUP_NAMED, GROUP_WORDS, GROUPS };

/* A table, a figure, a heading or a word, and where it stands. */
struct entry {
    enum group group;
    size_t page, order;
    char text[]; /* HTML; behind its end stands the name of its place on the page */
};

struct find {
    struct spool *entries;
    size_t count;
    struct buffer html, entry; /* of the one that is added */
};

static const char *anchor_of(const struct entry *entry)
{
    return entry->text + strlen(entry->text) + 1;
}

static int by_number(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int by_group(const void *left, const void *right)
{
    const struct entry *a = left, *b = right;
    if (a->group != b->group)
        return a->group < b->group ? -1 : 1;
    int order = a->group == GROUP_WORDS ? strcasecmp(a->text, b->text) : 0;
    if (order == 0)
        order = by_number(a->page, b->page);
    if (order == 0 && a->group == GROUP_WORDS)
        order = strcmp(anchor_of(a), anchor_of(b));
    return order ? order : by_number(a->order, b->order);
}

struct find *find_new(void)
{
    struct find *find = heap_get(sizeof *find);
    find->entries = spool_new(by_group, MOST_HELD);
    return find;
}

void find_free(struct find *find)
{
    if (!find)
        return;
    spool_free(find->entries);
    buffer_free(&find->html);
    buffer_free(&find->entry);
    free(find);
}

/* ---- what stands on a page ---- */

/* Its text is what was put into find->html. */
static void add_entry(struct find *find, enum group group, size_t page, const char *anchor)
{
    const struct entry head = {.group = group, .page = page, .order = find->count++};
    find->entry.length = 0;
    buffer_add(&find->entry, &head, offsetof(struct entry, text));
    buffer_add(&find->entry, find->html.bytes, find->html.length);
    buffer_add(&find->entry, "", 1);
    buffer_add(&find->entry, anchor, strlen(anchor) + 1);
    spool_add(find->entries, find->entry.bytes, find->entry.length);
    find->html.length = 0;
}

static void add_text(struct find *find, enum group group, size_t page, const char *text,
                     const char *anchor)
{
    escape_text(&find->html, text);
    add_entry(find, group, page, anchor);
}

static void add_row_heads(struct find *find, size_t page, const struct table *table)
{
    for (size_t row = 0; !table->no_row_heads && !table->blank && row < table->row_count;
         row++) {
        const char *head = table_cell(table, row, 0)->shown;
        if (head[0] && strlen(head) <= LONGEST_TERM)
            add_text(find, GROUP_WORDS, page, head, table->name);
    }
}

static void add_node(struct find *find, size_t page, const struct node *node)
{
    const struct table *table = node->kind == NODE_TABLE ? node->table : NULL;
    const struct figure *figure = node->kind == NODE_FIGURE ? node->figure : NULL;
    if (node->kind == NODE_HEADING) {
        html_paint_plain(&find->html, node);
        add_entry(find, GROUP_WORDS, page, node->anchor);
    }
    if (table)
        add_text(find, GROUP_NAMED, page, table->caption, table->name);
    if (table && !table->computed)
        add_row_heads(find, page, table);
    if (figure)
        add_text(find, GROUP_NAMED, page, figure->title, figure->name);
}

void find_add(struct find *find, const struct page *page)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node))
        add_node(find, page->number, node);
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

static void open_group(struct buffer *out, enum group group)
{
    static const struct {
        const char *id, *title;
    } groups[GROUPS] = {[GROUP_NAMED] = {"find_tables", "Tables and figures"},
                        [GROUP_WORDS] = {"find_words", "Words and headings, A to Z"}};
    buffer_print(out,
                 "<div class=\"find-group\">\n<h2 id=\"%s\">%s</h2>\n"
                 "<ul class=\"find-lines\">\n",
                 groups[group].id, groups[group].title);
}

/* Both groups stand there even when one is empty. */
static void paint_groups(struct html_page *page, struct spool *entries)
{
    spool_start(entries);
    const struct entry *entry = spool_next(entries);
    for (enum group group = 0; group < GROUPS; group++) {
        open_group(page->out, group);
        for (; entry && entry->group == group; entry = spool_next(entries))
            paint_line(page, entry);
        buffer_text(page->out, "</ul>\n</div>\n");
    }
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
    paint_groups(&page, find->entries);
}
