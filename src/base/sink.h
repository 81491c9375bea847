/* Where the bytes of a file go, piece by piece. */
#ifndef BASE_SINK_H
#define BASE_SINK_H

#include <stddef.h>

struct sink {
    void (*take)(void *with, const void *bytes, size_t length);
    void *with; /* not owned */
};

#endif
