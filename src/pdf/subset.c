/* TrueType files, as the OpenType specification lays them out: a header of 12 bytes, for each
 * table an entry of 16 (tag, checksum, offset, length), then the tables, each filled up to
 * whole words of 4 bytes. Numbers stand high byte first. */
#include "pdf/subset.h"

#include "base/fatal.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* ---- tables in a file ---- */

enum { HEADER = 12, ENTRY = 16, ADJUSTMENT = 8 /* where it stands in the head table */ };

/* A piece of a table; one that is not within it ends the program: the file contradicts
 * itself. */
static struct font_bytes slice(struct font_bytes table, size_t from, size_t length)
{
    if (from > table.length || length > table.length - from)
        fatal("a font is shorter than it says; install the font package again");
    return (struct font_bytes){table.bytes + from, length};
}

/* Numbers at a place in a table, high byte first. */
static unsigned get16(struct font_bytes table, size_t at)
{
    const unsigned char *bytes = slice(table, at, 2).bytes;
    return (unsigned)bytes[0] << 8 | bytes[1];
}

static uint32_t get32(struct font_bytes table, size_t at)
{
    return (uint32_t)get16(table, at) << 16 | get16(table, at + 2);
}

static void put16(unsigned char *at, unsigned value)
{
    at[0] = (unsigned char)(value >> 8);
    at[1] = (unsigned char)value;
}

static void add16(struct buffer *out, unsigned value)
{
    unsigned char bytes[2];
    put16(bytes, value);
    buffer_add(out, bytes, sizeof bytes);
}

static void add32(struct buffer *out, uint32_t value)
{
    add16(out, value >> 16);
    add16(out, value & 0xFFFF);
}

/* Bytes that are missing to whole words. */
static size_t padding(size_t length)
{
    return (4 - length % 4) % 4;
}

static void add_padded(struct buffer *out, struct font_bytes table)
{
    buffer_add(out, table.bytes, table.length);
    buffer_add(out, "\0\0\0", padding(table.length));
}

/* The table of that tag; empty where the font has none. */
static struct font_bytes find(struct font_bytes font, const char *tag)
{
    size_t count = get16(font, 4);
    for (size_t i = 0; i < count; i++) {
        struct font_bytes entry = slice(font, HEADER + i * ENTRY, ENTRY);
        if (memcmp(entry.bytes, tag, 4) == 0)
            return slice(font, get32(entry, 8), get32(entry, 12));
    }
    return (struct font_bytes){NULL, 0};
}

struct table {
    const char *tag; /* four signs */
    struct font_bytes content;
};

static struct font_bytes bytes_of(const struct buffer *buffer)
{
    return (struct font_bytes){(const unsigned char *)buffer->bytes, buffer->length};
}

/* The checksum: of whole words, as if it were filled up. */
static uint32_t sum(struct font_bytes table)
{
    uint32_t total = 0;
    for (size_t i = 0; i < table.length; i++)
        total += (uint32_t)table.bytes[i] << (24 - 8 * (i % 4));
    return total;
}

/* The font file of these tables, which are in the order of their tags, into an empty buffer.
 * Empty tables are left out. The adjustment in the head table is 0 so far. */
static void write_file(struct buffer *out, const struct table *tables, size_t count)
{
    size_t kept = 0, head = 0;
    for (size_t i = 0; i < count; i++)
        kept += tables[i].content.length > 0;
    unsigned power = 1, exponent = 0; /* the largest power of two that is no more */
    for (; (size_t)power * 2 <= kept; power *= 2)
        exponent++;
    add32(out, 0x00010000); /* TrueType outlines */
    add16(out, (unsigned)kept);
    add16(out, power * ENTRY);
    add16(out, exponent);
    add16(out, (unsigned)(kept - power) * ENTRY);
    for (size_t i = 0, offset = HEADER + kept * ENTRY; i < count; i++) {
        struct font_bytes content = tables[i].content;
        if (content.length == 0)
            continue;
        buffer_add(out, tables[i].tag, 4);
        add32(out, sum(content));
        add32(out, (uint32_t)offset);
        add32(out, (uint32_t)content.length);
        if (memcmp(tables[i].tag, "head", 4) == 0)
            head = offset;
        offset += content.length + padding(content.length);
    }
    for (size_t i = 0; i < count; i++)
        add_padded(out, tables[i].content);
    /* The sum over the whole file, with this word in it, is a constant. */
    uint32_t adjustment = 0xB1B0AFBAu - sum(bytes_of(out));
    unsigned char *at = (unsigned char *)out->bytes + head + ADJUSTMENT;
    put16(at, adjustment >> 16);
    put16(at + 2, adjustment & 0xFFFF);
}

/* ---- the subset ---- */

struct subset {
    struct arena *arena;
    struct font_bytes font, glyf, loca, hmtx;
    bool long_places;    /* loca holds 32 bits a glyph, not 16 */
    size_t full_metrics; /* how many glyphs have an advance of their own in hmtx */
    unsigned *numbers;   /* by glyph: its number in the subset; 0: not in it */
    size_t glyph_count;
    unsigned *glyphs; /* by number in the subset */
    size_t count;
};

/* Where in these tables a number stands. */
enum {
    HEAD_PLACES = 50, /* 0: loca holds half the place in 16 bits; 1: all of it in 32 */
    HHEA_METRICS = 34,
    MAXP_GLYPHS = 4
};

