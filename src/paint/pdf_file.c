#include "paint/pdf_file.h"

#include "paint/pdf_text.h"

#include <stdlib.h>

enum { CATALOG = 1, PAGES, INFO, RESOURCES, FIXED = RESOURCES };

enum {
    SPILL = 64 * 1024, /* bytes handed on at once */
    BRANCH = 256       /* pages, or branches, below one node of the tree of pages */
};

void pdf_file_open(struct pdf_file *file, struct sink sink, struct packer *packer)
{
    *file = (struct pdf_file){
        .sink = sink, .packer = packer, .arena = arena_new(), .resources = RESOURCES};
    HEAP_PUSH(file->places, file->place_count); /* number 0 is no object */
    pdf_reserve(file, FIXED);
    /* The second line tells programs that copy files that this one is not text. */
    buffer_text(&file->text, "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n");
}

pdf_ref pdf_reserve(struct pdf_file *file, size_t count)
{
    size_t first = file->place_count;
    for (size_t i = 0; i < count; i++)
        HEAP_PUSH(file->places, file->place_count);
    return (pdf_ref)first;
}

void pdf_spill(struct pdf_file *file)
{
    if (file->text.length < SPILL)
        return;
    file->sink.take(file->sink.with, file->text.bytes, file->text.length);
    file->handed += file->text.length;
    file->text.length = 0;
}

struct buffer *pdf_begin(struct pdf_file *file, pdf_ref object)
{
    struct buffer *text = &file->text;
    file->places[object] = file->handed + text->length;
    pdf_integer(text, object);
    buffer_text(text, " 0 obj\n<<");
    return text;
}

void pdf_end(struct pdf_file *file)
{
    buffer_text(&file->text, ">>\nendobj\n");
    pdf_spill(file);
}

void pdf_stream_as_is(struct pdf_file *file, pdf_ref object, const struct buffer *bytes,
                      bool packed, const char *entries)
{
    struct buffer *text = pdf_begin(file, object);
    buffer_text(text, "/Length ");
    pdf_integer(text, (long)bytes->length);
    buffer_text(text, packed ? "/Filter/FlateDecode" : "");
    buffer_text(text, entries);
    buffer_text(text, ">>\nstream\n");
    buffer_add(text, bytes->bytes, bytes->length);
    buffer_text(text, "\nendstream\nendobj\n");
    pdf_spill(file);
}

void pdf_stream(struct pdf_file *file, pdf_ref object, const void *bytes, size_t length)
{
    struct buffer packed = {0};
    packer_add(file->packer, &packed, bytes, length);
    pdf_stream_as_is(file, object, &packed, true, "");
    buffer_free(&packed);
}

/* ---- the tree of pages: a root, and below it branches, which are reserved as needed ---- */

static pdf_ref branch_of(struct pdf_file *file, size_t page)
{
    if (page % BRANCH == 0)
        *HEAP_PUSH(file->branches, file->branch_count) = pdf_reserve(file, 1);
    return file->branches[page / BRANCH];
}

struct buffer *pdf_begin_page(struct pdf_file *file, pdf_ref page, double width, double height,
                              pdf_ref content)
{
    pdf_ref branch = branch_of(file, file->page_count);
    *HEAP_PUSH(file->pages, file->page_count) = page;
    struct buffer *text = pdf_begin(file, page);
    buffer_text(text, "/Type/Page/Parent ");
    pdf_refer(text, branch);
    buffer_text(text, "/MediaBox[0 0 ");
    pdf_number(text, width);
    buffer_text(text, " ");
    pdf_number(text, height);
    buffer_text(text, "]/Contents ");
    pdf_refer(text, content);
    return text;
}

static void put_kids(struct buffer *text, const pdf_ref *kids, size_t count)
{
    buffer_text(text, "/Type/Pages/Kids[");
    for (size_t i = 0; i < count; i++) {
        pdf_refer(text, kids[i]);
        buffer_text(text, " ");
    }
    buffer_text(text, "]/Count ");
}

static void write_page_tree(struct pdf_file *file)
{
    for (size_t i = 0; i < file->branch_count; i++) {
        size_t left = file->page_count - i * BRANCH, count = left < BRANCH ? left : BRANCH;
        struct buffer *text = pdf_begin(file, file->branches[i]);
        put_kids(text, file->pages + i * BRANCH, count);
        pdf_integer(text, (long)count);
        buffer_text(text, "/Parent ");
        pdf_refer(text, PAGES);
        pdf_end(file);
    }
    struct buffer *text = pdf_begin(file, PAGES);
    put_kids(text, file->branches, file->branch_count);
    pdf_integer(text, (long)file->page_count);
    buffer_text(text, "/Resources ");
    pdf_refer(text, RESOURCES);
    pdf_end(file);
}

/* ---- the end ---- */

static void write_catalog(struct pdf_file *file)
{
    struct buffer *text = pdf_begin(file, CATALOG);
    buffer_text(text, "/Type/Catalog/Pages ");
    pdf_refer(text, PAGES);
    buffer_add(text, file->catalog.bytes, file->catalog.length);
    pdf_end(file);
    text = pdf_begin(file, INFO);
    buffer_add(text, file->info.bytes, file->info.length);
    pdf_end(file);
}

/* Twenty bytes an entry, says section 7.5.4: ten digits, a blank, five digits, ... */
static void put_place(struct buffer *text, size_t place)
{
    char entry[] = "0000000000 00000 n\r\n";
    for (int i = 9; place > 0 && i >= 0; i--, place /= 10)
        entry[i] = (char)('0' + place % 10);
    buffer_add(text, entry, sizeof entry - 1);
}

static void write_places(struct pdf_file *file)
{
    struct buffer *text = &file->text;
    size_t start = file->handed + text->length;
    buffer_print(text, "xref\n0 %zu\n0000000000 65535 f\r\n", file->place_count);
    for (size_t i = 1; i < file->place_count; i++) {
        put_place(text, file->places[i]);
        pdf_spill(file);
    }
    buffer_print(text,
                 "trailer\n<</Size %zu/Root %d 0 R/Info %d 0 R>>\nstartxref\n%zu\n%%%%EOF\n",
                 file->place_count, CATALOG, INFO, start);
}

void pdf_file_close(struct pdf_file *file)
{
    write_page_tree(file);
    write_catalog(file);
    write_places(file);
    file->sink.take(file->sink.with, file->text.bytes, file->text.length);
    buffer_free(&file->text);
    buffer_free(&file->catalog);
    buffer_free(&file->info);
    free(file->places);
    free(file->pages);
    free(file->branches);
    arena_free(file->arena);
}

void pdf_refer(struct buffer *out, pdf_ref object)
{
    pdf_integer(out, object);
    buffer_text(out, " 0 R");
}
