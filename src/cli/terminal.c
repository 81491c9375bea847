/* What is asked and answered at the terminal: words are read as quantities, a band, and how the
 * drag was measured; the answer is rows of a name, a label, a value and a unit. */
#include "cli/terminal.h"

#include "base/utf8.h"
#include "base/version.h"
#include "book/traces.h"
#include "judge/advice.h"
#include "judge/nut.h"
#include "judge/results.h"
#include "report/record.h"
#include "report/trace.h"
#include "report/typed.h"
#include "shop/settings.h"

#include <limits.h>
#include <stdio.h>
#include <string.h>

/* ---- the answer ---- */

/* Plain characters for the printed ones. */
static void print_plain(const char *text)
{
    static const char minus[] = "\u2212", dot[] = "\u00b7";
    while (*text) {
        if (strncmp(text, minus, strlen(minus)) == 0) {
            putchar('-');
            text += strlen(minus);
        } else if (strncmp(text, dot, strlen(dot)) == 0) {
            putchar('.');
            text += strlen(dot);
        } else {
            putchar(*text++);
        }
    }
}

static void print_lines(const struct rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        printf("%s\t", rows->items[i].name);
        print_plain(rows->items[i].value);
        putchar('\t');
        print_plain(rows->items[i].unit);
        putchar('\n');
    }
    printf("program\tspindlebook " VERSION "\t\n");
}

static size_t label_width(const struct row *row)
{
    return utf8_count(row->label, strlen(row->label));
}

static void print_columns(const struct rows *rows)
{
    size_t widest = 0;
    for (size_t i = 0; i < rows->count; i++)
        if (label_width(&rows->items[i]) > widest)
            widest = label_width(&rows->items[i]);
    for (size_t i = 0; i < rows->count; i++) {
        const struct row *row = &rows->items[i];
        printf("%s%*s  %s%s%s\n", row->label, (int)(widest - label_width(row)), "", row->value,
               row->unit[0] ? " " : "", row->unit);
    }
}

void terminal_answer(struct arena *arena, const struct question *question, answerer *answer,
                     bool lines)
{
    struct rows rows = {.arena = arena};
    struct question asked = *question;
    asked.rows = &rows;
    const char *notice = question->results->shop->lathe.notice;
    if (notice)
        put_row(&rows, "notice", "Notice", notice, "");
    if (!answer(&asked))
        return;
    if (lines)
        print_lines(&rows);
    else
        print_columns(&rows);
}

/* ---- words ---- */

/* A fault at an option or a word; false. */
static bool refuse(const struct question *question, const char *place, const char *message)
{
    fault(question->diags, (struct place){.file = place}, "%s", message);
    return false;
}

/* A bare number takes the following word as its unit. */
static bool is_bare(const char *word)
{
    word += quantity_minus(word);
    return word[strspn(word, "0123456789.,/-")] == '\0';
}

/* Whether a word begins a number that is no fraction of the bare one before it. */
static bool is_next_number(const char *before, const char *word)
{
    size_t digits = strspn(word, "0123456789");
    bool fraction = word[digits] == '/' && !strpbrk(before, "./");
    return (digits > 0 || word[0] == '.' || quantity_minus(word)) && !fraction;
}

/* The unit behind the last of some numbers without one; NULL: there is none. */
static const char *shared_unit(const struct question *question, size_t at)
{
    while (at < question->word_count && is_bare(question->words[at]))
        at++;
    if (at == question->word_count)
        return NULL;
    const char *word = question->words[at];
    return word + strspn(word, "0123456789.,");
}

/* The next quantity from words[*at] on, in one word ("4.31N") or in two ("4.31 N"), or a pull
 * without a unit, which it then shares with those behind it; *at moves behind it. False after
 * a fault. */
