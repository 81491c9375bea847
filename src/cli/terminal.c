#include "cli/terminal.h"

#include "base/utf8.h"
#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/nut.h"
#include "judge/series.h"
#include "judge/window.h"
#include "report/report.h"
#include "report/typed.h"
#include "report/words.h"

#include <stdio.h>
#include <string.h>

/* What the terminal answers: rows of a name, a value and a unit, as plain lines
 * for people or tab-separated ones for programs. */

/* Texts are copied. unit: "" where there is none. */
static void answer_add(struct answer *answer, const char *name, const char *label,
                       const char *value, const char *unit)
{
    struct answer_row *row = ARENA_PUSH(answer->arena, answer->rows, answer->count);
    *row = (struct answer_row){.name = arena_text(answer->arena, name),
                               .label = arena_text(answer->arena, label),
                               .value = arena_text(answer->arena, value),
                               .unit = arena_text(answer->arena, unit)};
}

static size_t widest_label(const struct answer *answer)
{
    size_t widest = 0;
    for (size_t i = 0; i < answer->count; i++) {
        size_t width = utf8_count(answer->rows[i].label, strlen(answer->rows[i].label));
        widest = width > widest ? width : widest;
    }
    return widest;
}

/* Text for programs: plain signs for the printed ones. */
static void print_plain(const char *text, FILE *out)
{
    while (*text) {
        if (strncmp(text, "\xE2\x88\x92", 3) == 0) {
            fputc('-', out);
            text += 3;
        } else if (strncmp(text, "\xC2\xB7", 2) == 0) {
            fputc('.', out);
            text += 2;
        } else {
            fputc(*text++, out);
        }
    }
}

static void print_for_programs(const struct answer_row *row, FILE *out)
{
    fprintf(out, "%s\t", row->name);
    print_plain(row->value, out);
    fputc('\t', out);
    print_plain(row->unit, out);
    fputc('\n', out);
}

void answer_print(const struct answer *answer, bool lines, FILE *out)
{
    size_t widest = widest_label(answer);
    for (size_t i = 0; i < answer->count; i++) {
        const struct answer_row *row = &answer->rows[i];
        size_t width = utf8_count(row->label, strlen(row->label));
        if (lines)
            print_for_programs(row, out);
        else
            fprintf(out, "%s%*s  %s%s%s\n", row->label, (int)(widest - width), "", row->value,
                    row->unit[0] ? " " : "", row->unit);
    }
}

/* Quantities and bands from the words of a command line. */

/* A bare number takes the following word as its unit. */
static bool is_bare(const char *word)
{
    word += quantity_minus(word);
    return word[strspn(word, "0123456789./-")] == '\0';
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
    return word + strspn(word, "0123456789.");
}

/* What a part of was left out would be read as something else. */
static bool has_room(size_t used, size_t room, const char *place, struct diags *diags)
{
    if (used < room)
        return true;
    fault(diags, (struct place){.file = place},
          "this is too long for a number and its unit; leave the rest off");
    return false;
}

enum { TYPED_TEXT = 2 * QUANTITY_TEXT };

/* A bare number with another behind it: with the unit that the pulls share. False after a
 * fault. */
static bool add_shared_unit(const struct question *question, size_t at, enum kind kind,
                            struct diags *diags, char text[TYPED_TEXT])
{
    const char *first = question->words[at - 1];
    const char *unit = kind == KIND_FORCE ? shared_unit(question, at) : NULL;
    if (unit) {
        snprintf(text, TYPED_TEXT, "%s %s", first, unit);
        return true;
    }
    fault(diags, (struct place){.file = first},
          "this number has no unit; write it behind the number, as in %s", kind_example(kind));
    return false;
}

/* The next quantity from words[*at] on, in one word ("4.31N") or in two ("4.31 N");
 * *at moves behind it. False after a fault. */
static bool words_quantity(const struct question *question, size_t *at, enum kind kind,
                           struct diags *diags, struct quantity *quantity)
{
    char text[TYPED_TEXT];
    struct quantity_fault wrong;
    const char *first = question->words[*at];
    size_t used = (size_t)snprintf(text, sizeof text, "%s", question->words[(*at)++]);
    bool shared = *at < question->word_count && is_bare(first) &&
                  is_next_number(first, question->words[*at]);
    if (shared && !add_shared_unit(question, *at, kind, diags, text))
        return false;
    while (!shared && used < sizeof text && is_bare(question->words[*at - 1]) &&
           *at < question->word_count)
        used +=
            (size_t)snprintf(text + used, sizeof text - used, " %s", question->words[(*at)++]);
    if (!has_room(used, sizeof text, first, diags))
        return false;
    if (quantity_parse(text, kind, quantity, &wrong))
        return true;
    fault(diags, (struct place){.file = first}, "%s", wrong.message);
    return false;
}

