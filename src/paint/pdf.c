/* The run over the sheets of a print, in reading order. */
#include "paint/pdf.h"

#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_file.h"
#include "paint/pdf_folded.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_links.h"
#include "paint/pdf_survey.h"
#include "paint/pdf_tags.h"

#include <stdlib.h>

struct pdf_painter {
    const struct print *print;
    const struct fonts *fonts;
    struct arena *arena;
    struct packer *packer;
    struct pdf_signs *signs;
    struct buffer content, packed; /* of the sheet that is drawn */
    size_t taken;
    bool has_file;
    struct pdf_file file;      /* in reading order */
    pdf_ref *contents;         /* by sheet */
    struct pdf_tags *tags;     /* or NULL */
    struct pdf_folded *folded; /* or NULL */
};

struct pdf_painter *pdf_painter_new(const struct print *print, const struct fonts *fonts,
                                    const struct sink *reading, const struct sink *folded)
{
    struct arena *arena = arena_new();
    struct pdf_painter *painter = arena_get(arena, sizeof *painter);
    *painter = (struct pdf_painter){.print = print,
                                    .fonts = fonts,
                                    .arena = arena,
                                    .packer = packer_new(),
                                    .signs = arena_get(arena, sizeof *painter->signs)};
    painter->has_file = reading != NULL;
    if (reading)
        pdf_file_open(&painter->file, *reading, painter->packer);
    if (folded)
        painter->folded = pdf_folded_new(arena, *folded, painter->packer);
    if (print->tag_count > 0)
        painter->tags = pdf_tags_new(arena, print);
    return painter;
}

/* Both files get the very same operators: to the one that has no tags, what says to which
 * tag they belong says nothing. */
void pdf_painter_take(struct pdf_painter *painter)
{
    size_t index = painter->taken;
    const struct sheet *sheet = &painter->print->sheets[index];
    pdf_survey_sheet(painter->print, index);
    pdf_survey_signs(painter->signs, sheet);
    pdf_draw_sheet(&painter->content, sheet, index, painter->tags);
    packer_add(painter->packer, &painter->packed, painter->content.bytes,
               painter->content.length);
    pdf_ref *content = HEAP_PUSH(painter->contents, painter->taken);
    if (painter->has_file) {
        *content = pdf_reserve(&painter->file, 1);
        pdf_stream_as_is(&painter->file, *content, &painter->packed, true, "");
    }
    if (painter->folded)
        pdf_folded_take(painter->folded, sheet, &painter->packed);
    painter->content.length = painter->packed.length = 0;
}

/* The annotations of a sheet stand in a row; gives the number of the first. */
static void put_annotations(struct buffer *text, pdf_ref first, size_t count)
{
    buffer_text(text, "/Annots[");
    for (size_t i = 0; i < count; i++) {
        pdf_refer(text, first + (pdf_ref)i);
        buffer_text(text, " ");
    }
    buffer_text(text, "]");
}

static void write_pages(struct pdf_painter *painter, const pdf_ref *pages)
{
    const struct print *print = painter->print;
    struct pdf_file *file = &painter->file;
    for (size_t i = 0; i < print->sheet_count; i++) {
        const struct sheet *sheet = &print->sheets[i];
        pdf_ref links = pdf_links_write(file, print, i, pages, painter->tags);
        struct buffer *text =
            pdf_begin_page(file, pages[i], sheet->width, sheet->height, painter->contents[i]);
        if (sheet->area_count)
            put_annotations(text, links, sheet->area_count);
        if (painter->tags)
            pdf_tags_put_page(painter->tags, text, i);
        pdf_end(file);
    }
}

static void end_file(struct pdf_painter *painter)
{
    const struct print *print = painter->print;
    struct pdf_file *file = &painter->file;
    pdf_ref *pages = arena_get(painter->arena, print->sheet_count * sizeof *pages);
    for (size_t i = 0; i < print->sheet_count; i++)
        pages[i] = pdf_reserve(file, 1);
    pdf_fonts_embed(file, painter->fonts, painter->signs);
    write_pages(painter, pages);
    if (painter->tags)
        pdf_tags_write(painter->tags, file, pages);
    pdf_catalog_describe(file, print->title,
                         print->flip_short_edge ? PDF_FLIP_SHORT_EDGE : PDF_FLIP_LONG_EDGE);
    pdf_catalog_labels(file, print);
    pdf_catalog_outline(file, print, pages);
    pdf_file_close(file);
}

void pdf_painter_end(struct pdf_painter *painter)
{
    pdf_survey_whole(painter->print);
    if (painter->has_file)
        end_file(painter);
    if (painter->folded)
        pdf_folded_end(painter->folded, painter->print, painter->fonts, painter->signs);
    if (painter->tags)
        pdf_tags_free(painter->tags);
    packer_free(painter->packer);
    buffer_free(&painter->content);
    buffer_free(&painter->packed);
    free(painter->contents);
    arena_free(painter->arena);
}

void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded)
{
    struct pdf_painter *painter = pdf_painter_new(print, fonts, reading, folded);
    for (size_t i = 0; i < print->sheet_count; i++)
        pdf_painter_take(painter);
    pdf_painter_end(painter);
}
