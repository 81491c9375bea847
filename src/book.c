#include "book.h"
#include "book_figures.h"

#include "base/file.h"
#include "page/compose.h"
#include "read/markdown.h"
#include "read/settings.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static const char settings_file[] = "settings.yaml", card_file[] = "card.md";

/* "40-wind-and-pull.md" -> "wind-and-pull": the number only gives the order. */
static const char *page_name(struct arena *arena, const char *file)
{
    size_t digits = strspn(file, "0123456789");
    if (digits && file[digits] == '-')
        file += digits + 1;
    return arena_slice(arena, file, strlen(file) - strlen(".md"));
}

static void read_page(struct book *book, const char *folder, const char *file)
{
    if (!book_check_name(book, folder, file))
        return;
    struct page *page = markdown_read(book->arena, book->diags,
                                      arena_format(book->arena, "%s/%s", folder, file));
    if (!page)
        return;
    page->name = page_name(book->arena, file);
    page->number = book->page_count;
    page->is_form = book_is_form(file);
    page->in_booklet = strcmp(file, card_file) != 0 && !page->is_form;
    if (strcmp(file, card_file) == 0)
        book->card = page;
    *ARENA_PUSH(book->arena, book->pages, book->page_count) = page;
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

static void read_pages(struct book *book, const char *folder)
{
    struct place at = {.file = folder};
    const char **files = file_list(book->arena, folder, ".md");
    if (!files) {
        fault(book->diags, at,
              "the folder of pages cannot be read (%s); give the right one with "
              "--content",
              strerror(errno));
        return;
    }
    for (size_t i = 0; files[i]; i++)
        read_page(book, folder, files[i]);
    if (!book->page_count || !book->pages[0]->in_booklet)
        fault(book->diags, at,
              "there is no page here; write at least a title page, such as "
              "00-start.md");
    if (!book->card)
        fault(book->diags, at, "there is no %s here; write the card's page", card_file);
    check_names(book);
}

static void read_templates(struct book *book, const char *folder)
{
    struct file_text style = {0}, forms = {0};
    book->page_template = html_template_read(book->arena, book->diags,
                                             arena_format(book->arena, "%s/page.html", folder));
    if (!file_read_text(book->arena, book->diags,
                        arena_format(book->arena, "%s/style.css", folder), &style))
        return;
    if (!file_read_text(book->arena, book->diags,
                        arena_format(book->arena, "%s/form.css", folder), &forms))
        return;
    book->style = arena_format(book->arena, "%s%s", style.bytes, forms.bytes);
    book->style_length = style.length + forms.length;
}

static void check_signs(struct book *book)
{
    for (size_t i = 0; i < book->shop.text_count; i++)
        text_check(book->shop.texts[i].text, book->fonts, book->shop.texts[i].at, book->diags);
    compose_check(book->pages, book->page_count, book->fonts, book->diags);
}

void book_read(struct book *book, const struct book_paths *paths)
{
    *book = (struct book){.parts = paths->parts ? paths->parts : PARTS_ALL,
                          .made_from = paths->made_from,
                          .arena = arena_new()};
    book->diags = diags_new(book->arena);
    settings_read(book->arena, book->diags,
                  paths->settings
                      ? paths->settings
                      : arena_format(book->arena, "%s/%s", paths->content, settings_file),
                  paths->replacements, paths->replacement_count, &book->shop);
    bool shop_is_good = diags_count(book->diags) == 0;
    read_pages(book, paths->content);
    read_templates(book, paths->templates);
    book_read_screen(book, paths);
    book->fonts = fonts_load(book->arena, book->diags, paths->fonts);
    book_check_forms(book);
    book_check_out(book, paths);
    if (shop_is_good)
        book_make_tables(book);
    else
        book_check_tables(book);
    if (shop_is_good && book->fonts)
        book_make_figures(book);
    else
        book_check_figures(book);
    book_keep_what_holds(book, shop_is_good ? &book->shop : NULL);
    book_fill_forms(book, shop_is_good ? &book->shop : NULL);
    book_resolve_links(book);
    if (book->fonts)
        check_signs(book);
}

void book_make(struct book *book, const struct book_paths *paths)
{
    book_read(book, paths);
    if (diags_count(book->diags) == 0)
        book_compose(book);
    if (diags_count(book->diags) == 0)
        book_write(book, paths->out);
}

void book_free(struct book *book)
{
    fonts_free(book->fonts);
    arena_free(book->arena);
    *book = (struct book){0};
}
