/* The files of the templates' folder. A script or a style sheet stands within its page, or
 * within the single file: its text must not end its element. */
#include "base/file.h"
#include "base/outset.h"
#include "book/bench.h"
#include "book/book.h"
#include "doc/markdown.h"
#include "html/csv.h"
#include "html/find.h"
#include "layout/compose.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

static void book_site_take(struct book *book, struct page *page);
static struct outset *book_begin_set(struct book *book);

/* The text of a template; "" after a fault. end: what may not stand in it, or NULL. */
static const char *book_template(struct book *book, const char *folder, const char *file,
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

/* What is read for the screen, and what its pages say beside the content. */

static const struct html_extra extra_pages[EXTRA_PAGES] = {
    [EXTRA_FIND] = {.name = "find",
                    .title = "Index of tables and words",
                    .brief = "Index",
                    .paint = find_paint},
    [EXTRA_BENCH] = {.name = "bench",
                     .title = "At the bench",
                     .brief = "Bench",
                     .paint = bench_page_paint,
                     .has_engine = true},
};

/* ---- reading ---- */

/* Four files, one script: the first has what the others share. */
static const char *read_bench_script(struct book *book, const char *folder)
{
    static const char *const files[] = {"bench-parts.js", "bench-line.js", "bench-drums.js",
                                        "bench.js"};
    const char *text = "";
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        text = arena_format(book->arena, "%s%s", text,
                            book_template(book, folder, files[i], SCRIPT_END));
    return text;
}

static void read_engine(struct book *book, const char *file)
{
    struct file_text engine = {0};
    if (!file_read_bytes(book->arena, file, &engine)) {
        fault(
            book->diags, (struct place){.file = file},
            "the bench page's engine cannot be read (%s); make it with make, or leave --bench "
            "out",
            strerror(errno));
        return;
    }
    if (engine.length < 4 || memcmp(engine.bytes, "\0asm", 4) != 0) {
        fault(book->diags, (struct place){.file = file},
              "this is no engine for the bench page; make it with make, or leave --bench out");
        return;
    }
    book->screen.engine = engine.bytes;
    book->screen.engine_length = engine.length;
}

static bool is_taken(const char *name)
{
    for (size_t i = 0; i < EXTRA_PAGES; i++)
        if (strcmp(extra_pages[i].name, name) == 0)
            return true;
    return false;
}

static void book_screen_check_names(struct book *book)
{
    for (size_t i = 1; i < book->page_count; i++)
        if (is_taken(book->pages[i]->name))
            fault(book->diags, (struct place){.file = book->pages[i]->file},
                  "the name %s is taken by a page that the program makes; rename this one",
                  book->pages[i]->name);
}

void book_read_screen(struct book *book, const struct book_paths *paths)
{
    book->screen.find_script = book_template(book, paths->templates, "find.js", SCRIPT_END);
    book->screen.find_style = book_template(book, paths->templates, "find.css", STYLE_END);
    book_screen_check_names(book);
    if (!paths->bench)
        return;
    book->screen.bench_html = book_template(book, paths->templates, "bench.html", NULL);
    book->screen.bench_script = read_bench_script(book, paths->templates);
    book->screen.bench_style = book_template(book, paths->templates, "bench.css", STYLE_END);
    read_engine(book, paths->bench);
}

/* ---- what the pages say ---- */

static void set_up_find(struct book *book)
{
    struct html_extra *extra = &book->extras[EXTRA_FIND];
    book->find = find_new();
    extra->with = book->find;
    extra->script = book->screen.find_script;
    extra->style = book->screen.find_style;
}

static void set_up_bench(struct book *book)
{
    struct html_extra *extra = &book->extras[EXTRA_BENCH];
    size_t count;
    const struct bench_setting *settings = book_bench_settings(book, &count);
    struct bench_parts *parts = arena_get(book->arena, sizeof *parts);
    *parts = (struct bench_parts){.html = book->screen.bench_html,
                                  .settings = settings,
                                  .setting_count = count,
                                  .fingerprint = book->shop.fingerprint,
                                  .engine = book->screen.engine,
                                  .engine_length = book->screen.engine_length};
    extra->with = parts;
    extra->script = book->screen.bench_script;
    extra->style = book->screen.bench_style;
}

void book_set_up_site(struct book *book)
{
    memcpy(book->extras, extra_pages, sizeof extra_pages);
    book->site =
        (struct html_site){.template = book->page_template,
                           .pages = book->pages,
                           .page_count = book->page_count,
                           .extras = book->extras,
                           .extra_count = book->screen.engine ? EXTRA_PAGES : EXTRA_PAGES - 1,
                           .style = book->style,
                           .notice = book->shop.lathe.notice,
                           .fingerprint = book->shop.fingerprint,
                           .inputs = book->inputs};
    set_up_find(book);
    if (book->screen.engine)
        set_up_bench(book);
}

/* The pages: listed first, so that each knows all others by name; then read and checked one
 * after the other. */

static const char card_file[] = "card.md";

/* "40-wind-and-pull.md" -> "wind-and-pull": the number only gives the order. */
static const char *page_name(struct arena *arena, const char *file)
{
    size_t digits = strspn(file, "0123456789");
    if (digits && file[digits] == '-')
        file += digits + 1;
    return arena_slice(arena, file, strlen(file) - strlen(".md"));
}

static void list_page(struct book *book, const char *folder, const char *file)
{
    struct page *page = &book->listed[book->page_count];
    if (!book_check_name(book, folder, file))
        return;
    page->file = arena_format(book->arena, "%s/%s", folder, file);
    page->name = page_name(book->arena, file);
    page->number = book->page_count;
    page->is_form = book_is_form(file);
    page->in_booklet = strcmp(file, card_file) != 0 && !page->is_form;
    if (strcmp(file, card_file) == 0)
        book->card = page;
    book->pages[book->page_count++] = page;
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

static void list_files(struct book *book, const char *folder, const char *const *files)
{
    size_t count = 0;
    while (files[count])
        count++;
    book->listed = arena_get(book->arena, (count + 1) * sizeof *book->listed);
    book->pages = arena_get(book->arena, (count + 1) * sizeof(struct page *));
    book->anchors = arena_get(book->arena, (count + 1) * sizeof *book->anchors);
    for (size_t i = 0; i < count; i++)
        list_page(book, folder, files[i]);
    for (size_t i = 0; i < book->page_count; i++)
        diags_name(book->diags, book->pages[i]->file);
}

void book_list_pages(struct book *book, const char *folder)
{
    struct place at = {.file = folder};
    struct arena *arena = arena_new();
    const char **files = file_list(arena, folder, ".md");
    if (files)
        list_files(book, folder, files);
    else
        fault(book->diags, at,
              "the folder of pages cannot be read (%s); give the right one with "
              "--content",
              strerror(errno));
    if (files && (!book->page_count || !book->pages[0]->in_booklet))
        fault(book->diags, at,
              "there is no page here; write at least a title page, such as "
              "00-start.md");
    if (files && !book->card)
        fault(book->diags, at, "there is no %s here; write the card's page", card_file);
    check_names(book);
    arena_free(arena);
}

void book_check_page(struct book *book, const struct page *page)
{
    const struct shop *shop = book->shop_is_good ? &book->shop : NULL;
    book_check_forms(book, page);
    book_place_tables(book, page);
    book_place_figures(book, page);
    book_keep_what_holds(book, page, shop);
    book_fill_forms(book, page, shop);
    book_find_links(book, page);
    if (book->fonts)
        compose_check(page, book->fonts, book->diags);
}

/* Are parts made in the end that need all trees? Then these lie in the book's arena; else
 * each in one of its own. */
static bool book_keeps_trees(const struct book *book)
{
    return book->parts & (PART_SINGLE | PART_BOOKLET | PART_FOLD | PART_CARD | PART_FORMS);
}

void book_drop_tree(struct book *book, struct page *page)
{
    if (page->arena == book->arena)
        return;
    arena_free(page->arena);
    page->arena = NULL;
    page->root = NULL;
}

static void read_page(struct book *book, struct page *page)
{
    page->arena = book_keeps_trees(book) ? book->arena : arena_new();
    const struct page *read = markdown_read(page->arena, book->diags, page->file);
    if (!read)
        return;
    page->root = read->root;
    page->title = arena_text(book->arena, read->title);
    book_check_page(book, page);
    book_site_take(book, page);
}

void book_read_pages(struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++)
        read_page(book, &book->listed[i]);
    book_make_other_tables(book);
    book_check_links(book);
}

/* The site. It is written while it is read, unless something else needs the trees of all
 * pages anyway: a page goes out as soon as the titles that stand on it are known, and
 * nothing of it is needed any more. The first page lists all others and comes last, before
 * those that the program makes. Up to the first fault; what was written then goes again. */

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

/* A page was read and checked: writes what can now be written of the site. Part of
 * book_read(). */
static void book_site_take(struct book *book, struct page *page)
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
        outset_write(set, arena_format(book->arena, "site/%s.css", site->extras[i].name),
                     site->extras[i].style, strlen(site->extras[i].style));
}

