/* What is read for the screen, and the site and the single file that are written. */
#include "book.h"

#include "base/file.h"
#include "paint/bench_page.h"
#include "paint/find.h"
#include "shop/fields.h"
#include "verdict/lock.h"

#include <errno.h>
#include <string.h>

enum { FIND, BENCH, EXTRAS };

static const struct html_extra extra_pages[EXTRAS] = {
    [FIND] = {.file = "find.html",
              .title = "Index of tables and words",
              .brief = "Index",
              .style_file = "find.css"},
    [BENCH] = {.file = "bench.html",
               .title = "At the bench",
               .brief = "Bench",
               .style_file = "bench.css"},
};

/* ---- reading ---- */

/* "" after a fault. */
static const char *read_template_text(struct book *book, const char *folder, const char *file)
{
    struct file_text text = {0};
    const char *name = arena_format(book->arena, "%s/%s", folder, file);
    return file_read_text(book->arena, book->diags, name, &text) ? text.bytes : "";
}

/* A script stands within its page: its text must not end its element. */
static const char *read_script(struct book *book, const char *folder, const char *file)
{
    const char *text = read_template_text(book, folder, file);
    if (strcasestr(text, "</script"))
        fault(book->diags,
              (struct place){.file = arena_format(book->arena, "%s/%s", folder, file)},
              "'</script' stands in this script and would end it; write it as '<\\/script'");
    return text;
}

/* Three files, one script. */
static const char *read_bench_script(struct book *book, const char *folder)
{
    static const char *const files[] = {"bench-line.js", "bench-drums.js", "bench.js"};
    const char *text = "";
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
        text = arena_format(book->arena, "%s%s", text, read_script(book, folder, files[i]));
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

static void check_names(struct book *book)
{
    for (size_t i = 0; i < book->page_count; i++)
        for (size_t j = 0; j < EXTRAS; j++)
            if (i > 0 && strcmp(arena_format(book->arena, "%s.html", book->pages[i]->name),
                                extra_pages[j].file) == 0)
                fault(book->diags, (struct place){.file = book->pages[i]->file},
                      "the name %s is taken by a page that the program makes; rename this one",
                      book->pages[i]->name);
}

void book_read_screen(struct book *book, const struct book_paths *paths)
{
    book->screen.find_script = read_script(book, paths->templates, "find.js");
    book->screen.find_style = read_template_text(book, paths->templates, "find.css");
    check_names(book);
    if (!paths->bench)
        return;
    book->screen.bench_html = read_template_text(book, paths->templates, "bench.html");
    book->screen.bench_script = read_bench_script(book, paths->templates);
    book->screen.bench_style = read_template_text(book, paths->templates, "bench.css");
    read_engine(book, paths->bench);
}

/* ---- the settings as they were written ---- */

static const char *quantity_text(struct arena *arena, const struct quantity *quantity)
{
    return arena_format(arena, "%s %s", quantity->digits, quantity->unit->symbol);
}

static const char *list_text(struct arena *arena, const struct measures *list)
{
    const char *text = "";
    for (size_t i = 0; i < list->count; i++)
        text = arena_format(arena, "%s%s%s", text, i ? ", " : "",
                            quantity_text(arena, &list->items[i].q));
    return text;
}

/* NULL where the value was not given. */
static const char *field_text(struct arena *arena, const struct field *field,
                              const void *address)
{
    const struct measure *measure = address;
    switch (field->type) {
    case FIELD_TEXT:
        return *(const char *const *)address;
    case FIELD_QUANTITY:
        return given(measure) ? quantity_text(arena, &measure->q) : NULL;
    case FIELD_LIST:
        return list_text(arena, address);
    case FIELD_COUNT:
        return *(const int *)address ? arena_format(arena, "%d", *(const int *)address) : NULL;
    case FIELD_CHOICE:
        return field->choices[*(const int *)address];
    }
    return NULL;
}

struct settings {
    struct bench_setting *items;
    size_t count;
};

static void add_setting(struct book *book, struct settings *settings, const char *key,
                        const char *text)
{
    if (text && text[0])
        *ARENA_PUSH(book->arena, settings->items, settings->count) =
            (struct bench_setting){key, text};
}

static void add_band(struct book *book, struct settings *settings, const struct field *field)
{
    const char *hash = strchr(field->path, '#');
    for (size_t i = 0; i < book->shop.limits.band_count; i++)
        add_setting(book, settings,
                    arena_format(book->arena, "%.*s%zu%s", (int)(hash - field->path),
                                 field->path, i + 1, hash + 1),
                    field_text(book->arena, field,
                               (char *)&book->shop.limits.bands[i] + field->offset));
}

/* The gauge's check belongs to how sure a drag is. */
static void add_weighings(struct book *book, struct settings *settings)
{
    const struct weighings *check = &book->shop.weighings;
    for (size_t i = 0; i < check->count; i++) {
        add_setting(book, settings, "weighing.load",
                    quantity_text(book->arena, &check->items[i].load));
        add_setting(book, settings, "weighing.reading",
                    quantity_text(book->arena, &check->items[i].reading));
    }
}

/* All but the word that there is none. */
static bool is_limit(const struct field *field)
{
    return strncmp(field->path, "limits.", strlen("limits.")) == 0 &&
           strcmp(field->path, "limits.on-file") != 0;
}

/* No setting: what the log knows of the lock, to fill in an input. */
static void add_lock(struct book *book, struct settings *settings)
{
    struct quantity added;
    char text[2 * QUANTITY_TEXT];
    if (!lock_added_known(&book->shop, &added))
        return;
    snprintf(text, sizeof text, "%s %s", added.digits, added.unit->symbol);
    add_setting(book, settings, "log.lock-added", arena_text(book->arena, text));
}

static struct settings settings_of(struct book *book)
{
    struct settings settings = {0};
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!shop_has_limits(&book->shop) && is_limit(field))
            continue;
        if (strchr(field->path, '#'))
            add_band(book, &settings, field);
        else
            add_setting(book, &settings, field->path,
                        field_text(book->arena, field, (char *)&book->shop + field->offset));
    }
    add_weighings(book, &settings);
    add_lock(book, &settings);
    return settings;
}

