/* What only the screen has: the policy of a page, the single file, the index, the bench
 * page's frame. */
#include "html/find.h"
#include "html/html.h"
#include "html/markup.h"
#include "html/policy.h"
#include "html_sample.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* ---- the policy ---- */

static void check_base64(const char *plain, const char *wanted)
{
    struct buffer out = {0};
    buffer_text(&out, "");
    base64_add(&out, plain, strlen(plain));
    assert_string_equal(out.bytes, wanted);
    buffer_free(&out);
}

/* RFC 4648, section 10. */
static void test_base64(void **state)
{
    (void)state;
    check_base64("", "");
    check_base64("f", "Zg==");
    check_base64("fo", "Zm8=");
    check_base64("foo", "Zm9v");
    check_base64("foob", "Zm9vYg==");
    check_base64("fooba", "Zm9vYmE=");
    check_base64("foobar", "Zm9vYmFy");
    check_base64("\xff\xfb\xbf", "//u/");
}

/* Its script, too, is known by its hash. */
static const struct html_engine engine = {.script = "abc", .bytes = "foo", .length = 3};

static void check_policy(const struct html_extra *extras, size_t count, const char *style,
                         const char *wanted)
{
    struct buffer out = {0};
    policy_paint(&out, &(struct html_site){.engine = &engine}, extras, count, style);
    const char *start = strstr(out.bytes, "content=\"") + strlen("content=\"");
    assert_int_equal(strncmp(start, wanted, strlen(wanted)), 0);
    assert_string_equal(start + strlen(wanted), "; base-uri 'none'; form-action 'none'\">");
    buffer_free(&out);
}

/* FIPS 180-2, appendix B.1: "abc"; the other line is the same with returns in it. */
#define ABC "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='"

static void test_policy(void **state)
{
    (void)state;
    static const struct html_extra extras[] = {
        {.script = "abc"}, {0}, {.script = "a\rbc", .has_engine = true}};
    check_policy(NULL, 0, NULL, "default-src 'none'; style-src 'self' file:");
    check_policy(extras, 1, NULL,
                 "default-src 'none'; style-src 'self' file:; script-src " ABC);
    check_policy(extras, 3, "abc",
                 "default-src 'none'; style-src " ABC "; script-src " ABC " " ABC " " ABC
                 " 'wasm-unsafe-eval'");
}

/* What is hashed is what stands there. */
static void test_script_without_returns(void **state)
{
    struct buffer out = {0};
    (void)state;
    script_paint(&out, "\r\na\r\nb\r");
    assert_string_equal(out.bytes, "<script>\na\nb</script>\n");
    buffer_free(&out);
}

/* ---- a site of two pages and an extra ---- */

struct world {
    struct arena *arena;
    const struct page *pages[2];
    struct html_extra extra;
    struct html_site site;
    struct buffer out;
};

static void add_table(struct world *world, struct node *root, const char *name,
                      const char *caption, const char *head)
{
    struct node *node = add(world->arena, root, NODE_TABLE, NULL);
    node->table = table_new(world->arena, name, caption);
    table_column(node->table, COLUMN_TEXT, "word", NULL);
    table_row(node->table)->shown = head;
}

static void add_link(struct world *world, struct node *root, const struct page *to,
                     const char *anchor)
{
    struct node *link = add(world->arena, root, NODE_LINK, NULL);
    link->target = "x";
    link->to_page = to;
    link->to_anchor = anchor;
    add(world->arena, link, NODE_TEXT, "there");
}

static struct page *new_page(struct world *world, const char *name, const char *title)
{
    struct page *page = arena_get(world->arena, sizeof *page);
    *page = (struct page){.file = "x.md", .name = name, .title = title, .in_booklet = true};
    page->root = add(world->arena, NULL, NODE_PAGE, NULL);
    add_heading(world->arena, page->root, 1, "top", title);
    add_heading(world->arena, page->root, 2, "same", "Same & <same>");
    add(world->arena, add(world->arena, page->root, NODE_CAUTION, "Stop"), NODE_PARAGRAPH,
        NULL);
    return page;
}

