/* A record is a list of entries. What it rests on is written out in one way, whatever the logs'
 * own, so that its fingerprint stands for what they say and not for how. */
#include "report/record.h"

#include "base/version.h"
#include "report/report.h"
#include "shop/fields.h"
#include "shop/logs.h"

#include <math.h>
#include <string.h>

const struct job *record_job(const struct results *results, const char *name)
{
    for (size_t i = results->job_count; i-- > 0;) {
        const char *job = results->rows[results->jobs[i].first].series->job;
        if (job && strcmp(job, name) == 0)
            return &results->jobs[i];
    }
    return NULL;
}

static const char *name_of(const struct results *results, const struct job *job)
{
    return results->rows[job->first].series->job;
}

/* ---- what is said of it ---- */

/* Of what the terminal says of pulls, what is true of them for ever. */
static bool is_result(const char *name)
{
    static const char *const kept[] = {"mean",         "range",      "drag",     "uncertainty",
                                       "low",          "high",       "increase", "slack-drag",
                                       "low-whole",    "high-whole", "state",    "outside",
                                       "never-exceed", "caution",    NULL};
    for (const char *const *at = kept; *at; at++)
        if (strcmp(*at, name) == 0)
            return true;
    return false;
}

/* A series of the job under names that begin so. */
static void put_series(struct rows *rows, const struct results *results,
                       const struct pull_series *series, const char *before, const char *label)
{
    struct rows all = {.arena = rows->arena};
    const struct judged *row = results_row(results, series);
    put_row(rows, arena_format(rows->arena, "%sdate", before),
            arena_format(rows->arena, "%s on", label), series->date, "");
    report_judgement(&all, results_as_of(rows->arena, results, row), &row->judgement,
                     series->pulls, NAN);
    for (size_t i = 0; i < all.count; i++)
        if (is_result(all.items[i].name))
            put_row(rows, arena_format(rows->arena, "%s%s", before, all.items[i].name),
                    all.items[i].label, all.items[i].value, all.items[i].unit);
}

/* What locking added in the job, the last time. */
static void put_lock_share(struct rows *rows, const struct results *results,
                           const struct job *job)
{
    for (size_t i = job->end; i-- > job->first;) {
        const struct judged *row = &results->rows[i];
        if (isnan(row->lock_added))
            continue;
        const struct unit *unit = row->judgement.unit;
        put_row(
            rows, "lock-added", "Locking added",
            show_places(unit_from_base(row->lock_added, unit), row->judgement.shown_u.places)
                .text,
            unit->shown);
        return;
    }
}

static void put_results(struct rows *rows, const struct results *results, const struct job *job)
{
    if (job->found)
        put_series(rows, results, job->found, "found-", "As found");
    if (job->left)
        put_series(rows, results, job->left, "", "As left");
    else
        put_row(rows, "state", "State", "none: no series closes the job", "");
    put_lock_share(rows, results, job);
}

/* ---- all of it ---- */

struct entries {
    struct arena *arena;
    struct setting_list list;
};

static void add(struct entries *entries, const char *key, const char *value)
{
    if (value && value[0])
        stored_add(entries->arena, &entries->list, key, value);
}

static void add_settings(struct entries *entries, const struct shop *shop)
{
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!shop_has_limits(shop) && is_limit(field->path))
            continue;
        for (size_t row = 1; row <= field_rows(field, shop); row++)
            add(entries,
                arena_format(entries->arena, STORED_SETTING "%s",
                             field_path(entries->arena, field, row)),
                field_text(entries->arena, field, shop, row));
    }
}

/* In the order of its rows in the log. */
static void add_check(struct entries *entries, const struct gauge_check *check,
                      const char *name)
{
    for (size_t i = 0; check && i < check->count; i++)
        add(entries, arena_format(entries->arena, "%s.%zu", name, i + 1),
            weighing_text(entries->arena, check->rows[i]));
}

static const struct pull_series *next_row(const struct pull_series **series,
                                          const struct pull_series *series_end,
                                          const struct pull_series **step,
                                          const struct pull_series *step_end)
{
    bool of_series =
        *series < series_end && (*step == step_end || (*series)->number < (*step)->number);
    return of_series ? (*series)++ : *step < step_end ? (*step)++ : NULL;
}

