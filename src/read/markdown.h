/* A content page: CommonMark through the cmark library, plus fenced blocks:
 *
 *   ```table NAME            a computed table; body: "key: value" lines
 *   ```figure NAME           a figure that the program draws; no body
 *   ```csv NAME: Caption     a table written by hand; body: CSV
 *   ```caution Title         a boxed caution; body: Markdown
 *   ```boxes, ```lines       places to write in, on forms; body: labels with | between
 *   ```grid NAME: Caption    a table to write in, on forms; body: CSV
 *   ```graph NAME: Caption   paper to plot on, on forms; body: "key: value" lines
 *   ```                      literal lines
 *
 * markdown.c is the only file that includes cmark.h. */
#ifndef READ_MARKDOWN_H
#define READ_MARKDOWN_H

#include "tree/tree.h"

/* Reads one page, whose file's name is not copied. Faults (bad text, raw HTML, pictures,
 * unknown blocks, no or two first-level headings, links with a scheme that runs things) go
 * to diags. Gives NULL only when the file cannot be read. Computed tables, figures and
 * links within the book are left to be resolved (see book). */
struct page *markdown_read(struct arena *arena, struct diags *diags, const char *file);

#endif
