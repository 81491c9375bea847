#include "book_figures.h"

#include "figures/figures.h"

#include <string.h>

static double text_width(const void *with, bool bold, double size, const char *text)
{
    const struct fonts *fonts = with;
    return fonts_width(fonts, bold ? FACE_BOLD : FACE_REGULAR, size, text);
}

struct text_meter book_meter(const struct book *book)
{
    return (struct text_meter){.width = text_width, .with = book->fonts};
}

/* The figure of that name that already stands in the book, or NULL. */
static const struct placed_figure *earlier(const struct book *book, const char *name)
{
    for (size_t i = 0; i < book->figure_count; i++)
        if (strcmp(book->figures[i].name, name) == 0)
            return &book->figures[i];
    return NULL;
}

static void make(struct book *book, const struct page *page, struct node *node,
                 const struct figure_ask *ask)
{
    node->figure = figures_make(node->figure_name, ask);
    if (node->figure)
        *ARENA_PUSH(book->arena, book->figures, book->figure_count) = (struct placed_figure){
            node->figure->name, {page->file, node->at.line, node->at.column}};
}

/* A figure stands once, so that its name is one place to link to. */
static void place_figure(struct book *book, const struct page *page, struct node *node)
{
    const struct placed_figure *other = earlier(book, node->figure_name);
    struct text_meter meter = book_meter(book);
    struct figure_ask ask = {.arena = page->arena,
                             .diags = book->diags,
                             .shop = &book->shop,
                             .meter = &meter,
                             .at = node->at};
    if (!book->shop_is_good || !book->fonts)
        figures_find(node->figure_name, &ask);
    else if (other)
        fault(book->diags, node->at,
              "the figure %s already stands at %s:%d; link to it as in "
              "(%s#%s)",
              node->figure_name, other->at.file, other->at.line,
              strrchr(other->at.file, '/') + 1, node->figure_name);
    else
        make(book, page, node, &ask);
}

void book_place_figures(struct book *book, const struct page *page)
{
    for (struct node *node = page->root; node; node = node_following(page->root, node))
        if (node->kind == NODE_FIGURE && node->figure_name && !node->graph)
            place_figure(book, page, node);
}
