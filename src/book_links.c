/* Finds the page and the heading, table or figure that each link within the book means. A
 * page is known from the list of pages; what stands on it, once it is read: a link to a
 * later page is looked at again in the end. */
#include "base/text_start.h"
#include "book.h"

#include <stdlib.h>
#include <string.h>

static const char *base_name(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

static int file_against(const void *key, const void *item)
{
    return text_start_against(key, base_name((*(const struct page *const *)item)->file));
}

/* The number of the page in that file; page_count where there is none. The pages are in
 * the order of their files' names. */
static size_t find_page(const struct book *book, const char *file, size_t length)
{
    const struct text_start name = {file, length};
    const struct page *const *found =
        bsearch(&name, book->pages, book->page_count, sizeof *book->pages, file_against);
    return found ? (*found)->number : book->page_count;
}

static const char *anchor_of(const struct node *node)
{
    if (node->kind == NODE_TABLE)
        return node->table ? node->table->name : node->table_name;
    if (node->kind == NODE_FIGURE)
        return node->figure_name;
    return node->kind == NODE_HEADING ? node->anchor : NULL;
}

/* One name on a page that a link may lead to. */
struct name {
    const char *anchor;
    const struct node *node;
    size_t order; /* in reading order */
};

static int by_anchor(const void *left, const void *right)
{
    const struct name *a = left, *b = right;
    int difference = strcmp(a->anchor, b->anchor);
    return difference ? difference : (a->order > b->order) - (a->order < b->order);
}

/* A page's names and links, found on one way through it. */
struct found {
    struct name *names; /* by name, then by order */
    size_t name_count;
    struct node **links;
    size_t link_count;
};

static struct found look_through(const struct page *page)
{
    struct found found = {0};
    for (struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (node->kind == NODE_LINK && node->target[0])
            *ARENA_PUSH(page->arena, found.links, found.link_count) = node;
        if (anchor_of(node)) {
            size_t order = found.name_count;
            *ARENA_PUSH(page->arena, found.names, found.name_count) =
                (struct name){.anchor = anchor_of(node), .node = node, .order = order};
        }
    }
    if (found.name_count)
        qsort(found.names, found.name_count, sizeof *found.names, by_anchor);
    return found;
}

/* Two tables or two figures of one name are a fault of another kind. */
static bool both_computed(const struct node *node, const struct node *other)
{
    if (node->kind != other->kind)
        return false;
    if (node->kind == NODE_TABLE)
        return node->table_name && other->table_name;
    return node->kind == NODE_FIGURE && !node->graph && !other->graph;
}

/* Headings, tables and figures of one page share one set of names. */
static void check_names(struct book *book, const struct found *found)
{
    for (size_t i = 1, first = 0; i < found->name_count; i++) {
        const struct name *name = &found->names[i];
        if (strcmp(name->anchor, found->names[first].anchor) != 0)
            first = i;
        else if (!both_computed(name->node, found->names[first].node))
            fault(book->diags, name->node->at,
                  "the name '%s' is already taken on line %d of this page; choose another",
                  name->anchor, found->names[first].node->at.line);
    }
}

static void keep_anchors(struct book *book, const struct page *page, const struct found *found)
{
    struct anchors *anchors = &book->anchors[page->number];
    anchors->texts = arena_get(book->arena, found->name_count * sizeof(char *));
    for (size_t i = 0; i < found->name_count; i++)
        anchors->texts[anchors->count++] = arena_text(book->arena, found->names[i].anchor);
}

static int text_against(const void *key, const void *item)
{
    return strcmp(key, *(const char *const *)item);
}

/* A page that could not be read has faults enough. */
static void check_anchor(struct book *book, const struct far_link *link)
{
    const struct anchors *anchors = &book->anchors[link->to->number];
    if (!link->to->title ||
        bsearch(link->anchor, anchors->texts, anchors->count, sizeof(char *), text_against))
        return;
    fault(book->diags, link->at,
          "the link leads to '#%s', but %s has no such heading, table or figure; a heading's "
          "name is its words in lower case with hyphens",
          link->anchor, link->to->file);
}

static void follow_anchor(struct book *book, const struct page *page, const struct node *link)
{
    struct far_link far = {
        {page->file, link->at.line, link->at.column}, link->to_page, link->to_anchor};
    if (link->to_page->number <= page->number) {
        check_anchor(book, &far);
        return;
    }
    far.anchor = arena_text(book->arena, link->to_anchor);
    *ARENA_PUSH(book->arena, book->far_links, book->far_link_count) = far;
}

static void follow(struct book *book, const struct page *page, struct node *link)
{
    const char *target = link->target, *hash = strchr(target, '#');
    size_t length = hash ? (size_t)(hash - target) : strlen(target);
    if (length && target[strcspn(target, ":/")] == ':')
        return; /* outside the book */
    size_t to = length ? find_page(book, target, length) : page->number;
    if (to == book->page_count) {
        fault(book->diags, link->at,
              "the link leads to '%.*s', but there is no such page; name a file of the same "
              "folder",
              (int)length, target);
        return;
    }
    link->to_page = book->pages[to];
    link->to_anchor = hash ? hash + 1 : NULL;
    if (hash)
        follow_anchor(book, page, link);
}

void book_find_links(struct book *book, const struct page *page)
{
    struct found found = look_through(page);
    check_names(book, &found);
    keep_anchors(book, page, &found);
    for (size_t i = 0; i < found.link_count; i++)
        follow(book, page, found.links[i]);
}

void book_check_links(struct book *book)
{
    for (size_t i = 0; i < book->far_link_count; i++)
        check_anchor(book, &book->far_links[i]);
}
