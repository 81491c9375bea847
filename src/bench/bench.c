/* The bench page's engine: one question in, one answer out, both plain text. It is compiled
 * to WebAssembly from the same sources as the program, and holds no formula, rounding, rule
 * or word of its own for what those can say.
 *
 * A question is a verb, then lines of a key and a text with a tab between them. An answer is
 * rows of four fields with tabs between them: name, label, value, unit; or, for a text that
 * cannot be, "fault", the key, nothing, the words. */
#include "base/buffer.h"
#include "base/fatal.h"
#include "drum/drum.h"
#include "judge/nut.h"
#include "judge/results.h"
#include "judge/window.h"
#include "number/show.h"
#include "report/card.h"
#include "report/remarks.h"
#include "report/report.h"
#include "report/typed.h"
#include "report/values.h"
#include "report/words.h"
#include "shop/asked.h"
#include "shop/fields.h"
#include "shop/logs.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

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

/* ---- the question and the answer ---- */

/* What is asked and answered, until the next question: all of it in the arena of the rows. */
static struct {
    char *text;
    struct setting_list fields; /* the keys and texts; a key is also its place */
} question;

static struct rows rows;

/* The program's diagnostics, as rows of the answer. */
struct diags {
    const char *key; /* told instead of the place's, where not NULL */
    size_t count;
};

static struct diags faults;

/* The workshop of the last good "settings", and what holds its texts; none before. */
static struct shop own;

static const struct results *results;

static struct arena *own_arena;

static bool is_good;

_Noreturn void fatal_no_memory(void)
{
    __builtin_trap();
}

static void put_value(const char *name, const char *value)
{
    put_row(&rows, name, "", value, "");
}

bool fault(struct diags *diags, struct place at, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const char *place = diags->key ? diags->key : at.file ? at.file : "";
    if (at.line) /* of a file that the page was given */
        place = arena_format(rows.arena, "%s:%d:%d", place, at.line, at.column);
    put_row(&rows, "fault", place, "", arena_vformat(rows.arena, format, args));
    va_end(args);
    diags->count++;
    return false;
}

size_t diags_count(const struct diags *diags)
{
    return diags->count;
}

static void put_fault(const char *key, const char *message)
{
    fault(&faults, (struct place){.file = key}, "%s", message);
}

/* The text of a key; "" where it is not there. */
static const char *text_of(const char *key)
{
    for (size_t i = 0; i < question.fields.count; i++)
        if (strcmp(question.fields.items[i].path, key) == 0)
            return question.fields.items[i].value;
    return "";
}

/* The text of a key as a quantity; false after a fault. */
static bool quantity_of(const char *key, enum kind kind, struct quantity *quantity)
{
    struct quantity_fault wrong;
    bool good = quantity_parse(text_of(key), kind, quantity, &wrong);
    if (!good)
        put_fault(key, wrong.message);
    return good;
}

static const char *typed(const struct quantity *quantity)
{
    return quantity_typed(rows.arena, quantity);
}

/* ---- settings ---- */

/* The column of a key that begins with a name, as "log.date" with "log."; count: it does not,
 * or there is none. */
static size_t column_of(const char *key, const char *name, const struct record_column *columns,
                        size_t count)
{
    size_t length = strlen(name), column = 0;
    if (strncmp(key, name, length) != 0)
        return count;
    while (column < count && strcmp(columns[column].name, key + length) != 0)
        column++;
    return column;
}

/* What the logs have, a cell at a time, a row's date first; the book has looked at them. */
static void read_weighing(const struct setting *from)
{
    struct quantity_fault ignored;
    struct weighings *check = &own.weighings;
    size_t column = column_of(from->path, "weighing.", check_columns, CHECK_COLUMNS);
    if (column == CHECK_DATE) {
        struct weighing *row = ARENA_PUSH(own_arena, check->items, check->count);
        *row = (struct weighing){.date = from->value, .by = ""};
    }
    if (column == CHECK_COLUMNS || !check->count)
        return;
    struct weighing *row = &check->items[check->count - 1];
    if (column == CHECK_BY)
        row->by = from->value;
    else if (column == CHECK_MASSES)
        row->masses = from->value;
    else if (column == CHECK_CERTIFICATE)
        row->certificate = from->value;
    else if (column == CHECK_TOLERANCE)
        quantity_parse(from->value, KIND_RATIO, &row->tolerance, &ignored);
    else if (column == CHECK_DIRECTION)
        row->down = column_word(&check_columns[column], from->value, &ignored) > 0;
    else if (column == CHECK_READING)
        quantity_parse(from->value, KIND_FORCE, &row->reading, &ignored);
    else if (column == CHECK_LOAD &&
             !quantity_parse(from->value, KIND_MASS, &row->load, &ignored))
        quantity_parse(from->value, KIND_FORCE, &row->load, &ignored);
}

