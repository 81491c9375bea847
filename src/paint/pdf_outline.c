/* The outline: the tree of titles beside the pages (PDF 1.7, section 12.3.3). */
#include "paint/pdf_catalog.h"

#include "paint/pdf_links.h"
#include "paint/pdf_text.h"

#include <stdint.h>

static const size_t NONE = SIZE_MAX;

struct item {
    size_t parent, before, after, first, last; /* entries, or NONE */
    long children;
    HPDF_Dict object;
};

/* An entry hangs below the nearest one before it that is of a higher rank. */
static size_t find_parent(const struct print *print, const struct item *items, size_t index)
{
    size_t above = index - 1; /* NONE for the first of all */
    while (above != NONE && print->outline[above].level >= print->outline[index].level)
        above = items[above].parent;
    return above;
}

static void hang(struct item *items, struct item *root, size_t index, size_t parent)
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

static void put_reference(struct buffer *out, const char *key, const struct item *items,
                          size_t index)
{
    if (index == NONE)
        return;
    buffer_text(out, key);
    pdf_refer(out, items[index].object);
}

/* How many entries show below one: two ranks stand open, deeper ones are folded,
 * and say so by a negative count. */
static long shown_below(const struct item *item)
{
    return item->parent == NONE ? item->children : -item->children;
}

static void put_item(struct buffer *out, const struct item *items, const struct item *item,
                     const struct item *root)
{
    buffer_text(out, "/Parent ");
    pdf_refer(out, item->parent == NONE ? root->object : items[item->parent].object);
    put_reference(out, "/Prev ", items, item->before);
    put_reference(out, "/Next ", items, item->after);
    put_reference(out, "/First ", items, item->first);
    put_reference(out, "/Last ", items, item->last);
    if (item->children)
        buffer_print(out, "/Count %ld", shown_below(item));
}

static void put_root(struct buffer *out, const struct item *items, const struct item *root)
{
    long shown = root->children;
    for (size_t i = root->first; i != NONE; i = items[i].after)
        shown += shown_below(&items[i]);
    buffer_text(out, "/Type/Outlines");
    put_reference(out, "/First ", items, root->first);
    put_reference(out, "/Last ", items, root->last);
    buffer_print(out, "/Count %ld", shown);
}

static struct item new_item(struct pdf_file *file)
{
    return (struct item){NONE, NONE, NONE, NONE, NONE, 0, pdf_object(file)};
}

void pdf_catalog_outline(struct pdf_file *file, const struct print *print,
                         const HPDF_Page *pages)
{
    if (print->outline_count == 0)
        return;
    struct buffer text = {0};
    file->doing = "writing the outline";
    struct item root = new_item(file);
    struct item *items = arena_get(file->arena, print->outline_count * sizeof *items);
    for (size_t i = 0; i < print->outline_count; i++) {
        items[i] = new_item(file);
        hang(items, &root, i, find_parent(print, items, i));
    }
    for (size_t i = 0; i < print->outline_count; i++) {
        const struct outline_entry *entry = &print->outline[i];
        buffer_text(&text, "/Title");
        pdf_string(&text, entry->title);
        buffer_text(&text, "/Dest");
        pdf_put_place(&text, pages[entry->sheet], &print->sheets[entry->sheet], entry->y);
        put_item(&text, items, &items[i], &root);
        pdf_object_set(file, items[i].object, &text);
    }
    put_root(&text, items, &root);
    pdf_object_set(file, root.object, &text);
    buffer_free(&text);
    HPDF_Dict_Add(file->doc->catalog, "Outlines", root.object);
    HPDF_SetPageMode(file->doc, HPDF_PAGE_MODE_USE_OUTLINE);
    pdf_file_check(file);
}
