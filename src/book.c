#include "book.h"

#include "base/source_date.h"
#include "page/compose.h"
#include "read/settings.h"

/* Where one is missing no table is made: each would tell of it once more, as if it stood on
 * the page. */
static void check_signs(struct book *book)
{
    size_t before = diags_count(book->diags);
    for (size_t i = 0; book->fonts && i < book->shop.text_count; i++)
        text_check(book->shop.texts[i].text, book->fonts, book->shop.texts[i].at, book->diags);
    book->shop_is_good &= diags_count(book->diags) == before;
}

/* out: where the outputs go, NULL where none are made. */
static void read_book(struct book *book, const struct book_paths *paths, const char *out)
{
    *book = (struct book){.parts = paths->parts ? paths->parts : PARTS_ALL,
                          .made_from = paths->made_from,
                          .out = out,
                          .next_page = 1,
                          .arena = arena_new()};
    book->diags = diags_new(book->arena);
    settings_read(book->arena, book->diags,
                  paths->settings
                      ? paths->settings
                      : arena_format(book->arena, "%s/%s", paths->content, SETTINGS_NAME),
                  paths->replacements, paths->replacement_count, &book->shop);
    book->shop_is_good = diags_count(book->diags) == 0;
    book_list_pages(book, paths->content);
    book_read_templates(book, paths->templates);
    book_read_screen(book, paths);
    book->fonts = fonts_load(book->arena, book->diags, paths->fonts);
    source_date_check(book->diags);
    book_check_out(book, paths);
    if (out)
        outset_refuses(book->diags, out);
    check_signs(book);
    if (book->shop_is_good)
        book->inputs = book_inputs_text(book);
    if (diags_count(book->diags) == 0)
        book_set_up_site(book);
    book_read_pages(book);
}

void book_read(struct book *book, const struct book_paths *paths)
{
    read_book(book, paths, NULL);
}

void book_make(struct book *book, const struct book_paths *paths)
{
    read_book(book, paths, paths->out);
    if (diags_count(book->diags) == 0)
        book_write(book);
    if (diags_count(book->diags) > 0 && book->set)
        outset_abandon(book->set);
}

void book_free(struct book *book)
{
    fonts_free(book->fonts);
    find_free(book->find);
    buffer_free(&book->html);
    for (size_t i = 0; i < book->page_count; i++)
        book_drop_tree(book, &book->listed[i]);
    arena_free(book->arena);
    *book = (struct book){0};
}
