/* Where a paragraph's lines end: ragged right, and over the whole paragraph as
 * even as it can be. Knows widths only, no text and no fonts. */
#ifndef PAGE_LINEBREAK_H
#define PAGE_LINEBREAK_H

#include <stdbool.h>
#include <stddef.h>

/* What no line break divides. Widths in any one unit. */
struct word {
    double width;
    double blank; /* before it, when it does not begin a line; 0 where none */
    bool breaks;  /* the source asks for a line end before it */
};

/* Room for the search; grows as needed and may be used again. {0} to begin. */
struct line_search {
    double *cost;
    size_t *from;
    size_t room;
};

void line_search_free(struct line_search *search);

/* Writes the index of the first word of each line into starts, which has room for
 * count; gives how many lines there are. A word wider than the measure has a line
 * of its own. */
size_t break_lines(struct line_search *search, const struct word *words, size_t count,
                   double measure, size_t *starts);

/* Do they fit in so many lines at all? Far quicker than breaking them, which now and then
 * takes a line more than the fewest, to be even. */
bool lines_suffice(const struct word *words, size_t count, double measure, size_t lines);

#endif