/* Series and steps as they follow each other in the log. */
static void add_rows(struct entries *entries, const struct results *results,
                     const struct job *job)
{
    const struct pull_series *series = results->rows[job->first].series;
    const struct pull_series *series_end = series + (job->end - job->first);
    const struct pull_series *step = job->steps, *row;
    const struct pull_series *step_end = step ? step + job->step_count : NULL;
    for (size_t i = 1; (row = next_row(&series, series_end, &step, step_end)); i++) {
        add(entries, arena_format(entries->arena, "row.%zu", i),
            pull_row_text(entries->arena, row));
        if (row->corrected)
            add(entries, arena_format(entries->arena, "corrected.%zu", i),
                pull_row_text(entries->arena, row->corrected));
    }
}

/* Of the closed jobs of the log, counted from 1. */
static size_t number_of(const struct results *results, const struct job *job)
{
    size_t number = 0;
    for (const struct job *at = results->jobs; at <= job; at++)
        number += at->closed && name_of(results, at);
    return number;
}

struct setting_list record_of(struct arena *arena, const struct results *results,
                              const struct job *job, const char *issued)
{
    struct entries entries = {.arena = arena};
    struct rows said = {.arena = arena};
    const struct judged *last =
        job->left ? results_row(results, job->left) : &results->rows[job->end - 1];
    const struct shop *shop = last->known.shop;
    add(&entries, "record", name_of(results, job));
    add(&entries, "number", arena_format(arena, "%zu", number_of(results, job)));
    add(&entries, "closed", job->closed->date);
    add(&entries, "by", job->closed->by);
    add(&entries, "issued", issued);
    add(&entries, "program", "spindlebook " VERSION);
    add(&entries, "settings", arena_text(arena, shop->fingerprint));
    add_settings(&entries, shop);
    add_check(&entries, last->known.gauge.check, "weighing");
    add_check(&entries, last->known.gauge.other, "other-weighing");
    add_rows(&entries, results, job);
    put_results(&said, results, job);
    for (size_t i = 0; i < said.count; i++) {
        const struct row *row = &said.items[i];
        add(&entries, arena_format(arena, "result.%s", row->name),
            row->unit[0] ? arena_format(arena, "%s %s", row->value, row->unit) : row->value);
    }
    return entries.list;
}

/* ---- a record that was stored ---- */

static const char result_key[] = "result.";

/* A number and its unit apart; a text alone. */
static void put_value(struct rows *rows, const char *name, const char *label, const char *value)
{
    size_t number = strcspn(value, " ");
    bool split = value[number] && strspn(value, "-0123456789.") == number;
    put_row(rows, name, label, split ? arena_slice(rows->arena, value, number) : value,
            split ? value + number + 1 : "");
}

static const char *label_of(const struct rows *rows, const char *name)
{
    for (size_t i = 0; i < rows->count; i++)
        if (strcmp(rows->items[i].name, name) == 0)
            return rows->items[i].label;
    return name;
}

void report_record(struct rows *rows, const struct results *results,
                   const struct stored_record *stored)
{
    static const struct {
        const char *key, *label;
    } heads[] = {{"record", "Record of the job"}, {"number", "Number"},
                 {"closed", "Closed on"},         {"by", "Closed by"},
                 {"issued", "Issued on"},         {"program", "Program"},
                 {"settings", "Settings"},        {"fingerprint", "Fingerprint"}};
    const struct setting_list *entries = &stored->entries;
    const struct job *job = record_job(results, stored->job);
    struct rows now = {.arena = rows->arena};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        const char *value = stored_value(entries, heads[i].key);
        if (value)
            put_row(rows, strcmp(heads[i].key, "program") == 0 ? "made-by" : heads[i].key,
                    heads[i].label, value, "");
    }
    if (job)
        put_results(&now, results, job);
    for (size_t i = 0; i < entries->count; i++) {
        const char *key = entries->items[i].path;
        if (strncmp(key, result_key, strlen(result_key)) != 0)
            continue;
        key += strlen(result_key);
        put_value(rows, key, label_of(&now, key), entries->items[i].value);
    }
}

/* What may well be another today. */
static bool may_differ(const char *key)
{
    return strcmp(key, "program") == 0 || strcmp(key, "issued") == 0 ||
           strcmp(key, "number") == 0 || strcmp(key, "settings") == 0 ||
           strcmp(key, "fingerprint") == 0;
}