static struct quantity *series_quantity(struct pull_series *series, enum pull_column column)
{
    switch (column) {
    case PULL_DRUM:
        return &series->drum;
    case PULL_CORD:
        return &series->cord;
    case PULL_NUT:
        return &series->nut;
    case PULL_TEMPERATURE:
        return &series->temperature;
    case PULL_BREAKAWAY:
        return &series->breakaway;
    case PULL_ROOM:
        return &series->room;
    case PULL_SPEED:
        return &series->speed;
    case PULL_MINUTES:
        return &series->minutes;
    default:
        return ARENA_PUSH(own_arena, series->pulls, series->pull_count);
    }
}

static void read_series(const struct setting *from)
{
    struct quantity_fault ignored;
    struct pull_series_log *log = &own.readings;
    size_t column = column_of(from->path, "log.", pull_columns, PULL_COLUMNS);
    if (column == PULL_DATE) {
        struct pull_series *row = ARENA_PUSH(own_arena, log->items, log->count);
        *row = (struct pull_series){.date = from->value,
                                    .note = "",
                                    .drum = own.drum.diameter.q,
                                    .cord = own.cord.diameter.q};
    }
    if (column == PULL_COLUMNS || !log->count)
        return;
    const struct record_column *asked = &pull_columns[column];
    struct pull_series *row = &log->items[log->count - 1];
    int word = asked->words[0] ? column_word(asked, from->value, &ignored) : 0;
    if (column == PULL_JOB)
        row->job = from->value;
    else if (column == PULL_LOCK)
        row->lock = (enum lock)word;
    else if (column == PULL_DIRECTION)
        row->other_way = word > 0;
    else if (column == PULL_WARMTH)
        row->warm = word > 0;
    else if (asked->kind != KIND_NONE)
        quantity_parse(from->value, asked->kind, series_quantity(row, column), &ignored);
}

static void put_limits(const struct band *band)
{
    struct arena *arena = rows.arena;
    put_row(&rows, "limit",
            arena_format(arena, "%s to %s", quantity_text(arena, &band->from.q),
                         quantity_text(arena, &band->to.q)),
            arena_format(arena, "%s to %s", quantity_text(arena, &band->low.q),
                         quantity_text(arena, &band->high.q)),
            "");
}

/* Which pulls the page asks for; and whether a breakaway beside them. */
static void put_pulls_asked(void)
{
    bool starting = shop_reads_starting(&own);
    put_value("pull-label", starting ? "Starting pull" : "Steady pull");
    put_value("pull-rule", starting ? "Type " STARTING_PULLS "." : "");
    put_value("breakaway-label", starting ? "" : "Breakaway, if you read it");
}

/* Every key of the settings, as they were typed, and what the logs add: the limits, and what
 * looks unwise. */
static void answer_settings(void)
{
    struct settings_reader reader = {rows.arena, &faults, &question.fields, &own, true};
    arena_free(own_arena);
    own_arena = rows.arena;
    own = (struct shop){0};
    bands_make(&reader);
    for (size_t i = 0; i < question.fields.count; i++) {
        const struct setting *from = &question.fields.items[i];
        int row;
        const struct field *field = field_find(from->path, &row);
        if (field)
            field_read(&reader, field, row, from);
    }
    fields_fill(own_arena, &own);
    for (size_t i = 0; i < question.fields.count; i++) { /* whatever stands before them */
        read_weighing(&question.fields.items[i]);
        read_series(&question.fields.items[i]);
    }
    pull_log_follow_nut(&own.readings);
    shop_check(&own, &faults); /* as far as it was given */
    is_good = faults.count == 0;
    if (!is_good)
        return;
    for (size_t i = 0; i < own.limits.band_count; i++)
        put_limits(&own.limits.bands[i]);
    if (!shop_has_limits(&own))
        put_row(&rows, "limit", "limits", NO_LIMIT_ON_FILE, "");
    put_pulls_asked();
    results = results_of(own_arena, &own);
    remark_on_settings(&rows, results);
}

