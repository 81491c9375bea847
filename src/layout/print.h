/* Pages without ink: every mark of a printed thing, placed. layout/ makes it from
 * trees; pdf/ draws it. Nothing is decided after this.
 *
 * All lengths are PDF points (1/72 in), x to the right and y DOWNWARD from the
 * upper left corner of the page. Everything is owned by the arena of the run. */
#ifndef LAYOUT_PRINT_H
#define LAYOUT_PRINT_H

#include "base/memory.h"
#include "doc/tree.h"

#include <stdbool.h>
#include <stddef.h>

/* FACE_MONO: what is typed. */
enum face { FACE_REGULAR, FACE_BOLD, FACE_OBLIQUE, FACE_MONO, FACE_COUNT };

enum piece_kind {
    PIECE_TEXT, /* text with its baseline's left end at (x, y) */
    PIECE_LINE, /* from (x, y) to (x + width, y + height) */
    PIECE_BOX,  /* rectangle with upper left corner (x, y) */
    PIECE_PATH  /* path of a figure whose upper left corner is (x, y) */
};

/* What a piece is part of, for readers that listen instead of look. Tags form a
 * tree in reading order; a piece without one (tag < 0) is decoration. */
enum tag_kind {
    TAG_DOCUMENT,
    TAG_SECTION,
    TAG_HEADING,
    TAG_PARAGRAPH,
    TAG_LIST,
    TAG_ITEM,
    TAG_ITEM_LABEL,
    TAG_ITEM_BODY,
    TAG_TABLE,
    TAG_CAPTION,
    TAG_ROW,
    TAG_HEAD_CELL,
    TAG_CELL,
    TAG_NOTE,
    TAG_LINK,
    TAG_LITERAL,
    TAG_FIGURE,
    TAG_CONTENTS,
    TAG_CONTENTS_ITEM
};

struct tag {
    enum tag_kind kind : 8;  /* a long book has millions of tags */
    unsigned level : 8;      /* heading: 1..4 */
    bool row_head : 1;       /* head cell: heads its row, not its column */
    int parent;              /* index in print.tags; -1 for the root */
    const char *alternative; /* figure: what it shows, in words; else NULL */
};

/* A long book has millions of these, too. */
struct piece {
    enum piece_kind kind : 8;
    enum face face : 8; /* text */
    bool filled;        /* box or path: fill with `grey` (and no stroke) */
    bool blank_after;   /* text: a blank follows that is not drawn, as a line ends there */
    int tag;            /* index in print.tags, or -1 */
    double x, y, width, height; /* text: width as measured, height = font size */
    double line;                /* stroke width; 0: no stroke */
    double grey;                /* ink of text, stroke or fill: 0 black .. 1 white */
    double size;                /* text: font size */
    const char *text;
    const struct figure_path *path; /* path: its steps and dashes, */
    double scale;                   /* and how many points one of its own is */
};

/* A line or a box that is no part of what is read, in a stroke so wide. */
static inline struct piece decoration(enum piece_kind kind, double x, double y, double width,
                                      double height, double line)
{
    return (struct piece){.kind = kind,
                          .tag = -1,
                          .x = x,
                          .y = y,
                          .width = width,
                          .height = height,
                          .line = line};
}

/* An area of a page that leads somewhere. */
struct hot_area {
    double x, y, width, height;
    const char *uri; /* outside the book; or NULL and then: */
    size_t to_sheet; /* index in print.sheets */
    double to_y;
    int tag; /* index in print.tags of the TAG_LINK it belongs to, or -1 */
};

/* One printed page. */
struct sheet {
    double width, height;
    const char *label; /* page number as printed: "iii", "12"; "" where none */
    size_t roman;      /* which number that is in small Roman figures; 0: none */
    struct piece *pieces;
    size_t piece_count;
    struct hot_area *areas;
    size_t area_count;
};

struct outline_entry {
    const char *title;
    int level; /* 1.. */
    size_t sheet;
    double y;
};

/* A whole printed thing: the booklet, the card. */
struct print {
    const char *title;
    struct sheet *sheets;
    size_t sheet_count;
    struct outline_entry *outline;
    size_t outline_count;
    struct tag *tags; /* parents before children, in reading order */
    size_t tag_count;
    double paper;     /* thickness of what it is folded from; 0: sheets are not moved by it */
    size_t gathering; /* most sheets folded into one another; 0: all of them */
    bool flip_short_edge; /* printed on both sides, it is turned about its short edge */
};

/* Adds a tag, and gives its index; parent: -1 for the root. Adds a sheet, whose address holds
 * until the next. Puts a mark over those that are on a sheet. All are the arena's. */
int print_tag(struct arena *arena, struct print *print, enum tag_kind kind, int parent);
struct sheet *print_sheet(struct arena *arena, struct print *print, double width, double height,
                          const char *label);
void sheet_put(struct arena *arena, struct sheet *sheet, struct piece piece);

#endif
