/* The fenced blocks of a form: boxes, lines, grid and graph. */
#ifndef READ_FORMS_H
#define READ_FORMS_H

#include "tree/tree.h"

/* Fills a node from the info string of such a block and its body; false where the info
 * string names none of them. */
bool form_block_read(struct arena *arena, struct diags *diags, const char *info,
                     const char *body, struct node *node);

#endif