static bool words_quantity(const struct question *question, size_t *at, enum kind kind,
                           struct quantity *quantity)
{
    struct arena *arena = question->rows->arena;
    struct quantity_fault wrong;
    const char *const *words = question->words;
    const char *first = words[(*at)++], *text = first;
    size_t count = question->word_count;
    if (*at < count && is_bare(first) && is_next_number(first, words[*at])) {
        const char *unit = kind == KIND_FORCE ? shared_unit(question, *at) : NULL;
        if (!unit) {
            fault(question->diags, (struct place){.file = first},
                  "this number has no unit; write it behind the number, as in %s",
                  kind_example(kind));
            return false;
        }
        text = arena_format(arena, "%s %s", first, unit);
    } else {
        while (*at < count && is_bare(words[*at - 1]))
            text = arena_format(arena, "%s %s", text, words[(*at)++]);
    }
    if (!quantity_parse(text, kind, quantity, &wrong))
        return refuse(question, first, wrong.message);
    if (quantity->reworded)
        put_row(question->rows, "read-as", "Read as", quantity_text(arena, quantity), "");
    return true;
}

/* Not where the verb takes none; instead: what to do. */
static bool words_none(const struct question *question, const char *instead)
{
    return !question->word_count || refuse(question, question->words[0], instead);
}

/* The band at the asked speed ("900", "900r/min", "900 r/min"), else the lathe's
 * own; *band is NULL without limits on file. False after a fault. */
static bool words_band(const struct question *question, const struct band **band)
{
    static const char place[] = "--speed";
    struct quantity_fault wrong;
    *band = question->results->band;
    if (!question->speed)
        return true;
    const char *text = arena_format(question->rows->arena, "%s%s", question->speed,
                                    is_bare(question->speed) ? " r/min" : "");
    return band_read(question->results->shop, text, band, &wrong) ||
           refuse(question, place, wrong.message);
}

/* How the drag was measured; what was not said stays as it is. False after a fault. */
static bool words_conditions(const struct question *question, struct pull_conditions *taken)
{
    const struct {
        const char *option, *text;
        enum pull_column column;
    } options[] = {{"--lock", question->lock, PULL_LOCK},
                   {"--warmth", question->warmth, PULL_WARMTH},
                   {"--direction", question->direction, PULL_DIRECTION}};
    bool good = true;
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++) {
        const char *text = options[i].text;
        struct quantity_fault wrong = {
            .message = "a word is missing; write it, or leave the option out"};
        if (text && !(text[0] && conditions_read(options[i].column, text, taken, &wrong)))
            good = refuse(question, options[i].option, wrong.message);
    }
    return good;
}

/* What locking added, N.m: as asked, else by the log; NAN: not known. False after a fault. */
static bool words_lock_added(const struct question *question, const struct band *band,
                             double *added)
{
    struct quantity_fault wrong;
    *added = question->results->lock_added;
    return !question->lock_added ||
           lock_added_read(band, question->lock_added, added, &wrong) ||
           refuse(question, "--lock-added", wrong.message);
}

/* ---- spindlebook pull ---- */

static size_t read_pulls(const struct question *question, struct quantity *pulls)
{
    size_t count = 0;
    for (size_t at = 0; at < question->word_count; count++) {
        struct quantity pull;
        struct quantity_fault wrong;
        const char *first = question->words[at];
        if (!words_quantity(question, &at, KIND_FORCE, &pull))
            return 0;
        if (!pull_allowed(question->results->shop, &pull, count, &wrong)) {
            refuse(question, first, wrong.message);
            return 0;
        }
        pulls[count] = pull;
    }
    if (count == 0)
        refuse(question, "pull",
               "there are no pulls; write them behind the verb, as in 4.31N 4.28N 4.35N");
    return count;
}

bool terminal_pull(const struct question *question)
{
    struct quantity pulls[MOST_PULLS];
    const struct band *band;
    double lock_added;
    struct pull_conditions taken = {LOCK_UNSAID, SAID_NOTHING, false};
    size_t count = read_pulls(question, pulls);
    words_conditions(question, &taken);
    words_band(question, &band);
    words_lock_added(question, band, &lock_added);
    if (diags_count(question->diags))
        return false;
    struct drum_setup setup = shop_drum_setup(question->results->shop);
    struct judgement judgement =
        judge_pulls(&question->results->known, band, &setup, &taken, pulls, count);
    report_judgement(question->rows, question->results, &judgement, pulls, lock_added);
    if (question->budget && says_drag(&judgement))
        report_budget(question->rows, question->results->shop, &judgement);
    return true;
}

