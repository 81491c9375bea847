/* The layout is that of the OpenType specification: a header of 12 bytes, for each
 * table an entry of 16 (tag, checksum, offset, length), then the tables. */
#include "paint/pdf_sfnt.h"

#include "base/fatal.h"

#include <string.h>

enum { HEADER = 12, ENTRY = 16, ADJUSTMENT = 8 /* where it stands in the head table */ };

struct sfnt_bytes sfnt_slice(struct sfnt_bytes table, size_t from, size_t length)
{
    if (from > table.length || length > table.length - from)
        fatal("a font is shorter than it says; install the font package again");
    return (struct sfnt_bytes){table.bytes + from, length};
}

unsigned sfnt_get16(struct sfnt_bytes table, size_t at)
{
    const unsigned char *bytes = sfnt_slice(table, at, 2).bytes;
    return (unsigned)bytes[0] << 8 | bytes[1];
}

uint32_t sfnt_get32(struct sfnt_bytes table, size_t at)
{
    return (uint32_t)sfnt_get16(table, at) << 16 | sfnt_get16(table, at + 2);
}

void sfnt_put16(unsigned char *at, unsigned value)
{
    at[0] = (unsigned char)(value >> 8);
    at[1] = (unsigned char)value;
}

void sfnt_put32(unsigned char *at, uint32_t value)
{
    sfnt_put16(at, value >> 16);
    sfnt_put16(at + 2, value & 0xFFFF);
}

struct sfnt_bytes sfnt_find(struct sfnt_bytes font, const char *tag)
{
    size_t count = sfnt_get16(font, 4);
    for (size_t i = 0; i < count; i++) {
        struct sfnt_bytes entry = sfnt_slice(font, HEADER + i * ENTRY, ENTRY);
        if (memcmp(entry.bytes, tag, 4) == 0)
            return sfnt_slice(font, sfnt_get32(entry, 8), sfnt_get32(entry, 12));
    }
    return (struct sfnt_bytes){NULL, 0};
}

/* Of whole words. */
static uint32_t sum(const unsigned char *bytes, size_t length)
{
    uint32_t total = 0;
    for (size_t i = 0; i < length; i += 4)
        total += (uint32_t)bytes[i] << 24 | (uint32_t)bytes[i + 1] << 16 |
                 (uint32_t)bytes[i + 2] << 8 | bytes[i + 3];
    return total;
}

static void put_header(unsigned char *at, size_t count)
{
    unsigned power = 1, exponent = 0;
    for (; (size_t)power * 2 <= count; power *= 2)
        exponent++;
    sfnt_put32(at, 0x00010000); /* TrueType outlines */
    sfnt_put16(at + 4, (unsigned)count);
    sfnt_put16(at + 6, power * ENTRY);
    sfnt_put16(at + 8, exponent);
    sfnt_put16(at + 10, (unsigned)(count - power) * ENTRY);
}

/* Appends a table, filled up to whole words, and makes its entry; gives where in the
 * file it stands. */
static size_t add_table(struct buffer *out, size_t start, size_t place,
                        const struct sfnt_table *table)
{
    size_t offset = out->length;
    buffer_add(out, table->content.bytes, table->content.length);
    buffer_add(out, "\0\0\0", (4 - table->content.length % 4) % 4);
    unsigned char *bytes = (unsigned char *)out->bytes;
    if (memcmp(table->tag, "head", 4) == 0)
        sfnt_put32(bytes + offset + ADJUSTMENT, 0);
    unsigned char *entry = bytes + start + HEADER + place * ENTRY;
    memcpy(entry, table->tag, 4);
    sfnt_put32(entry + 4, sum(bytes + offset, out->length - offset));
    sfnt_put32(entry + 8, (uint32_t)(offset - start));
    sfnt_put32(entry + 12, (uint32_t)table->content.length);
    return offset;
}

void sfnt_write(struct buffer *out, const struct sfnt_table *tables, size_t count)
{
    static const char blank[ENTRY];
    size_t start = out->length, kept = 0, head = 0;
    for (size_t i = 0; i < count; i++)
        kept += tables[i].content.length > 0;
    buffer_add(out, blank, HEADER);
    put_header((unsigned char *)out->bytes + start, kept);
    for (size_t i = 0; i < kept; i++)
        buffer_add(out, blank, ENTRY);
    for (size_t i = 0, place = 0; i < count; i++) {
        if (tables[i].content.length == 0)
            continue;
        size_t offset = add_table(out, start, place++, &tables[i]);
        if (memcmp(tables[i].tag, "head", 4) == 0)
            head = offset;
    }
    /* The sum over the whole file, with this word in it, is a constant. */
    unsigned char *bytes = (unsigned char *)out->bytes;
    if (head)
        sfnt_put32(bytes + head + ADJUSTMENT,
                   0xB1B0AFBAu - sum(bytes + start, out->length - start));
}
