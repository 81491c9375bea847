/* The HTML painter: what every slot of a page is filled with. */
#include "html_sample.h"
#include "printed.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* All five signs, and a tag that would run. */
#define NASTY         "<script>&\"'"
#define NASTY_ESCAPED "&lt;script&gt;&amp;&quot;&#39;"

struct world {
    struct arena *arena;
    struct diags *diags;
    const struct html_template *template;
    const struct page **pages;
    size_t page_count;
    struct html_site site;
};

/* ---- making trees by hand ---- */

static struct node *add_paragraph(struct world *world, struct node *parent, const char *text)
{
    struct node *paragraph = add(world->arena, parent, NODE_PARAGRAPH, NULL);
    add(world->arena, paragraph, NODE_TEXT, text);
    return paragraph;
}

static struct page *add_page(struct world *world, const char *name, const char *title)
{
    struct page *page = arena_get(world->arena, sizeof *page);
    *page = (struct page){.file = "x.md",
                          .name = name,
                          .title = title,
                          .in_booklet = true,
                          .number = world->page_count};
    page->root = add(world->arena, NULL, NODE_PAGE, NULL);
    add_heading(world->arena, page->root, 1, "top", title);
    *ARENA_PUSH(world->arena, world->pages, world->page_count) = page;
    world->site.pages = world->pages;
    world->site.page_count = world->page_count;
    return page;
}

static struct table *add_table(struct world *world, struct node *parent, const char *name)
{
    struct node *node = add(world->arena, parent, NODE_TABLE, NULL);
    node->table = table_new(world->arena, name, "A caption");
    return node->table;
}

/* ---- templates ---- */

static int open_world(void **state)
{
    static struct world world;
    world = (struct world){.arena = arena_new()};
    world.diags = diags_new(world.arena);
    world.site = (struct html_site){.inputs = "the inputs", .fingerprint = "12ab"};
    *state = &world;
    return 0;
}

static int close_world(void **state)
{
    struct world *world = *state;
    arena_free(world->arena);
    return 0;
}

/* What stands between the marks [[ and ]] once the page is painted. */
static char *paint_between_marks(struct world *world, const char *slot, size_t page)
{
    char *text = arena_format(world->arena, "%s", OTHER_SLOTS SLOT("main"));
    char *wanted = arena_format(world->arena, "<slot name=\"%s\">", slot);
    char *at = strstr(text, wanted);
    assert_non_null(at);
    char *behind = strstr(at, "</slot>") + strlen("</slot>");
    world->site.template =
        read_template(world->arena, world->diags,
                      arena_format(world->arena, "%.*s[[%.*s]]%s", (int)(at - text), text,
                                   (int)(behind - at), at, behind));
    assert_non_null(world->site.template);
    struct buffer out = {0};
    html_paint(&out, &world->site, page);
    char *start = strstr(out.bytes, "[["), *end = strstr(out.bytes, "]]");
    assert_true(start && end && end > start);
    char *between = arena_slice(world->arena, start + 2, (size_t)(end - start - 2));
    buffer_free(&out);
    return between;
}

static void check_slot(struct world *world, const char *slot, size_t page, const char *wanted)
{
    assert_string_equal(paint_between_marks(world, slot, page), wanted);
}

/* ---- escaping ---- */

/* Whatever part of a page a user's text comes through, no sign of it gets out. */
static void test_no_text_gets_out(void **state)
{
    struct world *world = *state;
    struct page *page = add_page(world, "a", NASTY);
    add_page(world, "b", NASTY);
    struct node *root = page->root;
    add_heading(world->arena, root, 2, "b", NASTY);
    add_paragraph(world, add(world->arena, root, NODE_CAUTION, NASTY), NASTY);
    add(world->arena, root, NODE_LITERAL, NASTY);
    struct node *paragraph = add_paragraph(world, root, NASTY);
    add(world->arena, paragraph, NODE_CODE, NASTY);
    struct node *link = add(world->arena, paragraph, NODE_LINK, NULL);
    link->target = "https://example.org/" NASTY;
    add(world->arena, link, NODE_TEXT, NASTY);
    struct table *table = add_table(world, root, NASTY);
    table->caption = NASTY;
    table_column(table, COLUMN_TEXT, NASTY, NASTY);
    table_row(table)->shown = NASTY;
    table_note(table, "%s", NASTY);
    world->site.notice = world->site.inputs = world->site.fingerprint = NASTY;
    world->site.template = read_template(world->arena, world->diags, OTHER_SLOTS SLOT("main"));
    struct buffer out = {0};
    html_paint(&out, &world->site, 0);
    assert_null(strstr(out.bytes, "<script"));
    assert_null(strstr(out.bytes, "&\""));
    int escaped = 0;
    for (const char *at = out.bytes; (at = strstr(at, NASTY_ESCAPED)); at++)
        escaped++;
    assert_int_equal(escaped, 28); /* counted by hand */
    buffer_free(&out);
}

