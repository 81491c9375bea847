/* What is read for the screen, and what its pages say beside the content. */
#include "book.h"
#include "book_bench.h"

#include "base/file.h"
#include "paint/find.h"

#include <errno.h>
#include <string.h>

static const struct html_extra extra_pages[EXTRA_PAGES] = {
    [EXTRA_FIND] = {.file = "find.html",
                    .title = "Index of tables and words",
                    .brief = "Index",
                    .style_file = "find.css"},
    [EXTRA_BENCH] = {.file = "bench.html",
                     .title = "At the bench",
                     .brief = "Bench",
                     .style_file = "bench.css"},
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

/* "find" of "find.html" */
static bool is_taken(const char *name)
{
    size_t length = strlen(name);
    for (size_t i = 0; i < EXTRA_PAGES; i++)
        if (strncmp(extra_pages[i].file, name, length) == 0 &&
            strcmp(extra_pages[i].file + length, ".html") == 0)
            return true;
    return false;
}

static void check_names(struct book *book)
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
    check_names(book);
    if (!paths->bench)
        return;
    book->screen.bench_html = book_template(book, paths->templates, "bench.html", NULL);
    book->screen.bench_script = read_bench_script(book, paths->templates);
    book->screen.bench_style = book_template(book, paths->templates, "bench.css", STYLE_END);
    read_engine(book, paths->bench);
}

/* ---- what the pages say ---- */

static void paint_find(struct buffer *out, const struct html_site *site, const void *find)
{
    find_paint(out, site, find);
}

static void paint_bench(struct buffer *out, const struct html_site *site, const void *parts)
{
    (void)site;
    bench_page_paint(out, parts);
}

static void set_up_find(struct book *book)
{
    struct html_extra *extra = &book->extras[EXTRA_FIND];
    book->find = find_new();
    extra->paint = paint_find;
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
    extra->paint = paint_bench;
    extra->with = parts;
    extra->script = book->screen.bench_script;
    extra->style = book->screen.bench_style;
    extra->has_engine = true;
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