/* The rest of the site, and the single file. Part of book_write(). */
static void book_write_site(struct book *book, struct outset *set)
{
    if (book->parts & PART_SITE)
        write_rest(book, set);
    if (book->parts & PART_SINGLE)
        write_single(book, set);
    find_free(book->find); /* before the old set's files are listed: both are long */
    book->find = NULL;
}

/* Paints everything and puts the set of outputs in its place. */

static void write_buffer(struct outset *set, const char *path, struct buffer *bytes)
{
    outset_write(set, path, bytes->bytes, bytes->length);
    buffer_free(bytes);
}

static void write_tables(struct book *book, struct outset *set)
{
    for (size_t i = 0; book->parts & PART_TABLES && i < book->table_count; i++) {
        struct buffer csv = {0};
        csv_paint(&csv, book->tables[i]);
        write_buffer(set, arena_format(book->arena, "tables/%s.csv", book->tables[i]->name),
                     &csv);
    }
}

/* The set that is written, begun when first asked for; NULL after a fault. */
static struct outset *book_begin_set(struct book *book)
{
    if (!book->set)
        book->set = outset_begin(book->arena, book->diags, book->out);
    return book->set;
}

void book_write(struct book *book)
{
    struct outset *set = book_begin_set(book);
    if (set)
        book_compose(book, set); /* first, for the faults that only paper shows */
    if (diags_count(book->diags) > 0)
        return;
    book_write_site(book, set);
    write_tables(book, set);
    if (book->made_from)
        outset_write(set, MADE_FROM, book->made_from, strlen(book->made_from));
    book->set = NULL;
    outset_commit(set);
}