/* ---- spindlebook window ---- */

bool terminal_window(const struct question *question)
{
    const struct band *band;
    if (!words_none(
            question,
            "window takes no words; give a drum with --drum and a speed with --speed") ||
        !words_band(question, &band))
        return false;
    report_window(question->rows, question->results, band);
    return true;
}

/* ---- spindlebook gauge ---- */

bool terminal_gauge(const struct question *question)
{
    const struct band *band;
    if (!words_none(question,
                    "gauge takes no words; write the weighings into gauge-check.csv") ||
        !words_band(question, &band))
        return false;
    report_gauge(question->rows, question->results, band);
    return true;
}

/* ---- spindlebook nut: from two places and drags that are typed, or by the log ---- */

static bool read_places(const struct question *question, struct quantity angles[2],
                        struct quantity drags[2])
{
    struct quantity_fault wrong;
    size_t at = 0;
    for (int i = 0; i < 2; i++) {
        if (at + 2 > question->word_count)
            return refuse(question, "nut",
                          "two places of the nut with their drags are needed, the older first; "
                          "write them as in 0deg 0.31N.m 3deg 0.42N.m");
        if (!words_quantity(question, &at, KIND_ANGLE, &angles[i]))
            return false;
        if (at == question->word_count)
            return !diags_count(question->diags) &&
                   refuse(question, question->words[at - 1],
                          "a drag belongs behind the nut's angle; write it as in 3deg 0.42N.m");
        if (!words_quantity(question, &at, KIND_TORQUE, &drags[i]))
            return false;
    }
    if (at < question->word_count)
        refuse(question, question->words[at],
               "this is one word too many; two places with their drags are enough");
    if (!places_allowed(angles, &wrong))
        refuse(question, "nut", wrong.message);
    return !diags_count(question->diags);
}

/* What the log holds beside the row by which it says what to do next. */
static void put_rest(const struct question *question, const struct judged *row,
                     enum advice advice)
{
    const struct results *results = question->results;
    if (row + 1 < results->rows + results->row_count)
        put_note(question->rows,
                 "later rows of the log are left out: warm where the limits are for cold, or "
                 "cold where for warm; turned the other way; or without the nut's place");
    if (advice_tightens(advice) && !looser_place(row))
        put_note(
            question->rows,
            "how far to turn is not known: since the nut was last unloaded, the log holds no "
            "two places of it, at most %g degrees apart, that were taken alike. Where it is to "
            "be tightened: by 1 to 2 degrees, then measure",
            NUT_FAR_APART);
}

/* The verdict of a row is that of its day. */
static void put_newer_settings(const struct question *question, const struct judged *row)
{
    const struct shop *then = row->known.shop;
    if (then != shop_on_day(question->results->shop, LONG_MAX))
        put_note(question->rows,
                 "judged by %s, the settings in force on its day; by those of today, pull anew",
                 then->file);
}

static bool answer_by_log(const struct question *question, const struct band *band,
                          double lock_added)
{
    const struct results *results = question->results;
    const struct judged *row = results->latest;
    if (!row)
        return refuse(question, "nut",
                      "the log is empty; write two places of the nut and their drags behind "
                      "the verb, the older first, as in 0deg 0.31N.m 3deg 0.42N.m");
    if (question->warmth || question->direction)
        return refuse(question, question->warmth ? "--warmth" : "--direction",
                      "the log says it of every series; mend its row, or write two places of "
                      "the nut and their drags behind the verb");
    struct pull_conditions taken = series_conditions(row->series);
    if (!words_conditions(question, &taken))
        return false;
    if (!question->speed)
        band = row->judgement.band; /* of the settings in force on its day */
    struct judgement judgement = judge_series(&row->known, band, &taken, row->series);
    struct nut_places places = nut_places_of_row(row, lock_added);
    struct advice_asked asked = {.judgement = &judgement,
                                 .lock_added = lock_added,
                                 .places = &places,
                                 .warmth_doubted = row->warmth_doubted,
                                 .other_cap = row->other_cap};
    put_newer_settings(question, row);
    put_rest(question, row,
             report_state(question->rows, results, "The last in the log", &asked));
    return true;
}

