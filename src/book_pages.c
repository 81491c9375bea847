/* The pages: listed first, so that each knows all others by name; then read and checked one
 * after the other. */
#include "book.h"

#include "base/file.h"
#include "page/compose.h"
#include "read/markdown.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static const char card_file[] = "card.md";

/* "40-wind-and-pull.md" -> "wind-and-pull": the number only gives the order. */
static const char *page_name(struct arena *arena, const char *file)
{
    size_t digits = strspn(file, "0123456789");
    if (digits && file[digits] == '-')
        file += digits + 1;
    return arena_slice(arena, file, strlen(file) - strlen(".md"));
}

static void list_page(struct book *book, const char *folder, const char *file)
{
    struct page *page = &book->listed[book->page_count];
    if (!book_check_name(book, folder, file))
        return;
    page->file = arena_format(book->arena, "%s/%s", folder, file);
    page->name = page_name(book->arena, file);
    page->number = book->page_count;
    page->is_form = book_is_form(file);
    page->in_booklet = strcmp(file, card_file) != 0 && !page->is_form;
    if (strcmp(file, card_file) == 0)
        book->card = page;
    book->pages[book->page_count++] = page;
}

static int by_name_then_number(const void *left, const void *right)
{
    const struct page *a = *(const struct page *const *)left;
    const struct page *b = *(const struct page *const *)right;
    int difference = strcmp(a->name, b->name);
    return difference ? difference : (a->number > b->number) - (a->number < b->number);
}

/* Owned by the arena. */
static const struct page **pages_by_name(struct book *book)
{
    const struct page **sorted =
        arena_get(book->arena, (book->page_count + 1) * sizeof *sorted);
    if (book->page_count) {
        memcpy(sorted, book->pages, book->page_count * sizeof *sorted);
        qsort(sorted, book->page_count, sizeof *sorted, by_name_then_number);
    }
    return sorted;
}

/* Two pages of one name would be written to one file, and the first page's file is
 * index.html. */
static void check_names(struct book *book)
{
    const struct page **by_name = pages_by_name(book);
    for (size_t i = 1, first = 0; i < book->page_count; i++) {
        const struct page *page = by_name[i];
        if (strcmp(page->name, by_name[first]->name) != 0)
            first = i;
        else
            fault(book->diags, (struct place){.file = page->file},
                  "this page and %s have the same name but for their number; rename one",
                  by_name[first]->file);
    }
    for (size_t i = 1; i < book->page_count; i++)
        if (strcmp(book->pages[i]->name, "index") == 0)
            fault(book->diags, (struct place){.file = book->pages[i]->file},
                  "the name index is taken by the first page; rename this one");
}

static void list_files(struct book *book, const char *folder, const char *const *files)
{
    size_t count = 0;
    while (files[count])
        count++;
    book->listed = arena_get(book->arena, (count + 1) * sizeof *book->listed);
    book->pages = arena_get(book->arena, (count + 1) * sizeof(struct page *));
    book->anchors = arena_get(book->arena, (count + 1) * sizeof *book->anchors);
    for (size_t i = 0; i < count; i++)
        list_page(book, folder, files[i]);
    for (size_t i = 0; i < book->page_count; i++)
        diags_name(book->diags, book->pages[i]->file);
}

void book_list_pages(struct book *book, const char *folder)
{
    struct place at = {.file = folder};
    struct arena *arena = arena_new();
    const char **files = file_list(arena, folder, ".md");
    if (files)
        list_files(book, folder, files);
    else
        fault(book->diags, at,
              "the folder of pages cannot be read (%s); give the right one with "
              "--content",
              strerror(errno));
    if (files && (!book->page_count || !book->pages[0]->in_booklet))
        fault(book->diags, at,
              "there is no page here; write at least a title page, such as "
              "00-start.md");
    if (files && !book->card)
        fault(book->diags, at, "there is no %s here; write the card's page", card_file);
    check_names(book);
    arena_free(arena);
}

void book_check_page(struct book *book, const struct page *page)
{
    const struct shop *shop = book->shop_is_good ? &book->shop : NULL;
    book_check_forms(book, page);
    book_place_tables(book, page);
    book_place_figures(book, page);
    book_keep_what_holds(book, page, shop);
    book_fill_forms(book, page, shop);
    book_find_links(book, page);
    if (book->fonts)
        compose_check(page, book->fonts, book->diags);
}

bool book_keeps_trees(const struct book *book)
{
    return book->parts & (PART_SINGLE | PART_BOOKLET | PART_FOLD | PART_CARD | PART_FORMS);
}

void book_drop_tree(struct book *book, struct page *page)
{
    if (page->arena == book->arena)
        return;
    arena_free(page->arena);
    page->arena = NULL;
    page->root = NULL;
}

static void read_page(struct book *book, struct page *page)
{
    page->arena = book_keeps_trees(book) ? book->arena : arena_new();
    const struct page *read = markdown_read(page->arena, book->diags, page->file);
    if (!read)
        return;
    page->root = read->root;
    page->title = arena_text(book->arena, read->title);
    book_check_page(book, page);
    book_site_take(book, page);
}

void book_read_pages(struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++)
        read_page(book, &book->listed[i]);
    book_make_other_tables(book);
    book_check_links(book);
}
