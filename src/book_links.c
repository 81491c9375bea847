/* Finds the page and the heading, table or figure that each link within the book means. */
#include "book.h"

#include <stdlib.h>
#include <string.h>

static const char *base_name(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

/* The first bytes of a text. */
struct span {
    const char *bytes;
    size_t length;
};

static int file_against(const void *key, const void *item)
{
    const struct span *file = key;
    const char *name = base_name((*(const struct page *const *)item)->file);
    int difference = strncmp(file->bytes, name, file->length);
    return difference ? difference : -(name[file->length] != '\0');
}

/* The number of the page in that file; page_count where there is none. The pages are in
 * the order of their files' names. */
static size_t find_page(const struct book *book, const char *file, size_t length)
{
    const struct span name = {file, length};
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
    return node->anchor;
}

/* One name on a page that a link may lead to. */
struct name {
    const char *anchor;
    const struct node *node;
    size_t order; /* in reading order */
};

struct names {
    struct name *items; /* by name, then by order */
    size_t count;
};

static int by_anchor(const void *left, const void *right)
{
    const struct name *a = left, *b = right;
    int difference = strcmp(a->anchor, b->anchor);
    return difference ? difference : (a->order > b->order) - (a->order < b->order);
}

/* All links of the book, found on the way through its names: a second way through a
 * long book costs as much again. */
struct link {
    struct node *node;
    size_t page;
};

struct links {
    struct link *items;
    size_t count;
};

static struct names collect_names(const struct book *book, size_t page, struct links *links)
{
    struct names names = {0};
    struct node *root = book->pages[page]->root;
    for (struct node *node = root; node; node = node_following(root, node)) {
        if (node->kind == NODE_LINK && node->target[0])
            *ARENA_PUSH(book->arena, links->items, links->count) = (struct link){node, page};
        if (anchor_of(node)) {
            size_t order = names.count;
            *ARENA_PUSH(book->arena, names.items, names.count) =
                (struct name){.anchor = anchor_of(node), .node = node, .order = order};
        }
    }
    if (names.count)
        qsort(names.items, names.count, sizeof *names.items, by_anchor);
    return names;
}

static int anchor_against(const void *key, const void *item)
{
    return strcmp(key, ((const struct name *)item)->anchor);
}

static bool has_anchor(const struct names *names, const char *anchor)
{
    return names->count &&
           bsearch(anchor, names->items, names->count, sizeof *names->items, anchor_against);
}

static void resolve(struct book *book, const struct names *names, size_t page,
                    struct node *link)
{
    const char *target = link->target, *hash = strchr(target, '#');
    size_t length = hash ? (size_t)(hash - target) : strlen(target);
    if (length && target[strcspn(target, ":/")] == ':')
        return; /* outside the book */
    size_t to = length ? find_page(book, target, length) : page;
    if (to == book->page_count) {
        fault(book->diags, link->at,
              "the link leads to '%.*s', but there is no such page; name a file of the same "
              "folder",
              (int)length, target);
        return;
    }
    link->to_page = book->pages[to];
    if (!hash)
        return;
    link->to_anchor = hash + 1;
    if (!has_anchor(&names[to], link->to_anchor))
        fault(
            book->diags, link->at,
            "the link leads to '#%s', but %s has no such heading, table or figure; a heading's "
            "name is its words in lower case with hyphens",
            link->to_anchor, book->pages[to]->file);
}

/* Two tables or two figures of one name are a fault of another kind. */
static bool both_computed(const struct node *node, const struct node *other)
{
    return (node->table_name && other->table_name) ||
           (node->figure_name && other->figure_name && !node->graph && !other->graph);
}

/* Headings, tables and figures of one page share one set of names. */
static void check_names(struct book *book, const struct names *names)
{
    for (size_t i = 1, first = 0; i < names->count; i++) {
        const struct name *name = &names->items[i];
        if (strcmp(name->anchor, names->items[first].anchor) != 0)
            first = i;
        else if (!both_computed(name->node, names->items[first].node))
            fault(book->diags, name->node->at,
                  "the name '%s' is already taken on line %d of this page; choose another",
                  name->anchor, names->items[first].node->at.line);
    }
}

void book_resolve_links(struct book *book)
{
    struct names *names = arena_get(book->arena, (book->page_count + 1) * sizeof *names);
    struct links links = {0};
    for (size_t i = 0; i < book->page_count; i++) {
        names[i] = collect_names(book, i, &links);
        check_names(book, &names[i]);
    }
    for (size_t i = 0; i < links.count; i++)
        resolve(book, names, links.items[i].page, links.items[i].node);
}
