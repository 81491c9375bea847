/* The block of a graph that is left to the pencil. */
#ifndef READ_GRAPHS_H
#define READ_GRAPHS_H

#include "tree/tree.h"

/* rest: what stands behind the word "graph". */
void graph_read(struct arena *arena, struct diags *diags, const char *rest, const char *body,
                struct node *node);

#endif
