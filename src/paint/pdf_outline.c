/* The outline: the tree of titles beside the pages (PDF 1.7, section 12.3.3). */
#include "paint/pdf_catalog.h"

#include "paint/pdf_links.h"
#include "paint/pdf_text.h"

#include <stdint.h>

static const size_t NONE = SIZE_MAX;

struct item {
    size_t parent, before, after, first, last; /* entries, or NONE */
    long children;
};

struct outline {
    struct pdf_file *file;
    const struct print *print;
    struct item root, *items;
    pdf_ref first; /* object: the root's; those of the entries follow */
};

/* An entry hangs below the nearest one before it that is of a higher rank. */
static size_t find_parent(const struct print *print, const struct item *items, size_t index)
{
    size_t above = index - 1; /* NONE for the first of all */
    while (above != NONE && print->outline[above].level >= print->outline[index].level)
        above = items[above].parent;
    return above;
}

static void append_child(struct item *items, struct item *root, size_t index, size_t parent)
{
    struct item *above = parent == NONE ? root : &items[parent];
    items[index].parent = parent;
    items[index].before = above->last;
    if (above->last == NONE)
        above->first = index;
    else
        items[above->last].after = index;
    above->last = index;
    above->children++;
}

static void refer_to(const struct outline *outline, struct buffer *out, size_t index)
{
    pdf_refer(out, index == NONE ? outline->first : outline->first + 1 + (pdf_ref)index);
}

static void put_reference(const struct outline *outline, struct buffer *out, const char *key,
                          size_t index)
{
    if (index == NONE)
        return;
    buffer_text(out, key);
    refer_to(outline, out, index);
}

/* How many entries show below one: two ranks stand open, deeper ones are folded,
 * and say so by a negative count. */
static long shown_below(const struct item *item)
{
    return item->parent == NONE ? item->children : -item->children;
}

static void put_root(const struct outline *outline, struct buffer *out)
{
    const struct item *root = &outline->root;
    long shown = root->children;
    for (size_t i = root->first; i != NONE; i = outline->items[i].after)
        shown += shown_below(&outline->items[i]);
    buffer_text(out, "/Type/Outlines");
    put_reference(outline, out, "/First ", root->first);
    put_reference(outline, out, "/Last ", root->last);
    buffer_print(out, "/Count %ld", shown);
}

static void put_item(const struct outline *outline, struct buffer *out, size_t index)
{
    const struct item *item = &outline->items[index];
    const struct outline_entry *entry = &outline->print->outline[index];
    buffer_text(out, "/Title");
    pdf_string(out, entry->title);
    buffer_text(out, "/Dest");
    pdf_put_place(out, outline->file, outline->print, entry->sheet, entry->y);
    buffer_text(out, "/Parent ");
    refer_to(outline, out, item->parent);
    put_reference(outline, out, "/Prev ", item->before);
    put_reference(outline, out, "/Next ", item->after);
    put_reference(outline, out, "/First ", item->first);
    put_reference(outline, out, "/Last ", item->last);
    if (item->children)
        buffer_print(out, "/Count %ld", shown_below(item));
}

static void write_object(void *with, size_t index, struct buffer *out)
{
    if (index == 0)
        put_root(with, out);
    else
        put_item(with, out, index - 1);
}

static struct item new_item(void)
{
    return (struct item){NONE, NONE, NONE, NONE, NONE, 0};
}

void pdf_catalog_outline(struct pdf_file *file, const struct print *print)
{
    if (print->outline_count == 0)
        return;
    struct outline *outline = arena_get(file->arena, sizeof *outline);
    *outline = (struct outline){.file = file, .print = print, .root = new_item()};
    outline->items = arena_get(file->arena, print->outline_count * sizeof *outline->items);
    for (size_t i = 0; i < print->outline_count; i++) {
        outline->items[i] = new_item();
        append_child(outline->items, &outline->root, i, find_parent(print, outline->items, i));
    }
    outline->first = pdf_run(file, print->outline_count + 1, write_object, outline);
    buffer_text(&file->catalog, "/Outlines ");
    pdf_refer(&file->catalog, outline->first);
    HPDF_SetPageMode(file->doc, HPDF_PAGE_MODE_USE_OUTLINE);
}
