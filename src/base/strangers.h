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

/* Something that this process may neither move nor remove. */
struct hindrance {
    const char *path;  /* "." for the folder itself */
    const char *words; /* why, and what the user can do */
};

struct strangers {
    const char **own;   /* files and folders of the set that are there, innermost first */
    const char **moves; /* strangers: files, or whole folders without anything of the set */
    const char **taken; /* strangers in whose place the other folder has something else */
    struct hindrance *stuck; /* of them all; of what is in a folder that is stuck, nothing */
    size_t own_count, move_count, taken_count, stuck_count;
    size_t moved; /* how many of the moves are done */
    bool unseen;  /* a folder that is stuck could not be looked into */
};

/* Looks through the folder `from`, whose path is given for messages; `to` (or -1)
 * is where strangers are to go. What cannot be looked at ends the program. */
void strangers_find(struct arena *arena, int from, int to, const char *path,
                    struct strangers *found);

/* The path of a hindrance behind that of its folder. */
const char *hindrance_path(struct arena *arena, const char *folder,
                           const struct hindrance *hindrance);

/* Moves the strangers, one after the other; false, with errno set, at the first that cannot
 * be moved. Asks for no memory. */
bool strangers_move(int from, int to, struct strangers *found);

/* Moves back those that were moved, and removes folders that were made for them; false where
 * one cannot be. Asks for no memory. */
bool strangers_move_back(int from, int to, struct strangers *found);

/* Removes what belongs to the set, and nothing else. Asks for no memory. */
void strangers_leave(int from, const struct strangers *found);

/* Makes the folders before the last slash; false, with errno set, on failure. */
bool strangers_make_parents(int folder, const char *path);

/* Removes a file and then its folders, as far as they are empty. */
void strangers_unlink(int folder, const char *path);

#endif