/* ---- the template ---- */

static void test_own_template(void **state)
{
    struct world *world = *state;
    world->site.template =
        html_template_read(world->arena, world->diags, "templates/page.html");
    assert_string_equal(printed_faults(world->arena, world->diags), "");
    assert_non_null(world->site.template);
    add_page(world, "a", "First");
    add_page(world, "b", "Second");
    struct buffer out = {0};
    html_paint(&out, &world->site, 1);
    assert_int_equal(strncmp(out.bytes, "<!DOCTYPE html>\n<html", 21), 0);
    assert_non_null(strstr(out.bytes, "<title>Second</title>"));
    assert_non_null(strstr(out.bytes, "<link rel=\"stylesheet\" href=\"style.css\">"));
    assert_null(strstr(out.bytes, "slot"));
    assert_null(strstr(out.bytes, "<!--"));
    assert_null(strstr(out.bytes, "<script"));
    assert_null(strstr(out.bytes, "://"));
    assert_null(strstr(out.bytes, "sample"));
    buffer_free(&out);
}

static void test_template_is_copied(void **state)
{
    struct world *world = *state;
    add_page(world, "a", "First");
    world->site.template = read_template(
        world->arena, world->diags,
        "<!-- <slot> -->\na<!--x--> < b" OTHER_SLOTS
        "<i>" SLOT("main") "</i>" SLOT("title") "&amp;<slot\n name='title'\t></slot>z\n");
    assert_string_equal(printed_faults(world->arena, world->diags), "");
    struct buffer out = {0};
    html_paint(&out, &world->site, 0);
    assert_int_equal(strncmp(out.bytes, "a < bFirst\nFirst\n1 of 1\nthe inputs\n", 35), 0);
    assert_string_equal(strstr(out.bytes, "<i>"), "<i></i>First&amp;Firstz\n");
    buffer_free(&out);
}

/* ---- tables ---- */

static void test_table(void **state)
{
    struct world *world = *state;
    struct table *table = add_table(world, add_page(world, "a", "A")->root, "pull-windows");
    table_column(table, COLUMN_TEXT, "speed band", NULL);
    table_column(table, COLUMN_NUMBER, "low pull", "N")->strong = true;
    table_column(table, COLUMN_TEXT, "state", NULL);
    struct cell *cell = table_row(table);
    cell[0] = (struct cell){.shown = "0–1000", .strong = true};
    cell[1] = (struct cell){.shown = "19.4", .value = 19.35483870967742, .has_value = true};
    cell[2] = (struct cell){.shown = "▼ below", .mark = MARK_BELOW};
    cell = table_row(table);
    cell[0].shown = "a < b";
    cell[1].shown = "none";
    cell[2] = (struct cell){.shown = "▲ above", .mark = MARK_ABOVE, .strong = true};
    table_note(table, "A note.");
    check_slot(
        world, "main", 0,
        "<div class=\"table\">\n"
        "<div class=\"scroll\" role=\"region\" tabindex=\"0\" "
        "aria-labelledby=\"pull-windows_caption\">\n"
        "<table id=\"pull-windows\" aria-describedby=\"pull-windows_notes\">\n"
        "<caption id=\"pull-windows_caption\"><span>A caption</span></caption>\n"
        "<thead>\n"
        "<tr><th scope=\"col\">speed band</th><th scope=\"col\" class=\"number read\">"
        "low pull<span class=\"unit\"> / N</span></th><th scope=\"col\">state</th></tr>\n"
        "</thead>\n"
        "<tbody>\n"
        "<tr class=\"strong\"><th scope=\"row\" class=\"strong\">0–1000</th>"
        "<td class=\"number read\"><data value=\"19.35483870967742\">19.4</data></td>"
        "<td class=\"state-below\">▼ below</td></tr>\n"
        "<tr><th scope=\"row\">a &lt; b</th><td class=\"number read\">none</td>"
        "<td class=\"strong state-above\">▲ above</td></tr>\n"
        "</tbody>\n"
        "</table>\n"
        "</div>\n"
        "<div class=\"notes\" id=\"pull-windows_notes\">\n"
        "<p>A note.</p>\n"
        "</div>\n"
        "</div>\n");
}

/* A date is not broken at its hyphens; what is only alike may be. */
static void test_dates_stay_whole(void **state)
{
    struct world *world = *state;
    struct table *table = add_table(world, add_page(world, "a", "A")->root, "log");
    table_column(table, COLUMN_TEXT, "date", NULL);
    table_column(table, COLUMN_TEXT, "other", NULL);
    struct cell *cell = table_row(table);
    cell[0].shown = "2026-05-09";
    cell[1].shown = "2026-050-9";
    const char *html = paint_between_marks(world, "main", 0);
    assert_non_null(strstr(html, "<th scope=\"row\" class=\"date\">2026-05-09</th>"));
    assert_non_null(strstr(html, "<td>2026-050-9</td>"));
}

