/* The bench page's engine: one question in, one answer out, both plain text. It is
 * compiled to WebAssembly from the same number, drag, shop and verdict as the program,
 * and holds no formula, rounding, rule or word of its own for what those can say.
 *
 * A question is a verb, then lines of a key and a text with a tab between them. An
 * answer is rows of four fields with tabs between them: name, label, value, unit; or,
 * for a text that cannot be, "fault", the key, the byte of the text, the words. */
#include "judge/nut.h"
#include "judge/series.h"
#include "judge/window.h"
#include "number/show.h"
#include "report/remarks.h"
#include "report/report.h"
#include "report/typed.h"
#include "shop/fields.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A weighing is two fields; the rest are settings. */
enum { BENCH_ROOM = 256 * 1024, MOST_FIELDS = 2 * MOST_WEIGHINGS + 500 };

/* ---- what the page calls ---- */

/* Where the question is to be written: BENCH_ROOM bytes, a NUL behind the text. */
char *bench_room(void);

/* The answer; it stays until the next question. */
const char *bench_ask(void);

/* ---- what the files of the engine share ---- */

struct bench_field {
    const char *key, *text;
};

struct bench_question {
    const char *verb;
    struct bench_field fields[MOST_FIELDS];
    size_t count;
};

/* Whatever is told becomes rows. */
extern const struct row_sink bench_rows;

static const struct shop *bench_shop(void);
static void bench_settings(const struct bench_question *question);
static void bench_log(const struct bench_question *question);
static void bench_heads(const struct bench_question *question);
static void bench_pull(const struct bench_question *question);
static void bench_judge(const struct bench_question *question);
static void bench_window(const struct bench_question *question);
static void bench_drums(const struct bench_question *question);
static void bench_nut(const struct bench_question *question);
static void bench_kinds(const struct bench_question *question);
static void bench_convert(const struct bench_question *question);

static char room[BENCH_ROOM];

static char answer[BENCH_ROOM];

static size_t used, faults;

#ifdef __wasm__

#define EXPORTED(name) __attribute__((export_name(name)))

/* Without this the C library would bring in its files and streams to say so. */
_Noreturn void __assert_fail(const char *what, const char *file, int line,
                             const char *function);

_Noreturn void __assert_fail(const char *what, const char *file, int line, const char *function)
{
    (void)what, (void)file, (void)line, (void)function;
    __builtin_trap();
}

#else

#define EXPORTED(name) /* for an editor, which compiles it for its own machine */

#endif

EXPORTED("bench_room") char *bench_room(void)
{
    return room;
}

/* A row that has no room would be a wrong answer: rather none at all. */
static void bench_row(const char *name, const char *label, const char *value, const char *unit)
{
    int length = snprintf(answer + used, sizeof answer - used, "%s\t%s\t%s\t%s\n", name, label,
                          value, unit);
    if (length < 0 || (size_t)length >= sizeof answer - used)
        __builtin_trap();
    used += (size_t)length;
}

static void bench_fault(const char *key, size_t offset, const char *message)
{
    char at[24];
    snprintf(at, sizeof at, "%lu", (unsigned long)offset);
    bench_row("fault", key, at, message);
    faults++;
}

static size_t bench_fault_count(void)
{
    return faults;
}

static void tell_row(void *to, const char *name, const char *label, const char *value,
                     const char *unit)
{
    (void)to;
    bench_row(name, label, value, unit);
}

const struct row_sink bench_rows = {.row = tell_row};

/* The text of a key; "" where it is not there. */
static const char *bench_text(const struct bench_question *question, const char *key)
{
    for (size_t i = 0; i < question->count; i++)
        if (strcmp(question->fields[i].key, key) == 0)
            return question->fields[i].text;
    return "";
}

/* The text of a key as a quantity; false after a fault. */
static bool bench_quantity(const struct bench_question *question, const char *key,
                           enum kind kind, struct quantity *quantity)
{
    struct quantity_fault wrong;
    if (quantity_parse(bench_text(question, key), kind, quantity, &wrong))
        return true;
    bench_fault(key, wrong.offset, wrong.message);
    return false;
}

