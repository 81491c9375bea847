/* The only file that knows libharu, and how its objects become a file. It calls what is
 * exported and declared in libharu's headers, but reaches into its structures where no call
 * leads: each time with the reason beside it. (libharu 2.3.0) */
#include "pdf/file.h"

#include "base/fatal.h"
#include "base/file.h"
#include "base/memory.h"
#include "pdf/text.h"

#include <hpdf.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

/* What is written behind libharu's own entries of an object. */
struct entries {
    const char *bytes;
    size_t length;
};

struct pdf_file {
    HPDF_Doc doc;
    struct packer *packer;
    struct arena *arena;     /* of the entries */
    struct entries *entries; /* by object */
    size_t entries_count;
};

static void on_error(HPDF_STATUS error, HPDF_STATUS detail, void *file)
{
    (void)file;
    if (error == HPDF_FAILD_TO_ALLOC_MEM)
        fatal_no_memory();
    fatal("the PDF library failed (its error %04lX, detail %lu)", error, detail);
}

/* Low calls only note what went wrong; of memory some say nothing at all. */
static void must(const struct pdf_file *file, bool done)
{
    HPDF_STATUS error = HPDF_GetError(file->doc);
    if (error != HPDF_OK || !done)
        on_error(error != HPDF_OK ? error : HPDF_FAILD_TO_ALLOC_MEM,
                 HPDF_GetErrorDetail(file->doc), NULL);
}

/* ---- objects ---- */

/* Into the header: libharu tells no object's number. The upper bits are its kind. */
static pdf_ref number_of(HPDF_Dict object)
{
    return object->header.obj_id & 0x00FFFFFF;
}

/* Into the table of places: libharu finds objects for itself alone. */
static HPDF_Dict object_of(const struct pdf_file *file, pdf_ref number)
{
    return HPDF_Xref_GetEntry(file->doc->xref, number)->obj;
}

/* libharu calls this when it has written an object's own entries. The pointer that
 * HPDF_New() was given is the only way back to the file. */
static HPDF_STATUS write_entries(HPDF_Dict object, HPDF_Stream stream)
{
    const struct pdf_file *file = object->error->user_data;
    const struct entries *entries = &file->entries[number_of(object)];
    return HPDF_Stream_Write(stream, (const HPDF_BYTE *)entries->bytes,
                             (HPDF_UINT)entries->length);
}

/* The hook that libharu has for its own dictionaries: an entry by HPDF_Dict_Add() is an
 * object of five allocations, and cannot be PDF text. bytes: kept as they are. */
static void give_entries(struct pdf_file *file, HPDF_Dict object, const char *bytes,
                         size_t length)
{
    pdf_ref number = number_of(object);
    while (file->entries_count <= number)
        HEAP_PUSH(file->entries, file->entries_count);
    file->entries[number] = (struct entries){bytes, length};
    object->write_fn = write_entries;
}

pdf_ref pdf_objects(struct pdf_file *file, size_t count)
{
    HPDF_List list = file->doc->xref->entries;
    pdf_ref first = list->count;
    /* libharu makes its list longer by a fixed step, and copies it each time. */
    list->items_per_block = list->count + (HPDF_UINT)count;
    for (size_t i = 0; i < count; i++) {
        HPDF_Dict object = HPDF_Dict_New(file->doc->mmgr);
        must(file, object && HPDF_Xref_Add(file->doc->xref, object) == HPDF_OK);
    }
    return first;
}

void pdf_object_set(struct pdf_file *file, pdf_ref object, struct buffer *entries)
{
    give_entries(file, object_of(file, object),
                 arena_slice(file->arena, entries->bytes, entries->length), entries->length);
    entries->length = 0;
}

/* ---- streams, packed by us ---- */

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