static const char frame[] =
    "<slot name=\"policy\"></slot><slot name=\"style\"></slot><slot name=\"title\"></slot>"
    "<a href=\"index.html\">book</a><a href=\"#_main\">skip</a><a href=\"no.html\">no</a>"
    "<slot name=\"book\"></slot><slot name=\"notice\"></slot><slot name=\"heading\"></slot>"
    "<slot name=\"contents\"></slot>[<slot name=\"main\"></slot>]<slot "
    "name=\"previous\"></slot>"
    "<slot name=\"next\"></slot>{<slot name=\"navigation\"></slot>}"
    "(<slot name=\"shortcuts\"></slot>)<slot name=\"sheet\"></slot>"
    "<slot name=\"inputs\"></slot><slot name=\"fingerprint\"></slot><slot "
    "name=\"scripts\"></slot>";

static const char extra_main[] =
    "<h2 id=\"find_x\">X</h2><a href=\"50%25%20%22odd%22.html#same\">a</a>"
    "<a href=\"find.html\">b</a><a href=\"https://example.org/\">c</a>";

static void paint_extra(struct buffer *out, const struct html_site *site, const void *with)
{
    assert_int_equal(site->page_count, 2);
    buffer_text(out, with);
}

static int open_world(void **state)
{
    static struct world world;
    world = (struct world){.arena = arena_new()};
    struct page *first = new_page(&world, "start", "Start");
    struct page *second = new_page(&world, "50% \"odd\"", "Odd");
    add_link(&world, first->root, second, "same");
    add_link(&world, first->root, second, NULL);
    add_table(&world, first->root, "words", "Words", "zinc");
    add_table(&world, second->root, "words", "Words", "Anvil");
    world.pages[0] = first;
    world.pages[1] = second;
    second->number = 1;
    world.extra = (struct html_extra){.name = "find",
                                      .title = "Find",
                                      .brief = "F & i",
                                      .paint = paint_extra,
                                      .with = extra_main,
                                      .script = "abc",
                                      .style = "i{}"};
    world.site = (struct html_site){
        .template = read_template(world.arena, diags_new(world.arena), frame),
        .pages = world.pages,
        .page_count = 2,
        .extras = &world.extra,
        .extra_count = 1,
        .style = "b{}",
        .inputs = "in",
        .fingerprint = "12ab"};
    *state = &world;
    return world.site.template ? 0 : -1;
}

static int close_world(void **state)
{
    struct world *world = *state;
    buffer_free(&world->out);
    arena_free(world->arena);
    return 0;
}

static void check_holds(const struct world *world, const char *text)
{
    if (!strstr(world->out.bytes, text))
        fail_msg("'%s' is not in %s", text, world->out.bytes);
}

static void check_lacks(const struct world *world, const char *text)
{
    if (strstr(world->out.bytes, text))
        fail_msg("'%s' is in %s", text, world->out.bytes);
}

static void test_extra_page(void **state)
{
    struct world *world = *state;
    html_paint(&world->out, &world->site, 2);
    check_holds(world, "<h1>Find</h1>");
    check_holds(world, "<link rel=\"stylesheet\" href=\"style.css\">\n"
                       "<link rel=\"stylesheet\" href=\"find.css\">");
    check_holds(world, "script-src " ABC "; base-uri");
    check_holds(world, "<script>abc</script>");
    check_holds(world, "3 of 3");
    check_holds(world, "<li><a href=\"find.html\" aria-current=\"page\">Find</a></li>");
    check_holds(world, "(<a href=\"find.html\" aria-current=\"page\">F &amp; i</a>\n)");
    check_holds(world, extra_main);
    assert_string_equal(html_file_name(world->arena, &world->site, 2), "find.html");
}

static void test_content_page_runs_nothing(void **state)
{
    struct world *world = *state;
    html_paint(&world->out, &world->site, 1);
    check_lacks(world, "<script");
    check_lacks(world, "script-src");
    check_lacks(world, "find.css");
    check_holds(world, "<a rel=\"next\" href=\"find.html\">");
    check_holds(world, "(<a href=\"find.html\">F &amp; i</a>\n)");
}