/* Cuts the room's text at its line ends and tabs. */
static void read_question(struct bench_question *question)
{
    question->verb = strtok(room, "\n");
    question->count = 0;
    for (char *line; (line = strtok(NULL, "\n")) && question->count < MOST_FIELDS;) {
        char *tab = strchr(line, '\t');
        if (!tab)
            continue;
        *tab = '\0';
        question->fields[question->count++] = (struct bench_field){line, tab + 1};
    }
}

static const struct {
    const char *name;
    void (*answer)(const struct bench_question *question);
    bool needs_shop;
} verbs[] = {
    {"settings", bench_settings, false},
    {"pull", bench_pull, true},
    {"judge", bench_judge, true},
    {"window", bench_window, true},
    {"drums", bench_drums, true},
    {"nut", bench_nut, true},
    {"kinds", bench_kinds, false},
    {"convert", bench_convert, false},
    {"log", bench_log, true},
    {"heads", bench_heads, false},
};

EXPORTED("bench_ask") const char *bench_ask(void)
{
    static struct bench_question question;
    used = faults = 0;
    answer[0] = '\0';
    read_question(&question);
    for (size_t i = 0; question.verb && i < sizeof verbs / sizeof verbs[0]; i++)
        if (strcmp(verbs[i].name, question.verb) == 0 && (bench_shop() || !verbs[i].needs_shop))
            verbs[i].answer(&question);
    return answer;
}

/* The workshop from keys and texts, as the settings file has them: the same table of
 * fields, the same ranges, the same check of the whole. */

/* Texts of the settings live here; everything points into them. */
static char texts[BENCH_ROOM];

static struct band bands[MOST_BANDS];

static struct measure drum_sizes[MOST_LIST], arms[MOST_LIST], speeds[MOST_LIST];

static struct weighing weighings[MOST_WEIGHINGS];

static struct pull_series hardest;

static struct shop own;

static bool is_good;

/* The workshop that the last good "settings" gave; NULL before. */
static const struct shop *bench_shop(void)
{
    return is_good ? &own : NULL;
}

/* ---- faults of the shop's check: the place's file is the key ---- */

struct diags {
    const char *key; /* told instead of the place's, where not NULL */
    size_t count;
};

void fault(struct diags *diags, struct place at, const char *format, ...)
{
    char message[400];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    diags->count++;
    bench_fault(diags->key ? diags->key : at.file ? at.file : "", 0, message);
}

size_t diags_count(const struct diags *diags)
{
    return diags->count;
}

/* ---- filling ---- */

static void *address_of(struct shop *shop, const struct field *field, int row)
{
    if (!row)
        return (char *)shop + field->offset;
    return (char *)&shop->limits.bands[row - 1] + field->offset;
}

/* path: where the value belongs; key: whom to tell of a fault. */
static bool read_measure(const struct field *field, const char *path, const char *key,
                         const char *text, struct measure *measure)
{
    struct quantity_fault wrong;
    char message[RANGE_TEXT];
    *measure = (struct measure){.at = {.file = key}};
    if (!quantity_parse(text, field->kind, &measure->q, &wrong))
        bench_fault(key, wrong.offset, wrong.message);
    else if (!field_allows(field, path, &measure->q, message))
        bench_fault(key, 0, message);
    else
        return true;
    measure->q.unit = NULL;
    return false;
}

static void read_list(const struct field *field, const struct bench_field *from,
                      struct measures *list, struct measure *items)
{
    char text[2 * QUANTITY_TEXT];
    list->items = items;
    list->count = 0;
    for (const char *at = from->text; list->count < MOST_LIST;) {
        size_t length = strcspn(at, ",");
        snprintf(text, sizeof text, "%.*s", (int)length, at);
        if (read_measure(field, from->key, from->key, text, &items[list->count]))
            list->count++;
        if (!at[length])
            return;
        at += length + 1;
    }
}

static int choice_of(const struct field *field, const char *text)
{
    for (int i = 0; field->choices[i]; i++)
        if (strcmp(field->choices[i], text) == 0)
            return i;
    return 0;
}

