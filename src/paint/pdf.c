/* The run over the sheets of a print. */
#include "paint/pdf.h"

#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_file.h"
#include "paint/pdf_folded.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_links.h"
#include "paint/pdf_survey.h"
#include "paint/pdf_tags.h"

struct pdf_painter {
    const struct fonts *fonts;
    struct arena *arena;
    struct packer *packer;
    struct pdf_signs *signs;
    struct buffer content, packed; /* of the sheet that is drawn */
    bool has_file;
    struct pdf_file file; /* in reading order */
    struct pdf_tags *tags;
    struct pdf_folded *folded; /* or NULL */
};

static struct pdf_painter *pdf_painter_new(const struct fonts *fonts,
                                           const struct sink *reading,
                                           const struct sink *folded)
{
    struct arena *arena = arena_new();
    struct pdf_painter *painter = arena_get(arena, sizeof *painter);
    *painter = (struct pdf_painter){.fonts = fonts,
                                    .arena = arena,
                                    .packer = packer_new(),
                                    .signs = arena_get(arena, sizeof *painter->signs),
                                    .has_file = reading != NULL,
                                    .tags = pdf_tags_new(arena)};
    if (reading)
        pdf_file_open(&painter->file, *reading, painter->packer);
    if (folded)
        painter->folded = pdf_folded_new(arena, *folded, painter->packer);
    return painter;
}

/* Both files get the very same operators: to the one that has no tags, what says to which
 * tag they belong says nothing. */
static void pdf_painter_take(struct pdf_painter *painter, const struct print *print,
                             size_t sheet)
{
    pdf_survey_sheet(print, sheet);
    pdf_survey_signs(painter->signs, &print->sheets[sheet]);
    pdf_tags_sheet(painter->tags, print, sheet);
    pdf_draw_sheet(&painter->content, &print->sheets[sheet],
                   print->tag_count ? painter->tags : NULL);
    packer_add(painter->packer, &painter->packed, painter->content.bytes,
               painter->content.length);
    if (painter->has_file)
        pdf_fill_page(&painter->file, pdf_file_page(&painter->file, sheet), &painter->packed);
    if (painter->folded)
        pdf_folded_take(painter->folded, &print->sheets[sheet], sheet, &painter->packed);
    painter->content.length = painter->packed.length = 0;
}

/* The annotations of a sheet stand in a row. */
static void put_annotations(struct buffer *text, pdf_ref first, size_t count)
{
    buffer_text(text, "/Annots[");
    for (size_t i = 0; i < count; i++) {
        pdf_refer(text, first + (pdf_ref)i);
        buffer_text(text, " ");
    }
    buffer_text(text, "]");
}

/* What the pages have that libharu has no call for; they are written in order. */
struct page_entries {
    const struct print *print;
    const struct pdf_tags *tags; /* or NULL */
    pdf_ref link;                /* the first that is on no page yet */
};

static void write_page_entries(void *with, size_t index, struct buffer *out)
{
    struct page_entries *entries = with;
    size_t links = entries->print->sheets[index].area_count;
    if (links)
        put_annotations(out, entries->link, links);
    entries->link += (pdf_ref)links;
    if (entries->tags)
        pdf_tags_put_page(entries->tags, out, index);
}

static void end_file(struct pdf_painter *painter, const struct print *print)
{
    struct pdf_file *file = &painter->file;
    struct page_entries entries = {print, print->tag_count ? painter->tags : NULL, 0};
    for (size_t i = 0; i < print->sheet_count; i++)
        pdf_page_size(file->pages[i], print->sheets[i].width, print->sheets[i].height);
    pdf_fonts_embed(file, painter->fonts, painter->signs);
    pdf_catalog_describe(file, print->title,
                         print->flip_short_edge ? PDF_FLIP_SHORT_EDGE : PDF_FLIP_LONG_EDGE);
    pdf_catalog_labels(file, print);
    entries.link = pdf_links_run(file, print, print->tag_count ? painter->tags : NULL);
    if (entries.tags)
        pdf_tags_run(painter->tags, file);
    pdf_catalog_outline(file, print);
    file->write_page = write_page_entries;
    file->write_page_with = &entries;
    pdf_file_save(file);
}

static void pdf_painter_end(struct pdf_painter *painter, const struct print *print)
{
    pdf_survey_whole(print);
    if (painter->has_file)
        end_file(painter, print);
    if (painter->folded)
        pdf_folded_end(painter->folded, print, painter->fonts, painter->signs);
}

static void pdf_painter_free(struct pdf_painter *painter)
{
    if (painter->has_file)
        pdf_file_free(&painter->file);
    if (painter->folded)
        pdf_folded_free(painter->folded);
    pdf_tags_free(painter->tags);
    packer_free(painter->packer);
    buffer_free(&painter->content);
    buffer_free(&painter->packed);
    arena_free(painter->arena);
}

void pdf_paint(const struct print *print, const struct fonts *fonts, const struct sink *reading,
               const struct sink *folded)
{
    struct pdf_painter *painter = pdf_painter_new(fonts, reading, folded);
    for (size_t i = 0; i < print->sheet_count; i++)
        pdf_painter_take(painter, print, i);
    pdf_painter_end(painter, print);
    pdf_painter_free(painter);
}
