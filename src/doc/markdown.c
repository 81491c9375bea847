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

/* Gives every heading of a page its fragment name, and the page its title. */

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

/* Names are the heading's words in lower case joined by hyphens; letters and
 * digits of ASCII count, and a second heading of the same words gets "-2". A page
 * must begin with its only first-level heading, and no level may be skipped. */
static void name_headings(struct arena *arena, struct diags *diags, struct page *page)
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

/* Lines and columns of a text as an editor counts them: in characters, not in bytes. */

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

/* A content page: CommonMark through the cmark library, plus fenced blocks:
 *
 *   ```table NAME            a computed table; body: "key: value" lines
 *   ```figure NAME           a figure that the program draws; no body
 *   ```csv NAME: Caption     a table written by hand; body: CSV
 *   ```caution Title         a boxed caution; body: Markdown
 *   ```boxes, ```lines       places to write in, on forms; body: labels with | between
 *   ```grid NAME: Caption    a table to write in, on forms; body: CSV
 *   ```graph NAME: Caption   paper to plot on, on forms; body: "key: value" lines
 *   ```                      literal lines
 *
 * markdown.c is the only file that includes cmark.h. */

enum { DEEPEST_NESTING = 100 };

struct reader {
    struct arena *arena;
    struct diags *diags;
    const char *file;
    struct source source;         /* the page's text, or that of the caution being read */
    int line_shift, column_shift; /* a caution's body begins further down the file */
    bool in_caution;
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

/* cmark counts bytes, and on later lines of a block as if each began where the first does:
 * there stand blanks and quote signs before the words, or fewer of them. */
static int column_of(struct reader *reader, cmark_node *node, int line)
{
    int byte = cmark_node_get_start_column(node);
    cmark_node *block = block_of(node);
    if (byte > 0 && line > cmark_node_get_start_line(block))
        byte +=
            1 - cmark_node_get_start_column(block) + (int)source_lead(&reader->source, line);
    return byte > 0 ? source_column(&reader->source, line, byte) + reader->column_shift : 0;
}

static struct place place_of(struct reader *reader, cmark_node *node)
{
    int line = line_of(node);
    return (struct place){.file = reader->file,
                          .line = line + reader->line_shift,
                          .column = column_of(reader, node, line)};
}

static const char *literal_of(const struct reader *reader, cmark_node *node)
{
    return arena_text(reader->arena, cmark_node_get_literal(node));
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

static struct node *make_link(struct reader *reader, cmark_node *source, struct node *node)
{
    node->kind = NODE_LINK;
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
    return node;
}

static void make_list(const struct reader *reader, cmark_node *source, struct node *node)
{
    node->kind = NODE_LIST;
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

static void make_fence(struct reader *reader, cmark_node *source, struct node *node)
{
    const char *info = arena_text(reader->arena, cmark_node_get_fence_info(source));
    const char *body = literal_of(reader, source), *title;
    if (info[0] == '\0') {
        node->kind = NODE_LITERAL;
        node->text = body;
    } else if (block_is(info, "caution", &title)) {
        read_caution(reader, node, title, body);
    } else {
        block_read(reader->arena, reader->diags, info, body, node);
    }
}

static bool make_inline(struct reader *reader, cmark_node *source, struct node *node)
{
    switch (cmark_node_get_type(source)) {
    case CMARK_NODE_TEXT:
        node->kind = NODE_TEXT;
        node->text = literal_of(reader, source);
        return true;
    case CMARK_NODE_CODE:
        node->kind = NODE_CODE;
        node->text = literal_of(reader, source);
        return true;
    case CMARK_NODE_SOFTBREAK:
        node->kind = NODE_SPACE;
        return true;
    case CMARK_NODE_LINEBREAK:
        node->kind = NODE_BREAK;
        return true;
    case CMARK_NODE_EMPH:
        node->kind = NODE_EMPHASIS;
        return true;
    case CMARK_NODE_STRONG:
        node->kind = NODE_STRONG;
        return true;
    case CMARK_NODE_LINK:
        make_link(reader, source, node);
        return true;
    case CMARK_NODE_IMAGE:
        fault(reader->diags, node->at,
              "pictures are not taken in; describe the thing in words");
        return false;
    default:
        fault(reader->diags, node->at,
              "raw HTML is not taken in; write it as Markdown, or put "
              "backquotes around '<' text that is meant to be read");
        return false;
    }
}

static bool make_block(struct reader *reader, cmark_node *source, struct node *node)
{
    switch (cmark_node_get_type(source)) {
    case CMARK_NODE_HEADING:
        node->kind = NODE_HEADING;
        node->level = cmark_node_get_heading_level(source);
        return true;
    case CMARK_NODE_PARAGRAPH:
        node->kind = NODE_PARAGRAPH;
        return true;
    case CMARK_NODE_LIST:
        make_list(reader, source, node);
        return true;
    case CMARK_NODE_ITEM:
        node->kind = NODE_ITEM;
        return true;
    case CMARK_NODE_BLOCK_QUOTE:
        node->kind = NODE_QUOTE;
        return true;
    case CMARK_NODE_THEMATIC_BREAK:
        node->kind = NODE_RULE;
        return true;
    case CMARK_NODE_CODE_BLOCK:
        make_fence(reader, source, node);
        return true;
    default:
        return make_inline(reader, source, node);
    }
}

/* cmark gives no exit event for these: they hold nothing. */
static bool is_leaf(cmark_node *source)
{
    switch (cmark_node_get_type(source)) {
    case CMARK_NODE_HTML_BLOCK:
    case CMARK_NODE_THEMATIC_BREAK:
    case CMARK_NODE_CODE_BLOCK:
    case CMARK_NODE_TEXT:
    case CMARK_NODE_SOFTBREAK:
    case CMARK_NODE_LINEBREAK:
    case CMARK_NODE_CODE:
    case CMARK_NODE_HTML_INLINE:
        return true;
    default:
        return false;
    }
}

/* Makes one node of ours below parent; NULL when it is a fault or too deep. */
static struct node *copy_node(struct reader *reader, cmark_node *source, struct node *parent,
                              int depth)
{
    struct node *node = node_new(reader->arena, NODE_TEXT, place_of(reader, source));
    if (depth == DEEPEST_NESTING) {
        fault(reader->diags, node->at,
              "more than %d blocks or marks are nested here; write it flat", DEEPEST_NESTING);
        return NULL;
    }
    if (!make_block(reader, source, node))
        return NULL;
    if (node->kind == NODE_TEXT || node->kind == NODE_CODE)
        node->as_written = node->at.column && source_goes_on(&reader->source, node->text);
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
        if (is_leaf(source))
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

struct page *markdown_read(struct arena *arena, struct diags *diags, const char *file)
{
    struct file_text text;
    if (!file_read_text(arena, diags, file, &text))
        return NULL;
    struct reader reader = {.arena = arena, .diags = diags, .file = file};
    struct page *page = arena_get(arena, sizeof *page);
    page->file = file;
    page->root = node_new(arena, NODE_PAGE, (struct place){.file = file, .line = 1});
    read_text(&reader, page->root, text.bytes, text.length);
    name_headings(arena, diags, page);
    return page;
}
