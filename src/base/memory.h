/* Memory for one run. Everything a run makes lives in an arena and goes with it.
 *
 * An allocation never returns NULL: when the machine has no memory left, the
 * program says so and ends with status 3 (see base/fatal.h). */
#ifndef BASE_MEMORY_H
#define BASE_MEMORY_H

#include <stdarg.h>
#include <stddef.h>

struct arena;

struct arena *arena_new(void);
void arena_free(struct arena *arena); /* NULL is allowed */

/* Zeroed memory, aligned for any type, owned by the arena. */
void *arena_get(struct arena *arena, size_t size);

/* Copies of text, NUL-terminated, owned by the arena; not aligned. */
char *arena_text(struct arena *arena, const char *text);
char *arena_slice(struct arena *arena, const char *bytes, size_t length);
char *arena_format(struct arena *arena, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
char *arena_vformat(struct arena *arena, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));

/* Makes room for one more zeroed item in a growing array. Use ARENA_PUSH. */
void *arena_grow(struct arena *arena, void *items, size_t count, size_t size);

/* Appends one zeroed item and gives its address; items may move when it grows. */
#define ARENA_PUSH(arena, items, count)                                                        \
    ((items) = arena_grow((arena), (items), (count), sizeof *(items)), &(items)[(count)++])

/* The same outside of any arena, for arrays that grow large: nothing is left behind where
 * they move, and free() gives them back. Use HEAP_PUSH. */
void *heap_grow(void *items, size_t count, size_t size);

/* Zeroed memory outside of any arena; free() gives it back. */
void *heap_get(size_t size);

/* Memory for so many items, above 0, with what was in the old; what is new is not zeroed. */
void *heap_resize(void *memory, size_t count, size_t size);
#define HEAP_PUSH(items, count)                                                                \
    ((items) = heap_grow((items), (count), sizeof *(items)), &(items)[(count)++])

#endif
