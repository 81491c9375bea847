/* One run for many lathes: a folder with a folder or a file of settings for each. */
#ifndef BOOK_EACH_H
#define BOOK_EACH_H

#include "base/fatal.h"
#include "book/book.h"

/* Makes the outputs of every lathe in paths->each, NAME/settings.yaml or NAME.yaml, into a
 * folder of its name below paths->out. Those of a lathe with faults stay as they were, the
 * others are made; what is made from the same as before is left alone. On a terminal,
 * standard error shows how far the run is. */
enum status book_each(const struct book_paths *paths);

#endif
