/* A solid as 3MF: a ZIP of three parts, of which one is the model in XML. Sources: 3MF Core
 * Specification 1.4; Open Packaging Conventions (ECMA-376 part 2) for the other two parts; ZIP,
 * .ZIP File Format Specification (APPNOTE). */
#include "drum/drum.h"

#include <inttypes.h>
#include <string.h>

/* ---- the parts ---- */

static const char types[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">\n"
    "<Default Extension=\"rels\" "
    "ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\n"
    "<Default Extension=\"model\" "
    "ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/>\n"
    "</Types>\n";

static const char relations[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
    "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">\n"
    "<Relationship Target=\"/3D/3dmodel.model\" Id=\"rel0\" "
    "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/>\n"
    "</Relationships>\n";

/* Millimetres, of which the lattice has four digits behind the point; no zeros at the end. */
static void put_length(struct buffer *out, const char *before, int64_t lattice)
{
    int64_t size = lattice < 0 ? -lattice : lattice, part = size % 10000;
    int digits = 4;
    for (; digits > 0 && part % 10 == 0; digits--)
        part /= 10;
    buffer_print(out, "%s%s%" PRId64, before, lattice < 0 ? "-" : "", size / 10000);
    if (digits)
        buffer_print(out, ".%0*" PRId64, digits, part);
}

static void put_name(struct buffer *out, const char *name)
{
    for (; *name; name++)
        if (strchr("&<>\"", *name))
            buffer_print(out, "&#%d;", *name);
        else
            buffer_add(out, name, 1);
}

static void put_model(struct buffer *out, const struct mesh *mesh, const char *name)
{
    static const char *const axes[] = {"<vertex x=\"", "\" y=\"", "\" z=\""};
    buffer_text(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<model unit=\"millimeter\" xml:lang=\"en-GB\" "
                     "xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n"
                     "<metadata name=\"Title\">");
    put_name(out, name);
    buffer_text(out, "</metadata>\n<resources>\n<object id=\"1\" type=\"model\" name=\"");
    put_name(out, name);
    buffer_text(out, "\">\n<mesh>\n<vertices>\n");
    for (size_t i = 0; i < mesh->point_count; i++) {
        for (int axis = 0; axis < 3; axis++)
            put_length(out, axes[axis], mesh->points[i].at[axis]);
        buffer_text(out, "\"/>\n");
    }
    buffer_text(out, "</vertices>\n<triangles>\n");
    for (size_t i = 0; i < mesh->triangle_count; i++) {
        const uint32_t *corner = mesh->triangles[i].corner;
        buffer_print(out,
                     "<triangle v1=\"%" PRIu32 "\" v2=\"%" PRIu32 "\" v3=\"%" PRIu32 "\"/>\n",
                     corner[0], corner[1], corner[2]);
    }
    buffer_text(out, "</triangles>\n</mesh>\n</object>\n</resources>\n"
                     "<build>\n<item objectid=\"1\"/>\n</build>\n</model>\n");
}

/* ---- the package ---- */

enum { PARTS = 3, STORED = 0, DEFLATED = 8, ZIP_VERSION = 20 };

/* 1 January 1980, the first that there is: no clock is asked. */
enum { ZIP_TIME = 0, ZIP_DATE = 1 << 5 | 1 };

struct part {
    const char *name;
    uint32_t check, packed, length, offset;
    int method;
};

static void put_bytes(struct buffer *out, uint32_t number, int bytes)
{
    for (; bytes > 0; bytes--, number >>= 8) {
        unsigned char byte = number & 255;
        buffer_add(out, &byte, 1);
    }
}

/* CRC-32 as ZIP has it: polynomial 0xedb88320, bits reversed. */
static uint32_t check_of(const char *bytes, size_t length)
{
    uint32_t table[256], check = UINT32_MAX;
    for (uint32_t i = 0; i < 256; i++) {
        table[i] = i;
        for (int bit = 0; bit < 8; bit++)
            table[i] = table[i] >> 1 ^ (table[i] & 1 ? 0xedb88320 : 0);
    }
    for (size_t i = 0; i < length; i++)
        check = check >> 8 ^ table[(check ^ (unsigned char)bytes[i]) & 255];
    return ~check;
}

/* What a part's head and its line of the directory have in common. */
static void put_part(struct buffer *out, const struct part *part)
{
    put_bytes(out, ZIP_VERSION, 2);
    put_bytes(out, 0, 2);
    put_bytes(out, (uint32_t)part->method, 2);
    put_bytes(out, ZIP_TIME, 2);
    put_bytes(out, ZIP_DATE, 2);
    put_bytes(out, part->check, 4);
    put_bytes(out, part->packed, 4);
    put_bytes(out, part->length, 4);
    put_bytes(out, (uint32_t)strlen(part->name), 2);
    put_bytes(out, 0, 2);
}

static void add_part(struct buffer *out, struct part *part, const char *bytes, size_t length,
                     drum_pack *pack)
{
    struct buffer packed = {0};
    if (pack)
        pack(&packed, bytes, length);
    else
        buffer_add(&packed, bytes, length);
    part->check = check_of(bytes, length);
    part->packed = (uint32_t)packed.length;
    part->length = (uint32_t)length;
    part->offset = (uint32_t)out->length;
    part->method = pack ? DEFLATED : STORED;
    buffer_add(out, "PK\3\4", 4);
    put_part(out, part);
    buffer_text(out, part->name);
    buffer_add(out, packed.bytes, packed.length);
    buffer_free(&packed);
}

static void put_directory(struct buffer *out, const struct part *parts)
{
    size_t begin = out->length;
    for (int i = 0; i < PARTS; i++) {
        buffer_add(out, "PK\1\2", 4);
        put_bytes(out, ZIP_VERSION, 2);
        put_part(out, &parts[i]);
        put_bytes(out, 0, 4); /* no comment, first disk */
        put_bytes(out, 0, 2);
        put_bytes(out, 0, 4);
        put_bytes(out, parts[i].offset, 4);
        buffer_text(out, parts[i].name);
    }
    size_t length = out->length - begin;
    buffer_add(out, "PK\5\6", 4);
    put_bytes(out, 0, 4);
    put_bytes(out, PARTS, 2);
    put_bytes(out, PARTS, 2);
    put_bytes(out, (uint32_t)length, 4);
    put_bytes(out, (uint32_t)begin, 4);
    put_bytes(out, 0, 2);
}

void drum_write_3mf(struct buffer *out, const struct mesh *mesh, const char *name,
                    drum_pack *pack)
{
    struct part parts[PARTS] = {
        {.name = "[Content_Types].xml"}, {.name = "_rels/.rels"}, {.name = "3D/3dmodel.model"}};
    struct buffer model = {0};
    put_model(&model, mesh, name);
    add_part(out, &parts[0], types, strlen(types), pack);
    add_part(out, &parts[1], relations, strlen(relations), pack);
    add_part(out, &parts[2], model.bytes, model.length, pack);
    put_directory(out, parts);
    buffer_free(&model);
}