void packer_add(struct packer *packer, struct buffer *out, const struct buffer *bytes)
{
    z_stream *stream = &packer->stream;
    deflateReset(stream);
    buffer_reserve(out, deflateBound(stream, bytes->length));
    stream->next_in = (z_const Bytef *)bytes->bytes;
    stream->avail_in = (uInt)bytes->length;
    stream->next_out = (Bytef *)out->bytes + out->length;
    stream->avail_out = (uInt)(out->room - out->length);
    if (deflate(stream, Z_FINISH) != Z_STREAM_END)
        fatal("zlib cannot pack %zu bytes; this is a fault of the program", bytes->length);
    buffer_added(out, stream->total_out);
}

/* libharu names no filter where it does not pack by itself. */
static const char FILTER[] = "/Filter/FlateDecode";

/* The stream that libharu keeps for a dictionary: only those that it packs itself have calls.
 */
static void fill(struct pdf_file *file, HPDF_Dict object, const struct buffer *packed)
{
    must(file, HPDF_Stream_Write(object->stream, (const HPDF_BYTE *)packed->bytes,
                                 (HPDF_UINT)packed->length) == HPDF_OK);
}

pdf_ref pdf_stream_packed(struct pdf_file *file, const struct buffer *packed,
                          const char *entries)
{
    HPDF_Dict object = HPDF_DictStream_New(file->doc->mmgr, file->doc->xref);
    must(file, object != NULL);
    fill(file, object, packed);
    const char *text = arena_format(file->arena, "%s%s", FILTER, entries);
    give_entries(file, object, text, strlen(text));
    return number_of(object);
}

pdf_ref pdf_stream(struct pdf_file *file, const struct buffer *bytes, const char *entries)
{
    struct buffer packed = {0};
    packer_add(file->packer, &packed, bytes);
    pdf_ref stream = pdf_stream_packed(file, &packed, entries);
    buffer_free(&packed);
    return stream;
}

/* ---- pages ---- */

pdf_ref pdf_page(struct pdf_file *file, double width, double height, pdf_ref resources,
                 const struct buffer *packed)
{
    HPDF_Page page = HPDF_AddPage(file->doc);
    HPDF_Page_SetWidth(page, (HPDF_REAL)width);
    HPDF_Page_SetHeight(page, (HPDF_REAL)height);
    /* In place of the page's own, which only libharu's calls for text fill. */
    HPDF_Dict_Add(page, "Resources", object_of(file, resources));
    /* The calls that write into it write one operator each. */
    HPDF_Dict contents = ((HPDF_PageAttr)page->attr)->contents;
    fill(file, contents, packed);
    give_entries(file, contents, FILTER, sizeof FILTER - 1);
    return number_of(page);
}

/* ---- the file ---- */

enum { BRANCH = 1000 }; /* pages below one branch of the tree of pages */

struct pdf_file *pdf_file_new(struct packer *packer)
{
    struct pdf_file *file = heap_get(sizeof *file);
    *file = (struct pdf_file){.packer = packer, .arena = arena_new()};
    file->doc = HPDF_New(on_error, file);
    if (!file->doc)
        fatal_no_memory();
    HPDF_SetPagesConfiguration(file->doc, BRANCH);
    return file;
}

/* Both dictionaries are libharu's, whose calls for them know neither language nor printing
 * on both sides. */
static void describe(struct pdf_file *file, const char *title, bool flip_short_edge,
                     const struct buffer *catalog)
{
    struct buffer text = {0};
    struct tm utc;
    buffer_text(&text, "/Title");
    pdf_string(&text, title);
    if (source_date(&utc))
        buffer_print(&text, "/CreationDate(D:%04d%02d%02d%02d%02d%02dZ)", utc.tm_year + 1900,
                     utc.tm_mon + 1, utc.tm_mday, utc.tm_hour, utc.tm_min, utc.tm_sec);
    pdf_object_set(file, number_of(file->doc->info), &text);
    buffer_print(&text,
                 "/Lang(en)/ViewerPreferences<</DisplayDocTitle true/PrintScaling/None"
                 "/Duplex/DuplexFlip%sEdge>>",
                 flip_short_edge ? "Short" : "Long");
    buffer_add(&text, catalog->bytes, catalog->length);
    pdf_object_set(file, number_of(file->doc->catalog), &text);
    buffer_free(&text);
}

