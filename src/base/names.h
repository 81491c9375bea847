/* Names that are known, with a number for each: found in the same time however many. */
#ifndef BASE_NAMES_H
#define BASE_NAMES_H

#include "base/memory.h"

struct name;

/* Starts as {0}; its memory is the arena's. */
struct names {
    struct name *slots;
    size_t room, count;
};

/* The number of a name, which may be changed; NULL where it is not known. It moves when a name
 * is added. */
size_t *names_find(const struct names *names, const char *name);

/* Adds a name that is not known yet; the text stays the caller's. */
void names_add(struct arena *arena, struct names *names, const char *name, size_t number);

#endif
