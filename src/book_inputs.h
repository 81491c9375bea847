/* What a set of outputs was made from, as one number: so that a run over many lathes
 * makes again only what changed. No clock is asked. */
#ifndef BOOK_INPUTS_H
#define BOOK_INPUTS_H

#include "book.h"

/* Over what all lathes of a run share: the program's own file, the pages, templates and
 * engine, the options, SOURCE_DATE_EPOCH. Owned by the arena. */
const char *book_inputs_shared(struct arena *arena, const struct book_paths *paths);

/* The same with that file of settings and its logs. Owned by the arena. */
const char *book_inputs_digest(struct arena *arena, const char *shared, const char *settings);

/* Were the outputs in that folder made from these inputs, and are they all there? */
bool book_inputs_made(const char *out, const char *digest);

#endif
