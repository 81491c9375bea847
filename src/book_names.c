/* What a page's file may be called: its name becomes a file of the site and a link. */
#include "book.h"

#include "base/utf8.h"

#include <string.h>

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