/* The value survives the way through the page to the last bit. */
static void test_full_precision(void **state)
{
    static const double values[] = {0.1, 1.0 / 3, 6.02214076e23, -1e-300, 123456789.12345679};
    struct world *world = *state;
    struct table *table = add_table(world, add_page(world, "a", "A")->root, "values");
    table_column(table, COLUMN_NUMBER, "value", NULL);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
        *table_row(table) = (struct cell){.shown = "x", .value = values[i], .has_value = true};
    const char *at = paint_between_marks(world, "main", 0);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        at = strstr(at, "<data value=\"");
        assert_non_null(at);
        at += strlen("<data value=\"");
        assert_true(strtod(at, NULL) == values[i]);
    }
}

/* ---- text ---- */

static void test_text(void **state)
{
    struct world *world = *state;
    struct node *root = add_page(world, "a", "A")->root;
    struct node *paragraph = add_paragraph(world, root, "Pull ");
    add(world->arena, add(world->arena, paragraph, NODE_EMPHASIS, NULL), NODE_TEXT, "slowly");
    add(world->arena, paragraph, NODE_SPACE, NULL);
    add(world->arena, add(world->arena, paragraph, NODE_STRONG, NULL), NODE_TEXT, "and");
    add(world->arena, paragraph, NODE_BREAK, NULL);
    add(world->arena, paragraph, NODE_CODE, "<N>");
    add(world->arena, root, NODE_LITERAL, "\n a\n");
    add(world->arena, root, NODE_RULE, NULL);
    add_paragraph(world, add(world->arena, root, NODE_QUOTE, NULL), "said");
    check_slot(world, "main", 0,
               "<p>Pull <em>slowly</em>\n<strong>and</strong><br>\n<code>&lt;N&gt;</code></p>\n"
               "<pre tabindex=\"0\">\n\n a\n</pre>\n"
               "<hr>\n"
               "<blockquote>\n<p>said</p>\n</blockquote>\n");
}

static void test_lists(void **state)
{
    struct world *world = *state;
    struct node *root = add_page(world, "a", "A")->root;
    struct node *tight = add(world->arena, root, NODE_LIST, NULL);
    tight->tight = true;
    struct node *item = add(world->arena, tight, NODE_ITEM, NULL);
    add_paragraph(world, item, "one");
    struct node *loose = add(world->arena, item, NODE_LIST, NULL);
    loose->level = 3;
    add_paragraph(world, add(world->arena, loose, NODE_ITEM, NULL), "deep");
    add_paragraph(world, add(world->arena, tight, NODE_ITEM, NULL), "two");
    add(world->arena, root, NODE_LIST, NULL)->level = 1;
    check_slot(world, "main", 0,
               "<ul>\n<li>one\n<ol start=\"3\">\n<li><p>deep</p>\n</li>\n</ol>\n</li>\n"
               "<li>two\n</li>\n</ul>\n<ol>\n</ol>\n");
}

static void test_cautions(void **state)
{
    struct world *world = *state;
    struct node *root = add_page(world, "a", "A")->root;
    add_paragraph(world, add(world->arena, root, NODE_CAUTION, "Stop"), "x");
    add(world->arena, root, NODE_CAUTION, "");
    check_slot(world, "main", 0,
               "<aside class=\"caution\" role=\"note\" aria-labelledby=\"caution_1\">\n"
               "<p class=\"caution-title\" id=\"caution_1\">CAUTION: Stop</p>\n"
               "<p>x</p>\n</aside>\n"
               "<aside class=\"caution\" role=\"note\" aria-labelledby=\"caution_2\">\n"
               "<p class=\"caution-title\" id=\"caution_2\">CAUTION</p>\n</aside>\n");
}

/* A tree far deeper than any reader lets through costs no stack. */
static void test_depth(void **state)
{
    enum { DEPTH = 200000 };
    struct world *world = *state;
    struct node *at = add_page(world, "a", "A")->root;
    for (int i = 0; i < DEPTH; i++)
        at = add(world->arena, at, NODE_QUOTE, NULL);
    const char *html = paint_between_marks(world, "main", 0);
    assert_int_equal(strlen(html), DEPTH * strlen("<blockquote>\n</blockquote>\n"));
}

/* ---- links and ways through the book ---- */

static void add_link(struct world *world, struct node *root, const char *target,
                     const struct page *page, const char *anchor)
{
    struct node *link = add(world->arena, root, NODE_LINK, NULL);
    link->target = target;
    link->to_page = page;
    link->to_anchor = anchor;
    add(world->arena, link, NODE_TEXT, "here");
}