static void fill_field(struct shop *shop, const struct field *field, int row,
                       const struct bench_field *from)
{
    void *address = address_of(shop, field, row);
    switch (field->type) {
    case FIELD_TEXT:
        *(const char **)address = from->text;
        break;
    case FIELD_QUANTITY:
        if (from->text[0] || field->required)
            read_measure(field, from->key, from->key, from->text, address);
        break;
    case FIELD_LIST:
        read_list(field, from, address,
                  address == (void *)&shop->drum_sizes     ? drum_sizes
                  : address == (void *)&shop->lathe.speeds ? speeds
                                                           : arms);
        break;
    case FIELD_COUNT:
        *(int *)address = (int)strtol(from->text, NULL, 10);
        break;
    case FIELD_CHOICE:
        *(int *)address = choice_of(field, from->text);
        break;
    }
}

/* The gauge's check, a load and its reading in turn; the book has looked at them. */
static bool fill_weighing(struct weighings *check, const struct bench_field *from)
{
    struct quantity_fault ignored;
    struct weighing *at = &weighings[check->count];
    bool is_reading = strcmp(from->key, "weighing.reading") == 0;
    if ((!is_reading && strcmp(from->key, "weighing.load") != 0) ||
        check->count == MOST_WEIGHINGS)
        return is_reading;
    if (is_reading)
        check->count += quantity_parse(from->text, KIND_FORCE, &at->reading, &ignored);
    else if (!quantity_parse(from->text, KIND_MASS, &at->load, &ignored))
        quantity_parse(from->text, KIND_FORCE, &at->load, &ignored);
    check->items = weighings;
    return true;
}

/* Of the log only the series with the hardest breakaway: its breakaway, then its pulls. */
static bool fill_breakaway(struct pull_series_log *log, const struct bench_field *from)
{
    struct quantity_fault ignored;
    if (strcmp(from->key, "log.breakaway") == 0) {
        hardest.pull_count = 0;
        log->items = &hardest;
        log->count = quantity_parse(from->text, KIND_FORCE, &hardest.breakaway, &ignored);
        return true;
    }
    if (strcmp(from->key, "log.pull") != 0)
        return false;
    if (hardest.pull_count < SERIES_PULLS)
        hardest.pull_count += quantity_parse(from->text, KIND_FORCE,
                                             &hardest.pulls[hardest.pull_count], &ignored);
    return true;
}

static void fill(struct shop *shop, const struct bench_field *from)
{
    int row;
    if (fill_weighing(&shop->weighings, from) || fill_breakaway(&shop->readings, from))
        return;
    const struct field *field = field_find(from->key, &row);
    if (!field)
        return;
    if ((size_t)row > shop->limits.band_count)
        shop->limits.band_count = (size_t)row;
    fill_field(shop, field, row, from);
}

/* A copy that outlives the question. */
static const char *keep(const char *text, size_t *kept)
{
    size_t length = strlen(text) + 1;
    if (length > sizeof texts - *kept)
        __builtin_trap();
    char *copy = memcpy(texts + *kept, text, length);
    *kept += length;
    return copy;
}

static void hear(void *to, const char *remark)
{
    (void)to;
    bench_row("remark", "", remark, "");
}

static void tell_limits(const struct band *band)
{
    char at_speeds[3 * QUANTITY_TEXT], drags[3 * QUANTITY_TEXT];
    char from[QUANTITY_TEXT], to[QUANTITY_TEXT], low[QUANTITY_TEXT], high[QUANTITY_TEXT];
    quantity_show(&band->from.q, from);
    quantity_show(&band->to.q, to);
    quantity_show(&band->low.q, low);
    quantity_show(&band->high.q, high);
    snprintf(at_speeds, sizeof at_speeds, "%s to %s", from, to);
    snprintf(drags, sizeof drags, "%s to %s", low, high);
    bench_row("limit", at_speeds, drags, "");
}

