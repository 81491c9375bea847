/* Finds the page and the heading, table or figure that each link within the book means. */
#include "book.h"

#include <string.h>

static const char *base_name(const char *file)
{
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

static const struct page *find_page(const struct book *book, const char *file, size_t length)
{
    for (size_t i = 0; i < book->page_count; i++) {
        const char *name = base_name(book->pages[i]->file);
        if (strlen(name) == length && memcmp(name, file, length) == 0)
            return book->pages[i];
    }
    return NULL;
}

static const char *anchor_of(const struct node *node)
{
    if (node->kind == NODE_TABLE)
        return node->table ? node->table->name : node->table_name;
    if (node->kind == NODE_FIGURE)
        return node->figure_name;
    return node->anchor;
}

static bool has_anchor(const struct page *page, const char *anchor)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node))
        if (anchor_of(node) && strcmp(anchor_of(node), anchor) == 0)
            return true;
    return false;
}

static void resolve(struct book *book, const struct page *page, struct node *link)
{
    const char *target = link->target, *hash = strchr(target, '#');
    size_t length = hash ? (size_t)(hash - target) : strlen(target);
    if (length && target[strcspn(target, ":/")] == ':')
        return; /* outside the book */
    const struct page *to = length ? find_page(book, target, length) : page;
    if (!to) {
        fault(book->diags, link->at,
              "the link leads to '%.*s', but there is no such page; name a file of the same "
              "folder",
              (int)length, target);
        return;
    }
    link->to_page = to;
    if (!hash)
        return;
    link->to_anchor = hash + 1;
    if (!has_anchor(to, link->to_anchor))
        fault(
            book->diags, link->at,
            "the link leads to '#%s', but %s has no such heading, table or figure; a heading's "
            "name is its words in lower case with hyphens",
            link->to_anchor, to->file);
}

/* Two tables or two figures of one name are a fault of another kind. */
static bool both_computed(const struct node *node, const struct node *other)
{
    return (node->table_name && other->table_name) || (node->figure_name && other->figure_name);
}

/* Headings, tables and figures of one page share one set of names. */
static void check_anchors(struct book *book, const struct page *page)
{
    for (const struct node *node = page->root; node; node = node_following(page->root, node)) {
        if (!anchor_of(node))
            continue;
        for (const struct node *other = page->root; other != node;
             other = node_following(page->root, other))
            if (anchor_of(other) && !both_computed(node, other) &&
                strcmp(anchor_of(other), anchor_of(node)) == 0)
                fault(book->diags, node->at,
                      "the name '%s' is already taken on line %d of this page; choose another",
                      anchor_of(node), other->at.line);
    }
}

void book_resolve_links(struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++) {
        const struct page *page = book->pages[i];
        check_anchors(book, page);
        for (struct node *node = page->root; node; node = node_following(page->root, node))
            if (node->kind == NODE_LINK && node->target[0])
                resolve(book, page, node);
    }
}
