#include "html/find.h"

#include "html/html.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_TERM = 60 }; /* bytes; a longer row head is a sentence, not a term */

/* Tables and figures in order, then words and headings from A to Z. */
enum group { GROUP_NAMED, GROUP_WORDS, GROUPS };

/* The entries of a group: where in the records each begins. */
struct group_entries {
    size_t *starts;
    size_t count;
};

/* The records lie in the order of finding: of each table, figure, heading and word the number
 * of its page, its text as HTML, and the name of its place on that page. They are all that is
 * held of a page until the index is painted, and so have no padding: some twenty bytes each,
 * with eight for the start and eight more for it while the words are sorted. */
struct find {
    struct buffer records;
    struct group_entries groups[GROUPS];
};

struct find *find_new(void)
{
    return heap_get(sizeof(struct find));
}

void find_free(struct find *find)
{
    if (!find)
        return;
    for (enum group group = 0; group < GROUPS; group++)
        free(find->groups[group].starts);
    buffer_free(&find->records);
    free(find);
}

/* ---- records ---- */

static const char *text_of(const char *record)
{
    return record + sizeof(unsigned);
}

static unsigned page_of(const char *record)
{
    unsigned page;
    memcpy(&page, record, sizeof page);
    return page;
}

static const char *anchor_of(const char *record)
{
    const char *text = text_of(record);
    return text + strlen(text) + 1;
}

/* What is put into the records from here on is its text. */
static void begin_record(struct find *find, enum group group, size_t page)
{
    struct group_entries *entries = &find->groups[group];
    const unsigned number = (unsigned)page;
    *HEAP_PUSH(entries->starts, entries->count) = find->records.length;
    buffer_add(&find->records, &number, sizeof number);
}

static void end_record(struct find *find, const char *anchor)
{
    buffer_add(&find->records, "", 1);
    buffer_add(&find->records, anchor, strlen(anchor) + 1);
}

static int by_number(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int from_a_to_z(const void *left, const void *right, void *records)
{
    size_t left_start = *(const size_t *)left, right_start = *(const size_t *)right;
    const char *a = (const char *)records + left_start,
               *b = (const char *)records + right_start;
    int order = strcasecmp(text_of(a), text_of(b));
    if (order == 0)
        order = by_number(page_of(a), page_of(b));
    if (order == 0)
        order = strcmp(anchor_of(a), anchor_of(b));
    return order ? order : by_number(left_start, right_start);
}

/* ---- what stands on a page ---- */

static void add_text(struct find *find, enum group group, size_t page, const char *text,
                     const char *anchor)
{
    begin_record(find, group, page);
    escape_text(&find->records, text);
    end_record(find, anchor);
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
        begin_record(find, GROUP_WORDS, page);
        html_paint_plain(&find->records, node);
        end_record(find, node->anchor);
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

static void paint_line(struct html_page *page, const char *record)
{
    unsigned number = page_of(record);
    buffer_text(page->out, "<li><a href=\"");
    html_link_to(page, number);
    html_link_name(page, number, anchor_of(record));
    buffer_text(page->out, "\">");
    buffer_text(page->out, text_of(record));
    buffer_text(page->out, "</a> <span>");
    escape_text(page->out, html_title(page->site, number));
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
static void paint_groups(struct html_page *page, const struct find *find)
{
    const struct group_entries *words = &find->groups[GROUP_WORDS];
    if (words->count)
        qsort_r(words->starts, words->count, sizeof *words->starts, from_a_to_z,
                find->records.bytes);
    for (enum group group = 0; group < GROUPS; group++) {
        const struct group_entries *entries = &find->groups[group];
        open_group(page->out, group);
        for (size_t i = 0; i < entries->count; i++)
            paint_line(page, find->records.bytes + entries->starts[i]);
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
    paint_groups(&page, find);
}