/* "row.3" -> "row 3 of the job" */
static const char *words_of_key(struct arena *arena, const char *key)
{
    static const struct {
        const char *key, *words;
    } counted[] = {{"row.", "row %s of the job"},
                   {"corrected.", "what row %s of the job corrects"},
                   {"weighing.", "weighing %s of the gauge's check"},
                   {"other-weighing.", "weighing %s of the gauge's other check"},
                   {"result.", "%s"}};
    for (size_t i = 0; i < sizeof counted / sizeof counted[0]; i++) {
        size_t length = strlen(counted[i].key);
        const char *rest = strstr(counted[i].words, "%s");
        if (strncmp(key, counted[i].key, length) == 0)
            return arena_format(arena, "%.*s%s%s", (int)(rest - counted[i].words),
                                counted[i].words, key + length, rest + 2);
    }
    return key;
}

/* What differs, in a sentence; NULL: the entry is the same now. */
static const char *difference(struct arena *arena, const struct setting *then,
                              const struct setting_list *now)
{
    const char *value = stored_value(now, then->path);
    if (may_differ(then->path) || (value && strcmp(value, then->value) == 0))
        return NULL;
    const char *what = words_of_key(arena, then->path);
    return value ? arena_format(arena, "%s: the record has \"%s\", now it is \"%s\"", what,
                                then->value, value)
                 : arena_format(arena, "%s: the record has \"%s\", now there is none", what,
                                then->value);
}

/* A row that came later to a job. */
static const char *added_row(struct arena *arena, const struct setting *now,
                             const struct stored_record *stored)
{
    if ((strncmp(now->path, "row.", 4) != 0 && strncmp(now->path, "corrected.", 10) != 0) ||
        stored_value(&stored->entries, now->path))
        return NULL;
    return arena_format(arena, "%s is not in the record: \"%s\"",
                        words_of_key(arena, now->path), now->value);
}

void report_record_differences(struct rows *rows, const struct results *results,
                               const struct stored_record *stored)
{
    const struct job *job = record_job(results, stored->job);
    if (!stored->whole)
        put_note(rows,
                 "the file %s was changed since it was stored: its fingerprint is another; "
                 "fetch it from a copy",
                 stored->file);
    if (!stored->shop)
        put_note(rows, "this version cannot read the settings of the record; the job is judged "
                       "by today's");
    if (!job || !job->closed) {
        put_note(rows, "the log does not close the job any more; fetch the log from a copy");
        return;
    }
    struct setting_list now = record_of(rows->arena, results, job, NULL);
    for (size_t i = 0; i < stored->entries.count; i++) {
        const char *words = difference(rows->arena, &stored->entries.items[i], &now);
        if (words)
            put_note(rows, "%s", words);
    }
    for (size_t i = 0; i < now.count; i++) {
        const char *words = added_row(rows->arena, &now.items[i], stored);
        if (words)
            put_note(rows, "%s", words);
    }
}

/* ---- what is to be looked at ---- */

static void remark(struct rows *rows, struct place at, const char *date, const char *words)
{
    put_row(rows, "remark", date, words, "");
    rows->items[rows->count - 1].at = at;
}

void remark_on_records(struct rows *rows, const struct results *results)
{
    const struct shop *shop = results->shop;
    for (size_t i = 0; i < results->job_count; i++) {
        const struct job *job = &results->jobs[i];
        const char *name = name_of(results, job);
        if (name && job->closed && !shop_record(shop, name))
            remark(rows, job->closed->at, job->closed->date,
                   arena_format(rows->arena,
                                "the job %s is closed and has no record. Store it: spindlebook "
                                "record --job %s",
                                name, name));
    }
    for (size_t i = 0; i < shop->stored_count; i++) {
        struct rows notes = {.arena = rows->arena};
        report_record_differences(&notes, results, &shop->stored[i]);
        for (size_t k = 0; k < notes.count; k++)
            remark(rows, (struct place){.file = shop->stored[i].file, .line = 1}, "",
                   arena_format(rows->arena, "record of the job %s: %s", shop->stored[i].job,
                                notes.items[k].value));
    }
}
