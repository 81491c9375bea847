#include "book_figures.h"

#include "figures/figures.h"

#include <string.h>

double book_text_width(const void *with, bool bold, double size, const char *text)
{
    const struct fonts *fonts = with;
    return fonts_width(fonts, bold ? FACE_BOLD : FACE_REGULAR, size, text);
}

/* The figure that already stands in the book, or NULL. */
static const struct figure *earlier(const struct book *book, const struct node *before)
{
    for (size_t i = 0; i < book->page_count; i++) {
        const struct node *root = book->pages[i]->root;
        for (const struct node *node = root; node; node = node_following(root, node)) {
            if (node == before)
                return NULL;
            if (node->figure && node->figure_name &&
                strcmp(node->figure_name, before->figure_name) == 0)
                return node->figure;
        }
    }
    return NULL;
}

/* A figure stands once, so that its name is one place to link to. */
static void place_figure(struct book *book, struct node *node, const struct text_meter *meter)
{
    const struct figure *other = earlier(book, node);
    struct figure_ask ask = {.arena = book->arena,
                             .diags = book->diags,
                             .shop = &book->shop,
                             .meter = meter,
                             .at = node->at};
    if (other)
        fault(book->diags, node->at,
              "the figure %s already stands at %s:%d; link to it as in "
              "(%s#%s)",
              node->figure_name, other->at.file, other->at.line,
              strrchr(other->at.file, '/') + 1, node->figure_name);
    else
        node->figure = figures_make(node->figure_name, &ask);
}

struct text_meter book_meter(const struct book *book)
{
    return (struct text_meter){.width = book_text_width, .with = book->fonts};
}

void book_make_figures(struct book *book)
{
    struct text_meter meter = book_meter(book);
    for (size_t i = 0; i < book->page_count; i++) {
        struct node *root = book->pages[i]->root;
        for (struct node *node = root; node; node = node_following(root, node))
            if (node->kind == NODE_FIGURE && node->figure_name && !node->graph)
                place_figure(book, node, &meter);
    }
}

void book_check_figures(struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++) {
        const struct node *root = book->pages[i]->root;
        for (const struct node *node = root; node; node = node_following(root, node)) {
            struct figure_ask ask = {
                .arena = book->arena, .diags = book->diags, .at = node->at};
            if (node->kind == NODE_FIGURE && node->figure_name && !node->graph)
                figures_find(node->figure_name, &ask);
        }
    }
}