/* The verbs. */
static void bench_settings(const struct bench_question *question)
{
    static const struct remark_sink listener = {.remark = hear};
    size_t kept = 0;
    is_good = false;
    memset(bands, 0, sizeof bands);
    own = (struct shop){.limits.bands = bands};
    for (size_t i = 0; i < question->count; i++) {
        struct bench_field from = {keep(question->fields[i].key, &kept),
                                   keep(question->fields[i].text, &kept)};
        fill(&own, &from);
    }
    struct diags diags = {NULL, bench_fault_count()};
    shop_check(&own, &diags); /* as far as it was given */
    is_good = diags.count == 0;
    if (!is_good)
        return;
    for (size_t i = 0; i < own.limits.band_count; i++)
        tell_limits(&own.limits.bands[i]);
    if (!shop_has_limits(&own))
        bench_row("limit", "limits", NO_LIMIT_ON_FILE, "");
    remark_on_settings(&own, &listener);
}

/* The same with one setting replaced, checked as a whole; false after a fault, which
 * is told of `key`. */
static bool bench_shop_with(const char *path, const char *key, const char *text,
                            struct shop *shop)
{
    int row;
    const struct field *field = field_find(path, &row);
    struct diags diags = {key, 0};
    *shop = own;
    if (!field || !read_measure(field, path, key, text, address_of(shop, field, row)))
        return false;
    shop_check(shop, &diags);
    return diags.count == 0;
}

/* A series as a row of content/readings.csv, for the user's own file. */

static const char *const heads[] = {"date",      "drum",      "cord",   "nut",
                                    "lock",      "direction", "warmth", "temperature",
                                    "breakaway", "pulls",     "note"};

enum { HEADS = sizeof heads / sizeof heads[0], LINE_ROOM = 8 * 1024 };

struct log_line {
    char text[LINE_ROOM];
    size_t used;
};

static void add(struct log_line *log_line, char sign)
{
    if (log_line->used + 1 >= sizeof log_line->text)
        __builtin_trap();
    log_line->text[log_line->used++] = sign;
    log_line->text[log_line->used] = '\0';
}

/* RFC 4180: a text with a comma or a quote stands in quotes. */
static void add_text(struct log_line *log_line, const char *text)
{
    bool quoted = text[strcspn(text, ",\"")] != '\0';
    if (quoted)
        add(log_line, '"');
    for (; *text; text++) {
        if (*text == '"')
            add(log_line, '"');
        add(log_line, *text);
    }
    if (quoted)
        add(log_line, '"');
}

static void add_quantity(struct log_line *log_line, const struct quantity *quantity)
{
    char text[2 * QUANTITY_TEXT];
    snprintf(text, sizeof text, "%s %s", quantity->digits, quantity->unit->symbol);
    add_text(log_line, text);
}

/* As typed, but for fractions: a blank could stand in them, so they become decimals. */
static const char *digits_of(const struct quantity *pull, char *room)
{
    if (!pull->digits[strcspn(pull->digits, " /")])
        return pull->digits;
    decimal_print(&pull->typed, decimal_places(&pull->typed), room);
    return room;
}

/* One word a pull, blanks between them: 18.2N 18.3N. */
static void add_pulls(struct log_line *log_line, const struct bench_question *question)
{
    size_t count = 0;
    for (size_t i = 0; i < question->count; i++) {
        struct quantity pull;
        struct quantity_fault wrong;
        char digits[DECIMAL_TEXT];
        if (strcmp(question->fields[i].key, "pull") != 0)
            continue;
        if (!quantity_parse(question->fields[i].text, KIND_FORCE, &pull, &wrong)) {
            bench_fault("pull", wrong.offset, wrong.message);
            return;
        }
        add_text(log_line, count++ ? " " : "");
        add_text(log_line, digits_of(&pull, digits));
        add_text(log_line, pull.unit->symbol);
    }
    if (count <= SERIES_PULLS)
        return;
    char message[80];
    snprintf(message, sizeof message,
             "the log takes at most %d pulls a series; write two series", SERIES_PULLS);
    bench_fault("pull", 0, message);
}

