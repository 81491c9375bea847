/* The files of the templates' folder. A script or a style sheet stands within its page, or
 * within the single file: its text must not end its element. */
#include "book.h"

#include "base/file.h"

#include <string.h>

const char *book_template(struct book *book, const char *folder, const char *file,
                          const char *end)
{
    struct file_text text = {0};
    const char *name = arena_format(book->arena, "%s/%s", folder, file);
    if (!file_read_text(book->arena, book->diags, name, &text))
        return "";
    const char *found = end ? strcasestr(text.bytes, end) : NULL;
    if (found)
        fault(book->diags, file_place(&text, (size_t)(found - text.bytes)),
              "'%s' stands here and would end this file's part of the page; write it as "
              "'<\\%s'",
              end, end + 1);
    return text.bytes;
}

void book_read_templates(struct book *book, const char *folder)
{
    book->page_template = html_template_read(book->arena, book->diags,
                                             arena_format(book->arena, "%s/page.html", folder));
    const char *style = book_template(book, folder, "style.css", STYLE_END);
    const char *forms = book_template(book, folder, "form.css", STYLE_END);
    book->style = arena_format(book->arena, "%s%s", style, forms);
    book->style_length = strlen(book->style);
}
