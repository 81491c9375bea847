/* The block of a graph that is left to the pencil. */
#ifndef DOC_BLOCKS_H
#define DOC_BLOCKS_H

#include "doc/tree.h"

/* The fenced blocks of a form: boxes, lines, grid and graph. */

/* Fills a node from the info string of such a block and its body; false where the info
 * string names none of them. */
bool form_block_read(struct arena *arena, struct diags *diags, const char *info,
                     const char *body, struct node *node);

/* The fenced blocks that are more than literal lines: tables and figures; what only forms
 * have is handed on to doc/blocks.h. */

/* True when an info string begins with the word; *rest is what follows it. */
bool block_is(const char *info, const char *word, const char **rest);

/* Fills a node from an info string, such as "table NAME" or "csv NAME: Caption", and the
 * body, which begins on the line behind the node's place. */
void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node);

#endif
