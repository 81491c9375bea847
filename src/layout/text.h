/* Text and its measures: bits of one look each, how they join, and where the lines of a
 * paragraph end. Everything that is set on paper is measured here. Lengths in points. */
#ifndef LAYOUT_TEXT_H
#define LAYOUT_TEXT_H

#include "layout/fonts.h"

/* The look of a text. */
struct text_style {
    enum face face;
    double size, leading; /* leading: from baseline to baseline */
    double grey;          /* 0 black .. 1 white */
    bool narrow;          /* for a column of a table: long units may be parted from numbers */
};

/* Where something may stand, from side to side. */
struct area {
    double x, width;
};

/* How a bit joins the one before it. */
enum join {
    JOIN_WORD,  /* the same word goes on */
    JOIN_SOFT,  /* a line may end between, as after a hyphen */
    JOIN_BLANK, /* a blank, where a line may end */
    JOIN_BREAK  /* a line end is meant */
};

/* What may change within one text. */
struct pen {
    enum face face; /* mono: what is typed, which no line end divides if it is short */
    int link;       /* index of a link of the flow, or -1 */
    bool number;    /* the number of the page that the link leads to */
    int tag;
};

bool pen_same(const struct pen *a, const struct pen *b);

struct bit {
    const char *text; /* the caller's; not NUL-terminated */
    size_t length;
    double width;
    double blank; /* width of the blank before it */
    enum join join;
    bool blank_is_mine; /* the blank is drawn with this bit, not with the one before */
    struct pen pen;
};

/* Text on its way into lines. Begun again, it keeps its memory till phrase_free(). */
struct phrase {
    const struct fonts *fonts;
    double size;
    bool narrow; /* as in the style */
    struct bit *bits;
    size_t count, room;
    enum join next; /* how the next bit joins */
};

void phrase_begin(struct phrase *phrase, const struct text_style *style);
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

/* The bits from first to before end, all of one line: how wide they are; as one text, with a
 * blank before or behind it where that is asked for. The arena's. */
double phrase_width(const struct phrase *phrase, size_t first, size_t end);
const char *phrase_text(const struct phrase *phrase, size_t first, size_t end,
                        bool blank_before, bool blank_after, struct arena *arena);

/* What no line break divides. */
struct word {
    double width;
    double blank; /* before it, when it does not begin a line; 0 where none */
    bool breaks;  /* the source asks for a line end before it */
};

/* Lines found for a phrase: line i holds the bits from starts[i] to starts[i + 1]. The rest
 * is room to find them in. {0} to begin; used again and again till lines_free(). */
struct lines {
    size_t *starts;
    size_t count;
    struct word *words;
    size_t *word_bits, *from;
    double *cost;
    size_t room, word_count;
};

void lines_free(struct lines *lines);

/* Breaks the phrase; words wider than the measure are divided. */
void phrase_break(struct phrase *phrase, double measure, struct lines *lines);

/* Where lines of these words end. Writes the index of the first word of each into starts,
 * which has room for count; gives how many there are. A word wider than the measure has a
 * line of its own. lines: room alone. */
size_t break_lines(struct lines *lines, const struct word *words, size_t count, double measure,
                   size_t *starts);

/* Do they fit in so many lines at all? Far quicker than breaking them, which now and then
 * takes a line more than the fewest, to be even. */
bool lines_suffice(const struct word *words, size_t count, double measure, size_t lines);

/* How many bytes of the text fit in the measure: whole signs, at least one. */
size_t text_fitting(const struct fonts *fonts, enum face face, double size, const char *text,
                    size_t length, double measure);

/* A text as a mark, its baseline's left end, middle or right end at (x, y). The text stays the
 * caller's. */
struct piece text_piece(const struct fonts *fonts, double x, double y, enum align align,
                        const struct text_style *style, int tag, const char *text);

#endif