/* ---- saving: objects packed together, and a packed table of places ---- */

/* libharu writes every object by itself and a table of places that cannot be packed: of a book
 * with tags that is more than half of the file. Objects without a stream go into object streams
 * here (PDF 1.7, section 7.5.7), and the table is a stream too (7.5.8). */

enum { TOGETHER = 200 }; /* objects of an object stream: an index among them is a byte */

/* Where an object is: at a byte of the file, or at an index of an object stream. */
struct locus {
    uint32_t at; /* byte, or number of the object stream from 0 */
    uint8_t index;
    bool packed;
};

struct group {
    char *bytes; /* packed */
    size_t length, first, count;
};

struct saving {
    struct pdf_file *file;
    struct buffer numbers, values; /* of the group that grows: its two parts */
    size_t count;                  /* of the objects in it */
    struct group *groups;          /* the arena's */
    size_t group_count;
    struct locus *loci; /* the heap's, by object */
    size_t locus_count;
};

/* libharu writes many pieces of a few bytes. */
static HPDF_STATUS take(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT length)
{
    buffer_add(stream->attr, bytes, length);
    return HPDF_OK;
}

static HPDF_Stream writer_into(struct pdf_file *file, struct buffer *out)
{
    HPDF_Stream stream = HPDF_CallbackWriter_New(file->doc->mmgr, take, out);
    must(file, stream != NULL);
    return stream;
}

static void set_locus(struct saving *saving, size_t number, struct locus locus)
{
    while (saving->locus_count <= number)
        HEAP_PUSH(saving->loci, saving->locus_count);
    saving->loci[number] = locus;
}

static void write_text(const struct saving *saving, HPDF_Stream out, const char *text)
{
    must(saving->file, HPDF_Stream_WriteStr(out, text) == HPDF_OK);
}

/* A stream with these entries, packed already, as the object of this number. */
static void write_stream(struct saving *saving, HPDF_Stream out, size_t number,
                         const char *entries, const char *packed, size_t length)
{
    set_locus(saving, number, (struct locus){.at = out->size});
    write_text(saving, out,
               arena_format(saving->file->arena, "%zu 0 obj\n<<%s%s/Length %zu>>\nstream\r\n",
                            number, entries, FILTER, length));
    must(saving->file,
         HPDF_Stream_Write(out, (const HPDF_BYTE *)packed, (HPDF_UINT)length) == HPDF_OK);
    write_text(saving, out, "\nendstream\nendobj\n");
}

static void close_group(struct saving *saving)
{
    struct buffer packed = {0}, *numbers = &saving->numbers;
    struct group group = {.first = numbers->length, .count = saving->count};
    if (!saving->count)
        return;
    buffer_add(numbers, saving->values.bytes, saving->values.length);
    packer_add(saving->file->packer, &packed, numbers);
    group.length = packed.length;
    group.bytes = arena_slice(saving->file->arena, packed.bytes, packed.length);
    *ARENA_PUSH(saving->file->arena, saving->groups, saving->group_count) = group;
    saving->numbers.length = saving->values.length = saving->count = 0;
    buffer_free(&packed);
}