static void test_single_links(void **state)
{
    struct world *world = *state;
    html_paint_single(&world->out, &world->site);
    check_holds(world, "<a href=\"#s1\">book</a><a href=\"#_main\">skip</a>"
                       "<a href=\"no.html\">no</a>");
    check_holds(world, "<a href=\"#s2_same\">there</a><a href=\"#s2\">there</a>");
    check_holds(world, "<a href=\"#s2_same\">a</a><a href=\"#s3\">b</a>"
                       "<a href=\"https://example.org/\">c</a>");
    check_holds(world, "{<ol>\n<li><a href=\"#s1\">Start</a></li>\n"
                       "<li><a href=\"#s2\">Odd</a></li>\n"
                       "<li><a href=\"#s3\">Find</a></li>\n</ol>}");
    check_holds(world, "(<a href=\"#s3\">F &amp; i</a>\n)");
    check_lacks(world, "aria-current");
}

/* The first page's title stands above all others. */
static void test_single_headings(void **state)
{
    struct world *world = *state;
    html_paint_single(&world->out, &world->site);
    check_holds(world, "<section class=\"sheet\" id=\"s1\">\n<h1 id=\"s1_top\">Start</h1>");
    check_holds(world, "<h2 id=\"s1_same\">");
    check_holds(world, "<h2 id=\"s2_top\">Odd</h2>");
    check_holds(world, "<h3 id=\"s2_same\">");
    check_holds(world, "<h2>Find</h2>\n");
    check_holds(world, "<h3 id=\"find_x\">X</h3>");
    assert_null(strstr(strstr(world->out.bytes, "<h1") + 1, "<h1"));
}

static void test_single_names(void **state)
{
    struct world *world = *state;
    html_paint_single(&world->out, &world->site);
    check_holds(world, "aria-labelledby=\"s1_words_caption s1_top\"");
    check_holds(world, "aria-labelledby=\"s2_words_caption s2_top\"");
    check_holds(world, "id=\"s1_caution_1\"");
    check_holds(world, "id=\"s2_caution_1\"");
    check_holds(world, "<p id=\"s2__contents\">");
    for (const char *at = world->out.bytes; (at = strstr(at, " id=\"")); at++) {
        size_t length = strcspn(at + 5, "\"") + 6;
        const char *id = arena_slice(world->arena, at, length);
        assert_null(strstr(at + 1, id));
    }
}

static void test_single_policy(void **state)
{
    struct world *world = *state;
    struct buffer policy = {0};
    html_paint_single(&world->out, &world->site);
    policy_paint(&policy, &world->site, &world->extra, 1, "b{}i{}");
    check_holds(world, policy.bytes);
    check_holds(world, "<style>b{}i{}</style>");
    check_lacks(world, "<link");
    buffer_free(&policy);
}

/* ---- the index ---- */

static void paint_index(struct world *world)
{
    struct find *find = find_new();
    for (size_t i = 0; i < world->site.page_count; i++)
        find_add(find, world->site.pages[i]);
    find_paint(&world->out, &world->site, find);
    find_free(find);
}

static void test_find(void **state)
{
    struct world *world = *state;
    paint_index(world);
    check_holds(world, "<li><a href=\"index.html#words\">Words</a> <span>Start</span></li>\n"
                       "<li><a href=\"50%25%20%22odd%22.html#words\">Words</a>");
    const char *words = strstr(world->out.bytes, "find_words"), *at = words;
    static const char *const order[] = {
        "#words\">Anvil<",   "#top\">Odd<",   "index.html#same\">Same &amp; &lt;same&gt;<",
        ".html#same\">Same", "#top\">Start<", "#words\">zinc<"};
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        at = strstr(at, order[i]);
        assert_non_null(at);
        at++;
    }
    assert_null(strstr(at, "<li>"));
}

