/* Any bytes as a folder of settings, logs and records: a line "=== NAME" begins each of its
 * files. Where all is taken, there are all tables and remarks, and the record of each closed
 * job is read back as it was printed. */
#include "fuzz_file.h"
#include "judge/results.h"
#include "report/record.h"
#include "report/remarks.h"
#include "shop/settings.h"
#include "tables/tables.h"

#include <string.h>
#include <sys/stat.h>

static const char *const names[] = {"settings.yaml",  "settings-before-2026-03-09.yaml",
                                    "readings.csv",   "gauge-check.csv",
                                    "records/1.yaml", "records/2.yaml"};
enum { NAMES = sizeof names / sizeof names[0] };

static char folder[64] = "/tmp/spindlebook-fuzz-XXXXXX";

static const char *path_of(const char *name)
{
    static char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    return path;
}

static void clear(void)
{
    for (size_t i = 0; i < NAMES; i++)
        unlink(path_of(names[i]));
}

static void leave(void)
{
    clear();
    rmdir(path_of("records"));
    rmdir(folder);
}

/* The file that begins at a line, or NULL. */
static FILE *begin_file(const char *line, size_t length)
{
    static const char mark[] = "=== ";
    size_t before = sizeof mark - 1;
    for (size_t i = 0; i < NAMES; i++)
        if (length == before + strlen(names[i]) && memcmp(line, mark, before) == 0 &&
            memcmp(line + before, names[i], length - before) == 0)
            return fopen(path_of(names[i]), "w");
    return NULL;
}

static void lay_folder(const char *text, size_t length)
{
    FILE *file = NULL;
    clear();
    for (size_t at = 0; at < length;) {
        const char *end = memchr(text + at, '\n', length - at);
        size_t line = end ? (size_t)(end - text) - at : length - at;
        FILE *next = begin_file(text + at, line);
        if (next && file)
            fclose(file);
        if (next)
            file = next;
        else if (file)
            fwrite(text + at, 1, line + (end != NULL), file);
        at += line + 1;
    }
    if (file)
        fclose(file);
}

static void make_tables(struct arena *arena, const struct results *results)
{
    struct diags *diags = diags_new(arena);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results};
    for (size_t i = 0; tables_at(i); i++)
        fuzz_must(tables_make(tables_at(i)->name, &ask) && diags_count(diags) == 0,
                  "a good folder lacks a table");
}

static void check_record(struct arena *arena, const struct results *results,
                         const struct job *job)
{
    char made[RECORD_FINGERPRINT_TEXT], read[RECORD_FINGERPRINT_TEXT];
    struct diags *diags = diags_new(arena);
    struct buffer text = {0};
    struct setting_list record = record_of(arena, results, job, NULL), again = {0};
    stored_fingerprint(arena, &record, made);
    stored_print(arena, &text, record);
    struct file_text file = {"record", text.bytes, text.length};
    setting_list_read(arena, diags, &file, &again);
    fuzz_must(diags_count(diags) == 0, "a record cannot be read back");
    stored_fingerprint(arena, &again, read);
    fuzz_must(strcmp(made, read) == 0, "a record is read back as another");
    buffer_free(&text);
}

static void look_at(struct arena *arena, const struct shop *shop)
{
    const struct results *results = results_of(arena, shop);
    struct rows rows = {.arena = arena};
    make_tables(arena, results);
    remark_on_all(&rows, results);
    for (size_t i = 0; i < shop->stored_count; i++) {
        report_record(&rows, results, &shop->stored[i]);
        report_record_differences(&rows, results, &shop->stored[i]);
    }
    for (size_t i = 0; i < results->job_count; i++)
        if (results->jobs[i].closed)
            check_record(arena, results, &results->jobs[i]);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static bool made;
    if (!made) {
        fuzz_must(mkdtemp(folder) && mkdir(path_of("records"), 0777) == 0, "no folder");
        made = atexit(leave) == 0;
    }
    lay_folder((const char *)bytes, length);
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    struct shop shop;
    settings_read(arena, diags, path_of("settings.yaml"), NULL, 0, &shop);
    if (diags_count(diags) == 0)
        look_at(arena, &shop);
    arena_free(arena);
    return 0;
}
