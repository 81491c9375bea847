/* One column of text before it is cut into sheets: strips that cannot be divided,
 * one below the other. A strip is a line of text, a row of a table, a title bar.
 *
 * Lengths are points; pieces lie in their strip, x from the column's left edge and
 * y from the strip's top. */
#ifndef LAYOUT_FLOW_H
#define LAYOUT_FLOW_H

#include "layout/compose.h"
#include "layout/paper.h"
#include "layout/text.h"

/* What it costs to begin a sheet with this strip; the dearer, the less willingly. */
enum break_cost {
    BREAK_FREE,
    BREAK_GROUP,   /* within a group of rows that the eye keeps together */
    BREAK_NEAR,    /* between a paragraph and the table or figure behind it; next to the first
                    * or the last item of a list */
    BREAK_LEAD,    /* between "as follows:" and what follows */
    BREAK_KEEP,    /* within a thing that fits on one sheet */
    BREAK_WIDOW,   /* next to the first or the last line of a paragraph */
    BREAK_HEADING, /* between a heading and its text */
    BREAK_NEVER
};

/* A strip may ask for a sheet of its own kind. */
enum sheet_turn { TURN_NONE, TURN_UPRIGHT, TURN_SIDEWAYS };

struct span {
    size_t first, count;
};

struct strip {
    double gap; /* blank above; not at the top of a sheet */
    double height;
    double inset; /* pads of the frames that a break before this strip would cut */
    enum break_cost cost;
    enum sheet_turn turn;
    bool at_foot; /* this and what follows stands at the foot of its sheet */
    bool opens;   /* a chapter: begins a sheet, or stands below the end of another */
    struct span pieces, links;
    const struct repeat *repeat; /* what a sheet that begins with this strip begins with */
    const char *chapter;
    size_t sheet; /* where it was placed: index in print.sheets, */
    double x, y;  /* its upper left corner there, */
    size_t mark;  /* and its first piece among the sheet's */
};

/* The head of a table that goes on. */
struct repeat {
    struct strip strip;
    double x, width; /* of the rule that closes the part before the break */
};

/* A place that leads somewhere, and whose page number may be printed. */
struct flow_link {
    const char *uri; /* outside the book; or NULL, and then: */
    const struct page *to_page;
    const char *to_anchor; /* "" for the page's beginning */
    int tag;
    double x, y, width, height;
    /* The page's number is to be written into this piece of its strip: alone, its right end at
     * the right of all; or in its line, where it stands as "(p. 888)" until it is known. */
    enum { UNNUMBERED, NUMBER_AT_RIGHT, NUMBER_IN_LINE } numbered;
    size_t number;
};

/* A place that can be led to. */
struct flow_anchor {
    const struct page *page;
    const char *name;  /* "" for the page's beginning */
    const char *title; /* in the outline; NULL when it is not there */
    int level;
    size_t strip; /* may be one past the last, when nothing followed */
};

enum frame_kind { FRAME_QUOTE, FRAME_LITERAL, FRAME_CAUTION, FRAME_NOTICE };

/* Something drawn behind or around strips: on every sheet that has some of them. */
struct frame {
    enum frame_kind kind;
    size_t first, end; /* strips */
    double x, width;
    double pad;
    double outer; /* pads of the frames around this one */
};

/* A bullet or number that waits for the first line of its item. */
struct label {
    const char *text;
    double right; /* its right end */
    int tag;
};

/* Sizes of type, in points. */
struct type_scale {
    double body, leading;
    double heading[4], heading_leading[4];
    double literal, note;
    double table_most, table_least; /* figures of tables: as large as fits */
    double table_text, table_head;  /* words of tables, share of the figures' size */
    double table_words_least;       /* but at least this large */
    double table_caption_least;     /* the caption: as the body, but at least this large */
    double table_row_pad;           /* above and below a row, share of the figures' size */
    double writing_room;            /* forms: height of a row to write in */
};

struct flow {
    struct arena *arena;   /* for what is kept as long as the print */
    struct arena *scratch; /* for what is not needed any more when all is placed */
    const struct fonts *fonts;
    struct diags *diags;
    struct print *print; /* its tags grow while the flow does */
    const struct type_scale *type;
    const struct layout *layout;
    const struct page *page;                /* whose tree is being laid out */
    double width, height;                   /* of the column on an upright sheet */
    double sideways_width, sideways_height; /* 0: sheets are not turned here */
    bool trial; /* what does not fit sets `failed` in place of a fault */
    bool dry;   /* nothing is to be put, and what always fits is passed over */
    bool failed;
    bool names_pages; /* behind a link stands the number of the page that it leads to */

    /* where blocks and lines go, and what they are part of: -1 for decoration */
    struct area area;
    int tag;