/* One of two words, as the log's reader has them; the page offers them as a list. */
static void add_word(struct log_line *log_line, const struct bench_question *question,
                     const char *key, const char *first, const char *second)
{
    char message[120];
    const char *text = bench_text(question, key);
    if (!text[0])
        bench_fault(key, 0, "nothing is chosen here; choose one of the list");
    else if (strcmp(text, first) != 0 && strcmp(text, second) != 0) {
        snprintf(message, sizeof message, "'%.40s' cannot stand here; write %s or %s", text,
                 first, second);
        bench_fault(key, 0, message);
    }
    add_text(log_line, text);
}

static void add_optional(struct log_line *log_line, const struct bench_question *question,
                         const char *key, enum kind kind)
{
    struct quantity quantity;
    if (bench_text(question, key)[0] && bench_quantity(question, key, kind, &quantity))
        add_quantity(log_line, &quantity);
}

static void add_date(struct log_line *log_line, const char *date)
{
    if (!date[0])
        bench_fault("date", 0, "'' is no date; write year, month and day as in 2026-03-09");
    add_text(log_line, date);
}

static void add_cell(struct log_line *log_line, const struct bench_question *question,
                     const char *head)
{
    const struct shop *shop = bench_shop();
    if (strcmp(head, "date") == 0)
        add_date(log_line, bench_text(question, head));
    else if (strcmp(head, "drum") == 0)
        add_quantity(log_line, &shop->drum.diameter.q);
    else if (strcmp(head, "cord") == 0)
        add_quantity(log_line, &shop->cord.diameter.q);
    else if (strcmp(head, "nut") == 0)
        add_optional(log_line, question, head, KIND_ANGLE);
    else if (strcmp(head, "direction") == 0)
        add_word(log_line, question, head, "usual", "other");
    else if (strcmp(head, "warmth") == 0)
        add_word(log_line, question, head, "cold", "warm");
    else if (strcmp(head, "temperature") == 0)
        add_optional(log_line, question, head, KIND_TEMPERATURE);
    else if (strcmp(head, "breakaway") == 0)
        add_optional(log_line, question, head, KIND_FORCE);
    else if (strcmp(head, "pulls") == 0)
        add_pulls(log_line, question);
    else
        add_text(log_line, bench_text(question, head));
}

/* date, nut, lock, direction, warmth, temperature, breakaway, pull..., note: the row. */
static void bench_log(const struct bench_question *question)
{
    static struct log_line row;
    row.used = 0;
    for (size_t i = 0; i < HEADS; i++) {
        if (i)
            add(&row, ',');
        add_cell(&row, question, heads[i]);
    }
    bench_row("row", "", row.text, "");
}

/* The log's heads. */
static void bench_heads(const struct bench_question *question)
{
    static struct log_line names;
    (void)question;
    names.used = 0;
    for (size_t i = 0; i < HEADS; i++) {
        if (i)
            add(&names, ',');
        add_text(&names, heads[i]);
    }
    bench_row("heads", "", names.text, "");
}

/* The verbs that answer about pulls, windows, drums and the nut. */

/* A number to draw with: not shown. */
static void draw(const char *name, double value)
{
    char text[40];
    snprintf(text, sizeof text, "%.17g", value);
    bench_row(name, "", text, "");
}

static void quantity_row(const char *name, const struct quantity *quantity)
{
    char text[2 * QUANTITY_TEXT];
    snprintf(text, sizeof text, "%s %s", quantity->digits, quantity->unit->symbol);
    bench_row(name, "", text, "");
}

/* ---- one pull, as it is added ---- */

/* A bare number takes the unit that is chosen beside it. */
static bool is_bare(const char *text)
{
    return text[0] && text[strspn(text, "0123456789.,/- ")] == '\0';
}

/* pull, unit, taken: the pull with its unit, if it may stand behind `taken` others. */
static void bench_pull(const struct bench_question *question)
{
    char text[BENCH_ROOM / 64];
    struct quantity pull;
    struct quantity_fault wrong;
    const char *typed = bench_text(question, "pull");
    snprintf(text, sizeof text, "%s%s%s", typed, is_bare(typed) ? " " : "",
             is_bare(typed) ? bench_text(question, "unit") : "");
    if (quantity_parse(text, KIND_FORCE, &pull, &wrong) &&
        pull_allowed(bench_shop(), &pull,
                     (size_t)strtol(bench_text(question, "taken"), NULL, 10), &wrong))
        quantity_row("pull", &pull);
    else
        bench_fault("pull", wrong.offset, wrong.message);
}

