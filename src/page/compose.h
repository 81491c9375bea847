/* From trees to printed pages. */
#ifndef PAGE_COMPOSE_H
#define PAGE_COMPOSE_H

#include "page/fonts.h"
#include "page/print.h"
#include "tree/tree.h"

/* What the sheets say of themselves. */
struct imprint {
    const char *title;       /* of the book */
    const char *notice;      /* on every sheet, such as "invented example"; or NULL */
    const char *fingerprint; /* of the settings */
    const char *inputs;      /* one line: drum, cord, gauge, limits' source */
};

enum paper_size { PAPER_A6, PAPER_A5, PAPER_HALF_LETTER };

/* Every code point of every text must be in the font: misses are faults at the
 * node's place. Call once before composing. */
void compose_check(const struct page *const *pages, size_t count, const struct fonts *fonts,
                   struct diags *diags);

/* The booklet: title page (the first page's tree), contents, then every page of
 * the rest from a new sheet on. A table that fits at no size is a fault. */
struct print *compose_booklet(struct arena *arena, const struct page *const *pages,
                              size_t count, const struct imprint *imprint,
                              const struct fonts *fonts, enum paper_size size,
                              struct diags *diags);

/* The card: what stands before the rule in front, the rest on the back, each in
 * the largest type that fits. Text that fits at no readable size is a fault. */
struct print *compose_card(struct arena *arena, const struct page *page,
                           const struct imprint *imprint, const struct fonts *fonts,
                           enum paper_size size, struct diags *diags);

#endif
