/* Trees made by hand and templates of a moment, for the tests of the site's pages. */
#ifndef TESTS_HTML_SAMPLE_H
#define TESTS_HTML_SAMPLE_H

#include "html/html.h"
#include "test.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define SLOT(name) "<slot name=\"" name "\">sample</slot>"

#define LINE(name) SLOT(name) "\n"

/* Every slot but "main". */
#define TEXT_SLOTS  LINE("title") LINE("book") LINE("sheet") LINE("inputs") LINE("fingerprint")
#define WAY_SLOTS   LINE("contents") LINE("previous") LINE("next") LINE("navigation")
#define PAGE_SLOTS  SLOT("shortcuts") SLOT("policy") SLOT("style") SLOT("scripts")
#define OTHER_SLOTS TEXT_SLOTS WAY_SLOTS LINE("notice") PAGE_SLOTS LINE("heading")

/* From a file /tmp/page-..., which goes again. */
static inline const struct html_template *read_template(struct arena *arena,
                                                        struct diags *diags, const char *text)
{
    char *file = arena_text(arena, "/tmp/page-XXXXXX");
    int handle = mkstemp(file);
    assert_true(handle >= 0);
    assert_int_equal(write(handle, text, strlen(text)), strlen(text));
    close(handle);
    const struct html_template *made = html_template_read(arena, diags, file);
    unlink(file);
    return made;
}

static inline struct node *add(struct arena *arena, struct node *parent, enum node_kind kind,
                               const char *text)
{
    struct node *node = node_new(arena, kind, (struct place){.file = "x.md"});
    node->text = text;
    if (parent)
        node_append(parent, node);
    return node;
}

static inline struct node *add_heading(struct arena *arena, struct node *parent, int level,
                                       const char *anchor, const char *text)
{
    struct node *heading = add(arena, parent, NODE_HEADING, NULL);
    heading->level = level;
    heading->anchor = anchor;
    add(arena, heading, NODE_TEXT, text);
    return heading;
}

#endif
