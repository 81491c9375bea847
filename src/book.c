#include "book.h"

#include "base/file.h"
#include "base/source_date.h"
#include "page/compose.h"
#include "read/settings.h"

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
    for (size_t i = 0; book->fonts && i < book->shop.text_count; i++)
        text_check(book->shop.texts[i].text, book->fonts, book->shop.texts[i].at, book->diags);
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
                      : arena_format(book->arena, "%s/%s", paths->content, SETTINGS_NAME),
                  paths->replacements, paths->replacement_count, &book->shop);
    book->shop_is_good = diags_count(book->diags) == 0;
    book_list_pages(book, paths->content);
    read_templates(book, paths->templates);
    book_read_screen(book, paths);
    book->fonts = fonts_load(book->arena, book->diags, paths->fonts);
    source_date_check(book->diags);
    book_check_out(book, paths);
    book_read_pages(book);
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
