#include "base/spool.h"

#include "base/fatal.h"
#include "base/memory.h"

#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { WINDOW = 4096 }; /* bytes of a run that are read at once */

/* An item as it is held and as it is in the file; the next begins aligned. */
struct item {
    size_t size; /* of all of it */
    max_align_t bytes[];
};

/* Items that wait in the file, sorted. */
struct run {
    off_t start, end, at; /* in the file; what is before `at` is read */
    char *window;         /* what is read and not given yet: `left` bytes from `from` on */
    size_t from, left, room;
};

struct spool {
    spool_order *order;
    size_t most, held; /* bytes */
    struct arena *arena;
    struct item **items; /* that are held, in the arena */
    size_t count, given;
    FILE *file; /* NULL until there are too many items */
    off_t written;
    struct run *runs;
    size_t run_count;
    struct run **heap; /* the runs that have items left; the least item's is the first */
    size_t heap_count;
};

struct spool *spool_new(spool_order *order, size_t most)
{
    struct spool *spool = heap_get(sizeof *spool);
    spool->order = order;
    spool->most = most;
    spool->arena = arena_new();
    return spool;
}

void spool_free(struct spool *spool)
{
    if (!spool)
        return;
    for (size_t i = 0; i < spool->run_count; i++)
        free(spool->runs[i].window);
    if (spool->file)
        fclose(spool->file);
    free(spool->runs);
    free(spool->heap);
    free(spool->items);
    arena_free(spool->arena);
    free(spool);
}

_Noreturn static void fail(void)
{
    fatal("a temporary file cannot be used: %s; nothing was changed", strerror(errno));
}

/* ---- items in memory ---- */

static int by_order(const void *left, const void *right, void *spool)
{
    const struct item *const *a = left, *const *b = right;
    return ((const struct spool *)spool)->order((*a)->bytes, (*b)->bytes);
}

static void sort_held(struct spool *spool)
{
    if (spool->count)
        qsort_r(spool->items, spool->count, sizeof *spool->items, by_order, spool);
}

/* Puts what is held into the file, as a run. */
static void write_run(struct spool *spool)
{
    if (!spool->file && !(spool->file = tmpfile()))
        fail();
    struct run *run = HEAP_PUSH(spool->runs, spool->run_count);
    sort_held(spool);
    run->start = spool->written;
    for (size_t i = 0; i < spool->count; i++)
        if (fwrite(spool->items[i], spool->items[i]->size, 1, spool->file) != 1)
            fail();
    spool->written += (off_t)spool->held;
    run->end = spool->written;
    spool->count = spool->held = 0;
    arena_clear(spool->arena);
}

void spool_add(struct spool *spool, const void *bytes, size_t length)
{
    const size_t align = _Alignof(max_align_t);
    size_t size = (sizeof(struct item) + length + align - 1) / align * align;
    if (spool->count && spool->held + size > spool->most)
        write_run(spool);
    struct item *item = arena_get(spool->arena, size);
    item->size = size;
    memcpy(item->bytes, bytes, length);
    *HEAP_PUSH(spool->items, spool->count) = item;
    spool->held += size;
}

/* ---- items in the file ---- */

static const struct item *first_of(const struct run *run)
{
    return (const void *)(run->window + run->from);
}

/* Reads until so many bytes of a run are in its window. */
static void require(const struct spool *spool, struct run *run, size_t need)
{
    if (run->left >= need)
        return;
    if (run->room < need || !run->window) {
        run->room = need > WINDOW ? need : WINDOW;
        run->window = heap_resize(run->window, run->room, 1);
    }
    memmove(run->window, run->window + run->from, run->left);
    run->from = 0;
    while (run->left < need) {
        size_t rest = (size_t)(run->end - run->at), room = run->room - run->left;
        ssize_t got = pread(fileno(spool->file), run->window + run->left,
                            rest < room ? rest : room, run->at);
        if (got == 0)
            errno = EIO;
        if (got <= 0)
            fail();
        run->left += (size_t)got;
        run->at += got;
    }
}

/* Whether the run has an item left, which is then in its window. */
static bool has_item(const struct spool *spool, struct run *run)
{
    if (run->left == 0 && run->at == run->end)
        return false;
    require(spool, run, sizeof(struct item));
    require(spool, run, first_of(run)->size);
    return true;
}

static bool is_before(const struct spool *spool, size_t a, size_t b)
{
    return spool->order(first_of(spool->heap[a])->bytes, first_of(spool->heap[b])->bytes) < 0;
}

/* The run at this place of the heap may stand too high: moves it down. */
static void sift_down(struct spool *spool, size_t at)
{
    for (size_t child; (child = 2 * at + 1) < spool->heap_count; at = child) {
        if (child + 1 < spool->heap_count && is_before(spool, child + 1, child))
            child++;
        if (!is_before(spool, child, at))
            return;
        struct run *run = spool->heap[at];
        spool->heap[at] = spool->heap[child];
        spool->heap[child] = run;
    }
}

static void begin_merge(struct spool *spool)
{
    if (spool->count)
        write_run(spool);
    if (fflush(spool->file) != 0)
        fail();
    spool->heap_count = 0;
    for (size_t i = 0; i < spool->run_count; i++) {
        struct run *run = &spool->runs[i];
        run->at = run->start;
        run->left = run->from = 0;
        if (has_item(spool, run))
            *HEAP_PUSH(spool->heap, spool->heap_count) = run;
    }
    for (size_t i = spool->heap_count / 2; i-- > 0;)
        sift_down(spool, i);
}

/* Passes over the item that was given last. */
static void take_first(struct spool *spool)
{
    struct run *run = spool->heap[0];
    size_t size = first_of(run)->size;
    run->from += size;
    run->left -= size;
    if (!has_item(spool, run))
        spool->heap[0] = spool->heap[--spool->heap_count];
    sift_down(spool, 0);
}

void spool_start(struct spool *spool)
{
    spool->given = 0;
    if (spool->file)
        begin_merge(spool);
    else
        sort_held(spool);
}

const void *spool_next(struct spool *spool)
{
    if (!spool->file)
        return spool->given < spool->count ? spool->items[spool->given++]->bytes : NULL;
    if (spool->given++ > 0 && spool->heap_count)
        take_first(spool);
    return spool->heap_count ? first_of(spool->heap[0])->bytes : NULL;
}
