/* The layout is that of the OpenType specification: a header of 12 bytes, for each
 * table an entry of 16 (tag, checksum, offset, length), then the tables. */
#include "paint/pdf_sfnt.h"

#include "base/fatal.h"

#include <stdint.h>
#include <string.h>

enum { HEADER = 12, ENTRY = 16, ADJUSTMENT = 8 /* where it stands in the head table */ };

/* Names, code tables and glyph names are for programs that install fonts. */
static const char wanted[][5] = {"cvt ", "fpgm", "glyf", "head", "hhea",
                                 "hmtx", "loca", "maxp", "prep"};
enum { WANTED = sizeof wanted / sizeof *wanted };

static uint32_t get32(const unsigned char *at)
{
    return (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
}

static void put32(unsigned char *at, uint32_t value)
{
    for (int i = 0; i < 4; i++)
        at[i] = (unsigned char)(value >> (24 - 8 * i));
}

static void put16(unsigned char *at, unsigned value)
{
    at[0] = (unsigned char)(value >> 8);
    at[1] = (unsigned char)value;
}

static const unsigned char *find_entry(const struct sfnt *font, const char *tag)
{
    size_t count = font->length < HEADER ? 0 : (size_t)font->bytes[4] << 8 | font->bytes[5];
    if (HEADER + count * ENTRY > font->length)
        fatal("a font is shorter than it says; install the font package again");
    for (size_t i = 0; i < count; i++) {
        const unsigned char *entry = font->bytes + HEADER + i * ENTRY;
        if (memcmp(entry, tag, 4) != 0)
            continue;
        if (get32(entry + 8) > font->length ||
            get32(entry + 12) > font->length - get32(entry + 8))
            fatal("a font is shorter than it says; install the font package again");
        return entry;
    }
    return NULL;
}

static uint32_t sum(const unsigned char *bytes, size_t length)
{
    uint32_t total = 0;
    for (size_t i = 0; i + 4 <= length; i += 4)
        total += get32(bytes + i);
    return total;
}

/* First four bytes a glyph: advance and bearing; then two: bearing alone. */
static void clear_metrics(unsigned char *table, size_t length, const struct sfnt *font)
{
    size_t at = 0;
    for (size_t glyph = 0; glyph < font->glyph_count; glyph++) {
        size_t width = glyph < font->full_metrics ? 4 : 2;
        if (at + width > length)
            return;
        if (!font->kept[glyph])
            memset(table + at, 0, width);
        at += width;
    }
}

/* Appends a table, filled up to whole words, and makes its entry. */
static void add_table(struct buffer *out, size_t start, size_t place, const struct sfnt *font,
                      const unsigned char *from)
{
    size_t length = get32(from + 12), offset = out->length;
    buffer_add(out, font->bytes + get32(from + 8), length);
    buffer_add(out, "\0\0\0", (4 - length % 4) % 4);
    unsigned char *table = (unsigned char *)out->bytes + offset;
    if (memcmp(from, "hmtx", 4) == 0)
        clear_metrics(table, length, font);
    if (memcmp(from, "head", 4) == 0 && length >= ADJUSTMENT + 4)
        put32(table + ADJUSTMENT, 0);
    unsigned char *entry = (unsigned char *)out->bytes + start + HEADER + place * ENTRY;
    memcpy(entry, from, 4);
    put32(entry + 4, sum(table, out->length - offset));
    put32(entry + 8, (uint32_t)(offset - start));
    put32(entry + 12, (uint32_t)length);
}

static void put_header(unsigned char *at, size_t count)
{
    unsigned power = 1, exponent = 0;
    for (; power * 2 <= count; power *= 2)
        exponent++;
    put32(at, 0x00010000); /* TrueType outlines */
    put16(at + 4, (unsigned)count);
    put16(at + 6, power * ENTRY);
    put16(at + 8, exponent);
    put16(at + 10, (unsigned)(count - power) * ENTRY);
}

/* The sum over the whole file, with this word in it, is a constant. */
static void adjust_checksum(struct buffer *out, size_t start)
{
    unsigned char *bytes = (unsigned char *)out->bytes + start;
    struct sfnt made = {.bytes = bytes, .length = out->length - start};
    const unsigned char *head = find_entry(&made, "head");
    if (head && get32(head + 12) >= ADJUSTMENT + 4)
        put32(bytes + get32(head + 8) + ADJUSTMENT, 0xB1B0AFBAu - sum(bytes, made.length));
}

void sfnt_trim(struct buffer *out, const struct sfnt *font)
{
    const unsigned char *entries[WANTED];
    static const char blank[HEADER + WANTED * ENTRY];
    size_t count = 0, start = out->length;
    for (size_t i = 0; i < WANTED; i++)
        if ((entries[count] = find_entry(font, wanted[i])) != NULL)
            count++;
    buffer_add(out, blank, HEADER + count * ENTRY);
    put_header((unsigned char *)out->bytes + start, count);
    for (size_t i = 0; i < count; i++)
        add_table(out, start, i, font, entries[i]);
    adjust_checksum(out, start);
}