/* ---- writing ---- */

static void write_buffer(struct outset *set, const char *path, struct buffer *bytes)
{
    outset_write(set, path, bytes->bytes, bytes->length);
    buffer_free(bytes);
}

static struct buffer bench_main(struct book *book)
{
    struct buffer html = {0};
    struct settings settings = settings_of(book);
    struct bench_parts parts = {.html = book->screen.bench_html,
                                .settings = settings.items,
                                .setting_count = settings.count,
                                .fingerprint = book->shop.fingerprint,
                                .engine = book->screen.engine,
                                .engine_length = book->screen.engine_length};
    bench_page_paint(&html, &parts);
    return html;
}

static void write_pages(struct book *book, struct outset *set, const struct html_site *site)
{
    for (size_t i = 0; i < site->page_count + site->extra_count; i++) {
        struct buffer html = {0};
        html_paint(&html, site, i);
        write_buffer(set,
                     arena_format(book->arena, "site/%s", html_file_name(book->arena, site, i)),
                     &html);
    }
    outset_write(set, "site/style.css", book->style, book->style_length);
    for (size_t i = 0; i < site->extra_count; i++)
        outset_write(set, arena_format(book->arena, "site/%s", site->extras[i].style_file),
                     site->extras[i].style, strlen(site->extras[i].style));
}

static void write_single(struct outset *set, const struct html_site *site)
{
    struct buffer html = {0};
    html_paint_single(&html, site);
    write_buffer(set, "spindlebook.html", &html);
}

void book_write_screen(struct book *book, struct outset *set)
{
    if (!(book->parts & (PART_SITE | PART_SINGLE)))
        return;
    struct html_extra extras[EXTRAS];
    struct html_site site = {.template = book->page_template,
                             .pages = book->pages,
                             .page_count = book->page_count,
                             .extras = extras,
                             .extra_count = book->screen.engine ? EXTRAS : EXTRAS - 1,
                             .style = book->style,
                             .notice = book->shop.lathe.notice,
                             .fingerprint = book->shop.fingerprint,
                             .inputs = book->inputs};
    struct buffer find = {0}, bench = {0};
    memcpy(extras, extra_pages, sizeof extras);
    extras[FIND].script = book->screen.find_script;
    extras[FIND].style = book->screen.find_style;
    find_paint(book->arena, &find, &site);
    extras[FIND].main = find.bytes;
    if (book->screen.engine) {
        bench = bench_main(book);
        extras[BENCH].main = bench.bytes;
        extras[BENCH].script = book->screen.bench_script;
        extras[BENCH].style = book->screen.bench_style;
        extras[BENCH].has_engine = true;
    }
    if (book->parts & PART_SITE)
        write_pages(book, set, &site);
    if (book->parts & PART_SINGLE)
        write_single(set, &site);
    buffer_free(&find);
    buffer_free(&bench);
}
