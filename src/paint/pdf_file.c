#include "paint/pdf_file.h"

#include "base/fatal.h"
#include "paint/pdf_text.h"

#include <stdlib.h>
#include <string.h>

_Noreturn static void fail(HPDF_STATUS error, HPDF_STATUS detail, const char *doing)
{
    if (error == HPDF_FAILD_TO_ALLOC_MEM)
        fatal("the machine has no memory left while %s; close other programs and try again",
              doing);
    fatal("the PDF library failed while %s (its error %04lX, detail %lu)", doing, error,
          detail);
}

static void on_error(HPDF_STATUS error, HPDF_STATUS detail, void *user)
{
    fail(error, detail, ((struct pdf_file *)user)->doing);
}

/* What a hook of libharu is asked for: the file of an object. */
static struct pdf_file *file_of(HPDF_Dict object)
{
    return object->error->user_data;
}

/* A low call went wrong, or gave nothing: the library has noted why, or has no memory. */
static void must(const struct pdf_file *file, bool done)
{
    HPDF_STATUS error = HPDF_GetError(file->doc);
    if (!done || error != HPDF_OK)
        fail(error ? error : HPDF_FAILD_TO_ALLOC_MEM, HPDF_GetErrorDetail(file->doc),
             file->doing);
}

enum { BRANCH = 1000 }; /* pages below one branch of the tree of pages */

static HPDF_STATUS write_catalog(HPDF_Dict catalog, HPDF_Stream stream)
{
    const struct buffer *text = &file_of(catalog)->catalog;
    return HPDF_Stream_Write(stream, (const HPDF_BYTE *)text->bytes, (HPDF_UINT)text->length);
}

void pdf_file_open(struct pdf_file *file, struct sink sink, struct packer *packer)
{
    *file = (struct pdf_file){
        .sink = sink, .packer = packer, .arena = arena_new(), .doing = "starting a file"};
    file->doc = HPDF_New(on_error, file);
    if (!file->doc)
        fail(HPDF_FAILD_TO_ALLOC_MEM, 0, file->doing);
    HPDF_SetPagesConfiguration(file->doc, BRANCH);
    file->doc->catalog->write_fn = write_catalog;
    file->doing = "making its objects";
    file->fonts = pdf_object(file);
    file->resources = pdf_object(file);
    HPDF_Dict_Add(file->resources, "Font", file->fonts);
}

/* ---- objects that libharu keeps ---- */

HPDF_Dict pdf_object(struct pdf_file *file)
{
    HPDF_Dict object = HPDF_Dict_New(file->doc->mmgr);
    must(file, object && HPDF_Xref_Add(file->doc->xref, object) == HPDF_OK);
    return object;
}

struct entries {
    HPDF_UINT length;
    const void *bytes;
};

/* libharu calls this when it writes the object. */
static HPDF_STATUS write_entries(HPDF_Dict object, HPDF_Stream stream)
{
    const struct entries *entries = object->attr;
    return HPDF_Stream_Write(stream, entries->bytes, entries->length);
}

static void set_entries(struct pdf_file *file, HPDF_Dict object, const char *bytes,
                        size_t length)
{
    struct entries *entries = arena_get(file->arena, sizeof *entries);
    entries->bytes = arena_slice(file->arena, bytes, length);
    entries->length = (HPDF_UINT)length;
    object->attr = entries;
    object->write_fn = write_entries;
}

void pdf_object_set(struct pdf_file *file, HPDF_Dict object, struct buffer *entries)
{
    set_entries(file, object, entries->bytes, entries->length);
    entries->length = 0;
}

void pdf_add_dict(struct pdf_file *file, HPDF_Dict to, const char *key, const char *entries)
{
    HPDF_Dict dict = HPDF_Dict_New(file->doc->mmgr);
    must(file, dict && HPDF_Dict_Add(to, key, dict) == HPDF_OK);
    set_entries(file, dict, entries, strlen(entries));
}

/* ---- streams, packed by us ---- */

/* libharu would take the filter's name away again where it does not pack itself. */
static HPDF_STATUS write_filter(HPDF_Dict object, HPDF_Stream stream)
{
    HPDF_STATUS status = HPDF_Stream_WriteStr(stream, "/Filter/FlateDecode");
    return status == HPDF_OK && object->attr ? HPDF_Stream_WriteStr(stream, object->attr)
                                             : status;
}

/* In memory of just that size: libharu's own has room for 4096 bytes at least. */
static void fill_stream(struct pdf_file *file, HPDF_Dict object, const struct buffer *packed)
{
    HPDF_UINT length = (HPDF_UINT)packed->length;
    HPDF_Stream_Free(object->stream);
    object->stream = HPDF_MemStream_New(file->doc->mmgr, length);
    object->write_fn = write_filter;
    must(file,
         object->stream && HPDF_Stream_Write(object->stream, (const HPDF_BYTE *)packed->bytes,
                                             length) == HPDF_OK);
}

HPDF_Dict pdf_stream_packed(struct pdf_file *file, const struct buffer *packed,
                            const char *entries)
{
    HPDF_Dict object = HPDF_DictStream_New(file->doc->mmgr, file->doc->xref);
    must(file, object != NULL);
    fill_stream(file, object, packed);
    object->attr = arena_text(file->arena, entries);
    return object;
}

HPDF_Dict pdf_stream(struct pdf_file *file, const void *bytes, size_t length)
{
    struct buffer packed = {0};
    packer_add(file->packer, &packed, bytes, length);
    HPDF_Dict object = pdf_stream_packed(file, &packed, "");
    buffer_free(&packed);
    return object;
}

