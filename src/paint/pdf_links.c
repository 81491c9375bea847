#include "paint/pdf_links.h"

#include "paint/pdf_text.h"

void pdf_put_place(struct buffer *out, HPDF_Page page, const struct sheet *sheet, double y)
{
    buffer_text(out, "[");
    pdf_refer(out, page);
    buffer_text(out, "/XYZ null ");
    pdf_number(out, sheet->height - y);
    buffer_text(out, " null]");
}

static void put_rectangle(struct buffer *out, const struct hot_area *area, double height)
{
    const double sides[] = {area->x, height - area->y - area->height, area->x + area->width,
                            height - area->y};
    buffer_text(out, "[");
    for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
        pdf_number(out, sides[i]);
        buffer_text(out, " ");
    }
    buffer_text(out, "]");
}

/* The tag of the first text that begins within the area, or -1. */
static int tag_within(const struct sheet *sheet, const struct hot_area *area)
{
    const double slack = 0.5; /* pt: areas and texts are measured each on its own */
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const struct piece *piece = &sheet->pieces[i];
        if (piece->kind == PIECE_TEXT && piece->tag >= 0 && piece->x >= area->x - slack &&
            piece->x < area->x + area->width && piece->y >= area->y - slack &&
            piece->y <= area->y + area->height + slack)
            return piece->tag;
    }
    return -1;
}

static void put_link(struct buffer *out, const struct print *print, size_t sheet,
                     const struct hot_area *area, const HPDF_Page *pages)
{
    buffer_text(out, "/Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect");
    put_rectangle(out, area, print->sheets[sheet].height);
    if (area->uri) {
        buffer_text(out, "/A<</S/URI/URI");
        pdf_uri(out, area->uri);
        buffer_text(out, ">>");
    } else {
        buffer_text(out, "/A<</S/GoTo/D");
        pdf_put_place(out, pages[area->to_sheet], &print->sheets[area->to_sheet], area->to_y);
        buffer_text(out, ">>");
    }
}

void pdf_links_add(struct pdf_file *file, const struct print *print, size_t sheet,
                   const HPDF_Page *pages, struct pdf_tags *tags)
{
    const struct sheet *from = &print->sheets[sheet];
    if (from->area_count == 0)
        return;
    struct buffer text = {0};
    HPDF_Array list = HPDF_Array_New(file->doc->mmgr);
    HPDF_Dict_Add(pages[sheet], "Annots", list);
    for (size_t i = 0; i < from->area_count; i++) {
        HPDF_Dict link = pdf_object(file);
        put_link(&text, print, sheet, &from->areas[i], pages);
        int key =
            tags ? pdf_tags_tie(tags, tag_within(from, &from->areas[i]), sheet, link) : -1;
        if (key >= 0)
            buffer_print(&text, "/StructParent %d", key);
        pdf_object_set(file, link, &text);
        HPDF_Array_Add(list, link);
    }
    buffer_free(&text);
    pdf_file_check(file);
}