/* Of words that differ in case alone the one that stands first comes first. */
static void test_find_order_of_equal_words(void **state)
{
    struct world *world = *state;
    static const char *const heads[] = {"nut", "NUT", "Lock", "nut", "lock", "Nut"};
    static const char *const order[] = {"Lock", "lock", "nut", "NUT", "nut", "Nut"};
    add_table(world, world->pages[1]->root, "more", "More", heads[0]);
    struct table *table = world->pages[1]->root->last->table;
    for (size_t i = 1; i < sizeof heads / sizeof heads[0]; i++)
        table_row(table)->shown = heads[i];
    paint_index(world);
    const char *at = strstr(world->out.bytes, "find_words");
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        at = strstr(at, "#more\">");
        assert_non_null(at);
        at += strlen("#more\">");
        assert_memory_equal(at, order[i], strlen(order[i]));
    }
    assert_null(strstr(at, "#more\">"));
}

/* A figure is found by its title; what stands below it is too long for a line. */
static void test_find_figure(void **state)
{
    struct world *world = *state;
    struct figure figure = {.name = "rig", .title = "The rig", .caption = "A long story."};
    add(world->arena, world->pages[0]->root, NODE_FIGURE, NULL)->figure = &figure;
    paint_index(world);
    check_holds(world, "<li><a href=\"index.html#rig\">The rig</a> <span>Start</span></li>");
    check_lacks(world, "A long story");
}

/* ---- the bench page ---- */

static void test_bench_page(void **state)
{
    struct world *world = *state;
    struct bench_setting settings[] = {{"lathe.name", "<b>&\"'"}, {"drum.diameter", "62 mm"}};
    bench_page_paint(&world->out, &world->site,
                     &(struct bench_parts){.html = "<!-- a -->\n<p>x</p><!--b-->\n",
                                           .settings = settings,
                                           .setting_count = 2,
                                           .fingerprint = "12ab"});
    assert_string_equal(world->out.bytes,
                        "<p>x</p><ul hidden id=\"bench_settings\" data-fingerprint=\"12ab\">\n"
                        "<li data-key=\"lathe.name\">&lt;b&gt;&amp;&quot;&#39;</li>\n"
                        "<li data-key=\"drum.diameter\">62 mm</li>\n</ul>\n");
}

/* The engine stands behind the page, once, whoever asks it. */
static void test_engine(void **state)
{
    struct world *world = *state;
    world->site.engine = &engine;
    html_paint(&world->out, &world->site, 2);
    check_lacks(world, "id=\"engine\"");
    buffer_free(&world->out);
    world->extra.has_engine = true;
    html_paint(&world->out, &world->site, 2);
    check_holds(world, "<script type=\"text/plain\" id=\"engine\">Zm9v</script>\n"
                       "<script>abc</script>\n<script>abc</script>\n");
}

/* ---- the card to be filled in ---- */

static void test_own_card_page(void **state)
{
    struct world *world = *state;
    struct page *card = arena_get(world->arena, sizeof *card);
    card->root = add(world->arena, NULL, NODE_PAGE, NULL);
    add(world->arena, add(world->arena, card->root, NODE_PARAGRAPH, NULL), NODE_TEXT,
        "{limits}");
    add(world->arena, card->root, NODE_TABLE, NULL);
    add(world->arena, card->root, NODE_RULE, NULL);
    add(world->arena, add(world->arena, card->root, NODE_PARAGRAPH, NULL), NODE_TEXT, "b");
    own_card_page_paint(&world->out, &world->site,
                        &(struct own_card_parts){.html = "<p>x</p>\n", .card = card});
    assert_string_equal(world->out.bytes,
                        "<p>x</p>\n<template id=\"own_card_texts\">\n<div>\n<p>{limits}</p>\n"
                        "<div class=\"card-window\"></div>\n</div>\n<div>\n<p>b</p>\n</div>\n"
                        "</template>\n");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_base64),
    cmocka_unit_test(test_policy),
    cmocka_unit_test(test_script_without_returns),
    IN_WORLD(test_extra_page),
    IN_WORLD(test_content_page_runs_nothing),
    IN_WORLD(test_single_links),
    IN_WORLD(test_single_headings),
    IN_WORLD(test_single_names),
    IN_WORLD(test_single_policy),
    IN_WORLD(test_engine),
    IN_WORLD(test_own_card_page),
    IN_WORLD(test_find),
    IN_WORLD(test_find_order_of_equal_words),
    IN_WORLD(test_find_figure),
    IN_WORLD(test_bench_page),
};

GROUP(screen, NULL, NULL)
