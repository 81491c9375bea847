#include "paint/pdf_links.h"

#include "paint/pdf_text.h"

void pdf_put_place(struct buffer *out, pdf_ref page, const struct sheet *sheet, double y)
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

static void put_link(struct buffer *out, const struct print *print, size_t sheet,
                     const struct hot_area *area, const pdf_ref *pages)
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

pdf_ref pdf_links_write(struct pdf_file *file, const struct print *print, size_t sheet,
                        const pdf_ref *pages, struct pdf_tags *tags)
{
    const struct sheet *from = &print->sheets[sheet];
    pdf_ref first = pdf_reserve(file, from->area_count);
    for (size_t i = 0; i < from->area_count; i++) {
        pdf_ref link = first + (pdf_ref)i;
        struct buffer *text = pdf_begin(file, link);
        put_link(text, print, sheet, &from->areas[i], pages);
        long key = tags ? pdf_tags_tie(tags, from->areas[i].tag, sheet, link) : -1;
        if (key >= 0)
            buffer_print(text, "/StructParent %ld", key);
        pdf_end(file);
    }
    return first;
}
