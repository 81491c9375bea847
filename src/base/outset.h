/* A set of outputs that appears in its folder all at once, or not at all.
 *
 * Everything is first written into a folder beside it, .NAME.spindlebook-PID-N. The set holds
 * a list of its own files (.spindlebook), so that the next run knows what it may replace:
 * files that are not in the list belong to the user, and are never replaced or removed.
 * All is done on open handles, and no link is followed: who puts something else into the place
 * of a folder meanwhile gets none of it, and is told. The new set has the group, the mode and
 * the access lists of the old.
 *
 * outset_commit() takes steps, in this order:
 *
 *   1. The new set is brought onto the disk.
 *   2. It is looked whether the user's files may be moved and the old set removed: what
 *      speaks against it (owner, rights, mount, mark) is a fault, with its mend.
 *   3. The user's files are moved into the new set, one by one. Where one cannot be moved
 *      after all, or step 4 fails, they are moved back the same way, which was open.
 *   4. Both folders are exchanged in one step of the file system, and, where what gave way is
 *      not what was looked through, exchanged back.
 *   5. What now lies beside is the old set without anything of the user's; it is removed.
 *
 * So a fault, or a failure of the machine, leaves all as it was; the latter ends the
 * program with status 3. After a kill at any moment the outputs are wholly old or wholly
 * new, and what lies beside them, whichever set that is, holds files of its list, to be
 * removed, and else the user's, which belong into the outputs. The next run of the same user
 * sees to both, and may be killed over it as well.
 *
 * Runs at the same time take turns: the last one to end is the one whose set stays, whole. Who
 * waits for a second says so, and ends after a minute. */
#ifndef BASE_OUTSET_H
#define BASE_OUTSET_H

#include "base/buffer.h"
#include "base/diag.h"
#include "base/memory.h"

#include <stdbool.h>

/* The file of a set that lists its files, one a line. */
#define LIST_NAME ".spindlebook"
enum { LIST_LARGEST = 256 * 1024 * 1024 }; /* bytes: of some million files */

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

/* A file of the user's in the place of one of the set is a fault, and so is what may not be
 * moved or removed; then nothing is changed. */
void outset_commit(struct outset *set);

#endif