/* The band at the asked speed ("900", "900r/min", "900 r/min"), else the lathe's
 * own; *band is NULL without limits on file. False after a fault. */
static bool words_band(const struct question *question, struct diags *diags,
                       const struct band **band)
{
    static const char place[] = "--speed";
    char text[TYPED_TEXT];
    struct quantity_fault wrong;
    *band = shop_own_band(question->shop);
    if (!question->speed)
        return true;
    size_t used = (size_t)snprintf(text, sizeof text, "%s%s", question->speed,
                                   is_bare(question->speed) ? " r/min" : "");
    if (!has_room(used, sizeof text, place, diags))
        return false;
    bool good = band_read(question->shop, text, band, &wrong);
    if (!good)
        fault(diags, (struct place){.file = place}, "%s", wrong.message);
    return good;
}

static bool read_taken(const char *option, const char *text, enum pull_column column,
                       struct pull_conditions *taken, struct diags *diags)
{
    struct quantity_fault wrong = {.message =
                                       "a word is missing; write it, or leave the option out"};
    if (!text || (text[0] && conditions_read(column, text, taken, &wrong)))
        return true;
    fault(diags, (struct place){.file = option}, "%s", wrong.message);
    return false;
}

/* How the drag was measured; what was not said stays as it is. False after a fault. */
static bool words_taken(const struct question *question, struct diags *diags,
                        struct pull_conditions *taken)
{
    bool lock = read_taken("--lock", question->lock, PULL_LOCK, taken, diags);
    bool warmth = read_taken("--warmth", question->warmth, PULL_WARMTH, taken, diags);
    bool direction =
        read_taken("--direction", question->direction, PULL_DIRECTION, taken, diags);
    return lock && warmth && direction;
}

/* What locking added, N.m: as asked, else by the log; NAN: not known. False after a fault. */
static bool words_lock_added(const struct question *question, struct diags *diags,
                             double *added)
{
    struct quantity typed;
    struct quantity_fault wrong;
    *added = lock_added_last(question->shop);
    if (!question->lock_added)
        return true;
    if (!quantity_parse(question->lock_added, KIND_TORQUE, &typed, &wrong)) {
        fault(diags, (struct place){.file = "--lock-added"}, "%s", wrong.message);
        return false;
    }
    *added = typed.base;
    return true;
}

static void add_row(void *to, const char *name, const char *label, const char *value,
                    const char *unit)
{
    answer_add(to, name, label, value, unit);
}

/* Adds whatever is told as rows of the answer. */
static struct row_sink answer_rows(struct answer *answer)
{
    return (struct row_sink){.row = add_row, .to = answer};
}

/* spindlebook gauge: what is known of the gauge at the pulls of your band. */

static void add_force(struct answer *answer, const char *name, const char *label, double force,
                      const struct shop *shop)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    answer_add(answer, name, label, show_places(unit_from_base(force, unit), places).text,
               unit->shown);
}

static void add_doubt(struct answer *answer, double force, const struct shop *shop)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    answer_add(answer, "known-within", "Known within",
               show_up(unit_from_base(force, unit), places).text, unit->shown);
}

static void answer_check(struct answer *answer, const struct shop *shop, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    if (!gauge_check_covers(&check, pull)) {
        add_force(answer, "error", "Error, either way", gauge_within_at(shop, pull), shop);
        return;
    }
    double error = gauge_check_error(&check, pull);
    add_force(answer, "error", "Error found", error, shop);
    add_force(answer, "to-add", "To add to a reading", -error, shop);
    answer_add(answer, "note", "Note",
               "never correct a pull by hand: write and type what the gauge shows; the program "
               "knows the error, and makes U wider by it",
               "");
    add_doubt(answer, gauge_known_within(&check, pull), shop);
}

/* Of all pulls that are looked for: the band's; without limits the one asked about. */
static void answer_notes(struct answer *answer, const struct shop *shop,
                         const struct band *band, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    struct pull_window window = {.low = pull, .high = pull};
    if (band)
        window = pull_window_of(shop, band);
    struct words notes[] = {gauge_slope_words(&check),
                            gauge_reach_words(shop, window.low, window.high)};
    for (size_t i = 0; i < 2; i++)
        if (notes[i].text[0])
            answer_add(answer, "note", "Note", notes[i].text, "");
}