struct subset *subset_new(struct arena *arena, struct font_bytes font)
{
    struct subset *subset = arena_get(arena, sizeof *subset);
    *subset = (struct subset){.arena = arena,
                              .font = font,
                              .glyf = find(font, "glyf"),
                              .loca = find(font, "loca"),
                              .hmtx = find(font, "hmtx")};
    subset->long_places = get16(find(font, "head"), HEAD_PLACES) != 0;
    subset->full_metrics = get16(find(font, "hhea"), HHEA_METRICS);
    subset->glyph_count = get16(find(font, "maxp"), MAXP_GLYPHS);
    subset->numbers = arena_get(arena, subset->glyph_count * sizeof *subset->numbers);
    *ARENA_PUSH(arena, subset->glyphs, subset->count) = 0;
    return subset;
}

unsigned subset_take(struct subset *subset, unsigned glyph)
{
    if (glyph >= subset->glyph_count)
        fatal("a font has no glyph %u; install the font package again", glyph);
    if (glyph == 0 || subset->numbers[glyph])
        return subset->numbers[glyph];
    subset->numbers[glyph] = (unsigned)subset->count;
    *ARENA_PUSH(subset->arena, subset->glyphs, subset->count) = glyph;
    return subset->numbers[glyph];
}

static size_t place_of(const struct subset *subset, size_t glyph)
{
    return subset->long_places ? get32(subset->loca, glyph * 4)
                               : (size_t)get16(subset->loca, glyph * 2) * 2;
}

/* Empty for one without an outline: a space. */
static struct font_bytes outline_of(const struct subset *subset, size_t glyph)
{
    size_t from = place_of(subset, glyph), to = place_of(subset, glyph + 1);
    return slice(subset->glyf, from, to < from ? 0 : to - from);
}

/* ---- glyphs that are put together from others ---- */

enum {
    GLYPH_HEADER = 10, /* bytes: count of contours, then a box */
    PARTS = 0xFFFF,    /* stands for the count where the glyph has parts */
    WIDE_PLACE = 0x0001,
    ONE_SCALE = 0x0008,
    MORE_PARTS = 0x0020,
    TWO_SCALES = 0x0040,
    MATRIX = 0x0080
};

/* Where in an outline its first part stands: flags, then a glyph; 0 where it has no
 * parts. */
static size_t first_part(struct font_bytes outline)
{
    return outline.length && get16(outline, 0) == PARTS ? GLYPH_HEADER : 0;
}

/* 0 behind the last. */
static size_t next_part(struct font_bytes outline, size_t at)
{
    unsigned flags = get16(outline, at);
    if (!(flags & MORE_PARTS))
        return 0;
    at += flags & WIDE_PLACE ? 8 : 6;
    if (flags & ONE_SCALE)
        return at + 2;
    if (flags & TWO_SCALES)
        return at + 4;
    return flags & MATRIX ? at + 8 : at;
}

/* ---- tables made anew ---- */

/* Its parts are taken in: they come behind those that are there, with parts of their own. */
static void add_outline(struct subset *subset, struct buffer *glyf, struct font_bytes outline)
{
    size_t start = glyf->length;
    add_padded(glyf, outline);
    for (size_t at = first_part(outline); at; at = next_part(outline, at))
        put16((unsigned char *)glyf->bytes + start + at + 2,
              subset_take(subset, get16(outline, at + 2)));
}

/* First four bytes a glyph: advance and bearing; then, with the last advance, two:
 * bearing alone. */
static void add_metrics(const struct subset *subset, struct buffer *hmtx, size_t glyph)
{
    size_t full = subset->full_metrics;
    size_t advance = glyph < full ? glyph : full - 1;
    size_t bearing = glyph < full ? glyph * 4 + 2 : full * 4 + (glyph - full) * 2;
    buffer_add(hmtx, slice(subset->hmtx, advance * 4, 2).bytes, 2);
    buffer_add(hmtx, slice(subset->hmtx, bearing, 2).bytes, 2);
}

/* A copy of a table with one number of it changed. */
static struct font_bytes changed(const struct subset *subset, const char *tag, size_t at,
                                 size_t value)
{
    struct font_bytes table = find(subset->font, tag);
    slice(table, at, 2);
    unsigned char *bytes = arena_get(subset->arena, table.length);
    memcpy(bytes, table.bytes, table.length);
    put16(bytes + at, (unsigned)value);
    return (struct font_bytes){bytes, table.length};
}

/* The head table: places of 32 bits in loca, and no adjustment yet. */
static struct font_bytes new_head(const struct subset *subset)
{
    struct font_bytes table = changed(subset, "head", HEAD_PLACES, 1);
    memset((unsigned char *)table.bytes + ADJUSTMENT, 0, 4);
    return table;
}

void subset_write(struct subset *subset, struct buffer *out)
{
    struct buffer glyf = {0}, loca = {0}, hmtx = {0};
    for (size_t i = 0; i < subset->count; i++) {
        add32(&loca, (uint32_t)glyf.length);
        add_outline(subset, &glyf, outline_of(subset, subset->glyphs[i]));
        add_metrics(subset, &hmtx, subset->glyphs[i]);
    }
    add32(&loca, (uint32_t)glyf.length);
    const struct table tables[] = {
        {"cvt ", find(subset->font, "cvt ")},
        {"fpgm", find(subset->font, "fpgm")},
        {"glyf", bytes_of(&glyf)},
        {"head", new_head(subset)},
        {"hhea", changed(subset, "hhea", HHEA_METRICS, subset->count)},
        {"hmtx", bytes_of(&hmtx)},
        {"loca", bytes_of(&loca)},
        {"maxp", changed(subset, "maxp", MAXP_GLYPHS, subset->count)},
        {"prep", find(subset->font, "prep")}};
    write_file(out, tables, sizeof tables / sizeof tables[0]);
    buffer_free(&glyf);
    buffer_free(&loca);
    buffer_free(&hmtx);
}
