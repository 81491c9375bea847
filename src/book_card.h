/* What the card is asked for, and how well it can be read. Part of book_compose(). */
#ifndef BOOK_CARD_H
#define BOOK_CARD_H

#include "book.h"
#include "page/compose.h"

/* All but the sizes of paper; owned by the book's arena. */
struct card_ask book_card_ask(struct book *book);

/* A sentence on the smallest sign of the card's windows; height in points, 0: none,
 * and then NULL. */
const char *book_card_note(struct book *book, double height);

#endif