static void test_links(void **state)
{
    struct world *world = *state;
    struct page *first = add_page(world, "start", "A");
    struct page *odd = add_page(world, "50% \"odd\"", "B");
    add_link(world, first->root, "10-odd.md", odd, NULL);
    add_link(world, first->root, "10-odd.md#pull-windows", odd, "pull-windows");
    add_link(world, first->root, "#top", first, "top");
    add_link(world, first->root, "https://example.org/?a=1&b='2'", NULL, NULL);
    add_link(world, first->root, "here", NULL, NULL);
    add_link(world, first->root, "here", NULL, NULL);
    add(world->arena, first->root->last, NODE_TEXT, " too");
    check_slot(world, "main", 0,
               "<a href=\"50%25%20%22odd%22.html\">here</a>"
               "<a href=\"50%25%20%22odd%22.html#pull-windows\">here</a>"
               "<a href=\"index.html#top\">here</a>"
               "<a href=\"https://example.org/?a=1&amp;b=&#39;2&#39;\">here</a>"
               "<a class=\"bare\" href=\"here\">here</a>"
               "<a href=\"here\">here too</a>");
    assert_string_equal(html_file_name(world->arena, &world->site, 0), "index.html");
    assert_string_equal(html_file_name(world->arena, &world->site, 1), "50% \"odd\".html");
}

static void test_headings_and_contents(void **state)
{
    struct world *world = *state;
    struct node *root = add_page(world, "a", "Title")->root;
    struct node *heading = add_heading(world->arena, root, 2, "wind-on", "Wind ");
    add(world->arena, add(world->arena, heading, NODE_EMPHASIS, NULL), NODE_TEXT, "on");
    add_heading(world->arena, root, 3, "deeper", "Deeper");
    add_heading(world->arena, root, 2, "pull", "Pull");
    check_slot(world, "heading", 0, "<h1 id=\"top\">Title</h1>\n");
    check_slot(world, "main", 0,
               "<h2 id=\"wind-on\">Wind <em>on</em></h2>\n<h3 id=\"deeper\">Deeper</h3>\n"
               "<h2 id=\"pull\">Pull</h2>\n");
    check_slot(world, "contents", 0,
               "<nav class=\"contents\" aria-labelledby=\"_contents\">\n"
               "<p id=\"_contents\">On this page</p>\n<ul>\n"
               "<li><a href=\"#wind-on\">Wind on</a></li>\n"
               "<li><a href=\"#pull\">Pull</a></li>\n</ul>\n</nav>");
}

static void test_ways_through_the_book(void **state)
{
    struct world *world = *state;
    add_page(world, "start", "Start");
    add_page(world, "pull", "Pull & wind");
    add_page(world, "card", "Card")->in_booklet = false;
    check_slot(world, "navigation", 1,
               "<ol>\n<li><a href=\"index.html\">Start</a></li>\n"
               "<li><a href=\"pull.html\" aria-current=\"page\">Pull &amp; wind</a></li>\n"
               "<li><a href=\"card.html\">Card</a></li>\n</ol>");
    check_slot(world, "previous", 1,
               "<a rel=\"prev\" href=\"index.html\"><span>Previous</span> Start</a>");
    check_slot(world, "next", 0,
               "<a rel=\"next\" href=\"pull.html\"><span>Next</span> Pull &amp; wind</a>");
    check_slot(world, "previous", 0, "");
    check_slot(world, "next", 2, "");
    check_slot(world, "contents", 0, "");
    check_slot(world, "sheet", 2, "3 of 3");
}

static void test_imprint(void **state)
{
    struct world *world = *state;
    add_page(world, "start", "Start");
    add_page(world, "pull", "Pull");
    check_slot(world, "title", 1, "Pull");
    check_slot(world, "book", 1, "Start");
    check_slot(world, "inputs", 1, "the inputs");
    check_slot(world, "fingerprint", 1, "12ab");
    check_slot(world, "notice", 1, "");
    world->site.notice = "All of it is invented.";
    check_slot(world, "notice", 1, "<p class=\"notice\">All of it is invented.</p>");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

static const struct CMUnitTest tests[] = {
    IN_WORLD(test_no_text_gets_out),
    IN_WORLD(test_own_template),
    IN_WORLD(test_template_is_copied),
    IN_WORLD(test_table),
    IN_WORLD(test_dates_stay_whole),
    IN_WORLD(test_full_precision),
    IN_WORLD(test_text),
    IN_WORLD(test_lists),
    IN_WORLD(test_cautions),
    IN_WORLD(test_depth),
    IN_WORLD(test_links),
    IN_WORLD(test_headings_and_contents),
    IN_WORLD(test_ways_through_the_book),
    IN_WORLD(test_imprint),
};

GROUP(pages, NULL, NULL)
