/* The site, the single file and the tables: their templates, and how they are written.
 *
 * The site is written while it is read, unless something else needs the trees of all pages
 * anyway: a page goes out as soon as the titles that stand on it are known, and nothing of it
 * is needed any more. The first page lists all others and comes last, before those that the
 * program makes. It ends at the first fault; what was written then goes again. */
#include "book/stages.h"

#include "base/file.h"
#include "doc/markdown.h"
#include "html/csv.h"
#include "judge/results.h"
#include "shop/fields.h"
#include "shop/logs.h"

#include <errno.h>
#include <string.h>

/* ---- what the bench page begins with: the settings as typed, then what the logs add ---- */

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

static void add_quantity(struct book *book, struct settings *settings, const char *key,
                         const struct quantity *quantity)
{
    if (quantity->unit)
        add_setting(book, settings, key, quantity_typed(book->arena, quantity));
}

/* A row of the log of pulls; a drum and a cord that are the shop's own go without saying. */
static void add_series(struct book *book, struct settings *settings,
                       const struct pull_series *series)
{
    const struct quantity *drum = &series->drum, *cord = &series->cord;
    add_setting(book, settings, "log.date", series->date);
    if (series->job)
        add_setting(book, settings, "log.job", series->job);
    if (drum->base != book->shop.drum.diameter.q.base)
        add_quantity(book, settings, "log.drum", drum);
    if (cord->base != book->shop.cord.diameter.q.base)
        add_quantity(book, settings, "log.cord", cord);
    add_quantity(book, settings, "log.nut", &series->nut);
    add_setting(book, settings, "log.lock", pull_columns[PULL_LOCK].words[series->lock]);
    add_setting(book, settings, "log.direction",
                pull_columns[PULL_DIRECTION].words[series->other_way]);
    add_setting(book, settings, "log.warmth", pull_columns[PULL_WARMTH].words[series->warm]);
    add_quantity(book, settings, "log.temperature", &series->temperature);
    add_quantity(book, settings, "log.breakaway", &series->breakaway);
    for (size_t i = 0; i < series->pull_count; i++)
        add_quantity(book, settings, "log.pulls", &series->pulls[i]);
}

/* What no setting says: the checks of the gauge and the log of pulls, by which the engine
 * judges as the program does; and what locking added the last time, which fills an input. */
static void add_logs(struct book *book, struct settings *settings)
{
    const struct weighings *check = &book->shop.weighings;
    const struct pull_series_log *log = &book->shop.readings;
    for (size_t i = 0; i < check->count; i++) {
        const struct weighing *weighing = &check->items[i];
        add_setting(book, settings, "weighing.date", weighing->date);
        add_setting(book, settings, "weighing.by", weighing->by);
        add_setting(book, settings, "weighing.masses", weighing->masses);
        add_setting(book, settings, "weighing.certificate", weighing->certificate);
        add_quantity(book, settings, "weighing.tolerance", &weighing->tolerance);
        add_setting(book, settings, "weighing.direction",
                    check_columns[CHECK_DIRECTION].words[weighing->down]);
        add_quantity(book, settings, "weighing.load", &weighing->load);
        add_quantity(book, settings, "weighing.reading", &weighing->reading);
    }
    for (size_t i = 0; i < log->count; i++)
        add_series(book, settings, &log->items[i]);
    add_quantity(book, settings, "log.lock-added", &book->results->lock_share);
}

/* Only with a good shop. Owned by the book's arena. */
static struct bench_setting *bench_settings(struct book *book, size_t *count)
{
    struct settings settings = {0};
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!shop_has_limits(&book->shop) && is_limit(field->path))
            continue;
        for (size_t row = 1; row <= field_rows(field, &book->shop); row++)
            add_setting(book, &settings, field_path(book->arena, field, row),
                        field_text(book->arena, field, &book->shop, row));
    }
    add_logs(book, &settings);
    *count = settings.count;
    return settings.items;
}

/* ---- templates, and the site ---- */

/* What would end a script's or a style sheet's element: it stands within its page, or within
 * the single file. */
#define SCRIPT_END "</script"
#define STYLE_END  "</style"

/* The texts of some templates run together; "" for one with a fault. end: what may not stand
 * in them, or NULL. names: NULL-ended. */