/* The form of the settings: of each key that it asks for the label and what it may hold. */
static void answer_form(void)
{
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!field->on_page)
            continue;
        char *label = arena_format(rows.arena, "%.*s: %s", (int)strcspn(field->path, "."),
                                   field->path, field->meaning);
        label[0] += 'A' - 'a';
        put_row(&rows, "setting", field->path, label, field_range(rows.arena, field));
    }
}

/* ---- a lathe of one's own: the questions, the answers so far, and their file ---- */

/* The next question: its key, what it means, which it is; where to find it, what it may be, its
 * words to choose from, what stands for a blank. None where all is answered. */
static void answer_next(void)
{
    struct arena *arena = rows.arena;
    struct question next;
    if (!question_next(arena, &question.fields, &next))
        return;
    const struct field *field = next.field;
    put_row(&rows, "question", next.path, question_words(arena, &next),
            arena_format(arena, "%zu", question_number(&question.fields)));
    if (field->hint)
        put_value("hint", field->hint);
    put_value("wanted", field_wanted(arena, field));
    for (size_t i = 0; field->type == FIELD_CHOICE && field->choices[i]; i++)
        put_value("choice", field->choices[i]);
    if (next.blank)
        put_value("blank", next.blank);
}

static void put_answers(void)
{
    for (size_t i = 0; i < question.fields.count; i++)
        put_row(&rows, "answer", question.fields.items[i].path, question.fields.items[i].value,
                "");
}

/* The answers, and last the one to the next question under the key "typed": all of them with
 * what follows, and how that one was understood. */
static void answer_answer(void)
{
    struct setting_list *answers = &question.fields;
    struct question next;
    struct shop shop;
    if (!answers->count || strcmp(answers->items[answers->count - 1].path, "typed") != 0)
        return;
    const char *text = answers->items[--answers->count].value;
    if (!question_next(rows.arena, answers, &next) ||
        !answer_take(rows.arena, &faults, answers, &next, text, &shop))
        return;
    put_answers();
    if (answer_read_as(&shop, next.path))
        put_value("read-as", answer_read_as(&shop, next.path));
}

static void answer_back(void)
{
    answer_take_back(&question.fields);
    put_answers();
}

static void answer_bands_again(void)
{
    answers_forget_bands(&question.fields);
    put_answers();
}

/* The lines of a text as rows: in a row no line ends. */
static void put_lines(const char *text)
{
    for (size_t length; *text; text += length + (text[length] == '\n')) {
        length = strcspn(text, "\n");
        put_value("line", arena_slice(rows.arena, text, length));
    }
}

/* The settings file of the answers. */
static void answer_file(void)
{
    struct buffer text = {0};
    answers_print(rows.arena, &text, &question.fields);
    put_lines(text.bytes);
    buffer_free(&text);
}

/* Lines of such a file, each under the key "line": its answers. */
static void answer_load(void)
{
    static const char name[] = "settings.yaml";
    struct setting_list answers = {0};
    struct buffer text = {0};
    struct shop shop;
    for (size_t i = 0; i < question.fields.count; i++)
        buffer_print(&text, "%s\n", question.fields.items[i].value);
    buffer_text(&text, "");
    const char *whole = arena_slice(rows.arena, text.bytes, text.length);
    buffer_free(&text);
    if (answers_are(whole))
        answers_read(rows.arena, &faults, name, whole, &answers);
    else
        put_fault(name,
                  "this file was not saved here, nor begun by 'spindlebook begin'; choose "
                  "one that was");
    if (faults.count == 0)
        answers_shop(rows.arena, &faults, &answers, &shop);
    question.fields = answers;
    if (faults.count == 0)
        put_answers();
}

/* The limits of the last good settings as the hand feels them. */
static void answer_read_back(void)
{
    if (shop_has_limits(&own))
        put_value("read-back", limits_read_back_words(rows.arena, results));
}

/* ---- a series as a row of content/readings.csv, for the user's own file ---- */

/* As typed, but for fractions: a blank could stand in them, so they become decimals. */
static const char *digits_of(const struct quantity *pull)
{
    if (!pull->digits[strcspn(pull->digits, " /")])
        return pull->digits;
    char digits[DECIMAL_TEXT];
    decimal_print(&pull->typed, decimal_places(&pull->typed), digits);
    return arena_text(rows.arena, digits);
}

