#include "html/find.h"

#include "html/markup.h"
#include "html/page.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { LONGEST_TERM = 60 }; /* bytes; a longer row head is a sentence, not a term */

/* Tables and figures in order, then words and headings from A to Z. */
enum group { GROUP_NAMED, GROUP_WORDS, GROUPS };

/* The records lie in the order of finding: of each table, figure, heading and word the number
 * of its page, its text as HTML, and the name of its place on that page. They are all that is
 * held of a page until the index is painted, and so have no padding: some twenty bytes each,
 * with eight for the start and eight more for it while the words are sorted. */
struct find {
    struct buffer records;
    struct {
        size_t *starts; /* of its records */
        size_t count;
    } groups[GROUPS];
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

/* ---- what stands on a page ---- */

/* What is put into the records from here on is its text. */
static void begin_record(struct find *find, enum group group, size_t page)
{
    const unsigned number = (unsigned)page;
    *HEAP_PUSH(find->groups[group].starts, find->groups[group].count) = find->records.length;
    buffer_add(&find->records, &number, sizeof number);
}

static void end_record(struct find *find, const char *anchor)
{
    buffer_add(&find->records, "", 1);
    buffer_add(&find->records, anchor, strlen(anchor) + 1);
}

static void add_record(struct find *find, enum group group, size_t page, const char *text,
                       const char *anchor)
{
    begin_record(find, group, page);
    escape_text(&find->records, text);
    end_record(find, anchor);
}

static void add_table(struct find *find, size_t page, const struct table *table)
{
    add_record(find, GROUP_NAMED, page, table->caption, table->name);
    if (table->computed || table->blank)
        return;
    for (size_t row = 0; row < table->row_count; row++) {
        const char *head = table_cell(table, row, 0)->shown;
        if (head[0] && strlen(head) <= LONGEST_TERM)
            add_record(find, GROUP_WORDS, page, head, table->name);
    }
}

void find_add(struct find *find, const struct page *page)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (node->kind == NODE_HEADING) {
            begin_record(find, GROUP_WORDS, page->number);
            html_paint_plain(&find->records, node);
            end_record(find, node->anchor);
        } else if (node->kind == NODE_TABLE && node->table) {
            add_table(find, page->number, node->table);
        } else if (node->kind == NODE_FIGURE && node->figure) {
            add_record(find, GROUP_NAMED, page->number, node->figure->title,
                       node->figure->name);
        }
    }
}

/* ---- the index ---- */

struct entry {
    unsigned page;
    const char *text, *anchor;
};

static struct entry read_record(const char *record)
{
    struct entry entry = {.text = record + sizeof entry.page};
    memcpy(&entry.page, record, sizeof entry.page);
    entry.anchor = entry.text + strlen(entry.text) + 1;
    return entry;
}

static int by_number(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int from_a_to_z(const void *left, const void *right, void *records)
{
    size_t left_start = *(const size_t *)left, right_start = *(const size_t *)right;
    struct entry a = read_record((const char *)records + left_start);
    struct entry b = read_record((const char *)records + right_start);
    int order = strcasecmp(a.text, b.text);
    if (order == 0)
        order = by_number(a.page, b.page);
    if (order == 0)
        order = strcmp(a.anchor, b.anchor);
    return order ? order : by_number(left_start, right_start);
}

static void paint_group(struct html_page *page, const struct find *find, enum group group)
{
    static const struct {
        const char *id, *title;
    } heads[GROUPS] = {[GROUP_NAMED] = {"find_tables", "Tables and figures"},
                       [GROUP_WORDS] = {"find_words", "Words and headings, A to Z"}};
    markup(page->out,
           "<div class=\"find-group\">\n<h2 id=\"%s\">%s</h2>\n"
           "<ul class=\"find-lines\">\n",
           heads[group].id, heads[group].title);
    for (size_t i = 0; i < find->groups[group].count; i++) {
        struct entry entry = read_record(find->records.bytes + find->groups[group].starts[i]);
        buffer_text(page->out, "<li><a href=\"");
        html_put_link(page, entry.page, entry.anchor);
        buffer_text(page->out, "\">");
        buffer_text(page->out, entry.text);
        markup(page->out, "</a> <span>%s</span></li>\n", html_title(page->site, entry.page));
    }
    buffer_text(page->out, "</ul>\n</div>\n");
}

void find_paint(struct buffer *out, const struct html_site *site, const void *with)
{
    const struct find *find = with;
    struct html_page page = {.out = out, .site = site};
    buffer_text(
        out, "<div class=\"find-box\" id=\"find_box\" hidden>\n"
             "<label for=\"find_typed\">Show only the lines with these words</label>\n"
             "<input id=\"find_typed\" type=\"search\" autocomplete=\"off\" "
             "autocapitalize=\"off\" spellcheck=\"false\">\n"
             "<p><output for=\"find_typed\" id=\"find_count\"></output> lines</p>\n</div>\n");
    if (find->groups[GROUP_WORDS].count)
        qsort_r(find->groups[GROUP_WORDS].starts, find->groups[GROUP_WORDS].count,
                sizeof(size_t), from_a_to_z, find->records.bytes);
    for (enum group group = 0; group < GROUPS; group++)
        paint_group(&page, find, group);
}