static const char *read_templates(struct book *book, const char *folder, const char *end,
                                  const char *const *names)
{
    const char *all = "";
    for (; *names; names++) {
        struct file_text text = {0};
        if (!file_read_text(book->arena, book->diags,
                            arena_format(book->arena, "%s/%s", folder, *names), &text))
            continue;
        const char *found = end ? strcasestr(text.bytes, end) : NULL;
        if (found)
            fault(book->diags, file_place(&text, (size_t)(found - text.bytes)),
                  "'%s' stands here and would end this file's part of the page; write it as "
                  "'<\\%s'",
                  end, end + 1);
        all = arena_format(book->arena, "%s%s", all, text.bytes);
    }
    return all;
}

#define TEMPLATES(book, folder, end, ...)                                                      \
    read_templates(book, folder, end, (const char *const[]){__VA_ARGS__, NULL})

/* The pages that the program makes, without what is read for them. */
static const struct html_extra extra_pages[EXTRA_PAGES] = {
    [EXTRA_FIND] = {.name = "find",
                    .title = "Index of tables and words",
                    .brief = "Index",
                    .paint = find_paint},
    [EXTRA_OWN_CARD] = {.name = "own-card",
                        .title = "A card for your own lathe",
                        .brief = "Own card",
                        .paint = own_card_page_paint,
                        .has_engine = true},
    [EXTRA_BENCH] = {.name = "bench",
                     .title = "At the bench",
                     .brief = "Bench",
                     .paint = bench_page_paint,
                     .has_engine = true},
};

static void check_names(struct book *book)
{
    for (size_t i = 1; i < book->page_count; i++)
        for (size_t k = 0; k < EXTRA_PAGES; k++)
            if (strcmp(extra_pages[k].name, book->pages[i]->name) == 0)
                fault(book->diags, (struct place){.file = book->pages[i]->file},
                      "the name %s is taken by a page that the program makes; rename this one",
                      extra_pages[k].name);
}

static void read_engine(struct book *book, const struct book_paths *paths)
{
    struct file_text bytes = {0};
    struct html_engine *engine = arena_get(book->arena, sizeof *engine);
    const char *file = paths->bench;
    if (!file_read_bytes(book->arena, file, FILE_LARGEST, &bytes))
        fault(book->diags, (struct place){.file = file},
              "the bench page's engine cannot be read (%s); make it with make, or leave "
              "--bench out",
              strerror(errno));
    else if (bytes.length < 4 || memcmp(bytes.bytes, "\0asm", 4) != 0)
        fault(book->diags, (struct place){.file = file},
              "this is no engine for the bench page; make it with make, or leave --bench out");
    engine->script = TEMPLATES(book, paths->templates, SCRIPT_END, "engine.js");
    engine->bytes = bytes.bytes;
    engine->length = bytes.length;
    book->site.engine = engine;
}

static void read_bench(struct book *book, const struct book_paths *paths)
{
    struct html_extra *extra = &book->extras[EXTRA_BENCH];
    const char *folder = paths->templates;
    struct bench_parts *parts = arena_get(book->arena, sizeof *parts);
    parts->html = TEMPLATES(book, folder, NULL, "bench.html");
    extra->script =
        TEMPLATES(book, folder, SCRIPT_END, "bench-line.js", "bench-drums.js", "bench.js");
    extra->style = TEMPLATES(book, folder, STYLE_END, "bench.css");
    if (book->shop_is_good)
        parts->settings = bench_settings(book, &parts->setting_count);
    parts->fingerprint = book->shop.fingerprint;
    extra->with = parts;
}

/* The card is read for this once more: of the page that is printed the values are filled in. */
static void read_own_card(struct book *book, const char *folder)
{
    struct html_extra *extra = &book->extras[EXTRA_OWN_CARD];
    struct own_card_parts *parts = arena_get(book->arena, sizeof *parts);
    parts->html = TEMPLATES(book, folder, NULL, "own-card.html");
    extra->script = TEMPLATES(book, folder, SCRIPT_END, "own-card.js");
    extra->style = TEMPLATES(book, folder, STYLE_END, "own-card.css");
    if (book->card) /* its faults are told where it is read to be printed */
        parts->card = markdown_read(book->arena, diags_new(book->arena), book->card->file);
    extra->with = parts;
}

