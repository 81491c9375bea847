/* The room doubles when it is full; a buffer with a drain empties itself first. */
#include "base/buffer.h"

#include "base/fatal.h"
#include "base/memory.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    USUAL_PRINT = 100,       /* bytes: what is printed at once is seldom longer */
    DRAINED_ROOM = 64 * 1024 /* at least, of a buffer with a drain */
};

void buffer_free(struct buffer *buffer)
{
    free(buffer->bytes);
    *buffer = (struct buffer){0};
}

static void empty(struct buffer *buffer)
{
    if (buffer->length)
        buffer->drain->take(buffer->drain->with, buffer->bytes, buffer->length);
    buffer->length = 0;
}

void buffer_reserve(struct buffer *buffer, size_t more)
{
    if (buffer->drain && buffer->room - buffer->length <= more)
        empty(buffer);
    if (buffer->room - buffer->length > more)
        return;
    size_t room = buffer->room ? buffer->room : 256;
    while (room - buffer->length <= more && room < SIZE_MAX / 4)
        room *= 2;
    if (room - buffer->length <= more)
        fatal_no_memory();
    buffer->bytes = heap_resize(buffer->bytes, room, 1);
    buffer->room = room;
}

void buffer_drain(struct buffer *buffer, const struct sink *sink)
{
    buffer_reserve(buffer, DRAINED_ROOM);
    buffer->drain = sink;
}

void buffer_end_drain(struct buffer *buffer)
{
    empty(buffer);
    buffer->drain = NULL;
}

void buffer_add(struct buffer *buffer, const void *bytes, size_t length)
{
    buffer_reserve(buffer, length);
    if (length)
        memcpy(buffer->bytes + buffer->length, bytes, length);
    buffer_added(buffer, length);
}

void buffer_added(struct buffer *buffer, size_t length)
{
    buffer->length += length;
    buffer->bytes[buffer->length] = '\0';
}

void buffer_text(struct buffer *buffer, const char *text)
{
    buffer_add(buffer, text, strlen(text));
}

void buffer_vprint(struct buffer *buffer, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    buffer_reserve(buffer, USUAL_PRINT);
    size_t room = buffer->room - buffer->length;
    int length = vsnprintf(buffer->bytes + buffer->length, room, format, args);
    if (length < 0)
        fatal_no_memory();
    if ((size_t)length >= room) {
        buffer_reserve(buffer, (size_t)length);
        vsnprintf(buffer->bytes + buffer->length, (size_t)length + 1, format, again);
    }
    buffer->length += (size_t)length;
    va_end(again);
}

void buffer_print(struct buffer *buffer, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    buffer_vprint(buffer, format, args);
    va_end(args);
}

static void append(void *buffer, const void *bytes, size_t length)
{
    buffer_add(buffer, bytes, length);
}

struct sink sink_of_buffer(struct buffer *buffer)
{
    return (struct sink){append, buffer};
}