/* ---- a series ---- */

static size_t read_pulls(const struct bench_question *question, struct quantity *pulls)
{
    size_t count = 0;
    struct quantity_fault wrong;
    for (size_t i = 0; i < question->count; i++) {
        struct quantity pull;
        if (strcmp(question->fields[i].key, "pull") != 0)
            continue;
        if (!quantity_parse(question->fields[i].text, KIND_FORCE, &pull, &wrong) ||
            !pull_allowed(bench_shop(), &pull, count, &wrong)) {
            bench_fault("pull", wrong.offset, wrong.message);
            return 0;
        }
        pulls[count++] = pull;
    }
    return count;
}

/* The window line, in newton-metres. */
static void draw_line(const struct shop *shop, const struct judgement *judgement)
{
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    struct decimal good_low = decimal_add(&low, &judgement->shown_u.exact);
    struct decimal good_high = decimal_subtract(&high, &judgement->shown_u.exact);
    draw("draw-low", decimal_to_double(&low));
    draw("draw-high", decimal_to_double(&high));
    draw("draw-good-low", decimal_to_double(&good_low));
    draw("draw-good-high", decimal_to_double(&good_high));
    draw("draw-drag", judgement->drag);
    draw("draw-u", decimal_to_double(&judgement->shown_u.exact));
    if (given(&shop->limits.never_exceed))
        draw("draw-never", pulled_limit_near(shop, &shop->limits.never_exceed));
}

static bool read_condition(const struct bench_question *question, enum pull_column column,
                           const char *key, struct pull_conditions *conditions)
{
    struct quantity_fault wrong;
    bool good = conditions_read(column, bench_text(question, key), conditions, &wrong);
    if (!good)
        bench_fault(key, wrong.offset, wrong.message);
    return good;
}

/* warmth, direction, and the lock under a key: how the drag was measured. */
static bool read_taken(const struct bench_question *question, const char *lock_key,
                       struct pull_conditions *taken)
{
    bool lock = read_condition(question, PULL_LOCK, lock_key, taken);
    bool warmth = read_condition(question, PULL_WARMTH, "warmth", taken);
    bool direction = read_condition(question, PULL_DIRECTION, "direction", taken);
    return lock && warmth && direction;
}

/* lock-added: what locking added, N.m; NAN where that is not known. */
static bool read_lock_added(const struct bench_question *question, double *added)
{
    struct quantity typed;
    *added = NAN;
    if (!bench_text(question, "lock-added")[0])
        return true;
    bool good = bench_quantity(question, "lock-added", KIND_TORQUE, &typed);
    if (good)
        *added = typed.base;
    return good;
}

/* pull..., breakaway, lock, warmth, direction, lock-added: what the series says of the drag
 * at the top speed. */
static void bench_judge(const struct bench_question *question)
{
    static struct quantity pulls[MOST_PULLS];
    const struct shop *shop = bench_shop();
    struct quantity breakaway;
    struct quantity_fault wrong;
    bool has_breakaway = bench_text(question, "breakaway")[0];
    if (has_breakaway && !bench_quantity(question, "breakaway", KIND_FORCE, &breakaway))
        has_breakaway = false;
    if (has_breakaway && !pull_allowed(shop, &breakaway, 0, &wrong)) {
        bench_fault("breakaway", wrong.offset, wrong.message);
        has_breakaway = false;
    }
    struct pull_conditions taken;
    double lock_added;
    bool taken_known = read_taken(question, "lock", &taken);
    bool lock_known = read_lock_added(question, &lock_added);
    size_t count = read_pulls(question, pulls);
    if (!count || !taken_known || !lock_known)
        return;
    struct drum_setup setup = shop_drum_setup(shop);
    struct judgement judgement =
        judge_pulls(shop, shop_own_band(shop), &setup, &taken, pulls, count);
    report_judgement(&bench_rows, shop, &judgement, pulls, lock_added);
    report_good_drags(&bench_rows, shop, &judgement);
    if (has_breakaway)
        report_breakaway(&bench_rows, &judgement, &breakaway);
    if (judgement.band)
        draw_line(shop, &judgement);
}