void book_read_templates(struct book *book, const struct book_paths *paths)
{
    const char *folder = paths->templates;
    struct html_extra *find = &book->extras[EXTRA_FIND];
    struct html_site *site = &book->site;
    memcpy(book->extras, extra_pages, sizeof extra_pages);
    site->template = html_template_read(book->arena, book->diags,
                                        arena_format(book->arena, "%s/page.html", folder));
    site->style = TEMPLATES(book, folder, STYLE_END, "style.css", "form.css");
    site->pages = book->pages;
    site->page_count = book->page_count;
    site->extras = book->extras;
    site->extra_count = paths->bench ? EXTRA_PAGES : EXTRA_OWN_CARD;
    site->notice = book->shop.lathe.notice;
    site->fingerprint = book->stamp;
    site->inputs = book->inputs;
    find->script = TEMPLATES(book, folder, SCRIPT_END, "find.js");
    find->style = TEMPLATES(book, folder, STYLE_END, "find.css");
    find->with = book->find = find_new();
    check_names(book);
    if (!paths->bench)
        return;
    read_engine(book, paths);
    read_own_card(book, folder);
    read_bench(book, paths);
}

bool book_keeps_trees(const struct book *book)
{
    return book->parts &
           (PART_SINGLE | PART_BOOKLET | PART_FOLD | PART_CARD | PART_FORMS | PART_RECORD);
}

void book_drop_tree(struct book *book, struct page *page)
{
    if (page->arena == book->arena)
        return;
    arena_free(page->arena);
    page->arena = NULL;
    page->root = NULL;
}

struct outset *book_begin_set(struct book *book)
{
    if (!book->set)
        book->set = outset_begin(book->arena, book->diags, book->out);
    return book->set;
}

/* The single file where page is NULL. */
static void write_html(struct book *book, const char *path, const size_t *page)
{
    struct sink sink = outset_open(book->set, path);
    buffer_drain(&book->html, &sink);
    if (page)
        html_paint(&book->html, &book->site, *page);
    else
        html_paint_single(&book->html, &book->site);
    buffer_end_drain(&book->html);
    outset_close(sink);
}

static void write_page(struct book *book, size_t index)
{
    bool made = index >= book->page_count;
    struct arena *arena = made ? book->arena : book->pages[index]->arena;
    const char *file = html_file_name(arena, &book->site, index);
    write_html(book, arena_format(arena, "site/%s", file), &index);
}

/* The pages behind the first for which enough has been read. */
static void write_ready(struct book *book, size_t last_read)
{
    while (book_begin_set(book) && book->next_page <= last_read &&
           html_last_title(&book->site, book->next_page) <= last_read) {
        write_page(book, book->next_page);
        book_drop_tree(book, &book->listed[book->next_page++]);
    }
}

void book_take_page(struct book *book, struct page *page)
{
    bool written = book->out && diags_count(book->diags) == 0;
    if (written && book->parts & (PART_SITE | PART_SINGLE))
        find_add(book->find, page);
    if (!written || !(book->parts & PART_SITE))
        book_drop_tree(book, page);
    else if (!book_keeps_trees(book)) /* else beside the parts that need all of them */
        write_ready(book, page->number);
}

static void write_site(struct book *book)
{
    const struct html_site *site = &book->site;
    write_ready(book, book->page_count - 1);
    write_page(book, 0);
    for (size_t i = 0; i < site->extra_count; i++)
        write_page(book, site->page_count + i);
    outset_write(book->set, "site/style.css", site->style, strlen(site->style));
    for (size_t i = 0; i < site->extra_count; i++)
        outset_write(book->set, arena_format(book->arena, "site/%s.css", site->extras[i].name),
                     site->extras[i].style, strlen(site->extras[i].style));
}

void book_write_rest(struct book *book)
{
    if (book->parts & PART_SITE)
        write_site(book);
    if (book->parts & PART_SINGLE)
        write_html(book, "spindlebook.html", NULL);
    find_free(book->find); /* before the old set's files are listed: both are long */
    book->find = NULL;
    for (size_t i = 0; book->parts & PART_TABLES && i < book->table_count; i++) {
        struct buffer csv = {0};
        csv_paint(&csv, book->tables[i]);
        outset_write(book->set,
                     arena_format(book->arena, "tables/%s.csv", book->tables[i]->name),
                     csv.bytes, csv.length);
        buffer_free(&csv);
    }
}
