#include "paint/pdf_file.h"

#include "base/fatal.h"
#include "paint/pdf_text.h"

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

void pdf_file_check(const struct pdf_file *file)
{
    HPDF_STATUS error = HPDF_GetError(file->doc);
    if (error != HPDF_OK)
        fail(error, HPDF_GetErrorDetail(file->doc), file->doing);
}

/* A low call gave nothing: the library has noted why, or has no memory. */
_Noreturn static void fail_low(const struct pdf_file *file)
{
    HPDF_STATUS error = HPDF_GetError(file->doc);
    fail(error ? error : HPDF_FAILD_TO_ALLOC_MEM, HPDF_GetErrorDetail(file->doc), file->doing);
}

enum { FLAT = 1000 }; /* more pages than this are kept in a tree of two levels */

void pdf_file_open(struct pdf_file *file, size_t page_count)
{
    file->doing = "starting a file";
    file->arena = arena_new();
    file->doc = HPDF_New(on_error, file);
    if (!file->doc)
        fail(HPDF_FAILD_TO_ALLOC_MEM, 0, file->doing);
    HPDF_SetCompressionMode(file->doc, HPDF_COMP_ALL);
    if (page_count > FLAT)
        HPDF_SetPagesConfiguration(file->doc, FLAT);
    file->doc->pdf_version = HPDF_VER_17; /* tags, /Lang and /Duplex are younger than 1.3 */
}

HPDF_Page pdf_file_add_page(struct pdf_file *file, double width, double height)
{
    HPDF_Page page = HPDF_AddPage(file->doc);
    HPDF_Page_SetWidth(page, (HPDF_REAL)width);
    HPDF_Page_SetHeight(page, (HPDF_REAL)height);
    return page;
}

void pdf_file_fill_page(struct pdf_file *file, HPDF_Page page, struct buffer *content)
{
    HPDF_Stream stream = ((HPDF_PageAttr)page->attr)->stream;
    if (content->length)
        HPDF_Stream_Write(stream, (const HPDF_BYTE *)content->bytes,
                          (HPDF_UINT)content->length);
    content->length = 0;
    pdf_file_check(file);
}

void pdf_file_save(struct pdf_file *file, struct buffer *out)
{
    file->doing = "saving";
    HPDF_SaveToStream(file->doc);
    HPDF_ResetStream(file->doc);
    pdf_file_check(file);
    HPDF_UINT32 rest = HPDF_GetStreamSize(file->doc);
    while (rest > 0) {
        HPDF_BYTE part[65536];
        HPDF_UINT32 length = rest < sizeof part ? rest : (HPDF_UINT32)sizeof part;
        HPDF_ReadFromStream(file->doc, part, &length);
        pdf_file_check(file);
        buffer_add(out, part, length);
        rest -= length;
    }
    HPDF_Free(file->doc);
    arena_free(file->arena);
}

HPDF_Dict pdf_object(struct pdf_file *file)
{
    HPDF_Dict object = HPDF_Dict_New(file->doc->mmgr);
    if (!object || HPDF_Xref_Add(file->doc->xref, object) != HPDF_OK)
        fail_low(file);
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
    if (!dict || HPDF_Dict_Add(to, key, dict) != HPDF_OK)
        fail_low(file);
    set_entries(file, dict, entries, strlen(entries));
}

HPDF_Dict pdf_stream(struct pdf_file *file, const void *bytes, size_t length)
{
    HPDF_Dict stream = HPDF_DictStream_New(file->doc->mmgr, file->doc->xref);
    if (!stream || HPDF_Stream_Write(stream->stream, bytes, (HPDF_UINT)length) != HPDF_OK)
        fail_low(file);
    stream->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    return stream;
}

void pdf_refer(struct buffer *out, const void *object)
{
    const HPDF_Obj_Header *header = object;
    pdf_integer(out, (long)(header->obj_id & 0x00FFFFFF));
    buffer_text(out, " 0 R");
}
