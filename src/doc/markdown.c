/* A page is read by cmark, node by node copied into our tree, and its headings named. Fenced
 * blocks are read by doc/blocks.h; a caution's body goes to cmark again. */

/* Without this, cmark.h would define NODE_HEADING and the like in our place. */
#define CMARK_NO_SHORT_NAMES
#include "doc/markdown.h"

#include "base/file.h"
#include "base/names.h"
#include "base/utf8.h"
#include "doc/blocks.h"

#include <cmark.h>
#include <stdlib.h>
#include <string.h>

/* ---- headings: each has its fragment name, the first is the page's title ---- */

enum { DEEPEST_LEVEL = 4, MOST_HEADINGS = 2000 };

/* "Breakaway, and steady" -> "breakaway-and-steady": words in lower case joined by hyphens, of
 * which letters and digits of ASCII count. */
static char *words_to_name(struct arena *arena, const char *words)
{
    char *name = arena_get(arena, strlen(words) + 2);
    size_t length = 0;
    for (; *words; words++) {
        char c = *words >= 'A' && *words <= 'Z' ? (char)(*words - 'A' + 'a') : *words;
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            name[length++] = c;
        else if ((c == ' ' || c == '-') && length && name[length - 1] != '-')
            name[length++] = '-';
    }
    while (length && name[length - 1] == '-')
        name[--length] = '\0';
    return length ? name : strcpy(name, "x");
}

/* A second heading of the same words gets "-2": a name's number is the one to try for the next.
 */
static const char *take_name(struct arena *arena, struct names *names, const char *name)
{
    size_t *next = names_find(names, name);
    const char *unique = name;
    while (next && names_find(names, unique))
        unique = arena_format(arena, "%s-%zu", name, (*next)++);
    names_add(arena, names, unique, 2);
    return unique;
}

static void check_heading(struct diags *diags, const struct page *page,
                          const struct node *heading, const char *words, int level_before)
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
    if (words[strspn(words, " ")] == '\0')
        fault(diags, heading->at,
              "the heading has no words; write some behind the #, or delete it");
}

