/* A set of outputs that appears in its folder all at once, or not at all.
 *
 * Everything is first written into a folder beside it, NAME.spindlebook-PID;
 * outset_commit() brings it onto the disk and exchanges the two in one step of the file
 * system. The set holds a list of its own files (.spindlebook), so that the next run
 * knows what it may replace: files that are not in the list belong to the user and are
 * moved over to the new set, never replaced or removed.
 *
 * A run that was killed leaves its folder behind; the next run for the same
 * outputs puts the user's files in it back and removes it. Runs at the same time
 * take turns: the last one to end is the one whose set stays, whole.
 *
 * A failure of the machine ends the program with status 3; the unfinished folder
 * is then removed, and the old set stays as it was. */
#ifndef BASE_OUTSET_H
#define BASE_OUTSET_H

#include "base/diag.h"
#include "base/sink.h"

#include <stdbool.h>

struct outset;

/* A fault, and true, where what stands in the folder's place is the user's, and no folder:
 * outset_begin() would find it when all else is read. */
bool outset_refuses(struct diags *diags, const char *folder);

/* Opens a set that will appear at the folder's path. Parents are made. A file in
 * the folder's place is a fault; then NULL. Both arguments outlive the set. */
struct outset *outset_begin(struct arena *arena, struct diags *diags, const char *folder);

/* Writes one file of the set; path is relative and without dots, its folders are
 * made. */
void outset_write(struct outset *set, const char *path, const void *bytes, size_t length);

/* The same piece by piece: what the sink takes is written to the file, which is whole once
 * it is closed. */
struct sink outset_open(struct outset *set, const char *path);
void outset_close(struct sink sink);

/* Removes what was written, and folders that were made for it: the old set stays as it
 * was. */
void outset_abandon(struct outset *set);

/* A file of the user's in the place of one of the set is a fault; then nothing is
 * changed. */
void outset_commit(struct outset *set);

#endif
