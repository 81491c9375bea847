/* Gives every heading of a page its fragment name, and the page its title. */
#ifndef READ_HEADING_NAMES_H
#define READ_HEADING_NAMES_H

#include "tree/tree.h"

/* Names are the heading's words in lower case joined by hyphens; letters and
 * digits of ASCII count, and a second heading of the same words gets "-2". A page
 * must begin with its only first-level heading, and no level may be skipped. */
void name_headings(struct arena *arena, struct diags *diags, struct page *page);

#endif