/* ---- pages ---- */

static HPDF_STATUS write_page(HPDF_Dict page, HPDF_Stream stream)
{
    struct pdf_file *file = file_of(page);
    size_t index = file->pages_written++;
    if (!file->write_page)
        return HPDF_OK;
    file->text.length = 0;
    file->write_page(file->write_page_with, index, &file->text);
    return HPDF_Stream_Write(stream, (const HPDF_BYTE *)file->text.bytes,
                             (HPDF_UINT)file->text.length);
}

HPDF_Page pdf_file_page(struct pdf_file *file, size_t index)
{
    while (file->page_count <= index) {
        HPDF_Page page = HPDF_AddPage(file->doc);
        page->write_fn = write_page;
        HPDF_Dict_Add(page, "Resources", file->resources); /* in place of a page's own */
        *HEAP_PUSH(file->pages, file->page_count) = page;
    }
    return file->pages[index];
}

void pdf_page_size(HPDF_Page page, double width, double height)
{
    HPDF_Page_SetWidth(page, (HPDF_REAL)width);
    HPDF_Page_SetHeight(page, (HPDF_REAL)height);
}

void pdf_fill_page(struct pdf_file *file, HPDF_Page page, const struct buffer *packed)
{
    HPDF_PageAttr attr = page->attr;
    fill_stream(file, attr->contents, packed);
    attr->stream = attr->contents->stream;
}

/* ---- runs: one object walks through the numbers, and says each time something else ---- */

pdf_ref pdf_run(struct pdf_file *file, size_t count, pdf_writer *write, void *with)
{
    pdf_ref first = (pdf_ref)(file->doc->xref->entries->count + file->run_objects);
    if (file->run_count == PDF_MOST_RUNS)
        fatal("a PDF has too many runs of objects; this is a fault of the program");
    if (count)
        file->runs[file->run_count++] = (struct pdf_run){write, with, count};
    file->run_objects += count;
    return first;
}

/* While the walker is written under one number it takes the next: libharu's list of objects
 * grows while it is walked, by one at a time, and is never written backwards. */
static HPDF_STATUS take_next_number(HPDF_Dict walker)
{
    struct pdf_file *file = file_of(walker);
    HPDF_Xref xref = file->doc->xref;
    if (file->objects_written + 1 == file->run_objects)
        return HPDF_OK;
    HPDF_Xref_GetEntry(xref, xref->entries->count - 1)->obj = NULL;
    walker->header.obj_id = 0;
    return HPDF_Xref_Add(xref, walker);
}

static HPDF_STATUS write_walker(HPDF_Dict walker, HPDF_Stream stream)
{
    struct pdf_file *file = file_of(walker);
    const struct pdf_run *run = &file->runs[file->run];
    file->text.length = 0;
    run->write(run->with, file->run_index, &file->text);
    file->objects_written++;
    if (++file->run_index == run->count) {
        file->run_index = 0;
        file->run++;
    }
    return HPDF_Stream_Write(stream, (const HPDF_BYTE *)file->text.bytes,
                             (HPDF_UINT)file->text.length);
}

/* libharu makes its lists longer by a fixed step, and copies them each time. */
static void begin_runs(struct pdf_file *file)
{
    if (file->run_objects == 0)
        return;
    file->doc->xref->entries->items_per_block = (HPDF_UINT)file->run_objects;
    file->walker = pdf_object(file);
    file->walker->before_write_fn = take_next_number;
    file->walker->write_fn = write_walker;
}

/* ---- saving ---- */

enum { SPILL = 64 * 1024 }; /* bytes handed to the sink at once */

static void spill(struct pdf_file *file)
{
    file->sink.take(file->sink.with, file->ready.bytes, file->ready.length);
    file->ready.length = 0;
}

static HPDF_STATUS take_bytes(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT length)
{
    struct pdf_file *file = stream->attr;
    buffer_add(&file->ready, bytes, length);
    if (file->ready.length >= SPILL)
        spill(file);
    return HPDF_OK;
}

/* What HPDF_SaveToStream() does, but piece by piece into the sink: that call holds the
 * whole file. */
void pdf_file_save(struct pdf_file *file)
{
    HPDF_Doc doc = file->doc;
    file->doing = "saving";
    begin_runs(file);
    HPDF_Dict_Add(doc->trailer, "Root", doc->catalog);
    HPDF_Dict_Add(doc->trailer, "Info", doc->info);
    HPDF_Stream stream = HPDF_CallbackWriter_New(doc->mmgr, take_bytes, file);
    must(file, stream != NULL);
    HPDF_Stream_WriteStr(stream, "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n");
    must(file, HPDF_Xref_WriteToStream(doc->xref, stream, NULL) == HPDF_OK);
    HPDF_Stream_Free(stream);
    spill(file);
}

void pdf_file_free(struct pdf_file *file)
{
    HPDF_Free(file->doc);
    buffer_free(&file->catalog);
    buffer_free(&file->text);
    buffer_free(&file->ready);
    free(file->pages);
    arena_free(file->arena);
}

void pdf_refer(struct buffer *out, pdf_ref object)
{
    pdf_integer(out, object);
    buffer_text(out, " 0 R");
}

pdf_ref pdf_number_of(const void *object)
{
    return ((const HPDF_Obj_Header *)object)->obj_id & 0x00FFFFFF;
}