static void answer_fitness(struct answer *answer, const struct shop *shop,
                           const struct band *band)
{
    if (!band) {
        answer_add(answer, "state", "Fit", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct fitness fitness = fitness_on(shop, band, &shop->drum.diameter.q);
    answer_add(answer, "half-window-over-u", "Half the window over U",
               show_places(fitness.ratio, 1).text, "");
    answer_add(answer, "state", "Fit", fitness_words(shop, &fitness).text, "");
}

bool terminal_gauge(const struct question *question, struct diags *diags, struct answer *answer)
{
    const struct shop *shop = question->shop;
    if (question->word_count) {
        fault(diags, (struct place){.file = question->words[0]},
              "gauge takes no words; write the weighings into gauge-check.csv");
        return false;
    }
    const struct band *band;
    if (!words_band(question, diags, &band))
        return false;
    double pull = band ? pull_window_of(shop, band).aim : gauge_usual_pull(shop);
    add_force(answer, band ? "aim" : "pull", band ? "At the aim" : "At half its capacity", pull,
              shop);
    answer_add(answer, "source", "Known from", gauge_source_words(gauge_source_at(shop, pull)),
               "");
    answer_check(answer, shop, pull);
    answer_notes(answer, shop, band, pull);
    answer_add(answer, "weighings", "Weighings in the log",
               show_places((double)shop->weighings.count, 0).text, "");
    answer_fitness(answer, shop, band);
    return true;
}

/* spindlebook nut: how far to turn the nut next, from two places and drags. */

static bool read_points(const struct question *question, struct diags *diags,
                        struct nut_point points[2])
{
    size_t at = 0;
    for (int i = 0; i < 2; i++) {
        struct quantity angle, drag;
        if (at + 2 > question->word_count) {
            fault(diags, (struct place){.file = "nut"},
                  "two places of the nut with their drags are needed, the older first; write "
                  "them as in 0deg 0.31N.m 3deg 0.42N.m");
            return false;
        }
        if (!words_quantity(question, &at, KIND_ANGLE, diags, &angle))
            return false;
        if (at == question->word_count ||
            !words_quantity(question, &at, KIND_TORQUE, diags, &drag)) {
            if (at == question->word_count && !diags_count(diags))
                fault(diags, (struct place){.file = question->words[at - 1]},
                      "a drag belongs behind the nut's angle; write it as in 3deg 0.42N.m");
            return false;
        }
        points[i] = nut_point_of_drag(question->shop, angle.base, drag.base);
    }
    if (at < question->word_count)
        fault(diags, (struct place){.file = question->words[at]},
              "this is one word too many; two places with their drags are enough");
    struct quantity_fault wrong;
    if (!nut_points_allowed(points, &wrong))
        fault(diags, (struct place){.file = "nut"}, "%s", wrong.message);
    return diags_count(diags) == 0;
}

/* ---- by the log ---- */

/* What may be turned by, and where it stands if the nut may not be turned by it. */
struct by_log {
    const struct pull_series *last, *before; /* before: NULL where there is no second place */
    struct judgement judgement;              /* of the last */
};

/* The series that may steer the nut; where there is none, the last of the log. */
static bool find_last(const struct question *question, struct diags *diags,
                      struct by_log *by_log)
{
    const struct pull_series_log *log = &question->shop->readings;
    by_log->last = nut_last_steering(question->shop);
    by_log->before = by_log->last ? nut_place_before(question->shop, by_log->last) : NULL;
    if (!by_log->last && log->count)
        by_log->last = &log->items[log->count - 1];
    if (!by_log->last)
        fault(diags, (struct place){.file = "nut"},
              "the log is empty; write two places of the nut and their drags behind the verb, "
              "the older first, as in 0deg 0.31N.m 3deg 0.42N.m");
    return by_log->last;
}

static bool lock_alone_is_said(const struct question *question, struct diags *diags)
{
    if (!question->warmth && !question->direction)
        return true;
    fault(diags, (struct place){.file = question->warmth ? "--warmth" : "--direction"},
          "the log says it of every series; mend its row, or write two places of the nut and "
          "their drags behind the verb");
    return false;
}

static void tell_no_second_place(const struct row_sink *rows)
{
    char text[240];
    snprintf(
        text, sizeof text,
        "how far to turn is not known: since the nut was last unloaded, the log holds no "
        "two places of it, at most %g degrees apart, that were taken alike. Where it is to "
        "be tightened: by 1 to 2 degrees, then measure",
        NUT_FAR_APART);
    put_row(rows, "note", "Note", text, "");
}

/* What the log holds beside it. */
static void tell_rest(const struct row_sink *rows, const struct shop *shop,
                      const struct by_log *by_log)
{
    const struct pull_series *end = shop->readings.items + shop->readings.count;
    if (by_log->last + 1 < end)
        put_row(
            rows, "note", "Note",
            "later rows of the log are left out: warm where the limits are for cold, or cold "
            "where for warm; turned the other way; or without the nut's place",
            "");
    if (!by_log->before && may_be_tightened(&by_log->judgement))
        tell_no_second_place(rows);
}

static bool answer_by_log(const struct question *question, struct diags *diags,
                          const struct band *band, double lock_added,
                          const struct row_sink *rows)
{
    struct by_log by_log;
    const struct shop *shop = question->shop;
    if (!find_last(question, diags, &by_log))
        return false;
    struct pull_conditions taken = series_conditions(by_log.last);
    if (!lock_alone_is_said(question, diags) || !words_taken(question, diags, &taken))
        return false;
    by_log.judgement = judge_series_as(shop, band, &taken, by_log.last);
    if (by_log.before && state_turns_nut(by_log.judgement.state)) {
        const struct nut_point points[2] = {nut_point_of_series(shop, by_log.before),
                                            nut_point_of_series(shop, by_log.last)};
        report_nut_move(rows, shop, band, points, &taken, lock_added);
    } else {
        report_state(rows, shop, "The last in the log", &by_log.judgement, lock_added);
    }
    tell_rest(rows, shop, &by_log);
    return true;
}

bool terminal_nut(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct nut_point points[2];
    const struct band *band;
    double lock_added;
    struct pull_conditions taken = {LOCK_UNSAID, SAID_NOTHING, false};
    struct row_sink rows = answer_rows(answer);
    bool band_known = words_band(question, diags, &band);
    bool lock_known = words_lock_added(question, diags, &lock_added);
    if (!question->word_count)
        return band_known && lock_known &&
               answer_by_log(question, diags, band, lock_added, &rows);
    bool taken_known = words_taken(question, diags, &taken);
    bool known = read_points(question, diags, points);
    if (!band_known || !lock_known || !taken_known || !known)
        return false;
    report_nut_move(&rows, question->shop, band, points, &taken, lock_added);
    return true;
}

/* spindlebook pull: what a series of pulls says of the drag. */

static size_t read_pulls(const struct question *question, struct diags *diags,
                         struct quantity *pulls)
{
    size_t count = 0;
    for (size_t at = 0; at < question->word_count; count++) {
        struct quantity pull;
        struct quantity_fault wrong;
        const char *first = question->words[at];
        if (!words_quantity(question, &at, KIND_FORCE, diags, &pull))
            return 0;
        if (!pull_allowed(question->shop, &pull, count, &wrong)) {
            fault(diags, (struct place){.file = first}, "%s", wrong.message);
            return 0;
        }
        pulls[count] = pull;
    }
    if (count == 0)
        fault(diags, (struct place){.file = "pull"},
              "there are no pulls; write them behind the verb, as in 4.31N 4.28N 4.35N");
    return count;
}

bool terminal_pull(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct quantity pulls[MOST_PULLS];
    size_t count = read_pulls(question, diags, pulls);
    const struct band *band;
    struct pull_conditions taken = {LOCK_UNSAID, SAID_NOTHING, false};
    double lock_added;
    bool taken_known = words_taken(question, diags, &taken);
    bool lock_known = words_lock_added(question, diags, &lock_added);
    if (!words_band(question, diags, &band) || !count || !taken_known || !lock_known)
        return false;
    struct drum_setup setup = shop_drum_setup(question->shop);
    struct judgement judgement =
        judge_pulls(question->shop, band, &setup, &taken, pulls, count);
    struct row_sink rows = answer_rows(answer);
    report_judgement(&rows, question->shop, &judgement, pulls, lock_added);
    return true;
}

/* spindlebook window: what the gauge may read on this drum. */

bool terminal_window(const struct question *question, struct diags *diags,
                     struct answer *answer)
{
    if (question->word_count) {
        fault(diags, (struct place){.file = question->words[0]},
              "window takes no words; give a drum with --drum and a speed with --speed");
        return false;
    }
    const struct band *band;
    struct row_sink rows = answer_rows(answer);
    if (!words_band(question, diags, &band))
        return false;
    report_window(&rows, question->shop, band);
    return true;
}
