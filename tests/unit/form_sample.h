/* A form of every kind of block, read from its words. */
#ifndef TESTS_FORM_SAMPLE_H
#define TESTS_FORM_SAMPLE_H

#include "doc/blocks.h"
#include "figures/figures.h"
#include "page_sample.h"
#include "shop/settings.h"

/* A block as the reader makes it, below a page. */
static inline struct node *add_block(struct node *parent, const char *info, const char *body)
{
    struct node *node = add(parent, NODE_LITERAL);
    block_read(arena, diags, info, body, node);
    assert_int_not_equal(node->kind, NODE_LITERAL);
    return node;
}

/* A plain shop, and what replaces its settings. */
static inline struct shop shop_with(const char *const *replacements, size_t count)
{
    struct shop shop;
    settings_read(arena, diags, "tests/faults/base/settings.yaml", replacements, count, &shop);
    assert_int_equal(diags_count(diags), 0);
    return shop;
}

static inline struct page *new_form(const char *title)
{
    struct page *page = new_page("form-01-sample.md", title);
    page->in_booklet = false;
    page->is_form = true;
    return page;
}

static inline struct page *sample_form(void)
{
    struct page *page = new_form("F1. A form");
    add_paragraph(page->root, "Chapter: this one.");
    add_block(page->root, "boxes",
              "Lathe = a lathe *3 | Date\nWhich? \u25a1 this one \u25a1 that one | Pull / N\n");
    add_block(page->root, "grid numbers: Numbers",
              "what *2,pull / N,seen\nas found,,\u25a1\n1..3,,\n");
    add_block(page->root, "lines", "Remarks *2 | At / N\n...\n");
    struct node *graph = add_block(page->root, "graph plot: Pull against time",
                                   "across: time / min, 0 to 12\nup: pull / N\nsquares: 4\n");
    struct text_meter meter = {text_width, fonts};
    graph->figure = draw_blank_graph(arena, NULL, graph->graph, &meter);
    return page;
}

static inline struct print *forms_of(const struct page *page, enum paper_size size)
{
    return compose_forms(arena, &page, 1, &imprint, fonts, size, diags);
}

#endif
