/* A content page: CommonMark through the cmark library, plus fenced blocks:
 *
 *   ```table NAME            a computed table; body: "key: value" lines
 *   ```figure NAME           a figure that the program draws; no body
 *   ```csv NAME: Caption     a table written by hand; body: CSV
 *   ```caution Title         a boxed caution; body: Markdown
 *   ```boxes, ```lines       places to write in, on forms; body: labels with | between
 *   ```grid NAME: Caption    a table to write in, on forms; body: CSV
 *   ```graph NAME: Caption   paper to plot on, on forms; body: "key: value" lines
 *   ```                      literal lines */
#ifndef DOC_MARKDOWN_H
#define DOC_MARKDOWN_H

#include "doc/tree.h"

/* Reads one page, whose file's name is not copied. Faults (bad text, raw HTML, pictures,
 * unknown blocks, no or two first-level headings, links with a scheme that runs things) go
 * to diags. Gives NULL only when the file cannot be read, or would take cmark too long.
 * Computed tables, figures and links within the book are left to be resolved (see book). */
struct page *markdown_read(struct arena *arena, struct diags *diags, const char *file);

/* Lines and columns of a text as an editor counts them: in characters, not in bytes. Where it
 * was looked last is kept: most looks go a little further from there. */
struct source {
    const char *text;
    const char *line;  /* in the text ... */
    int number;        /* ... and which it is, from 1 */
    size_t counted;    /* bytes of the line ... */
    size_t characters; /* ... and how many characters they are */
    size_t lead;       /* bytes of blanks and quote signs at its start */
};

void source_begin(struct source *source, const char *text);

/* Bytes of blanks and quote signs at the start of a line. */
size_t source_lead(struct source *source, int number);

/* Of the character that begins at a byte of that line, both from 1. */
int source_column(struct source *source, int number, int byte);

#endif
