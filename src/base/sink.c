#include "base/sink.h"

static void append(void *buffer, const void *bytes, size_t length)
{
    buffer_add(buffer, bytes, length);
}

struct sink sink_of_buffer(struct buffer *buffer)
{
    return (struct sink){append, buffer};
}
