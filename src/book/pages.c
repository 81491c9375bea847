/* The list of pages: made before any is read, so that each knows all others by name. A file's
 * name becomes a file of the site, and the pages' order is that of their files' names. */
#include "book/stages.h"

#include "base/file.h"
#include "base/utf8.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_NAME = 200 }; /* bytes: most file systems take 255, with an ending */

static const char card_file[] = "card.md", form_prefix[] = "form-",
                  record_name[] = "record-of-setting";

/* fault() puts a question mark for each character that cannot. */
static bool can_be_printed(const char *file)
{
    if (utf8_valid(file, strlen(file)) != strlen(file))
        return false;
    for (uint32_t point; (point = utf8_next(&file)) != 0;)
        if (utf8_is_hidden(point))
            return false;
    return true;
}

static void list_page(struct book *book, const char *folder, const char *file)
{
    struct page *page = &book->listed[book->page_count];
    const char *wrong = NULL;
    size_t digits = strspn(file, "0123456789");
    if (!can_be_printed(file))
        wrong = "holds characters that cannot be printed";
    else if (strlen(file) > LONGEST_NAME)
        wrong = "is too long";
    else if (strcmp(file + digits, "-.md") == 0)
        wrong = "is nothing but a number";
    if (wrong) {
        fault(book->diags, (struct place){.file = folder},
              "the name of the file '%s' %s; rename it as in 40-wind-and-pull.md", file, wrong);
        return;
    }
    /* "40-wind-and-pull.md" -> "wind-and-pull": the number only gives the order */
    const char *name = digits && file[digits] == '-' ? file + digits + 1 : file;
    page->file = arena_format(book->arena, "%s/%s", folder, file);
    page->name = arena_slice(book->arena, name, strlen(name) - strlen(".md"));
    page->number = book->page_count;
    page->is_form = strncmp(file, form_prefix, strlen(form_prefix)) == 0;
    if (strcmp(file, card_file) == 0)
        book->card = page;
    if (strcmp(page->name, record_name) == 0)
        book->record = page;
    page->in_booklet = page != book->card && !page->is_form;
    book->pages[book->page_count++] = page;
}

static int by_name_then_number(const void *left, const void *right)
{
    const struct page *a = *(const struct page *const *)left;
    const struct page *b = *(const struct page *const *)right;
    int difference = strcmp(a->name, b->name);
    return difference ? difference : (a->number > b->number) - (a->number < b->number);
}

/* Two pages of one name would be written to one file, and the first page's file is
 * index.html. */
static void check_names(struct book *book, struct arena *arena)
{
    const struct page **sorted = arena_get(arena, (book->page_count + 1) * sizeof *sorted);
    for (size_t i = 0; i < book->page_count; i++)
        sorted[i] = book->pages[i];
    qsort(sorted, book->page_count, sizeof *sorted, by_name_then_number);
    for (size_t i = 1, first = 0; i < book->page_count; i++) {
        if (strcmp(sorted[i]->name, sorted[first]->name) != 0)
            first = i;
        else
            fault(book->diags, (struct place){.file = sorted[i]->file},
                  "this page and %s have the same name but for their number; rename one",
                  sorted[first]->file);
    }
    for (size_t i = 1; i < book->page_count; i++)
        if (strcmp(book->pages[i]->name, "index") == 0)
            fault(book->diags, (struct place){.file = book->pages[i]->file},
                  "the name index is taken by the first page; rename this one");
}

void book_list_pages(struct book *book, const char *folder)
{
    struct place at = {.file = folder};
    struct arena *arena = arena_new();
    const char **files = file_list(arena, folder, ".md");
    size_t count = 0;
    if (!files)
        fault(book->diags, at,
              "the folder of pages cannot be read (%s); give the right one with "
              "--content",
              strerror(errno));
    while (files && files[count])
        count++;
    book->listed = arena_get(book->arena, (count + 1) * sizeof *book->listed);
    book->pages = arena_get(book->arena, (count + 1) * sizeof(struct page *));
    book->anchors = arena_get(book->arena, (count + 1) * sizeof *book->anchors);
    for (size_t i = 0; i < count; i++)
        list_page(book, folder, files[i]);
    for (size_t i = 0; i < book->page_count; i++)
        diags_name(book->diags, book->pages[i]->file);
    if (files && (!book->page_count || !book->pages[0]->in_booklet))
        fault(book->diags, at,
              "there is no page here; write at least a title page, such as "
              "00-start.md");
    if (files && !book->card)
        fault(book->diags, at, "there is no %s here; write the card's page", card_file);
    check_names(book, arena);
    arena_free(arena);
}
