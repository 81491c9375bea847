/* The fenced blocks that are more than literal lines: tables and figures. */
#ifndef READ_BLOCKS_H
#define READ_BLOCKS_H

#include "tree/tree.h"

/* True when an info string begins with the word; *rest is what follows it. */
bool block_is(const char *info, const char *word, const char **rest);

/* Fills a node from "table NAME", "figure NAME" or "csv NAME: Caption" and its body,
 * which begins on the line behind the node's place. */
void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node);

#endif
