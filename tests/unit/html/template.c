/* Escaping of users' text, and the faults of the page template. */
#include "html/markup.h"
#include "html_sample.h"
#include "printed.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct world {
    struct arena *arena;
    struct diags *diags;
};

static int open_world(void **state)
{
    static struct world world;
    world = (struct world){.arena = arena_new()};
    world.diags = diags_new(world.arena);
    *state = &world;
    return 0;
}

static int close_world(void **state)
{
    struct world *world = *state;
    arena_free(world->arena);
    return 0;
}

/* ---- escaping ---- */

static void check_escape(void (*escape)(struct buffer *, const char *), const char *text,
                         const char *wanted)
{
    struct buffer out = {0};
    buffer_text(&out, "");
    escape(&out, text);
    assert_string_equal(out.bytes, wanted);
    buffer_free(&out);
}

static void test_escape_text(void **state)
{
    (void)state;
    check_escape(escape_text, "", "");
    check_escape(escape_text, "plain 1.25 N·m ≤ ▲", "plain 1.25 N·m ≤ ▲");
    check_escape(escape_text, "&<>\"'", "&amp;&lt;&gt;&quot;&#39;");
    check_escape(escape_text, "a&amp;b", "a&amp;amp;b");
    check_escape(escape_text, "<<a", "&lt;&lt;a");
    check_escape(escape_text, "a'", "a&#39;");
}

static void test_escape_link(void **state)
{
    (void)state;
    check_escape(escape_link, "wind-and-pull_2.b", "wind-and-pull_2.b");
    check_escape(escape_link, "50% & \"more\"", "50%25%20%26%20%22more%22");
    check_escape(escape_link, "javascript:x", "javascript%3Ax");
    check_escape(escape_link, "//h/ü", "%2F%2Fh%2F%C3%BC");
}

/* ---- the template ---- */

struct template_case {
    const char *text, *fault;
};

static void test_template_faults(void **state)
{
    static const struct template_case cases[] = {
        {OTHER_SLOTS "\n", ":13:1: the slot 'main' is missing; "},
        {OTHER_SLOTS SLOT("main") "\n ü" SLOT("main"),
         ":13:3: the slot 'main' already stands on line 12; "},
        {OTHER_SLOTS SLOT("main") SLOT("foot"), ":12:32: 'foot' is no slot known here; "},
        {OTHER_SLOTS SLOT("main") "\n<slot>x</slot>", ":13:1: this slot has no name; "},
        {OTHER_SLOTS SLOT("main") "\n<slot class=\"a\">x</slot>",
         ":13:1: this slot has no name; "},
        {OTHER_SLOTS SLOT("main") "\n<slot name=\"\">x</slot>",
         ":13:1: this slot has no name; "},
        {OTHER_SLOTS SLOT("main") "\n<slot name=\"title>x</slot>",
         ":13:1: this slot has no name; "},
        {OTHER_SLOTS " <slot name=\"main\">x", ":12:2: this slot is not closed; "},
        {" <slot name=\"main\">x " OTHER_SLOTS, ":1:2: this slot is not closed; "},
        {OTHER_SLOTS SLOT("main") "</slot>", ":12:32: this </slot> closes no slot; "},
        {OTHER_SLOTS SLOT("main") "<!-- x", ":12:32: this comment is not closed; "},
        {OTHER_SLOTS "<!--" SLOT("main") "-->", ":12:39: the slot 'main' is missing; "},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct world *world = *state;
        world->diags = diags_new(world->arena);
        assert_null(read_template(world->arena, world->diags, cases[i].text));
        const char *faults = printed_faults(world->arena, world->diags);
        if (strncmp(faults, "/tmp/page-", strlen("/tmp/page-")) != 0 ||
            strncmp(strchr(faults, ':'), cases[i].fault, strlen(cases[i].fault)) != 0)
            fail_msg("wanted '%s', got '%s'", cases[i].fault, faults);
        assert_int_equal(diags_count(world->diags), 1);
    }
}

static void test_all_missing_slots_are_named(void **state)
{
    struct world *world = *state;
    assert_null(read_template(world->arena, world->diags, "<html>"));
    assert_int_equal(diags_count(world->diags), 16);
}

static void test_no_template(void **state)
{
    struct world *world = *state;
    assert_null(html_template_read(world->arena, world->diags, "/tmp/no/page.html"));
    assert_int_equal(diags_count(world->diags), 1);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

static const struct CMUnitTest tests[] = {
    cmocka_unit_test(test_escape_text), cmocka_unit_test(test_escape_link),
    IN_WORLD(test_template_faults),     IN_WORLD(test_all_missing_slots_are_named),
    IN_WORLD(test_no_template),
};

GROUP(template, NULL, NULL)
