#include "paint/pdf_links.h"

#include "paint/pdf_text.h"

void pdf_put_place(struct buffer *out, const struct pdf_file *file, const struct print *print,
                   size_t sheet, double y)
{
    buffer_text(out, "[");
    pdf_refer(out, pdf_number_of(file->pages[sheet]));
    buffer_text(out, "/XYZ null ");
    pdf_number(out, print->sheets[sheet].height - y);
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

/* The link that is written: a run asks for one after the other. */
struct links {
    const struct pdf_file *file;
    const struct print *print;
    size_t sheet, area;
    const struct pdf_tags *tags; /* or NULL */
    long key;                    /* in the tree of tags, of the next that is tied */
};

static void put_target(struct buffer *out, const struct links *links,
                       const struct hot_area *area)
{
    if (area->uri) {
        buffer_text(out, "/A<</S/URI/URI");
        pdf_uri(out, area->uri);
    } else {
        buffer_text(out, "/A<</S/GoTo/D");
        pdf_put_place(out, links->file, links->print, area->to_sheet, area->to_y);
    }
    buffer_text(out, ">>");
}

static void write_link(void *with, size_t index, struct buffer *out)
{
    struct links *links = with;
    (void)index;
    while (links->area == links->print->sheets[links->sheet].area_count) {
        links->area = 0;
        links->sheet++;
    }
    const struct sheet *sheet = &links->print->sheets[links->sheet];
    const struct hot_area *area = &sheet->areas[links->area++];
    buffer_text(out, "/Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect");
    put_rectangle(out, area, sheet->height);
    put_target(out, links, area);
    if (links->tags && pdf_tags_link(links->tags, area->tag) >= 0)
        buffer_print(out, "/StructParent %ld", links->key++);
}

pdf_ref pdf_links_run(struct pdf_file *file, const struct print *print, struct pdf_tags *tags)
{
    struct links *links = arena_get(file->arena, sizeof *links);
    size_t count = 0;
    for (size_t i = 0; i < print->sheet_count; i++)
        count += print->sheets[i].area_count;
    *links = (struct links){
        .file = file, .print = print, .tags = tags, .key = (long)print->sheet_count};
    pdf_ref first = pdf_run(file, count, write_link, links), link = first;
    for (size_t i = 0; tags && i < print->sheet_count; i++)
        for (size_t k = 0; k < print->sheets[i].area_count; k++)
            pdf_tags_tie(tags, print->sheets[i].areas[k].tag, i, link++);
    return first;
}