bool terminal_nut(const struct question *question)
{
    struct quantity angles[2], drags[2];
    const struct band *band;
    double lock_added;
    struct pull_conditions taken = {LOCK_UNSAID, SAID_NOTHING, false};
    bool good = words_band(question, &band);
    good &= words_lock_added(question, band, &lock_added);
    if (!question->word_count)
        return good && answer_by_log(question, band, lock_added);
    good &= words_conditions(question, &taken);
    good &= read_places(question, angles, drags);
    if (good)
        report_places(question->rows, question->results, band, angles, drags, &taken,
                      lock_added);
    return good;
}

/* ---- spindlebook record ---- */

/* "2026-1, 2028-1", those that are closed. */
static const char *closed_jobs(const struct question *question)
{
    const struct results *results = question->results;
    const char *names = "";
    for (size_t i = 0; i < results->job_count; i++) {
        const char *name = results->rows[results->jobs[i].first].series->job;
        if (name && results->jobs[i].closed)
            names = arena_format(question->rows->arena, "%s%s%s", names, names[0] ? ", " : "",
                                 name);
    }
    return names[0] ? names : "none: write a row with closed in the column step";
}

/* The entries of its record as the files have them now; no job of that name that is closed: no
 * entry, after a fault. */
static struct setting_list read_again(const struct question *question)
{
    struct arena *arena = question->rows->arena;
    struct diags *diags = diags_new(arena);
    struct shop *shop = arena_get(arena, sizeof *shop);
    settings_read(arena, diags, question->results->shop->file, NULL, 0, shop);
    if (diags_count(diags) == 0)
        traces_read(arena, diags, shop);
    const struct results *results = diags_count(diags) ? NULL : results_of(arena, shop);
    const struct job *job = results ? record_job(results, question->job) : NULL;
    return job && job->closed ? record_of(arena, results, job, question->issued)
                              : (struct setting_list){0};
}

/* Is the text one that will be read as the record that it was made from? */
static bool reads_back(struct arena *arena, const struct buffer *text, const char *fingerprint)
{
    struct diags *diags = diags_new(arena);
    struct setting_list read = {0};
    struct file_text file = {.name = "", .bytes = text->bytes, .length = text->length};
    char again[RECORD_FINGERPRINT_TEXT];
    if (text->length <= FILE_LARGEST)
        setting_list_read(arena, diags, &file, &read);
    stored_fingerprint(arena, &read, again);
    return diags_count(diags) == 0 && strcmp(again, fingerprint) == 0;
}

/* Stores it, unless the files changed while it was made. What could not be read back is not
 * stored: nobody may change it then, and nothing else would be read any more. */
static bool store(const struct question *question, const struct job *job, const char *folder)
{
    struct arena *arena = question->rows->arena;
    struct setting_list made = record_of(arena, question->results, job, question->issued);
    struct setting_list again = read_again(question);
    char fingerprint[RECORD_FINGERPRINT_TEXT], other[RECORD_FINGERPRINT_TEXT];
    struct buffer text = {0};
    stored_fingerprint(arena, &made, fingerprint);
    stored_fingerprint(arena, &again, other);
    if (strcmp(fingerprint, other) != 0)
        return refuse(question, question->results->shop->file,
                      "the settings or a log changed while the record was made; nothing was "
                      "stored. Save them all, and ask again");
    stored_print(arena, &text, made);
    bool good = reads_back(arena, &text, fingerprint);
    bool kept =
        good && file_keep(arena, folder, arena_format(arena, "%s.yaml", question->job), &text);
    buffer_free(&text);
    if (kept)
        put_row(question->rows, "stored", "Stored as",
                arena_format(arena, "%s/%s.yaml", folder, question->job), "");
    if (!good)
        return refuse(
            question, "--job",
            arena_format(arena,
                         "the record of the job %s has %zu values and could not be read "
                         "back: %d in 4 MiB of plain text are the most. Nothing was "
                         "stored; close a job sooner, with plain notes",
                         question->job, made.count + 1, SETTINGS_MOST));
    return true; /* if not kept, another run stored it meanwhile */
}

