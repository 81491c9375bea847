#include "book/book.h"

#include "base/file.h"
#include "base/utf8.h"
#include "layout/compose.h"
#include "shop/settings.h"

#include <limits.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

/* What a page's file may be called: its name becomes a file of the site and a link. */

enum { LONGEST_NAME = 200 }; /* bytes: most file systems take 255, with an ending */

/* fault() puts a question mark for each such sign. */
static bool can_be_printed(const char *file)
{
    if (utf8_valid(file, strlen(file)) != strlen(file))
        return false;
    for (uint32_t point; (point = utf8_next(&file)) != 0;)
        if (utf8_is_hidden(point))
            return false;
    return true;
}

bool book_check_name(struct book *book, const char *folder, const char *file)
{
    const char *wrong = NULL;
    size_t digits = strspn(file, "0123456789");
    if (!can_be_printed(file))
        wrong = "holds characters that cannot be printed";
    else if (strlen(file) > LONGEST_NAME)
        wrong = "is too long";
    else if (strcmp(file + digits, "-.md") == 0)
        wrong = "is nothing but a number";
    if (wrong)
        fault(book->diags, (struct place){.file = folder},
              "the name of the file '%s' %s; rename it as in 40-wind-and-pull.md", file, wrong);
    return !wrong;
}

/* Where the outputs may go. */

/* Both without links and dots. */
static bool holds(const char *folder, const char *path)
{
    size_t length = strcmp(folder, "/") == 0 ? 0 : strlen(folder);
    return strncmp(path, folder, length) == 0 && (path[length] == '/' || path[length] == '\0');
}

/* May the outputs go where they are to? Part of book_read(). */
/* The folder of outputs is exchanged as a whole: nothing that the user works in or that
 * is read may lie in it. One that is not there yet holds nothing. */
static void book_check_out(struct book *book, const struct book_paths *paths)
{
    const char *const inputs[] = {".", paths->content, paths->templates, paths->fonts,
                                  paths->settings ? paths->settings : paths->content};
    char folder[PATH_MAX], input[PATH_MAX];
    if (!realpath(paths->out, folder))
        return;
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++) {
        if (!realpath(inputs[i], input) || !holds(folder, input))
            continue;
        fault(book->diags, (struct place){.file = paths->out},
              "%s lies in this folder, which the outputs will have for themselves; give "
              "another with --out",
              i ? inputs[i] : "the folder that you work in");
        return;
    }
}

/* A whole run: read, check, compute, compose, paint. */

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

/* The outputs by name, so that a run may make some of them alone. */

unsigned book_part_named(const char *name)
{
    static const struct {
        const char *name;
        unsigned part;
    } parts[] = {{"site", PART_SITE},       {"single", PART_SINGLE}, {"tables", PART_TABLES},
                 {"booklet", PART_BOOKLET}, {"fold", PART_FOLD},     {"card", PART_CARD},
                 {"aids", PART_AIDS},       {"forms", PART_FORMS}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strcmp(parts[i].name, name) == 0)
            return parts[i].part;
    return 0;
}
