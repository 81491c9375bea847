/* A growing run of bytes, for building outputs. Starts as {0}; always followed
 * by a NUL once anything is in it. Running out of memory ends the program. */
#ifndef BASE_BUFFER_H
#define BASE_BUFFER_H

#include <stdarg.h>
#include <stddef.h>

struct sink;

struct buffer {
    char *bytes;
    size_t length;
    size_t room;
    const struct sink *drain; /* NULL, or where the bytes go when there is no more room */
};

void buffer_free(struct buffer *buffer); /* leaves it empty, as {0} */

/* From here on what the buffer holds goes to the sink whenever it is full. */
void buffer_drain(struct buffer *buffer, const struct sink *sink);

/* Hands the rest to the buffer's sink, which it then has no more. */
void buffer_end_drain(struct buffer *buffer);
void buffer_add(struct buffer *buffer, const void *bytes, size_t length);

/* Room for so many bytes more, for others to write at bytes + length; then how many they
 * wrote. */
void buffer_reserve(struct buffer *buffer, size_t more);
void buffer_added(struct buffer *buffer, size_t length);
void buffer_text(struct buffer *buffer, const char *text);
void buffer_print(struct buffer *buffer, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void buffer_vprint(struct buffer *buffer, const char *format, va_list args);

/* Where the bytes of a file go, piece by piece. */

struct sink {
    void (*take)(void *with, const void *bytes, size_t length);
    void *with; /* not owned */
};

/* A sink that appends to a buffer. */
struct sink sink_of_buffer(struct buffer *buffer);

#endif
