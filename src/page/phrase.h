/* Styled text on its way into lines: bits of one look each, and how they join. */
#ifndef PAGE_PHRASE_H
#define PAGE_PHRASE_H

#include "page/fonts.h"
#include "page/linebreak.h"

/* How a bit joins the one before it. */
enum join {
    JOIN_WORD,  /* the same word goes on */
    JOIN_SOFT,  /* a line may end between, as after a hyphen */
    JOIN_BLANK, /* a blank, where a line may end */
    JOIN_BREAK  /* a line end is meant */
};

/* The look of a text; all sizes in points. */
struct text_style {
    enum face face;
    double size, leading; /* leading: from baseline to baseline */
    double grey;          /* 0 black .. 1 white */
};

/* What may change within one text. */
struct pen {
    enum face face; /* mono: what is typed, which no line end divides if it is short */
    int link;       /* index of a link of the flow, or -1 */
    int tag;
};

bool pen_same(const struct pen *a, const struct pen *b);

struct bit {
    const char *text; /* not NUL-terminated */
    size_t length;
    double width;
    double blank; /* width of the blank before it */
    enum join join;
    bool blank_is_mine; /* the blank is drawn with this bit, not with the one before */
    struct pen pen;
};

struct phrase {
    const struct fonts *fonts;
    double size;
    bool narrow;      /* for a column of a table: long units may be parted from numbers */
    struct bit *bits; /* one memory for all phrases, used again and again */
    size_t count, room;
    enum join next; /* how the next bit joins */
};

/* Lines found for a phrase: line i holds the bits from starts[i] to starts[i + 1]. */
struct lines {
    struct line_search search;
    struct word *words;
    size_t *word_bits, *starts;
    size_t room, count, word_count;
};

void phrase_begin(struct phrase *phrase, double size);
void phrase_free(struct phrase *phrase);

/* Adds text; blanks in it are places for line ends. */
void phrase_add(struct phrase *phrase, const char *text, struct pen pen);
void phrase_blank(struct phrase *phrase);
void phrase_line_end(struct phrase *phrase);

/* Size of a face within text of this size: the monospaced one is a little smaller, as it
 * is wide. */
double phrase_size(enum face face, double size);

/* Width of the widest word, and of the whole on one line. */
double phrase_least(const struct phrase *phrase);
double phrase_most(const struct phrase *phrase);

/* Width of the bits of one line. */
double phrase_width(const struct phrase *phrase, size_t first, size_t end);

/* Breaks the phrase; words wider than the measure are divided. */
void phrase_break(struct phrase *phrase, double measure, struct lines *lines);
void lines_free(struct lines *lines);

#endif
