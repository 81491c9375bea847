/* Where the bytes of a file go, piece by piece. */
#ifndef BASE_SINK_H
#define BASE_SINK_H

#include "base/buffer.h"

struct sink {
    void (*take)(void *with, const void *bytes, size_t length);
    void *with; /* not owned */
};

/* A sink that appends to a buffer. */
struct sink sink_of_buffer(struct buffer *buffer);

#endif
