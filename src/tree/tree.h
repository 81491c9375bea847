/* The neutral document: what a page says, before anyone knows how it will look.
 *
 * A tree is made by read/ (from Markdown), tables/ and figures/ (computed), checked
 * once, and from then on only read: painters and the page breaker walk it and
 * never find a fault. Everything is owned by the arena of the run. Text is valid
 * UTF-8 without control characters. */
#ifndef TREE_TREE_H
#define TREE_TREE_H

#include "base/buffer.h"
#include "base/diag.h"
#include "tree/figure.h"
#include "tree/form.h"
#include "tree/table.h"

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

/* One line a node, indented: for tests. */
void tree_dump(struct buffer *out, const struct node *root);

#endif