static void save_object(struct saving *saving, size_t number, HPDF_Stream out,
                        HPDF_Stream values)
{
    HPDF_Dict object = object_of(saving->file, (pdf_ref)number);
    bool is_dict = (object->header.obj_class & HPDF_OCLASS_ANY) == HPDF_OCLASS_DICT;
    if (is_dict && object->stream) {
        set_locus(saving, number, (struct locus){.at = out->size});
        write_text(saving, out, arena_format(saving->file->arena, "%zu 0 obj\n", number));
        must(saving->file, HPDF_Obj_WriteValue(object, out, NULL) == HPDF_OK);
        write_text(saving, out, "\nendobj\n");
        return;
    }
    set_locus(saving, number,
              (struct locus){.at = (uint32_t)saving->group_count,
                             .index = (uint8_t)saving->count,
                             .packed = true});
    buffer_print(&saving->numbers, "%zu %zu ", number, saving->values.length);
    must(saving->file, HPDF_Obj_WriteValue(object, values, NULL) == HPDF_OK);
    buffer_text(&saving->values, "\n");
    if (++saving->count == TOGETHER)
        close_group(saving);
}

/* Type, place and index of each object, in one, four and one bytes; object 0 is none. */
static void write_places(struct saving *saving, HPDF_Stream out, size_t first_group)
{
    const struct pdf_file *file = saving->file;
    size_t number = first_group + saving->group_count, start = out->size;
    struct buffer table = {0}, packed = {0};
    set_locus(saving, number, (struct locus){.at = (uint32_t)start});
    for (size_t i = 0; i <= number; i++) {
        const struct locus *locus = &saving->loci[i];
        uint32_t at = locus->at + (locus->packed ? (uint32_t)first_group : 0);
        const unsigned char row[] = {i == 0 ? 0 : locus->packed ? 2 : 1,
                                     (unsigned char)(at >> 24),
                                     (unsigned char)(at >> 16),
                                     (unsigned char)(at >> 8),
                                     (unsigned char)at,
                                     locus->index};
        buffer_add(&table, (const char *)row, sizeof row);
    }
    packer_add(file->packer, &packed, &table);
    write_stream(
        saving, out, number,
        arena_format(file->arena, "/Type/XRef/Size %zu/W[1 4 1]/Root %u 0 R/Info %u 0 R",
                     number + 1, number_of(file->doc->catalog), number_of(file->doc->info)),
        packed.bytes, packed.length);
    write_text(saving, out, arena_format(file->arena, "startxref\n%zu\n%%%%EOF\n", start));
    buffer_free(&table);
    buffer_free(&packed);
}

/* In place of HPDF_SaveToStream(). What libharu does before it writes an object it does in
 * HPDF_Obj_WriteValue(), and may add objects there. */
static void save_all(struct saving *saving, HPDF_Stream out)
{
    HPDF_List objects = saving->file->doc->xref->entries;
    HPDF_Stream values = writer_into(saving->file, &saving->values);
    write_text(saving, out, "%PDF-1.7\n%\xb7\xbe\xad\xaa\n");
    set_locus(saving, 0, (struct locus){0});
    for (size_t i = 1; i < objects->count; i++)
        save_object(saving, i, out, values);
    close_group(saving);
    size_t first_group = objects->count;
    for (size_t i = 0; i < saving->group_count; i++) {
        const struct group *group = &saving->groups[i];
        write_stream(saving, out, first_group + i,
                     arena_format(saving->file->arena, "/Type/ObjStm/N %zu/First %zu",
                                  group->count, group->first),
                     group->bytes, group->length);
    }
    write_places(saving, out, first_group);
    HPDF_Stream_Free(values);
}

void pdf_file_save(struct pdf_file *file, const char *title, bool flip_short_edge,
                   const struct buffer *catalog, const struct sink *sink)
{
    struct buffer out = {0};
    struct saving saving = {.file = file};
    buffer_drain(&out, sink);
    describe(file, title, flip_short_edge, catalog);
    HPDF_Stream stream = writer_into(file, &out);
    save_all(&saving, stream);
    HPDF_Stream_Free(stream);
    buffer_end_drain(&out);
    buffer_free(&out);
    buffer_free(&saving.numbers);
    buffer_free(&saving.values);
    free(saving.loci);
}

void pdf_file_free(struct pdf_file *file)
{
    HPDF_Free(file->doc);
    free(file->entries);
    arena_free(file->arena);
    free(file);
}
