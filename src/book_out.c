/* Where the outputs may go. */
#include "book.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* Both without links and dots. */
static bool holds(const char *folder, const char *path)
{
    size_t length = strcmp(folder, "/") == 0 ? 0 : strlen(folder);
    return strncmp(path, folder, length) == 0 && (path[length] == '/' || path[length] == '\0');
}

/* The folder of outputs is exchanged as a whole: nothing that the user works in or that
 * is read may lie in it. One that is not there yet holds nothing. */
void book_check_out(struct book *book, const struct book_paths *paths)
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
