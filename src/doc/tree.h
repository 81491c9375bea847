/* The neutral document: what a page says, before anyone knows how it will look.
 *
 * Of the tree holds:
 * - It is made by doc/markdown.h, its tables and figures by src/tables and src/figures; it is
 *   checked once, and from then on only read: who paints it never finds a fault.
 * - The root is a NODE_PAGE. Blocks have blocks or inlines below them, as node_kind says;
 *   inlines have inlines alone. parent, first, last and next agree with each other.
 * - A table or figure node has its table or figure, once it is resolved; a link within the
 *   book its page.
 * - Text is valid UTF-8 without control characters. A form's text may name a value of the
 *   settings in braces, as in "{aim}", until it is filled in (report/values.h).
 * - Lengths are points (1/72 in), x to the right and y downward from a figure's upper left
 *   corner.
 * - All of it is owned by the arena of its page, or of the run. */
#ifndef DOC_TREE_H
#define DOC_TREE_H

#include "base/buffer.h"
#include "base/diag.h"
#include "base/memory.h"

#include <stdbool.h>
#include <stddef.h>

/* ---- forms: places to write in, and paper to plot on ---- */

/* One place to write in. It has a label and then room, or a value that is known, or
 * words with boxes to tick. */
struct form_field {
    const char *label; /* "": a bare line */
    const char *unit;  /* behind the room; NULL where there is none */
    const char *value; /* stands in the room; NULL: room to write */
    const char **choices;
    size_t choice_count;
    int share; /* of its row's width, 1..9 */
};

struct form_row {
    struct place at;
    struct form_field *fields;
    size_t count;
};

struct form {
    bool ruled; /* lines to write on; else boxes */
    struct form_row *rows;
    size_t count;
};

/* One direction of a graph. Without numbers the scale is left to the pencil. */
struct graph_axis {
    const char *quantity, *unit; /* unit: NULL where there is none */
    bool numbered;
    double from, to; /* from < to */
};

struct graph {
    const char *name, *caption; /* as of a figure */
    struct place at;
    struct graph_axis across, up;
    int squares; /* how high it is, in squares */
    bool window; /* up is the drag, with the limits of the lathe's own band drawn in */
};

/* ---- figures: paths in order, then texts over them. A painter may scale the whole; it decides
 * nothing else ---- */

/* Texts of a figure that is printed are at least this large, in points. */
#define FIGURE_LEAST_TEXT 7.0

/* Two weights of line and no more. */
#define FIGURE_THIN  0.4
#define FIGURE_THICK 1.0

enum stroke { STROKE_NONE, STROKE_THIN, STROKE_THICK };

enum dash { DASH_SOLID, DASH_HIDDEN, DASH_CENTRE };

/* Paper hides what lies below; ink is as black as the lines. */
enum fill { FILL_NONE, FILL_PAPER, FILL_INK };

enum step_kind { STEP_MOVE, STEP_LINE, STEP_CURVE, STEP_CLOSE };

/* One step of a path; a curve is a cubic Bezier by way of (x1, y1) and (x2, y2). */
struct path_step {
    enum step_kind kind;
    double x1, y1, x2, y2, x, y;
};

struct figure_path {
    enum stroke stroke;
    enum dash dash;
    enum fill fill;
    const struct path_step *steps;
    size_t step_count;
};

enum align { ALIGN_LEFT, ALIGN_MIDDLE, ALIGN_RIGHT };

struct figure_text {
    const char *text;
    double x, y; /* of the baseline: its left end, middle or right end, as `align` says */
    double width;
    double size;
    enum align align;
    bool bold;
};

struct figure {
    const char *name;        /* lower-case words joined by hyphens: its id */
    const char *title;       /* what it is, in a few words */
    const char *caption;     /* what to see in it; stands below */
    const char *description; /* what it shows, for one who cannot see it */
    struct place at;         /* where it was asked for */
    double width, height;
    bool to_scale; /* 1:1: never scaled in print */
    struct figure_path *paths;
    size_t path_count;
    struct figure_text *texts;
    size_t text_count;
};

/* The stroke's width in points; 0 for none. */
double figure_line(enum stroke stroke);

/* The dashes: lengths drawn and left out in turn, in points; how many. */
enum { MOST_DASHES = 4 };

size_t figure_dashes(enum dash dash, double lengths[MOST_DASHES]);

/* The left end of a text. */
double figure_text_left(const struct figure_text *text);

/* ---- tables: heads, rows of cells, notes. A cell holds a computed number (its shown text, and
 * the value at full precision in the column's unit) or plain text. Outputs print `shown` and
 * nothing else, so that they agree in every cell ---- */

/* What a state cell says, so that a painter can give it its shape. */
enum mark { MARK_NONE, MARK_BELOW, MARK_INSIDE, MARK_ABOVE };

struct cell {
    const char *shown;
    double value;   /* full precision, in the unit of the column */
    bool has_value; /* computed number: value counts */
    bool strong;    /* the row or cell that the reader looks for */
    enum mark mark; /* text cell that names a state */
};

