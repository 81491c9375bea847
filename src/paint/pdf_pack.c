#include "paint/pdf_pack.h"

#include "base/fatal.h"
#include "base/memory.h"

#include <stdlib.h>
#include <zlib.h>

struct packer {
    z_stream stream;
};

/* Of zlib's nine. The usual one takes half as long again, for streams that are 6 in 100
 * shorter. */
enum { LEVEL = 3 };

struct packer *packer_new(void)
{
    struct packer *packer = heap_get(sizeof *packer);
    if (deflateInit(&packer->stream, LEVEL) != Z_OK)
        fatal_no_memory();
    return packer;
}

void packer_free(struct packer *packer)
{
    deflateEnd(&packer->stream);
    free(packer);
}

void packer_add(struct packer *packer, struct buffer *out, const void *bytes, size_t length)
{
    z_stream *stream = &packer->stream;
    deflateReset(stream);
    buffer_reserve(out, deflateBound(stream, length));
    stream->next_in = (z_const Bytef *)bytes;
    stream->avail_in = (uInt)length;
    stream->next_out = (Bytef *)out->bytes + out->length;
    stream->avail_out = (uInt)(out->room - out->length);
    if (deflate(stream, Z_FINISH) != Z_STREAM_END)
        fatal("zlib cannot pack %zu bytes; this is a fault of the program", length);
    buffer_added(out, stream->total_out);
}