/* One word a pull, blanks between them: 18.2N 18.3N. */
static const char *pulls_text(void)
{
    const char *text = "";
    size_t count = 0;
    for (size_t i = 0; i < question.fields.count; i++) {
        const struct setting *field = &question.fields.items[i];
        struct quantity pull;
        struct quantity_fault wrong;
        if (strcmp(field->path, "pull") != 0)
            continue;
        if (!quantity_parse(field->value, KIND_FORCE, &pull, &wrong)) {
            put_fault("pull", wrong.message);
            return text;
        }
        text = arena_format(rows.arena, "%s%s%s%s", text, count++ ? " " : "", digits_of(&pull),
                            pull.unit->symbol);
    }
    if (count > SERIES_PULLS)
        fault(&faults, (struct place){.file = "pull"},
              "the log takes at most %d pulls a series; write two series", SERIES_PULLS);
    return text;
}

/* What stands in a column of the row. */
static const char *cell_of(enum pull_column column)
{
    const struct record_column *asked = &pull_columns[column];
    const char *text = text_of(asked->name);
    struct quantity quantity;
    struct quantity_fault wrong;
    if (column == PULL_DRUM)
        return typed(&own.drum.diameter.q);
    if (column == PULL_CORD)
        return typed(&own.cord.diameter.q);
    if (column == PULL_PULLS)
        return pulls_text();
    if (column == PULL_BREAKAWAY && text[0] && shop_reads_starting(&own))
        put_fault(asked->name, breakaway_refused);
    if (asked->kind != KIND_NONE)
        return text[0] && quantity_of(asked->name, asked->kind, &quantity) ? typed(&quantity)
                                                                           : "";
    if (column == PULL_DATE && !text[0])
        put_fault("date", "'' is no date; write year, month and day as in 2026-03-09");
    else if (asked->words[0] && asked->required && !text[0])
        put_fault(asked->name, "nothing is chosen here; choose one of the list");
    else if (asked->words[0] && column_word(asked, text, &wrong) < 0)
        put_fault(asked->name, wrong.message);
    return text;
}

/* RFC 4180: a text with a comma or a quote stands in quotes. */
static void add_cell(struct buffer *line, const char *text)
{
    bool quoted = text[strcspn(text, ",\"")] != '\0';
    buffer_text(line, quoted ? "\"" : "");
    for (; *text; text++)
        buffer_print(line, *text == '"' ? "%c\"" : "%c", *text);
    buffer_text(line, quoted ? "\"" : "");
}

static void put_line(const char *name, bool heads)
{
    struct buffer line = {0};
    for (enum pull_column column = 0; column < PULL_COLUMNS; column++) {
        buffer_text(&line, column ? "," : "");
        add_cell(&line, heads ? pull_columns[column].name : cell_of(column));
    }
    put_value(name, line.bytes);
    buffer_free(&line);
}

/* date, nut, lock, direction, warmth, temperature, breakaway, pull..., note: the row. */
static void answer_log(void)
{
    put_line("row", false);
}

/* The log's heads. */
static void answer_heads(void)
{
    put_line("heads", true);
}

/* ---- pulls ---- */

/* A number to draw with: not shown. */
static void draw(const char *name, double value)
{
    put_value(name, arena_format(rows.arena, "%.17g", value));
}

/* A bare number takes the unit that is chosen beside it. */
static bool is_bare(const char *text)
{
    return text[0] && text[strspn(text, "0123456789.,/- ")] == '\0';
}

/* A force that may stand as one more pull behind so many; false after a fault. */
static bool read_pull(const char *key, const char *text, size_t taken, struct quantity *pull)
{
    struct quantity_fault wrong;
    bool good = quantity_parse(text, KIND_FORCE, pull, &wrong) &&
                pull_allowed(&own, pull, taken, &wrong);
    if (!good)
        put_fault(key, wrong.message);
    return good;
}

/* pull, unit, taken: the pull with its unit, if it may stand behind `taken` others. */
static void answer_pull(void)
{
    const char *text = text_of("pull");
    struct quantity pull;
    if (is_bare(text))
        text = arena_format(rows.arena, "%s %s", text, text_of("unit"));
    if (read_pull("pull", text, (size_t)strtol(text_of("taken"), NULL, 10), &pull))
        put_value("pull", typed(&pull));
}