/* A page must begin with its only first-level heading, and no level may be skipped. */
static void name_headings(struct arena *arena, struct diags *diags, struct page *page)
{
    int level = 0;
    struct names names = {0};
    for (struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (node->kind != NODE_HEADING)
            continue;
        const char *words = node_plain_text(arena, node);
        check_heading(diags, page, node, words, level);
        if (names.count == MOST_HEADINGS)
            fault(diags, node->at, "this page has more than %d headings; divide it",
                  MOST_HEADINGS);
        if (names.count <= MOST_HEADINGS)
            node->anchor = take_name(arena, &names, words_to_name(arena, words));
        if (!page->title)
            page->title = words;
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

/* ---- lines and columns of a text as an editor counts them: in characters, not in bytes ----
 */

static void stand_at(struct source *source, const char *line, int number)
{
    source->line = line;
    source->number = number;
    source->counted = source->characters = 0;
    source->lead = strspn(line, " \t>");
}

void source_begin(struct source *source, const char *text)
{
    source->text = text;
    stand_at(source, text, 1);
}

/* CR LF is one line end. */
static bool go_down(struct source *source)
{
    const char *end = source->line + strcspn(source->line, "\r\n");
    if (!*end)
        return false;
    stand_at(source, end + (end[0] == '\r' && end[1] == '\n' ? 2 : 1), source->number + 1);
    return true;
}

static void go_up(struct source *source)
{
    const char *at = source->line - 1;
    if (at > source->text && at[0] == '\n' && at[-1] == '\r')
        at--;
    while (at > source->text && at[-1] != '\n' && at[-1] != '\r')
        at--;
    stand_at(source, at, source->number - 1);
}

/* The last line where there are fewer. */
static void go_to(struct source *source, int number)
{
    while (source->number > number && source->number > 1)
        go_up(source);
    while (source->number < number && go_down(source))
        ;
}

size_t source_lead(struct source *source, int number)
{
    go_to(source, number);
    return source->lead;
}

int source_column(struct source *source, int number, int byte)
{
    go_to(source, number);
    size_t before = byte > 1 ? (size_t)byte - 1 : 0;
    if (before < source->counted)
        source->counted = source->characters = 0;
    const char *next = source->line + source->counted;
    size_t length = strnlen(next, before - source->counted);
    source->characters += utf8_count(next, length);
    source->counted += length;
    return (int)source->characters + 1;
}

/* Whether the text goes on so from the place whose column was asked for last. */
static bool source_goes_on(const struct source *source, const char *text)
{
    return strncmp(source->line + source->counted, text, strlen(text)) == 0;
}

/* ---- what cmark read, copied ---- */

enum { DEEPEST_NESTING = 100 };

struct reader {
    struct arena *arena;
    struct diags *diags;
    const char *file;
    struct source source;         /* the page's text, or that of the caution being read */
    int line_shift, column_shift; /* a caution's body begins further down the file */
    bool in_caution;
    struct {
        const cmark_node *block;
        int count;    /* of them in this block, so far */
        int line;     /* as cmark counts, of the last one; in it ... */
        int consumed; /* ... bytes that are on lines before */
    } uncounted;      /* line breaks by a backslash: see note_break() */
};

static void read_text(struct reader *reader, struct node *parent, const char *text,
                      size_t length);

/* Of an inline node: the block that it stands in. */
static cmark_node *block_of(cmark_node *node)
{
    while (cmark_node_get_type(node) >= CMARK_NODE_FIRST_INLINE)
        node = cmark_node_parent(node);
    return node;
}

/* cmark gives a link the line where it ends; and some nodes no line at all. */
static int line_of(cmark_node *node)
{
    cmark_node *child = cmark_node_first_child(node);
    int line = cmark_node_get_start_line(node);
    int first = child ? cmark_node_get_start_line(child) : 0;
    if (first > 0 && first < line)
        return first;
    for (cmark_node *up = node; line == 0 && (up = cmark_node_parent(up));)
        line = cmark_node_get_start_line(up);
    return line;
}

/* cmark does not count the line that a backslash at its end breaks: what follows is for it on
 * the same line, further to the right. */
static void note_break(struct reader *reader, cmark_node *node)
{
    struct source *source = &reader->source;
    cmark_node *block = block_of(node), *before = cmark_node_previous(node);
    int first = cmark_node_get_start_line(block);
    int line = before ? cmark_node_get_end_line(before) : 0;
    if (reader->uncounted.block != block) {
        memset(&reader->uncounted, 0, sizeof reader->uncounted);
        reader->uncounted.block = block;
    }
    if (line == 0) /* the break stands first on its line */
        line = reader->uncounted.count ? reader->uncounted.line : first;
    int real = line + reader->uncounted.count;
    size_t lead = source_lead(source, real);
    if (real == first)
        lead = (size_t)cmark_node_get_start_column(block) - 1;
    size_t length = strcspn(source->line, "\r\n");
    if (length == 0 || source->line[length - 1] != '\\')
        return;
    length += source->line[length] == '\r' && source->line[length + 1] == '\n' ? 2 : 1;
    if (line != reader->uncounted.line)
        reader->uncounted.consumed = 0;
    reader->uncounted.consumed += (int)(length - lead);
    reader->uncounted.line = line;
    reader->uncounted.count++;
}

/* cmark counts bytes, and on later lines of a block as if each began where the first does:
 * there stand blanks and quote signs before the words, or fewer of them. */
static int column_of(struct reader *reader, cmark_node *node, int line, int consumed)
{
    int byte = cmark_node_get_start_column(node) - consumed;
    cmark_node *block = block_of(node);
    if (byte > 0 && line > cmark_node_get_start_line(block))
        byte +=
            1 - cmark_node_get_start_column(block) + (int)source_lead(&reader->source, line);
    return byte > 0 ? source_column(&reader->source, line, byte) + reader->column_shift : 0;
}

static struct place place_of(struct reader *reader, cmark_node *node)
{
    int line = line_of(node), consumed = 0;
    if (reader->uncounted.block == block_of(node)) {
        consumed = line == reader->uncounted.line ? reader->uncounted.consumed : 0;
        line += reader->uncounted.count;
    }
    return (struct place){.file = reader->file,
                          .line = line + reader->line_shift,
                          .column = column_of(reader, node, line, consumed)};
}

static bool runs_things(const char *url)
{
    static const char *const allowed[] = {"https:", "http:", "mailto:"};
    size_t scheme = strcspn(url, ":/?#");
    if (url[scheme] != ':')
        return false;
    for (size_t i = 0; i < sizeof allowed / sizeof allowed[0]; i++)
        if (strncmp(url, allowed[i], strlen(allowed[i])) == 0)
            return false;
    return true;
}

static bool hides_something(const char *url)
{
    for (uint32_t point; (point = utf8_next(&url)) != 0;)
        if (utf8_is_hidden(point))
            return true;
    return false;
}

static void read_link(const struct reader *reader, cmark_node *source, struct node *node)
{
    node->target = arena_text(reader->arena, cmark_node_get_url(source));
    if (node->target[0] == '\0')
        fault(reader->diags, node->at,
              "the link leads nowhere; write its target in the brackets");
    else if (hides_something(node->target))
        fault(
            reader->diags, node->at,
            "the link's target holds a character that is not seen, or hides or turns what is; "
            "delete it");
    else if (runs_things(node->target))
        fault(reader->diags, node->at,
              "'%s' is no place to link to; link to a page, a heading or "
              "an https: address",
              node->target);
}

static void read_list(const struct reader *reader, cmark_node *source, struct node *node)
{
    node->tight = cmark_node_get_list_tight(source);
    if (cmark_node_get_list_type(source) != CMARK_ORDERED_LIST)
        return;
    node->level = cmark_node_get_list_start(source);
    if (node->level < 1)
        fault(reader->diags, node->at, "the list begins at 0; begin it at 1");
}

/* A caution's body is Markdown again, a line below its fence. */
static void read_caution(struct reader *reader, struct node *node, const char *title,
                         const char *body)
{
    node->kind = NODE_CAUTION;
    node->text = title;
    if (title[0] == '\0' || body[strspn(body, " \t\r\n")] == '\0')
        fault(reader->diags, node->at,
              "the caution lacks its title or its words; write the title behind ```caution and "
              "the words below it");
    if (reader->in_caution) {
        fault(reader->diags, node->at,
              "a caution stands within a caution; write them one after "
              "the other");
        return;
    }
    struct reader inner = *reader;
    inner.line_shift = node->at.line;
    inner.column_shift = node->at.column - 1;
    inner.in_caution = true;
    read_text(&inner, node, body, strlen(body));
}

static void read_fence(struct reader *reader, cmark_node *source, struct node *node)
{
    const char *info = arena_text(reader->arena, cmark_node_get_fence_info(source));
    const char *body = arena_text(reader->arena, cmark_node_get_literal(source)), *title;
    if (block_is(info, "caution", &title))
        read_caution(reader, node, title, body);
    else if (info[0])
        block_read(reader->arena, reader->diags, info, body, node);
    else
        node->text = body;
}

/* What becomes of cmark's nodes, and which of them hold nothing: for these cmark gives no exit
 * event. NODE_PAGE: not taken in. */
static const struct {
    enum node_kind kind;
    bool leaf;
} kinds[] = {[CMARK_NODE_BLOCK_QUOTE] = {NODE_QUOTE, false},
             [CMARK_NODE_LIST] = {NODE_LIST, false},
             [CMARK_NODE_ITEM] = {NODE_ITEM, false},
             [CMARK_NODE_CODE_BLOCK] = {NODE_LITERAL, true},
             [CMARK_NODE_HTML_BLOCK] = {NODE_PAGE, true},
             [CMARK_NODE_PARAGRAPH] = {NODE_PARAGRAPH, false},
             [CMARK_NODE_HEADING] = {NODE_HEADING, false},
             [CMARK_NODE_THEMATIC_BREAK] = {NODE_RULE, true},
             [CMARK_NODE_TEXT] = {NODE_TEXT, true},
             [CMARK_NODE_SOFTBREAK] = {NODE_SPACE, true},
             [CMARK_NODE_LINEBREAK] = {NODE_BREAK, true},
             [CMARK_NODE_CODE] = {NODE_CODE, true},
             [CMARK_NODE_HTML_INLINE] = {NODE_PAGE, true},
             [CMARK_NODE_EMPH] = {NODE_EMPHASIS, false},
             [CMARK_NODE_STRONG] = {NODE_STRONG, false},
             [CMARK_NODE_LINK] = {NODE_LINK, false},
             [CMARK_NODE_IMAGE] = {NODE_PAGE, false}};

/* Makes one node of ours below parent; NULL when it is a fault or too deep. */
static struct node *copy_node(struct reader *reader, cmark_node *source, struct node *parent,
                              int depth)
{
    cmark_node_type type = cmark_node_get_type(source);
    struct node *node = node_new(reader->arena, kinds[type].kind, place_of(reader, source));
    if (type == CMARK_NODE_LINEBREAK)
        note_break(reader, source);
    if (depth == DEEPEST_NESTING) {
        fault(reader->diags, node->at,
              "more than %d blocks or marks are nested here; write it flat", DEEPEST_NESTING);
        return NULL;
    }
    if (node->kind == NODE_PAGE) {
        fault(reader->diags, node->at, "%s",
              type == CMARK_NODE_IMAGE
                  ? "pictures are not taken in; describe the thing in words"
                  : "raw HTML is not taken in; write it as Markdown, or put "
                    "backquotes around '<' text that is meant to be read");
        return NULL;
    }
    if (node->kind == NODE_HEADING) {
        node->level = cmark_node_get_heading_level(source);
    } else if (node->kind == NODE_LIST) {
        read_list(reader, source, node);
    } else if (node->kind == NODE_LINK) {
        read_link(reader, source, node);
    } else if (node->kind == NODE_LITERAL) {
        read_fence(reader, source, node);
    } else if (node->kind == NODE_TEXT || node->kind == NODE_CODE) {
        node->text = arena_text(reader->arena, cmark_node_get_literal(source));
        node->as_written = node->at.column && source_goes_on(&reader->source, node->text);
    }
    node_append(parent, node);
    return node;
}

/* Copies what cmark read, node by node and without recursion over its depth. */
static void copy_tree(struct reader *reader, cmark_node *document, struct node *parent)
{
    cmark_iter *iter = cmark_iter_new(document);
    int depth = 0;
    for (cmark_event_type event; (event = cmark_iter_next(iter)) != CMARK_EVENT_DONE;) {
        cmark_node *source = cmark_iter_get_node(iter);
        if (source == document)
            continue;
        if (event == CMARK_EVENT_EXIT) {
            parent = parent->parent;
            depth--;
            continue;
        }
        struct node *node = copy_node(reader, source, parent, depth);
        if (kinds[cmark_node_get_type(source)].leaf)
            continue;
        if (node) {
            parent = node;
            depth++;
        } else {
            cmark_iter_reset(iter, source, CMARK_EVENT_EXIT);
        }
    }
    cmark_iter_free(iter);
}

/* For one thing, or for so many bytes: the product is no larger than what is asked. */
static void *cmark_calloc(size_t count, size_t size)
{
    return heap_get(count * size);
}

static void *cmark_realloc(void *memory, size_t size)
{
    return heap_resize(memory, size, 1);
}

/* Without memory, cmark's own allocator would abort the program. With source positions asked
 * for, it counts the line ends within code. */
static cmark_node *parse(const char *text, size_t length)
{
    static cmark_mem memory = {cmark_calloc, cmark_realloc, free};
    cmark_parser *parser = cmark_parser_new_with_mem(CMARK_OPT_SOURCEPOS, &memory);
    cmark_parser_feed(parser, text, length);
    cmark_node *document = cmark_parser_finish(parser);
    cmark_parser_free(parser);
    return document;
}

static void read_text(struct reader *reader, struct node *parent, const char *text,
                      size_t length)
{
    source_begin(&reader->source, text);
    cmark_node *document = parse(text, length);
    cmark_consolidate_text_nodes(document);
    copy_tree(reader, document, parent);
    cmark_node_free(document);
}

enum { MOST_PICTURES = 1000 };

/* For each link cmark looks at all pictures that were begun before it in the same paragraph: a
 * text of nothing else would take it hours. The limit is looked at before cmark reads. */
static bool has_too_many_pictures(struct reader *reader, const char *text)
{
    size_t count = 0;
    const char *line = text;
    int number = 1;
    for (const char *at = text; *at; at++) {
        if (*at == '\n') {
            number++;
            line = at + 1;
            if (line[strspn(line, " \t\r>")] == '\n')
                count = 0;
        }
        if (at[0] != '!' || at[1] != '[' || ++count <= MOST_PICTURES)
            continue;
        fault(reader->diags,
              (struct place){reader->file, number,
                             (int)utf8_count(line, (size_t)(at - line)) + 1},
              "this paragraph begins more than %d pictures; pictures are not taken in: "
              "describe the things in words",
              MOST_PICTURES);
        return true;
    }
    return false;
}

struct page *markdown_read(struct arena *arena, struct diags *diags, const char *file)
{
    struct file_text text;
    if (!file_read_text(arena, diags, file, &text))
        return NULL;
    struct reader reader = {.arena = arena, .diags = diags, .file = file};
    if (has_too_many_pictures(&reader, text.bytes))
        return NULL;
    struct page *page = arena_get(arena, sizeof *page);
    page->file = file;
    page->root = node_new(arena, NODE_PAGE, (struct place){.file = file, .line = 1});
    read_text(&reader, page->root, text.bytes, text.length);
    name_headings(arena, diags, page);
    return page;
}
