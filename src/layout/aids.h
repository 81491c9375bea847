/* Sheets to print at 1:1 and measure with: check bars, a tape for the drum, a strip for the
 * nut's rim; and one to find out how the printer turns paper. Where the marks of a strip stand
 * is worked out elsewhere. */
#ifndef LAYOUT_AIDS_H
#define LAYOUT_AIDS_H

#include "layout/compose.h"
#include "layout/fold.h"

/* A line across a strip. Points from the strip's index line. */
struct tape_mark {
    double at;
    double reach;      /* share of the height that it takes, 0..1 */
    const char *label; /* NULL: none */
};

/* A strip to cut out. One with a vernier goes round and beside its own beginning: its
 * beginning is cut to its lower half, its end to its upper half, and the marks of
 * both stand on the line between. Points from the index line; begin < 0 < end. */
struct tape {
    double begin, end;
    double upper_from; /* the upper half begins here: begin without a vernier */
    double lower_to;   /* the lower half ends here: end without a vernier */
    struct tape_mark *marks, *vernier;
    size_t mark_count, vernier_count;
    const char *name;  /* printed on it */
    const char *index; /* printed beside the index line; NULL: nothing */
    const char *tab;   /* printed at the beginning; NULL: nothing */
};

/* One sheet: what it is, how to use it, and the strip or the figure; without one only
 * words. */
struct aid {
    const char *title;
    const char **words; /* paragraphs */
    size_t word_count;
    const struct tape *tape;     /* or NULL */
    const struct figure *figure; /* in place of a strip; or NULL */
};

/* The sheets for this booklet: how long a piece of a strip may be, of which up to TAPE_PIECES
 * lie below each other; and the room for a figure. Points. */
enum { TAPE_PIECES = 4 };

double aid_width(enum paper_size booklet);
double aid_figure_height(enum paper_size booklet);

/* The sheet of check bars, then one for each aid. No strip above TAPE_PIECES widths. */
struct print *compose_aids(struct arena *arena, const struct aid *aids, size_t count,
                           const struct imprint *imprint, const struct fonts *fonts,
                           enum paper_size booklet);

/* Four pages, to be painted as a sheet for folding; they say what is done with the sheets of
 * the booklet, which are so many. */
struct print *compose_trial(struct arena *arena, const struct imprint *imprint,
                            const struct fonts *fonts, enum paper_size booklet,
                            const struct fold *fold);

#endif