enum column_kind { COLUMN_TEXT, COLUMN_NUMBER };

struct column {
    const char *quantity; /* "low pull" */
    const char *unit;     /* "N"; NULL where there is none */
    enum column_kind kind;
    bool strong; /* the column to read at the lathe */
    int share;   /* of a blank grid's width, 1..9 */
};

struct table {
    const char *name;    /* lower-case words joined by hyphens: id and file name */
    const char *caption; /* one line, without a full stop */
    struct place at;     /* where it was asked for */
    bool computed;
    bool blank; /* a grid of boxes to write in, some of them filled already */
    struct column *columns;
    size_t column_count;
    struct cell *cells; /* row after row: row_count * column_count */
    size_t row_count;
    const char **notes; /* below the table: inputs, keys, why a cell says none */
    size_t note_count;
    struct arena *arena;
};

struct table *table_new(struct arena *arena, const char *name, const char *caption);

/* Columns first, then rows. Texts are not copied. */
struct column *table_column(struct table *table, enum column_kind kind, const char *quantity,
                            const char *unit);

/* Adds an empty row and gives its first cell; the address holds until the next row. */
struct cell *table_row(struct table *table);
void table_note(struct table *table, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
const struct cell *table_cell(const struct table *table, size_t row, size_t column);

/* "low pull / N", or the quantity alone; owned by the arena. */
const char *table_head(struct arena *arena, const struct column *column);

/* ---- nodes ---- */

enum node_kind {
    /* blocks */
    NODE_PAGE,      /* one content page: the root */
    NODE_HEADING,   /* level 1..4; inline children */
    NODE_PARAGRAPH, /* inline children */
    NODE_LIST,      /* ordered or not, start; NODE_ITEM children */
    NODE_ITEM,      /* block children */
    NODE_QUOTE,     /* block children */
    NODE_CAUTION,   /* a boxed caution; text = its title; block children */
    NODE_TABLE,     /* table = the table, computed or written by hand */
    NODE_FIGURE,    /* figure = the figure, drawn by the program */
    NODE_LITERAL,   /* lines to be typed or read exactly as they are; text */
    NODE_FIELDS,    /* form = places to write in; on a form's page alone */
    NODE_RULE,      /* on the card: what follows stands on the back */
    /* inlines */
    NODE_TEXT, /* text */
    NODE_EMPHASIS,
    NODE_STRONG,
    NODE_CODE,  /* text */
    NODE_LINK,  /* target; inline children */
    NODE_SPACE, /* a line end in the source: a blank in print */
    NODE_BREAK  /* a line end that is meant */
};

/* What only some kinds have shares its memory: look at the kind first. Most nodes of a book
 * are words, which have none of it. */
struct node {
    enum node_kind kind;
    struct place at; /* where it stands in its source file */
    struct node *parent, *first, *last, *next;
    const char *text;
    union {
        struct {                /* heading and list */
            int level;          /* heading: 1..4; list: the first number, 0: not ordered */
            bool tight;         /* list: items follow each other without a gap */
            const char *anchor; /* heading: its fragment name, unique in its page */
        };
        struct {                        /* link */
            const char *target;         /* as written */
            const struct page *to_page; /* within the book: the page; else NULL */
            const char *to_anchor;      /* and the heading or table in it; or NULL */
        };
        struct { /* table and figure */
            struct table_option *options;
            size_t option_count;
            union {
                struct {
                    struct table *table;
                    const char *table_name; /* computed: its name and options as written */
                };
                struct {
                    const struct figure *figure;
                    const char *figure_name; /* as written */
                    struct graph *graph;     /* blank paper to plot on, as it was asked for */
                };
            };
        };
        struct form *form; /* fields */
        bool as_written;   /* text and code: sign by sign as in the source, from its place on */
    };
};

struct table_option {
    struct place at;
    const char *key, *value;
};

/* One content page. */
struct page {
    const char *file;  /* content/40-wind-and-pull.md, as named on the way in */
    const char *name;  /* wind-and-pull: the file's name without number and ending */
    const char *title; /* plain text of its first heading */
    size_t number;     /* its place among the book's pages, from 0 */
    bool in_booklet;   /* false for the card's page and for forms */
    bool is_form;      /* a sheet to write on */
    struct node *root;
    struct arena *arena; /* holds the tree */
};

struct node *node_new(struct arena *arena, enum node_kind kind, struct place at);
void node_append(struct node *parent, struct node *child);

/* Takes a node that has a parent, and all below it, out of the tree. */
void node_remove(struct node *node);

/* The next node in reading order below `root`, depth first; NULL at the end.
 * Walks without recursion, so that depth costs no stack. */
struct node *node_following(const struct node *root, const struct node *node);

/* The same, passing over what is below the node. */
struct node *node_after(const struct node *root, const struct node *node);
bool node_is_inline(const struct node *node);

/* All text below a node run together, owned by the arena. */
char *node_plain_text(struct arena *arena, const struct node *node);

#endif
