/* Blocks that are filled and never given back one by one. An array that grows doubles its room
 * at every power of two, where it lies if it can. */
#include "base/memory.h"

#include "base/fatal.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The fuzzers set it to 1: then each thing stands alone in its block, and
 * whoever reads beyond it is seen. */
#ifndef ARENA_BLOCK
#define ARENA_BLOCK (64 * 1024)
#endif

/* Many arenas hold little: the first block is small, as all of it is zeroed. */
enum { BLOCK_SIZE = ARENA_BLOCK, FIRST_SIZE = BLOCK_SIZE / 16 };

/* Things fill a block from its start, texts from its end: they need no alignment, and most
 * are short. */
struct block {
    struct block *next;
    size_t used, end, size;
    max_align_t start[];
};

struct arena {
    struct block *blocks;
};

static void *must(void *memory)
{
    if (!memory)
        fatal_no_memory();
    return memory;
}

struct arena *arena_new(void)
{
    return must(calloc(1, sizeof(struct arena)));
}

void arena_free(struct arena *arena)
{
    if (!arena)
        return;
    for (struct block *block = arena->blocks, *next; block; block = next) {
        next = block->next;
        free(block);
    }
    free(arena);
}

static struct block *add_block(struct arena *arena, size_t least)
{
    size_t usual = arena->blocks ? BLOCK_SIZE : FIRST_SIZE;
    size_t size = least > usual ? least : usual;
    struct block *block = must(calloc(1, sizeof *block + size));
    block->size = block->end = size;
    block->next = arena->blocks;
    arena->blocks = block;
    return block;
}

/* A size that keeps what stands behind it aligned for any type. */
static size_t rounded(size_t size)
{
    const size_t align = _Alignof(max_align_t);
    return (size + align - 1) / align * align;
}

void *arena_get(struct arena *arena, size_t size)
{
    if (size > SIZE_MAX / 2)
        fatal_no_memory();
    size = rounded(size);
    struct block *block = arena->blocks;
    if (!block || block->end - block->used < size)
        block = add_block(arena, size);
    void *memory = (char *)block->start + block->used;
    block->used += size;
    return memory;
}

/* Zeroed, without alignment. */
static char *get_text(struct arena *arena, size_t size)
{
    struct block *block = arena->blocks;
    if (!block || block->end - block->used < size)
        block = add_block(arena, size);
    block->end -= size;
    return (char *)block->start + block->end;
}

char *arena_slice(struct arena *arena, const char *bytes, size_t length)
{
    char *copy = get_text(arena, length + 1);
    if (length)
        memcpy(copy, bytes, length);
    return copy;
}

char *arena_text(struct arena *arena, const char *text)
{
    return arena_slice(arena, text, strlen(text));
}

char *arena_vformat(struct arena *arena, const char *format, va_list args)
{
    char usual[256]; /* most texts are shorter, and need not be printed twice */
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(usual, sizeof usual, format, args);
    if (length < 0)
        fatal_no_memory();
    char *text = get_text(arena, (size_t)length + 1);
    if ((size_t)length < sizeof usual)
        memcpy(text, usual, (size_t)length);
    else
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    return text;
}

char *arena_format(struct arena *arena, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = arena_vformat(arena, format, args);
    va_end(args);
    return text;
}

static bool is_power_of_two(size_t n)
{
    return n && !(n & (n - 1));
}

/* Makes the last thing that was got longer where it is, if its block has room. */
static bool lengthens(struct arena *arena, const void *last, size_t length, size_t more)
{
    struct block *block = arena->blocks;
    size_t end = rounded(length);
    if (!block || (const char *)last + end != (const char *)block->start + block->used)
        return false;
    more = rounded(length + more) - end;
    if (block->end - block->used < more)
        return false;
    block->used += more;
    return true;
}

/* A large array has its block to itself: that goes when the array has moved. The first
 * block holds the place to which it has moved. */
static void release(const struct arena *arena, const void *moved, size_t size)
{
    for (struct block **at = &arena->blocks->next; *at; at = &(*at)->next) {
        struct block *block = *at;
        if ((const void *)block->start != moved || block->size != size)
            continue;
        *at = block->next;
        free(block);
        return;
    }
}

void *arena_grow(struct arena *arena, void *items, size_t count, size_t size)
{
    if (count && !is_power_of_two(count))
        return items;
    if (count && lengthens(arena, items, count * size, count * size))
        return items;
    void *larger = arena_get(arena, (count ? 2 * count : 1) * size);
    if (count)
        memcpy(larger, items, count * size);
    if (count * size > BLOCK_SIZE)
        release(arena, items, rounded(count * size));
    return larger;
}

void *heap_grow(void *items, size_t count, size_t size)
{
    if (count && !is_power_of_two(count))
        return items;
    size_t room = count ? 2 * count : 1;
    char *larger = heap_resize(items, room, size);
    memset(larger + count * size, 0, (room - count) * size);
    return larger;
}

void *heap_get(size_t size)
{
    return must(calloc(1, size ? size : 1));
}

void *heap_resize(void *memory, size_t count, size_t size)
{
    return must(count > SIZE_MAX / 2 / size ? NULL : realloc(memory, count * size));
}
