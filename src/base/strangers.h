/* Whose is what in a folder of outputs: its list names the files of the set; all
 * other things are strangers, the user's own.
 *
 * Folders are given as open handles, paths relative to them. Links are never
 * followed, and the list's paths only count where a walk of the folder meets them. */
#ifndef BASE_STRANGERS_H
#define BASE_STRANGERS_H

#include "base/memory.h"

#include <stdbool.h>

#define LIST_NAME ".spindlebook"

struct strangers {
    const char **own;   /* files and folders of the set that are there, innermost first */
    const char **moves; /* strangers: files, or whole folders without anything of the set */
    const char **taken; /* strangers in whose place the other folder has something else */
    size_t own_count, move_count, taken_count;
};

/* Looks through the folder `from`, whose path is given for messages; `to` (or -1)
 * is where strangers are to go. What cannot be looked at ends the program. */
void strangers_find(struct arena *arena, int from, int to, const char *path,
                    struct strangers *found);

/* Moves the strangers; false, with errno set, when one could not be moved. Asks
 * for no memory. */
bool strangers_move(int from, int to, const struct strangers *found);

/* Removes what belongs to the set, and nothing else. Asks for no memory. */
void strangers_leave(int from, const struct strangers *found);

/* Makes the folders before the last slash; false, with errno set, on failure. */
bool strangers_make_parents(int folder, const char *path);

/* Removes a file and then its folders, as far as they are empty. */
void strangers_unlink(int folder, const char *path);

#endif
