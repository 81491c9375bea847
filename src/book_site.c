/* The site. It is written while it is read, unless something else needs the trees of all
 * pages anyway: a page goes out as soon as the titles that stand on it are known, and
 * nothing of it is needed any more. The first page lists all others and comes last, before
 * those that the program makes. Up to the first fault; what was written then goes again. */
#include "book.h"

#include <string.h>

static void write_page(struct book *book, struct outset *set, size_t index)
{
    bool made = index >= book->page_count;
    struct arena *arena = made ? book->arena : book->pages[index]->arena;
    struct sink sink = outset_open(
        set, arena_format(arena, "site/%s", html_file_name(arena, &book->site, index)));
    buffer_drain(&book->html, &sink);
    html_paint(&book->html, &book->site, index);
    buffer_end_drain(&book->html);
    outset_close(sink);
}

/* The pages behind the first for which enough has been read. */
static void write_ready(struct book *book, size_t last_read)
{
    struct outset *set = book_begin_set(book);
    while (set && book->next_page <= last_read &&
           html_last_title(&book->site, book->next_page) <= last_read) {
        write_page(book, set, book->next_page);
        book_drop_tree(book, &book->listed[book->next_page++]);
    }
}

void book_site_take(struct book *book, struct page *page)
{
    if (!book->out || diags_count(book->diags) > 0) {
        book_drop_tree(book, page);
        return;
    }
    if (book->parts & (PART_SITE | PART_SINGLE))
        find_add(book->find, page);
    if (book_keeps_trees(book))
        return; /* written in the end, beside the parts that need all of them */
    if (book->parts & PART_SITE)
        write_ready(book, page->number);
    else
        book_drop_tree(book, page);
}

static void write_single(struct book *book, struct outset *set)
{
    struct sink sink = outset_open(set, "spindlebook.html");
    buffer_drain(&book->html, &sink);
    html_paint_single(&book->html, &book->site);
    buffer_end_drain(&book->html);
    outset_close(sink);
}

static void write_rest(struct book *book, struct outset *set)
{
    const struct html_site *site = &book->site;
    write_ready(book, book->page_count - 1);
    write_page(book, set, 0);
    for (size_t i = 0; i < site->extra_count; i++)
        write_page(book, set, site->page_count + i);
    outset_write(set, "site/style.css", book->style, book->style_length);
    for (size_t i = 0; i < site->extra_count; i++)
        outset_write(set, arena_format(book->arena, "site/%s", site->extras[i].style_file),
                     site->extras[i].style, strlen(site->extras[i].style));
}

void book_write_site(struct book *book, struct outset *set)
{
    if (book->parts & PART_SITE)
        write_rest(book, set);
    if (book->parts & PART_SINGLE)
        write_single(book, set);
    find_free(book->find); /* before the old set's files are listed: both are long */
    book->find = NULL;
}