/* ---- windows ---- */

static bool asked_band(const struct bench_question *question, const struct band **band)
{
    struct quantity_fault wrong;
    bool good = band_read(bench_shop(), bench_text(question, "speed"), band, &wrong);
    if (!good)
        bench_fault("speed", wrong.offset, wrong.message);
    return good;
}

/* drum, speed: what the gauge may read. */
static void bench_window(const struct bench_question *question)
{
    struct shop shop;
    const struct band *band;
    bool good = asked_band(question, &band);
    if (bench_shop_with("drum.diameter", "drum", bench_text(question, "drum"), &shop) && good)
        report_window(&bench_rows, &shop, band);
}

/* speed: a row for every common drum and the fitted one. */
static void bench_drums(const struct bench_question *question)
{
    const struct band *band;
    if (asked_band(question, &band))
        report_drums(&bench_rows, bench_shop(), band);
}

/* ---- the nut ---- */

/* angle-1, drag-1, angle-2, drag-2, the older place first; nut-lock, warmth, direction,
 * lock-added. */
static void bench_nut(const struct bench_question *question)
{
    static const char *const keys[2][2] = {{"angle-1", "drag-1"}, {"angle-2", "drag-2"}};
    const struct shop *shop = bench_shop();
    struct nut_point points[2];
    for (int i = 0; i < 2; i++) {
        struct quantity angle, drag;
        bool good = bench_quantity(question, keys[i][0], KIND_ANGLE, &angle);
        if (bench_quantity(question, keys[i][1], KIND_TORQUE, &drag) && good)
            points[i] = nut_point_of_drag(shop, angle.base, drag.base);
    }
    struct quantity_fault wrong;
    struct pull_conditions taken;
    double lock_added;
    read_taken(question, "nut-lock", &taken);
    read_lock_added(question, &lock_added);
    if (bench_fault_count() == 0 && !nut_points_allowed(points, &wrong))
        bench_fault("angle-2", 0, wrong.message);
    if (bench_fault_count() == 0)
        report_nut_move(&bench_rows, shop, shop_own_band(shop), points, &taken, lock_added);
}

/* The verbs that convert units. */

enum { FACTOR_DIGITS = 6 };

/* Every kind: its name and an example of it. */
static void bench_kinds(const struct bench_question *question)
{
    (void)question;
    for (enum kind kind = 0; kind < KIND_COUNT; kind++)
        bench_row("kind", kind_name(kind), kind_example(kind), "");
}

static enum kind kind_named(const char *name)
{
    enum kind kind = 0;
    while (kind + 1 < KIND_COUNT && strcmp(kind_name(kind), name) != 0)
        kind++;
    return kind;
}

/* Two spellings of one unit are one row. */
static bool is_repeat(size_t index)
{
    return index > 0 && strcmp(unit_at(index)->shown, unit_at(index - 1)->shown) == 0;
}

/* A thread may be said either way. */
static void convert_thread(const struct quantity *threads)
{
    const struct unit *mm = unit_find("mm", 2);
    double pitch = unit_from_base(nut_pitch_of_threads(threads->base), mm);
    bench_row("amount", "pitch", show_significant(pitch, FACTOR_DIGITS).text, mm->shown);
}

/* kind, amount: the amount in every unit of its kind. */
static void bench_convert(const struct bench_question *question)
{
    enum kind kind = kind_named(bench_text(question, "kind"));
    struct quantity amount;
    if (!bench_quantity(question, "amount", kind, &amount))
        return;
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *unit = unit_at(i);
        if (unit->kind != kind || is_repeat(i))
            continue;
        struct shown shown = show_significant(quantity_in(&amount, unit), FACTOR_DIGITS);
        bool typed = strcmp(unit->shown, amount.unit->shown) == 0;
        bench_row("amount", typed ? "as typed" : "", typed ? amount.digits : shown.text,
                  unit->shown);
    }
    if (kind == KIND_THREADS)
        convert_thread(&amount);
}
