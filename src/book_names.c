/* What a page's file may be called: its name becomes a file of the site and a link. */
#include "book.h"

#include "base/utf8.h"

#include <string.h>

enum { LONGEST_NAME = 200 }; /* bytes: most file systems take 255, with an ending */

static bool is_control(char c)
{
    return (unsigned char)c < 0x20 || c == 0x7F;
}

/* The name with a ? for every byte that cannot be printed. */
static const char *printable(struct arena *arena, const char *file)
{
    char *text = arena_text(arena, file);
    bool is_text = utf8_valid(file, strlen(file)) == strlen(file);
    for (char *at = text; *at; at++)
        if (is_control(*at) || (!is_text && (unsigned char)*at >= 0x80))
            *at = '?';
    return text;
}

bool book_check_name(struct book *book, const char *folder, const char *file)
{
    const char *shown = printable(book->arena, file), *wrong = NULL;
    size_t digits = strspn(file, "0123456789");
    if (strcmp(shown, file) != 0)
        wrong = "holds signs that cannot be printed";
    else if (strlen(file) > LONGEST_NAME)
        wrong = "is too long";
    else if (strcmp(file + digits, "-.md") == 0)
        wrong = "is nothing but a number";
    if (wrong)
        fault(book->diags, (struct place){.file = folder},
              "the name of the file '%s' %s; rename it as in 40-wind-and-pull.md", shown,
              wrong);
    return !wrong;
}
