#include "read/markdown.h"

#include "base/file.h"
#include "base/utf8.h"
#include "read/blocks.h"
#include "read/heading_names.h"
#include "read/source.h"

/* Without this, cmark.h would define NODE_HEADING and the like in our place. */
#define CMARK_NO_SHORT_NAMES
#include <cmark.h>
#include <stdlib.h>
#include <string.h>

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
