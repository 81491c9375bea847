/* A set of outputs that appears in its folder all at once, or not at all.
 *
 * Everything is first written into a folder beside; outset_commit() then
 * exchanges the two folders in one step of the file system. Things in the old
 * folder that are no part of the set (the program itself, a user's own files) are
 * moved over behind it; should the machine stop just then, the next run does it.
 *
 * A failure of the machine ends the program with status 3; the unfinished folder
 * is then removed, and the old set stays as it was. */
#ifndef BASE_OUTSET_H
#define BASE_OUTSET_H

#include "base/memory.h"

struct outset;

/* Opens a set that will appear at the folder's path. Parents are made. */
struct outset *outset_begin(struct arena *arena, const char *folder);

/* Writes one file of the set; path is relative, its folders are made. */
void outset_write(struct outset *set, const char *path, const void *bytes, size_t length);

void outset_commit(struct outset *set);

#endif
