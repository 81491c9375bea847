/* Removes a folder and everything in it; links are removed, not followed. */
#ifndef BASE_TREE_REMOVE_H
#define BASE_TREE_REMOVE_H

/* What cannot be removed stays; a path that is not there is no failure. */
void tree_remove(const char *path);

#endif
