/* Packing by zlib: the engine of the bench page is made without it. */
#include "base/fatal.h"
#include "drum/drum.h"

#include <zlib.h>

void drum_deflate(struct buffer *out, const void *bytes, size_t length)
{
    enum { RAW = -15, MEMORY = 8 };
    z_stream stream = {0};
    if (deflateInit2(&stream, 6, Z_DEFLATED, RAW, MEMORY, Z_DEFAULT_STRATEGY) != Z_OK)
        fatal_no_memory();
    size_t most = deflateBound(&stream, (uLong)length);
    buffer_reserve(out, most);
    stream.next_in = (Bytef *)bytes; /* zlib reads it only */
    stream.avail_in = (uInt)length;
    stream.next_out = (Bytef *)out->bytes + out->length;
    stream.avail_out = (uInt)most;
    if (deflate(&stream, Z_FINISH) != Z_STREAM_END)
        fatal("packing a file of %zu bytes failed", length);
    buffer_added(out, stream.total_out);
    deflateEnd(&stream);
}
