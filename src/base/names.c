/* A table of twice as many slots as names or more. A name stands in the first free slot from
 * the one that its hash tells (FNV-1a). */
#include "base/names.h"

#include <stdint.h>
#include <string.h>

struct name {
    const char *text; /* NULL: the slot is free */
    size_t number;
};

/* The slot that has the name, or that it would get; room is a power of two. */
static struct name *slot_of(const struct names *names, const char *text)
{
    uint32_t hash = 2166136261u;
    for (const char *at = text; *at; at++)
        hash = (hash ^ (unsigned char)*at) * 16777619u;
    size_t slot = hash & (names->room - 1);
    while (names->slots[slot].text && strcmp(names->slots[slot].text, text) != 0)
        slot = (slot + 1) & (names->room - 1);
    return &names->slots[slot];
}

size_t *names_find(const struct names *names, const char *name)
{
    struct name *slot = names->room ? slot_of(names, name) : NULL;
    return slot && slot->text ? &slot->number : NULL;
}

static void make_room(struct arena *arena, struct names *names)
{
    struct names more = {.room = names->room ? 2 * names->room : 64};
    more.slots = arena_get(arena, more.room * sizeof *more.slots);
    for (size_t i = 0; i < names->room; i++)
        if (names->slots[i].text)
            *slot_of(&more, names->slots[i].text) = names->slots[i];
    more.count = names->count;
    *names = more;
}

void names_add(struct arena *arena, struct names *names, const char *name, size_t number)
{
    if (names->room < 2 * (names->count + 1))
        make_room(arena, names);
    *slot_of(names, name) = (struct name){name, number};
    names->count++;
}