    struct strip *strips;
    size_t strip_count, placed_count; /* the first strips are on their sheets already */
    struct piece *pieces;
    size_t piece_count;
    struct flow_link *links;
    size_t link_count;
    struct flow_anchor *anchors;
    size_t anchor_count;
    struct frame *frames;
    size_t frame_count;
    size_t open_frame; /* frames before this one are drawn to their end */

    /* for the next strip */
    double gap, inset;
    enum break_cost cost;
    enum sheet_turn turn;
    bool at_foot, opens;
    const char *chapter;
    struct label *labels;
    size_t label_count;

    struct phrase phrase;
    struct lines lines;
    size_t writing_rows; /* rows to write in, so far */
};

/* The tag of the whole. */
enum { DOCUMENT };

/* Begins with the column of this layout over its whole width, and the tag of the document. */
void flow_begin(struct flow *flow, const struct layout *layout);
void flow_end(struct flow *flow); /* frees what is not the arena's */

/* Asks for at least this much blank before the next strip. */
void flow_gap(struct flow *flow, double gap);

/* A break before the next strip costs at least this much. */
void flow_cost(struct flow *flow, enum break_cost cost);

/* Adds a strip below; the pieces put from now on are in it. */
void flow_strip(struct flow *flow, double height);

/* A text whose baseline's left end, middle or right end is at (x, y). */
void flow_text(struct flow *flow, double x, double y, enum align align,
               const struct text_style *style, int tag, const char *text);
void flow_line(struct flow *flow, double x, double y, double width, double height, double line);

/* A frame of so thick a line, or with line 0 a black ground. */
void flow_box(struct flow *flow, double x, double y, double width, double height, double line);

/* Any mark; it lies in the strip as all others do. */
void flow_piece(struct flow *flow, struct piece piece);

/* A blank follows the text that was put last, for those who listen. */
void flow_blank_after(struct flow *flow);

/* Marks the next strip as a place to be led to. */
struct flow_anchor *flow_anchor(struct flow *flow, const char *name);

/* Strips between these two have the frame around them, as wide as flow->area. */
size_t flow_frame_open(struct flow *flow, enum frame_kind kind, double pad);
void flow_frame_close(struct flow *flow, size_t frame);

/* Height of the strips from first to before end, without the gap above the first. */
double flow_height(const struct flow *flow, size_t first, size_t end);

/* Keeps the strips from first on together if they fit in this height. */
void flow_keep(struct flow *flow, size_t first, double room);

/* Parts none of the strips from first on from what is before it. */
void flow_hold(struct flow *flow, size_t first);

/* Adds a tag below this one; below decoration there is none. */
int flow_tag(struct flow *flow, enum tag_kind kind, int parent);

/* The look of plain text here. */
struct text_style flow_body_style(const struct flow *flow, enum face face);

/* Baseline below the top of a line of this style. */
double flow_baseline(const struct flow *flow, const struct text_style *style);

/* Fills flow->phrase with the inline children of a node, or with a text. Links are added to the
 * flow, each with a tag of its own. */
void lines_read(struct flow *flow, const struct node *parent, const struct text_style *style,
                int tag);
void lines_read_plain(struct flow *flow, const char *text, const struct text_style *style,
                      int tag);

/* Breaks flow->phrase to flow->area and puts each line into a strip of its own; the same of a
 * text, in a tag of this kind below flow->tag. */
void lines_put(struct flow *flow, const struct text_style *style);
void lines_put_plain(struct flow *flow, enum tag_kind kind, const char *text,
                     const struct text_style *style);

/* What every cell, box and bar is measured by: reads a text and breaks it to a width into
 * flow->lines. Gives how high they are; a word that is wider makes flow->failed. */
double lines_measure(struct flow *flow, const char *text, const struct text_style *style,
                     double width, int tag);

/* Puts all of flow->lines into the strip that is there, left or right in the area; y: the top
 * of the first. */
void lines_put_all(struct flow *flow, struct area area, double y, enum align align,
                   const struct text_style *style);

/* Puts labels that no line has taken into a strip of their own. */
void lines_flush_labels(struct flow *flow);

/* Places the strips that are not on sheets yet, from a new sheet on. Of the ways to cut them it
 * takes one that parts what belongs together least, then one with few sheets, no bare ones
 * among them, and little taken from the gaps. A strip that is too tall for any sheet has one of
 * its own. */
void flow_place(struct flow *flow);

/* Once all is placed and the sheets have their labels: gives every link its area, writes page
 * numbers where they are asked for, and lists headings down to this level in the print's
 * outline, 0: none. */
void flow_resolve(struct flow *flow, int lowest);

#endif