bool terminal_record(const struct question *question)
{
    struct arena *arena = question->rows->arena;
    struct shop *shop = arena_get(arena, sizeof *shop);
    const struct results *results = question->results;
    if (!question->job)
        return refuse(question, "--job",
                      arena_format(arena, "which job is not said; those that are closed: %s",
                                   closed_jobs(question)));
    if (question->issued && !date_is_good(question->issued))
        return refuse(question, "--issued",
                      arena_format(arena,
                                   "'%.40s' is no date; write year, month and day as in "
                                   "2026-03-09",
                                   question->issued));
    const struct job *job = record_job(results, question->job);
    const struct stored_record *stored = shop_record(results->shop, question->job);
    if (!stored && !(job && job->closed))
        return refuse(question, "--job",
                      arena_format(arena, "%s job %s in the log; those that are closed: %s",
                                   job ? "no row closes the" : "there are no pulls of a",
                                   question->job, closed_jobs(question)));
    if (stored && question->issued)
        put_note(question->rows,
                 "the record was stored before, and stays as it is: --issued is "
                 "not taken");
    if (!stored) {
        const char *folder = settings_log(arena, results->shop->file, RECORDS_NAME);
        if (!store(question, job, folder))
            return false;
        *shop = *results->shop;
        shop->stored = NULL;
        shop->stored_count = 0;
        stored_read(arena, question->diags, folder, shop);
        stored = shop_record(shop, question->job);
    }
    if (!stored)
        return false;
    report_record(question->rows, results, stored);
    report_record_differences(question->rows, results, stored);
    return true;
}

/* ---- spindlebook trace ---- */

/* What the options say of the trace. False after a fault. */
static bool words_facts(const struct question *question, struct trace_facts *facts)
{
    const struct {
        const char *option, *text;
        enum trace_fact fact;
    } options[] = {{"--interval", question->interval, TRACE_INTERVAL},
                   {"--speed", question->speed, TRACE_SPEED},
                   {"--unit", question->unit, TRACE_UNIT}};
    bool good = true;
    *facts = (struct trace_facts){.unit = NULL};
    for (size_t i = 0; i < sizeof options / sizeof options[0]; i++) {
        struct quantity_fault wrong;
        if (options[i].text &&
            !trace_fact_read(options[i].fact, options[i].text, facts, &wrong))
            good = refuse(question, options[i].option, wrong.message);
    }
    return good;
}

bool terminal_trace(const struct question *question)
{
    const struct shop *shop = question->results->shop;
    struct trace_facts facts;
    struct trace_text text = {0};
    if (!words_facts(question, &facts))
        return false;
    bool good = trace_text_read(question->rows->arena, question->diags, question->trace, &facts,
                                shop->gauge.step.q.unit, &text);
    if (good) {
        struct trace trace = judge_trace(shop, &text, shop_radius(shop));
        struct place at = {.file = question->trace->name};
        if (trace_fault_has_place(trace.fault))
            at = trace_text_place(question->trace, &text, trace.at);
        good = trace.fault == TRACE_READ ||
               fault(question->diags, at, "%s",
                     trace_fault_words(question->rows->arena, shop, &trace));
        if (good)
            report_trace(question->rows, question->results, &text, &trace);
    }
    trace_text_free(&text);
    return good;
}