/* All of them; 0 after a fault. */
static size_t read_pulls(struct quantity *pulls)
{
    size_t count = 0;
    for (size_t i = 0; i < question.fields.count; i++) {
        const struct setting *field = &question.fields.items[i];
        struct quantity pull; /* one too many is a fault, and has no room */
        if (strcmp(field->path, "pull") != 0)
            continue;
        if (!read_pull("pull", field->value, count, &pull))
            return 0;
        pulls[count++] = pull;
    }
    return count;
}

/* The window line, in newton-metres. */
static void draw_line(const struct judgement *judgement)
{
    double slack = judgement->drag - judgement->measured.drag.drag, good_low, good_high;
    draw("draw-low", whole_limit(&results->known, &judgement->band->low));
    draw("draw-high", whole_limit(&results->known, &judgement->band->high));
    if (good_drags(&judgement->measured, judgement->band->low.q.base,
                   judgement->band->high.q.base, &good_low, &good_high)) {
        draw("draw-good-low", good_low + slack);
        draw("draw-good-high", good_high + slack);
    }
    draw("draw-drag", judgement->drag);
    draw("draw-u", decimal_to_double(&judgement->shown_u.exact));
    if (given(&own.limits.never_exceed))
        draw("draw-never", whole_limit(&results->known, &own.limits.never_exceed));
}

/* warmth, direction, and the lock under a key: how the drag was measured; then lock-added,
 * what locking added, N.m; NAN where that is not known. */
static void read_conditions(const char *lock_key, struct pull_conditions *conditions,
                            double *lock_added)
{
    const struct {
        enum pull_column column;
        const char *key;
    } asked[] = {{PULL_LOCK, lock_key}, {PULL_WARMTH, "warmth"}, {PULL_DIRECTION, "direction"}};
    struct quantity_fault wrong;
    for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++)
        if (!conditions_read(asked[i].column, text_of(asked[i].key), conditions, &wrong))
            put_fault(asked[i].key, wrong.message);
    *lock_added = NAN;
    const char *added = text_of("lock-added");
    if (added[0] && !lock_added_read(shop_own_band(&own), added, lock_added, &wrong))
        put_fault("lock-added", wrong.message);
}

/* pull..., breakaway, lock, warmth, direction, lock-added: what the series says of the drag
 * at the top speed. */
static void answer_judge(void)
{
    static struct quantity pulls[MOST_PULLS];
    const char *typed_breakaway = text_of("breakaway");
    struct quantity breakaway;
    struct pull_conditions conditions;
    double lock_added;
    bool has_breakaway =
        typed_breakaway[0] && read_pull("breakaway", typed_breakaway, 0, &breakaway);
    size_t before = faults.count;
    if (has_breakaway && shop_reads_starting(&own))
        put_fault("breakaway", breakaway_refused);
    read_conditions("lock", &conditions, &lock_added);
    size_t count = read_pulls(pulls);
    if (!count || faults.count > before)
        return;
    struct drum_setup setup = shop_drum_setup(&own);
    struct judgement judgement =
        judge_pulls(&results->known, results->band, &setup, &conditions, pulls, count);
    report_judgement(&rows, results, &judgement, pulls, lock_added);
    report_good_drags(&rows, &judgement);
    if (has_breakaway)
        report_breakaway(&rows, &judgement, &breakaway);
    if (judgement.band)
        draw_line(&judgement);
}

/* ---- windows ---- */

static bool read_band(const struct band **band)
{
    struct quantity_fault wrong;
    bool good = band_read(&own, text_of("speed"), band, &wrong);
    if (!good)
        put_fault("speed", wrong.message);
    return good;
}

/* drum, speed: what the gauge may read, the whole checked with that drum. */
static void answer_window(void)
{
    struct shop shop = own;
    struct settings_reader reader = {rows.arena, &faults, &question.fields, &shop, true};
    struct setting drum = {
        .path = "drum.diameter", .value = text_of("drum"), .at = {.file = "drum"}};
    const struct band *band;
    int row;
    read_band(&band);
    size_t before = faults.count;
    field_read(&reader, field_find(drum.path, &row), 0, &drum);
    if (faults.count > before)
        return;
    faults.key = "drum";
    shop_check(&shop, &faults);
    if (faults.count == 0)
        report_window(&rows, results_of(rows.arena, &shop), band);
}

/* speed: a row for every common drum and the fitted one. */
static void answer_drums(void)
{
    const struct band *band;
    if (read_band(&band))
        report_drums(&rows, results, band);
}

