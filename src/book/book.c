/* A whole run: read, check, compute, compose, paint. */
#include "book/book.h"
#include "book/traces.h"

#include "base/file.h"
#include "base/ground.h"
#include "base/version.h"
#include "book/stages.h"
#include "doc/markdown.h"
#include "drum/drum.h"
#include "judge/results.h"
#include "layout/compose.h"
#include "report/record.h"
#include "shop/settings.h"
#include "shop/stored.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* As in enum book_part. */
const char *const book_part_names[] = {"site", "single", "tables", "booklet", "fold", "card",
                                       "aids", "forms",  "drum",   "record",  NULL};

unsigned book_part_named(const char *name)
{
    for (unsigned i = 0; book_part_names[i]; i++)
        if (strcmp(book_part_names[i], name) == 0)
            return 1u << i;
    return 0;
}

static bool is_good(const struct book *book)
{
    return diags_count(book->diags) == 0;
}

/* The record that is shown is that of the job. */
static void choose_job(struct book *book, const char *name)
{
    const struct job *job = record_job(book->results, name);
    struct results *chosen = arena_get(book->arena, sizeof *chosen);
    if (!job || !job->left) {
        fault(book->diags, (struct place){.file = "--job"},
              "the log closes no job %s with a series that was pulled as the limits ask", name);
        return;
    }
    *chosen = *book->results;
    chosen->last_job = *job;
    book->results = chosen;
}

static void read_shop(struct book *book, const struct book_paths *paths)
{
    const char *file = paths->settings
                           ? paths->settings
                           : arena_format(book->arena, "%s/%s", paths->content, SETTINGS_NAME);
    settings_read(book->arena, book->diags, file, paths->replacements, paths->replacement_count,
                  &book->shop);
    if (is_good(book))
        traces_read(book->arena, book->diags, &book->shop);
    book->stamp = arena_format(book->arena, "%s, spindlebook " VERSION, book->shop.fingerprint);
    book->shop_is_good = is_good(book);
    if (book->shop_is_good) {
        book->results = results_of(book->arena, &book->shop);
        if (paths->job)
            choose_job(book, paths->job);
        book->inputs = book_inputs_text(book->arena, book->results);
        book->drum_is_good = drum_check(&book->shop, book->diags);
    }
}

/* Both without links and dots. */
static bool holds(const char *folder, const char *path)
{
    size_t length = strcmp(folder, "/") == 0 ? 0 : strlen(folder);
    return strncmp(path, folder, length) == 0 && (path[length] == '/' || path[length] == '\0');
}

/* The folder of outputs is exchanged as a whole: nothing that the user works in or that
 * is read may lie in it. One that is not there yet holds nothing. */
static void check_out(struct book *book, const struct book_paths *paths)
{
    const char *const inputs[] = {
        ".",          paths->content,
        paths->pages, paths->templates,
        paths->fonts, paths->settings ? paths->settings : paths->content};
    char folder[PATH_MAX], input[PATH_MAX];
    if (!realpath(paths->out, folder))
        return;
    for (size_t i = 0; i < sizeof inputs / sizeof inputs[0]; i++)
        if (realpath(inputs[i], input) && holds(folder, input)) {
            fault(book->diags, (struct place){.file = paths->out},
                  "%s lies in this folder, which the outputs will have for themselves; give "
                  "another with --out",
                  i ? inputs[i] : "the folder that you work in");
            return;
        }
}

/* Where a shape is missing no table is made: each would tell of it once more, as if it stood
 * on the page. */
static void check_characters(struct book *book)
{
    size_t before = diags_count(book->diags);
    for (size_t i = 0; book->fonts && i < book->shop.text_count; i++)
        text_check(book->shop.texts[i].text, book->fonts, book->shop.texts[i].at, book->diags);
    book->shop_is_good &= diags_count(book->diags) == before;
}

static void read_page(struct book *book, struct page *page)
{
    page->arena = book_keeps_trees(book) ? book->arena : arena_new();
    const struct page *read = markdown_read(page->arena, book->diags, page->file);
    if (!read)
        return;
    page->root = read->root;
    page->title = arena_text(book->arena, read->title);
    book_resolve_page(book, page);
    if (page == book->card && page->root->first && page->root->first->kind == NODE_HEADING)
        page->title = node_plain_text(book->arena, page->root->first); /* with its values */
    book_take_page(book, page);
}

/* Everything that a run reads; what does not need all pages is written meanwhile. */
static void read_all(struct book *book, const struct book_paths *paths)
{
    read_shop(book, paths);
    book_list_pages(book, paths->pages);
    book_read_templates(book, paths);
    book->fonts = fonts_load(book->arena, book->diags, paths->fonts);
    source_date_check(book->diags);
    check_out(book, paths);
    if (book->out)
        outset_refuses(book->diags, book->out);
    check_characters(book);
    for (size_t i = 0; i < book->page_count; i++)
        read_page(book, &book->listed[i]);
    book_resolve_rest(book);
}

static void write_file(struct book *book, const char *name, struct buffer *bytes)
{
    outset_write(book->set, name, bytes->bytes, bytes->length);
    buffer_free(bytes);
}

