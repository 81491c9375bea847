/* The tables are as the OpenType specification lays them out. */
#include "paint/pdf_subset.h"

#include "base/fatal.h"

#include <stdbool.h>
#include <string.h>

struct subset {
    struct arena *arena;
    struct sfnt_bytes font, glyf, loca, hmtx;
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

struct subset *subset_new(struct arena *arena, struct sfnt_bytes font)
{
    struct subset *subset = arena_get(arena, sizeof *subset);
    *subset = (struct subset){.arena = arena,
                              .font = font,
                              .glyf = sfnt_find(font, "glyf"),
                              .loca = sfnt_find(font, "loca"),
                              .hmtx = sfnt_find(font, "hmtx")};
    subset->long_places = sfnt_get16(sfnt_find(font, "head"), HEAD_PLACES) != 0;
    subset->full_metrics = sfnt_get16(sfnt_find(font, "hhea"), HHEA_METRICS);
    subset->glyph_count = sfnt_get16(sfnt_find(font, "maxp"), MAXP_GLYPHS);
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
    return subset->long_places ? sfnt_get32(subset->loca, glyph * 4)
                               : (size_t)sfnt_get16(subset->loca, glyph * 2) * 2;
}

/* Empty for one without an outline: a space. */
static struct sfnt_bytes outline_of(const struct subset *subset, size_t glyph)
{
    size_t from = place_of(subset, glyph), to = place_of(subset, glyph + 1);
    return sfnt_slice(subset->glyf, from, to < from ? 0 : to - from);
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
static size_t first_part(struct sfnt_bytes outline)
{
    return outline.length && sfnt_get16(outline, 0) == PARTS ? GLYPH_HEADER : 0;
}

/* 0 behind the last. */
static size_t next_part(struct sfnt_bytes outline, size_t at)
{
    unsigned flags = sfnt_get16(outline, at);
    if (!(flags & MORE_PARTS))
        return 0;
    at += flags & WIDE_PLACE ? 8 : 6;
    if (flags & ONE_SCALE)
        return at + 2;
    if (flags & TWO_SCALES)
        return at + 4;
    return flags & MATRIX ? at + 8 : at;
}

/* Parts of parts too: they come behind those that are there. */
static void take_parts(struct subset *subset)
{
    for (size_t i = 0; i < subset->count; i++) {
        struct sfnt_bytes outline = outline_of(subset, subset->glyphs[i]);
        for (size_t at = first_part(outline); at; at = next_part(outline, at))
            subset_take(subset, sfnt_get16(outline, at + 2));
    }
}

/* ---- tables made anew ---- */

static void add_outline(const struct subset *subset, struct buffer *glyf,
                        struct sfnt_bytes outline)
{
    size_t start = glyf->length;
    buffer_add(glyf, outline.bytes, outline.length);
    for (size_t at = first_part(outline); at; at = next_part(outline, at))
        sfnt_put16((unsigned char *)glyf->bytes + start + at + 2,
                   subset->numbers[sfnt_get16(outline, at + 2)]);
    buffer_add(glyf, "\0\0\0", (4 - outline.length % 4) % 4);
}

static void add_place(struct buffer *loca, size_t place)
{
    unsigned char bytes[4];
    sfnt_put32(bytes, (uint32_t)place);
    buffer_add(loca, bytes, sizeof bytes);
}

/* First four bytes a glyph: advance and bearing; then, with the last advance, two:
 * bearing alone. */
static void add_metrics(const struct subset *subset, struct buffer *hmtx, size_t glyph)
{
    size_t full = subset->full_metrics;
    size_t advance = glyph < full ? glyph : full - 1;
    size_t bearing = glyph < full ? glyph * 4 + 2 : full * 4 + (glyph - full) * 2;
    buffer_add(hmtx, sfnt_slice(subset->hmtx, advance * 4, 2).bytes, 2);
    buffer_add(hmtx, sfnt_slice(subset->hmtx, bearing, 2).bytes, 2);
}

/* A table with one number of it changed. */
static struct sfnt_bytes changed(const struct subset *subset, const char *tag, size_t at,
                                 size_t value)
{
    struct sfnt_bytes table = sfnt_find(subset->font, tag);
    sfnt_slice(table, at, 2);
    unsigned char *bytes = arena_get(subset->arena, table.length);
    memcpy(bytes, table.bytes, table.length);
    sfnt_put16(bytes + at, (unsigned)value);
    return (struct sfnt_bytes){bytes, table.length};
}

static struct sfnt_bytes bytes_of(const struct buffer *buffer)
{
    return (struct sfnt_bytes){(const unsigned char *)buffer->bytes, buffer->length};
}

void subset_write(struct subset *subset, struct buffer *out)
{
    struct buffer glyf = {0}, loca = {0}, hmtx = {0};
    take_parts(subset);
    for (size_t i = 0; i < subset->count; i++) {
        add_place(&loca, glyf.length);
        add_outline(subset, &glyf, outline_of(subset, subset->glyphs[i]));
        add_metrics(subset, &hmtx, subset->glyphs[i]);
    }
    add_place(&loca, glyf.length);
    const struct sfnt_table tables[] = {
        {"cvt ", sfnt_find(subset->font, "cvt ")},
        {"fpgm", sfnt_find(subset->font, "fpgm")},
        {"glyf", bytes_of(&glyf)},
        {"head", changed(subset, "head", HEAD_PLACES, 1)},
        {"hhea", changed(subset, "hhea", HHEA_METRICS, subset->count)},
        {"hmtx", bytes_of(&hmtx)},
        {"loca", bytes_of(&loca)},
        {"maxp", changed(subset, "maxp", MAXP_GLYPHS, subset->count)},
        {"prep", sfnt_find(subset->font, "prep")}};
    sfnt_write(out, tables, sizeof tables / sizeof tables[0]);
    buffer_free(&glyf);
    buffer_free(&loca);
    buffer_free(&hmtx);
}
