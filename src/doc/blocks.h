/* The fenced blocks that are more than literal lines: tables, figures, and what only forms
 * have: boxes, lines, grid and graph. */
#ifndef DOC_BLOCKS_H
#define DOC_BLOCKS_H

#include "doc/tree.h"

/* True when an info string begins with the word; *rest is what follows it. */
bool block_is(const char *info, const char *word, const char **rest);

/* Fills a node from an info string, such as "table NAME" or "csv NAME: Caption", and the
 * body, which begins on the line behind the node's place. An info string that names no block
 * is a fault, and the node literal lines. */
void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node);

#endif