/* The drum to make as files; nothing where it cannot be made. */
static void write_drum(struct book *book)
{
    if (!(book->parts & PART_DRUM) || !book->drum_is_good)
        return;
    struct drum_to_make drum = drum_to_make(&book->shop);
    struct engraving engraving = drum_engraving(book->arena, &book->shop, &drum);
    struct mesh solid = drum_solid(book->arena, &drum, &engraving);
    if (!mesh_is_closed(&solid))
        fatal("the surface of the drum to make is not closed: a slip of this program; "
              "--only makes the other parts");
    struct buffer file = {0};
    drum_write_stl(&file, &solid);
    write_file(book, "drum.stl", &file);
    drum_write_3mf(&file, &solid, drum_title(book->arena, &engraving), drum_deflate);
    write_file(book, "drum.3mf", &file);
    struct drawing drawing = drum_drawing(book->arena, book->results, &drum, &engraving);
    drum_write_dxf(&file, &drawing);
    write_file(book, "drum.dxf", &file);
    drum_write_svg(&file, &drawing);
    write_file(book, "drum.svg", &file);
}

/* out: where the outputs go, NULL where none are made. */
static void run(struct book *book, const struct book_paths *paths, const char *out)
{
    *book = (struct book){.parts = paths->parts ? paths->parts : PARTS_ALL,
                          .out = out,
                          .next_page = 1,
                          .arena = arena_new()};
    book->diags = diags_new(book->arena);
    read_all(book, paths);
    if (is_good(book) && (!out || book_begin_set(book)))
        book_compose(book); /* before the site, for the faults that only paper shows */
    if (is_good(book) && out) {
        struct outset *set = book->set;
        book_write_rest(book);
        write_drum(book);
        if (paths->made_from)
            outset_write(set, MADE_FROM, paths->made_from, strlen(paths->made_from));
        book->set = NULL;
        outset_commit(set);
    }
    if (book->set)
        outset_abandon(book->set);
}

/* Beside the outputs stands the set in the making; folders above them may have to be made. */
static void allow_outputs(struct ground *ground, struct arena *arena, const char *out)
{
    char real[PATH_MAX];
    struct stat status;
    const char *path = realpath(out, real) ? real : out;
    do {
        const char *slash = strrchr(path, '/');
        path = !slash         ? "."
               : slash > path ? arena_slice(arena, path, (size_t)(slash - path))
                              : "/";
    } while (stat(path, &status) != 0 && strcmp(path, "/") != 0 && strcmp(path, ".") != 0);
    ground_allow(ground, path, MAY_MAKE);
}

/* What the links in a folder lead to, which may be anywhere: to read or, with `makes`, as
 * folders of outputs. */
static void allow_links(struct ground *ground, struct arena *arena, const char *folder,
                        bool makes)
{
    const char **names = file_list(arena, folder, "");
    for (size_t i = 0; names && names[i]; i++) {
        const char *path = arena_format(arena, "%s/%s", folder, names[i]);
        struct stat status;
        if (lstat(path, &status) != 0 || !S_ISLNK(status.st_mode))
            continue;
        if (makes)
            allow_outputs(ground, arena, path);
        else
            ground_allow(ground, path, MAY_READ);
    }
}

void book_confine(const struct book_paths *paths, enum touches touches)
{
    struct ground *ground = ground_open();
    if (!ground)
        return;
    struct arena *arena = arena_new();
    const char *const read[] = {paths->pages, paths->templates, paths->fonts,
                                paths->each,  paths->bench,     "/proc/self/exe"};
    ground_allow(ground, paths->content,
                 touches == TOUCHES_BEGUN     ? MAY_MAKE
                 : touches == TOUCHES_RECORDS ? MAY_TIDY
                                              : MAY_READ);
    for (const struct settings_register *one = settings_registers; one->section; one++) {
        const char *above = arena_format(arena, "%s/../%s", paths->content, one->file);
        if (file_is_there(above))
            ground_allow(ground, above, MAY_READ);
    }
    if (touches == TOUCHES_RECORDS)
        allow_outputs(ground, arena,
                      arena_format(arena, "%s/" RECORDS_NAME "/x", paths->content));
    for (size_t i = 0; touches >= TOUCHES_PAGES && i < sizeof read / sizeof read[0]; i++)
        if (read[i])
            ground_allow(ground, read[i], MAY_READ);
    if (touches >= TOUCHES_PAGES)
        allow_links(ground, arena, paths->fonts, false);
    if (touches >= TOUCHES_OUTPUTS)
        allow_outputs(ground, arena,
                      paths->each ? arena_format(arena, "%s/x", paths->out) : paths->out);
    if (touches >= TOUCHES_OUTPUTS && paths->each)
        allow_links(ground, arena, paths->out, true);
    arena_free(arena);
    ground_close(ground);
}

void book_check(struct book *book, const struct book_paths *paths)
{
    run(book, paths, NULL);
}

void book_make(struct book *book, const struct book_paths *paths)
{
    run(book, paths, paths->out);
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
