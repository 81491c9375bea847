/* The run over the sheets of a print, in reading order. */
#include "paint/pdf.h"

#include "paint/pdf_catalog.h"
#include "paint/pdf_draw.h"
#include "paint/pdf_file.h"
#include "paint/pdf_fonts.h"
#include "paint/pdf_links.h"
#include "paint/pdf_survey.h"
#include "paint/pdf_tags.h"

static HPDF_Page *add_pages(struct pdf_file *file, const struct print *print)
{
    HPDF_Page *pages = arena_get(file->arena, print->sheet_count * sizeof(HPDF_Page));
    file->doing = "adding pages";
    for (size_t i = 0; i < print->sheet_count; i++)
        pages[i] = pdf_file_add_page(file, print->sheets[i].width, print->sheets[i].height);
    pdf_file_check(file);
    return pages;
}

static void draw_pages(struct pdf_file *file, const struct print *print, const HPDF_Page *pages,
                       HPDF_Dict font_resources, struct pdf_tags *tags)
{
    struct buffer content = {0};
    file->doing = "drawing a page";
    for (size_t i = 0; i < print->sheet_count; i++) {
        pdf_draw_sheet(&content, &print->sheets[i], i, tags);
        pdf_file_fill_page(file, pages[i], &content);
        pdf_fonts_share(file, pages[i], font_resources);
        pdf_links_add(file, print, i, pages, tags);
    }
    buffer_free(&content);
}

void pdf_paint(struct buffer *out, const struct print *print, const struct fonts *fonts)
{
    struct pdf_file file;
    pdf_survey_check(print);
    pdf_file_open(&file, print->sheet_count);
    struct pdf_signs *signs = arena_get(file.arena, sizeof *signs);
    pdf_survey_signs(signs, print->sheets, print->sheet_count);
    HPDF_Dict font_resources = pdf_fonts_embed(&file, fonts, signs);
    HPDF_Page *pages = add_pages(&file, print);
    struct pdf_tags *tags = pdf_tags_new(file.arena, print);
    draw_pages(&file, print, pages, font_resources, tags);
    pdf_tags_write(tags, &file, pages);
    pdf_catalog_describe(&file, print->title,
                         print->flip_short_edge ? PDF_FLIP_SHORT_EDGE : PDF_FLIP_LONG_EDGE);
    pdf_catalog_labels(&file, print);
    pdf_catalog_outline(&file, print, pages);
    pdf_file_save(&file, out);
}
