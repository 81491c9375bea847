/* The fenced blocks that are more than literal lines: tables and figures; what only forms
 * have is handed on to read/forms.h. */
#ifndef READ_BLOCKS_H
#define READ_BLOCKS_H

#include "tree/tree.h"

/* True when an info string begins with the word; *rest is what follows it. */
bool block_is(const char *info, const char *word, const char **rest);

/* "NAME: Caption" behind a block's word, "csv" for one; false after a fault. */
bool block_read_title(struct arena *arena, struct diags *diags, const char *word,
                      const char *rest, const struct node *node, const char **name,
                      const char **caption);

/* A table of the CSV in a block's body, with the name and caption behind its word. */
void block_read_csv(struct arena *arena, struct diags *diags, const char *word,
                    const char *rest, const char *body, struct node *node);

/* "key: value" lines into the node's options. */
void block_read_options(struct arena *arena, struct diags *diags, struct node *node,
                        const char *body);

/* Fills a node from an info string, such as "table NAME" or "csv NAME: Caption", and the
 * body, which begins on the line behind the node's place. */
void block_read(struct arena *arena, struct diags *diags, const char *info, const char *body,
                struct node *node);

#endif
