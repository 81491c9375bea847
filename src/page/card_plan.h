/* How large the type of a card can be. */
#ifndef PAGE_CARD_PLAN_H
#define PAGE_CARD_PLAN_H

#include "page/blocks.h"
#include "page/paper.h"

struct side {
    const char *name;
    const struct node *first, *end;
    const struct node *table; /* its window table; NULL: none */
    bool back;
};

struct card {
    const struct page *page;
    const struct imprint *imprint;
    const struct fonts *fonts;
    const struct card_ask *ask;
    const struct paper *paper;
    struct layout layout;
    struct side sides[2];
    size_t side_count;
};

/* The states below the table: none, in a line, with their pulls in a second. */
enum card_key { KEY_NONE, KEY_WORDS, KEY_PULLS };

/* What is chosen for one side: sizes of type in points. */
struct sizes {
    double body, figures;
    double words;   /* least of the words of the table, */
    double caption; /* and of its caption */
    double row_pad; /* share of the figures */
    enum card_key key;
};

/* Chooses the way the card lies and the sizes. The first aim is that the window table
 * can be read, then that its figures are large. False when some side does not fit. */
bool card_choose(struct card *card, struct sizes sizes[2]);

/* Says why a card was not fit, and what would do. */
void card_report(const struct card *card, struct diags *diags);

/* Then the text and the rows of the table, as far as they can grow beside them. */
void card_choose_rest(const struct card *card, const struct side *side, struct sizes *sizes);

struct type_scale card_type(const struct card *card, const struct sizes *sizes);
struct flow card_flow(const struct card *card, struct arena *arena, struct print *print);
void card_put(struct flow *flow, const struct card *card, const struct side *side,
              const struct sizes *sizes, int document);

/* The states, in type of up to this size; a flow on trial fails where they are too wide.
 * Facts, one a line. */
void card_key_put(struct flow *flow, const struct card *card, enum card_key key, double size,
                  int tag);
void card_facts_put(struct flow *flow, const struct card *card, int tag);

#endif