/* ---- the drum to make ---- */

/* A file lies in the engine's memory until the next question: where, and how long it is. */
static void put_file(const char *name, struct buffer *file)
{
    const char *bytes = arena_slice(rows.arena, file->bytes, file->length);
    put_row(&rows, "file", name, arena_format(rows.arena, "%zu", (size_t)bytes),
            arena_format(rows.arena, "%zu", file->length));
    buffer_free(file);
}

/* The files that the program writes; the 3MF is not packed. */
static void answer_files(void)
{
    struct buffer file = {0};
    if (!drum_check(&own, &faults))
        return;
    struct drum_to_make drum = drum_to_make(&own);
    struct engraving engraving = drum_engraving(rows.arena, &own, &drum);
    struct mesh solid = drum_solid(rows.arena, &drum, &engraving);
    if (!mesh_is_closed(&solid))
        return;
    struct drawing drawing = drum_drawing(rows.arena, results, &drum, &engraving);
    drum_write_stl(&file, &solid);
    put_file("drum.stl", &file);
    drum_write_3mf(&file, &solid, drum_title(rows.arena, &engraving), NULL);
    put_file("drum.3mf", &file);
    drum_write_dxf(&file, &drawing);
    put_file("drum.dxf", &file);
    drum_write_svg(&file, &drawing);
    put_file("drum.svg", &file);
}

/* ---- the nut ---- */

/* angle-1, drag-1, angle-2, drag-2, the older place first; nut-lock, warmth, direction,
 * lock-added. */
static void answer_nut(void)
{
    static const char *const keys[2][2] = {{"angle-1", "drag-1"}, {"angle-2", "drag-2"}};
    struct quantity angles[2], drags[2];
    struct quantity_fault wrong;
    struct pull_conditions conditions;
    double lock_added;
    for (int i = 0; i < 2; i++) {
        quantity_of(keys[i][0], KIND_ANGLE, &angles[i]);
        quantity_of(keys[i][1], KIND_TORQUE, &drags[i]);
    }
    read_conditions("nut-lock", &conditions, &lock_added);
    if (faults.count == 0 && !places_allowed(angles, &wrong))
        put_fault("angle-2", wrong.message);
    if (faults.count == 0)
        report_places(&rows, results, results->band, angles, drags, &conditions, lock_added);
}

/* ---- the card ---- */

static void put_bands(void)
{
    const char *unit = own.gauge.step.q.unit->shown;
    const struct decimal *step = &own.gauge.step.q.typed;
    for (size_t i = 0; i < own.limits.band_count; i++) {
        const struct band *band = &own.limits.bands[i];
        struct pull_window window = results_window(results, band)->plain;
        const char *pulls =
            window.closed
                ? "none"
                : arena_format(rows.arena, "%s to %s", show_steps(window.low_steps, step).text,
                               show_steps(window.high_steps, step).text);
        put_row(&rows, "band", band_text(rows.arena, band), pulls, window.closed ? "" : unit);
    }
}

/* What stands on the card of the last good settings beside the words of its page. */
static void answer_card(void)
{
    int row;
    put_value("size", field_find("paper.card", &row)->choices[own.paper.card]);
    if (!shop_has_limits(&own))
        return;
    struct card_facts facts = card_facts(rows.arena, results);
    put_value("head", facts.head);
    put_value("good", facts.good);
    for (size_t i = 0; i < facts.mark_count; i++)
        put_row(&rows, "mark", facts.marks[i].name, facts.marks[i].number,
                arena_format(rows.arena, "%lld", (long long)facts.marks[i].steps));
    if (facts.never)
        put_value("never", facts.never);
    if (own.limits.band_count > 1)
        put_bands();
    if (!facts.decides)
        return;
    draw("draw-good-from", (double)facts.good_from);
    draw("draw-good-to", (double)facts.good_to);
    for (size_t i = 0; i < CARD_STATES; i++)
        put_row(&rows, "state", facts.states[i].words, facts.states[i].pulls, "");
}

/* text...: each with its values filled in, or "none" where its condition does not hold. */
static void answer_fill(void)
{
    for (size_t i = 0; i < question.fields.count; i++) {
        const char *text = condition_take(&own, question.fields.items[i].value);
        if (text)
            put_value("text", form_values_fill(rows.arena, &faults, results, text,
                                               (struct place){.file = "text"}));
        else
            put_value("none", "");
    }
}

