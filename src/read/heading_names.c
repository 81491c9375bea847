#include "read/heading_names.h"

#include "base/names.h"

#include <string.h>

enum { DEEPEST_LEVEL = 4, MOST_HEADINGS = 2000 };

static bool is_word_sign(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* "Breakaway, and steady" -> "breakaway-and-steady". */
static char *words_to_name(struct arena *arena, const char *words)
{
    char *name = arena_get(arena, strlen(words) + 2);
    size_t length = 0;
    for (; *words; words++) {
        char c = lower(*words);
        if (is_word_sign(c))
            name[length++] = c;
        else if ((c == ' ' || c == '-') && length && name[length - 1] != '-')
            name[length++] = '-';
    }
    while (length && name[length - 1] == '-')
        name[--length] = '\0';
    return length ? name : strcpy(name, "x");
}

/* A name's number is the one to try for the next heading of those words. */
static const char *take_name(struct arena *arena, struct names *names, const char *name)
{
    size_t *next = names_find(names, name);
    const char *unique = name;
    while (next && names_find(names, unique))
        unique = arena_format(arena, "%s-%zu", name, (*next)++);
    names_add(arena, names, unique, 2);
    return unique;
}

static void name_heading(struct arena *arena, struct diags *diags, struct names *names,
                         struct node *heading)
{
    if (names->count == MOST_HEADINGS)
        fault(diags, heading->at, "this page has more than %d headings; divide it",
              MOST_HEADINGS);
    if (names->count <= MOST_HEADINGS)
        heading->anchor =
            take_name(arena, names, words_to_name(arena, node_plain_text(arena, heading)));
}

static void check_words(struct arena *arena, struct diags *diags, const struct node *heading)
{
    const char *words = node_plain_text(arena, heading);
    if (words[strspn(words, " ")] == '\0')
        fault(diags, heading->at,
              "the heading has no words; write some behind the #, or "
              "delete it");
}

static void check_level(struct diags *diags, const struct page *page,
                        const struct node *heading, int level_before)
{
    if (heading->level > DEEPEST_LEVEL)
        fault(diags, heading->at, "a heading of level %d is too deep; %d levels are enough",
              heading->level, DEEPEST_LEVEL);
    else if (heading->level == 1 && page->title)
        fault(diags, heading->at,
              "this is the page's second first-level heading; a page has one: "
              "begin this line with ##");
    else if (heading->level > level_before + 1)
        fault(diags, heading->at, "this heading skips a level; begin its line with %.*s",
              level_before + 1, "####");
}

void name_headings(struct arena *arena, struct diags *diags, struct page *page)
{
    int level = 0;
    struct names names = {0};
    for (struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (node->kind != NODE_HEADING)
            continue;
        check_level(diags, page, node, level);
        check_words(arena, diags, node);
        name_heading(arena, diags, &names, node);
        if (!page->title)
            page->title = node_plain_text(arena, node);
        level = node->level;
    }
    const struct node *first = page->root->first; /* NOLINT: every page has its root */
    if (!first || first->kind != NODE_HEADING || first->level != 1)
        fault(diags, (struct place){.file = page->file, .line = 1},
              "the page does not begin with its title; begin its first line with # and the "
              "title");
    if (!page->title)
        page->title = page->file;
}