/* ---- units ---- */

enum { FACTOR_DIGITS = 6 };

/* Every kind: its name and an example of it. */
static void answer_kinds(void)
{
    for (enum kind kind = 0; kind < KIND_COUNT; kind++)
        put_row(&rows, "kind", kind_name(kind), kind_example(kind), "");
}

/* Two spellings of one unit are one row. */
static bool is_repeat(size_t index)
{
    return index > 0 && strcmp(unit_at(index)->shown, unit_at(index - 1)->shown) == 0;
}

static void put_amount(const char *label, double value, const struct unit *unit)
{
    put_row(&rows, "amount", label, show_significant(value, FACTOR_DIGITS).text, unit->shown);
}

/* kind, amount: the amount in every unit of its kind; a thread may be said either way. */
static void answer_convert(void)
{
    enum kind kind = 0;
    struct quantity amount;
    while (kind + 1 < KIND_COUNT && strcmp(kind_name(kind), text_of("kind")) != 0)
        kind++;
    if (!quantity_of("amount", kind, &amount))
        return;
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *unit = unit_at(i);
        if (unit->kind != kind || is_repeat(i))
            continue;
        if (strcmp(unit->shown, amount.unit->shown) == 0)
            put_row(&rows, "amount", "as typed", amount.digits, unit->shown);
        else
            put_amount("", quantity_in(&amount, unit), unit);
    }
    const struct unit *mm = unit_find("mm", 2);
    if (kind == KIND_THREADS)
        put_amount("pitch", unit_from_base(nut_pitch_of_threads(amount.base), mm), mm);
}

/* ---- what the page calls ---- */

/* Where the question is to be written: so many bytes, behind which a NUL stands already. */
char *bench_room(size_t bytes);

/* The answer; it stays until the next question. */
const char *bench_ask(void);

EXPORTED("bench_room") char *bench_room(size_t bytes)
{
    if (rows.arena != own_arena)
        arena_free(rows.arena);
    rows = (struct rows){.arena = arena_new()};
    question.fields = (struct setting_list){0};
    return question.text = arena_get(rows.arena, bytes + 1);
}

/* Cuts the question's text at its line ends and tabs. */
static const char *read_question(void)
{
    struct setting_list *fields = &question.fields;
    const char *verb = strtok(question.text, "\n");
    for (char *line; (line = strtok(NULL, "\n"));) {
        char *tab = strchr(line, '\t');
        if (!tab)
            continue;
        *tab = '\0';
        *ARENA_PUSH(rows.arena, fields->items, fields->count) =
            (struct setting){.path = line, .value = tab + 1, .at = {.file = line}};
    }
    return verb;
}

static const struct {
    const char *name;
    void (*answer)(void);
    bool needs_shop;
} verbs[] = {
    {"settings", answer_settings, false},
    {"form", answer_form, false},
    {"next", answer_next, false},
    {"answer", answer_answer, false},
    {"back", answer_back, false},
    {"bands-again", answer_bands_again, false},
    {"file", answer_file, false},
    {"load", answer_load, false},
    {"read-back", answer_read_back, true},
    {"pull", answer_pull, true},
    {"judge", answer_judge, true},
    {"window", answer_window, true},
    {"drums", answer_drums, true},
    {"files", answer_files, true},
    {"nut", answer_nut, true},
    {"card", answer_card, true},
    {"fill", answer_fill, true},
    {"kinds", answer_kinds, false},
    {"convert", answer_convert, false},
    {"log", answer_log, true},
    {"heads", answer_heads, false},
};

/* Every row a line. */
static const char *written_rows(void)
{
    struct buffer lines = {0};
    buffer_text(&lines, "");
    for (size_t i = 0; i < rows.count; i++)
        buffer_print(&lines, "%s\t%s\t%s\t%s\n", rows.items[i].name, rows.items[i].label,
                     rows.items[i].value, rows.items[i].unit);
    const char *text = arena_slice(rows.arena, lines.bytes, lines.length);
    buffer_free(&lines);
    return text;
}

EXPORTED("bench_ask") const char *bench_ask(void)
{
    const char *verb = read_question();
    faults = (struct diags){0};
    for (size_t i = 0; verb && i < sizeof verbs / sizeof verbs[0]; i++)
        if (strcmp(verbs[i].name, verb) == 0 && (is_good || !verbs[i].needs_shop))
            verbs[i].answer();
    return written_rows();
}
