/* The logs: columns of a table, told from heads; then a row at a time. Whatever is wrong is a
 * fault at its sign, and reading goes on behind it. */
#include "shop/logs.h"

#include "base/utf8.h"
#include "shop/fields.h"
#include "shop/stored.h"

#include <stdlib.h>
#include <string.h>

#define A_DATE "As in 2026-03-02, of the years 1900 to 2199."

#define COLUMN(...)                                                                            \
    {                                                                                          \
        __VA_ARGS__                                                                            \
    }
#define TEXT(head, required, ...)                                                              \
    COLUMN(.name = head, required, KIND_NONE, NULL, NULL, {NULL}, __VA_ARGS__)
#define QUANTITY(head, required, kind, least, most, ...)                                       \
    COLUMN(.name = head, required, kind, least, most, {NULL}, __VA_ARGS__)
#define WORDS(head, required, words, ...)                                                      \
    COLUMN(.name = head, required, KIND_NONE, NULL, NULL, words, __VA_ARGS__)
#define THESE(...)                                                                             \
    {                                                                                          \
        __VA_ARGS__, NULL                                                                      \
    }

const struct record_column pull_columns[PULL_COLUMNS] = {
    [PULL_DATE] = TEXT("date", true, "year, month and day", .hint = A_DATE),
    [PULL_JOB] = TEXT("job", false, "the job that the row belongs to",
                      .hint = "A short word of your own, as in 2026-1. Begun and closed by the "
                              "column step."),
    [PULL_STEP] =
        WORDS("step", false,
              THESE("", "begun", "made-safe", "freed", "locked", "off", "run-in", "end-play",
                    "lift-test", "run-out", "marked", "skipped", "corrected", "closed"),
              "what was done, where the row holds no pulls",
              .hint = "off: cord, drum and spanner. What was found, or why it was "
                      "skipped, stands in note."),
    [PULL_BY] = TEXT("by", false, "who did it"),
    [PULL_DRUM] = QUANTITY("drum", false, KIND_LENGTH, "2 mm", "2 m", "diameter of the drum",
                           .hint = "Where it is not that of the settings."),
    [PULL_CORD] = QUANTITY("cord", false, KIND_LENGTH, "0 mm", "20 mm", "thickness of the cord",
                           .hint = "Where it is not that of the settings; thinner than the "
                                   "drum."),
    [PULL_NUT] = QUANTITY("nut", false, KIND_ANGLE, "-36000 deg", "36000 deg",
                          "place of the nut", .hint = "Tightening counts upward."),
    [PULL_LOCK] = WORDS("lock", false, THESE("", "before", "after", "unloaded"),
                        "how the nut stood when pulled",
                        .hint = "Before or after locking, or slack until end play is felt. "
                                "Left out, the series is not judged and closes no job."),
    [PULL_DIRECTION] =
        WORDS("direction", true, THESE("usual", "other"),
              "which way round the spindle was turned", .hint = "Blank in the row of a step."),
    [PULL_WARMTH] =
        WORDS("warmth", true, THESE("cold", "warm"), "how the spindle was when pulled",
              .hint = "Blank in the row of a step."),
    [PULL_TEMPERATURE] = QUANTITY("temperature", false, KIND_TEMPERATURE, "-40 degC",
                                  "150 degC", "temperature of the cap"),
    [PULL_ROOM] = QUANTITY("room", false, KIND_TEMPERATURE, "-40 degC", "60 degC",
                           "temperature of the workshop"),
    [PULL_BREAKAWAY] = QUANTITY("breakaway", false, KIND_FORCE, "0 N", "10000 N",
                                "the pull at which the spindle began to turn",
                                .hint = "Only where the limits are for the running drag: else "
                                        "that is what stands in pulls."),
    [PULL_PULLS] = QUANTITY(
        "pulls", true, KIND_FORCE, "0 N", "10000 N",
        "up to 20 pulls of one series with blanks between them",
        .hint = "Steady ones, or starting ones where the limits are for "
                "the starting drag. Each with its unit, or one unit behind the last. No "
                "fractions. Or a trace by its file's name, such as first.csv, in the folder "
                "traces. Blank in the row of a step."),
    [PULL_SPEED] = QUANTITY("speed", false, KIND_SPEED, "0 r/min", "100000 r/min",
                            "speed of a stage of running in"),
    [PULL_MINUTES] =
        QUANTITY("minutes", false, KIND_TIME, "0 min", "48 h", "how long the stage ran",
                 .hint = "Its cap's temperature at the end stands in temperature."),
    [PULL_ID] = TEXT("id", false, "a name of the row's own",
                     .hint = "For a row that may be corrected."),
    [PULL_CORRECTS] =
        TEXT("corrects", false, "the id of the row that this one corrects",
             .hint = "Or its date, where no other row of the job has it. This row, with the "
                     "true date, then counts in its place."),
    [PULL_NOTE] = TEXT("note", false, "anything"),
};

const struct record_column check_columns[CHECK_COLUMNS] = {
    [CHECK_DATE] = TEXT("date", true, "year, month and day", .hint = A_DATE),
    [CHECK_DIRECTION] = WORDS("direction", true, THESE("up", "down"),
                              "whether the gauge was being loaded or unloaded"),
    [CHECK_LOAD] = QUANTITY("load", true, KIND_FORCE, "0 N", "10000 N", "what hung there",
                            .hint = "Or a mass, such as 1.000 kg or 2 lb, up to 1000 kg."),
    [CHECK_READING] =
        QUANTITY("reading", true, KIND_FORCE, "-100 N", "10000 N", "what the gauge showed"),
    [CHECK_BY] = TEXT("by", false, "who weighed",
                      .hint = "Weighings of one day by one person are one check."),
    [CHECK_MASSES] = TEXT(
        "masses", false, "what the weights are called",
        .hint = "One name for all that may be wrong together: a set, a loan, a shop's own."),
    [CHECK_TOLERANCE] = QUANTITY("tolerance", false, KIND_RATIO, "0 %", "20 %",
                                 "how far the load may be off, either way, as a share of it",
                                 .hint = "Where nothing is said, 0.5 %."),
    [CHECK_CERTIFICATE] = TEXT("certificate", false, "the number of the weights' certificate"),
    [CHECK_NOTE] = TEXT("note", false, "anything"),
};

/* A load may also be written as a mass. */
static const struct record_column mass =
    QUANTITY("load", true, KIND_MASS, "0 kg", "1000 kg", "what hung there");

const char *column_range(struct arena *arena, const struct record_column *column)
{
    const char *const *words = column->words;
    return words[0]        ? words_text(arena, words + !words[0][0])
           : column->least ? range_text(arena, column->least, column->most)
                           : "text";
}

int column_word(const struct record_column *column, const char *text,
                struct quantity_fault *fault)
{
    const char *const *words = column->words;
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], text) == 0)
            return i;
    /* NOLINTNEXTLINE: what is asked here has words. "or leave it blank" goes without saying */
    words += !words[0][0];
    quantity_wrong(fault, 0, "'%.*s' cannot stand here; write %s", QUOTED, text, words[0]);
    for (int i = 1; words[i]; i++)
        quantity_wrong_too(fault, "%s%s", words[i + 1] ? ", " : " or ", words[i]);
    return -1;
}

/* ---- heads ---- */

/* The column of a head, or how many there are; *near is then one that is like it, if any. */
static size_t find_column(const struct records *records, const char *head, const char **near)
{
    size_t column = 0, least = SIZE_MAX;
    for (; column < records->column_count; column++) {
        const char *name = records->columns[column].name;
        size_t distance = name_distance(name, strlen(name), head, strlen(head));
        if (distance == 0)
            break;
        if (name_is_near(distance, strlen(head)) && distance < least)
            *near = name;
        least = distance < least ? distance : least;
    }
    return column;
}

static void find_heads(struct diags *diags, struct records *records)
{
    struct buffer names = {0};
    for (size_t i = 0; i < records->column_count; i++)
        buffer_print(&names, "%s%s", i ? ", " : "", records->columns[i].name);
    for (size_t at = 0; at < records->csv.column_count; at++) {
        const struct csv_cell *head = &records->csv.row[at];
        const char *near = NULL;
        size_t column = find_column(records, head->text, &near);
        if (head->text[strspn(head->text, " \t")] == '\0')
            continue; /* csv_read() has told of it */
        if (column == records->column_count)
            fault(diags, head->at, "there is no column '%s'; %s%s%sthe columns are %s",
                  head->text, near ? "write " : "", near ? near : "",
                  near ? " if that is meant; " : "", names.bytes);
        else if (records->where[column] >= 0)
            fault(diags, head->at, "the column '%s' stands here a second time; delete one",
                  head->text);
        else
            records->where[column] = (int)at;
    }
    buffer_free(&names);
}

static bool has_heads(struct diags *diags, struct place at, const struct records *records)
{
    bool all = true;
    for (size_t i = 0; i < records->column_count; i++)
        if (records->columns[i].required && records->where[i] < 0) {
            all = false;
            fault(diags, at, "the column '%s' is missing; add it to the first line",
                  records->columns[i].name);
        }
    return all;
}

/* As a spreadsheet writes it where the decimal sign is a comma. One fault, not one for each
 * column that is then missing. */
static bool parted_by_commas(struct diags *diags, const struct file_text *text)
{
    size_t length = strcspn(text->bytes, "\r\n"), at = strcspn(text->bytes, ",;\t");
    if (at >= length || text->bytes[at] == ',')
        return true;
    return fault(diags, (struct place){text->name, 1, 1 + (int)utf8_count(text->bytes, at)},
                 "cells are parted by commas, not by %s; save the file as CSV with commas",
                 text->bytes[at] == ';' ? "';'" : "tabs");
}

bool records_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                  const struct record_column *columns, size_t count, struct records *records)
{
    struct place start = {.file = text->name, .line = 1, .column = 1};
    *records = (struct records){.columns = columns, .column_count = count};
    for (size_t i = 0; i < count; i++) {
        records->where[i] = -1;
        if (columns[i].least) { /* once, and not for each cell */
            records->least[i] = quantity_bound(columns[i].least, columns[i].kind);
            records->most[i] = quantity_bound(columns[i].most, columns[i].kind);
        }
    }
    if (!parted_by_commas(diags, text))
        return false;
    size_t before = diags_count(diags);
    records->csv = csv_begin(arena, diags, text->bytes, start);
    if (!csv_next(&records->csv) && diags_count(diags) > before)
        return false; /* the heads themselves could not be read */
    find_heads(diags, records);
    return has_heads(diags, start, records);
}

/* ---- cells ---- */

bool records_next(struct records *records)
{
    bool next = csv_next(&records->csv);
    records->row += next;
    return next;
}

const struct csv_cell *records_cell(const struct records *records, size_t column)
{
    int at = records->where[column];
    return at < 0 ? NULL : &records->csv.row[at];
}

bool records_date(struct diags *diags, const struct csv_cell *cell)
{
    if (date_is_good(cell->text))
        return true;
    return fault(diags, cell->at,
                 "'%.40s' is no date; write year, month and day as in 2026-03-09", cell->text);
}

/* One row of a log, while it is read. */
struct row {
    struct arena *arena;
    struct diags *diags;
    const struct records *records;
    struct shop *shop;
    size_t noted; /* how much was read otherwise before this log */
};

/* The first such value stands for all of the log. */
static void note_quantity(const struct row *row, struct place at,
                          const struct record_column *column, const struct quantity *quantity)
{
    if (row->shop->read_as_count == row->noted)
        shop_note_quantity(row->shop, row->arena, at, column->name, quantity);
}

static const struct csv_cell *cell_of(const struct row *row, size_t column)
{
    return records_cell(row->records, column);
}

/* "" where the column is missing. */
static const char *text_of(const struct row *row, size_t column)
{
    const struct csv_cell *cell = cell_of(row, column);
    return cell ? cell->text : "";
}

/* The same without blanks at its start. */
static const char *words_of(const struct row *row, size_t column)
{
    const char *text = text_of(row, column);
    return text + strspn(text, " ");
}

static struct place place_in(const struct csv_cell *cell, size_t byte)
{
    struct place place = cell->at;
    place.column += (int)utf8_count(cell->text, byte);
    return place;
}

static bool within(const struct records *records, const struct record_column *column,
                   const struct quantity *quantity)
{
    size_t at = (size_t)(column - records->columns);
    return decimal_compare(&quantity->exact, &records->least[at]) >= 0 &&
           decimal_compare(&quantity->exact, &records->most[at]) <= 0;
}

/* Whether a quantity keeps to its column's range; else a fault at the place. */
static bool in_range(const struct row *row, struct place at, const struct record_column *column,
                     const struct quantity *quantity)
{
    if (column == &mass ? quantity_between(quantity, mass.least, mass.most)
                        : within(row->records, column, quantity)) {
        note_quantity(row, at, column, quantity);
        return true;
    }
    return fault(row->diags, at, "%s must lie between %s and %s, not %s %s", column->name,
                 column->least, column->most, quantity->digits, quantity->unit->symbol);
}

/* A fault at the very sign where the cell is no quantity of its column. */
static void read_as(const struct row *row, const struct csv_cell *cell,
                    const struct record_column *column, struct quantity *quantity)
{
    struct quantity_fault wrong;
    if (quantity_parse(cell->text, column->kind, quantity, &wrong))
        in_range(row, cell->at, column, quantity);
    else
        fault(row->diags, place_in(cell, wrong.offset), "%s", wrong.message);
}

/* A cell of an optional column may be blank; then the quantity is left as it is. */
static void read_quantity(const struct row *row, size_t column, struct quantity *quantity)
{
    const struct record_column *kind = &row->records->columns[column];
    if (kind->required || words_of(row, column)[0])
        read_as(row, cell_of(row, column), kind, quantity);
}

/* Where a word stands in another column's cell: "; it is a word of the column warmth". */
static const char *exchanged(const struct row *row, size_t column)
{
    struct quantity_fault ignored;
    const char *text = words_of(row, column);
    for (size_t i = 0; text[0] && i < row->records->column_count; i++)
        if (i != column && row->records->columns[i].words[0] &&
            column_word(&row->records->columns[i], text, &ignored) >= 0)
            return arena_format(row->arena, "; it is a word of the column %s",
                                row->records->columns[i].name);
    return "";
}

/* NULL where the cell is blank or missing. */
static const char *said(const struct row *row, size_t column)
{
    const char *text = words_of(row, column);
    return text[0] ? text : NULL;
}

/* The number of the cell's word; 0 after a fault. */
static int read_word(const struct row *row, size_t column)
{
    struct quantity_fault wrong;
    int word = column_word(&row->records->columns[column], words_of(row, column), &wrong);
    if (word < 0)
        fault(row->diags, cell_of(row, column)->at, "%s%s", wrong.message,
              exchanged(row, column));
    return word < 0 ? 0 : word;
}

/* ---- the gauge's check ---- */

/* It may be printed. */
static void keep_text(const struct row *row, size_t column, const char *name)
{
    const struct csv_cell *cell = cell_of(row, column);
    if (cell)
        shop_keep_text(row->shop, row->arena, row->diags, name,
                       (struct typed_text){cell->text, cell->at, false});
}

static void read_weighing(const struct row *row)
{
    struct shop *shop = row->shop;
    struct weighings *log = &shop->weighings;
    struct weighing *weighing = ARENA_PUSH(row->arena, log->items, log->count);
    const struct csv_cell *load = cell_of(row, CHECK_LOAD);
    struct quantity_fault ignored;
    weighing->at = load->at;
    weighing->date = text_of(row, CHECK_DATE);
    weighing->by = text_of(row, CHECK_BY);
    weighing->masses = said(row, CHECK_MASSES);
    weighing->certificate = said(row, CHECK_CERTIFICATE);
    weighing->note = text_of(row, CHECK_NOTE);
    records_date(row->diags, cell_of(row, CHECK_DATE));
    weighing->down = read_word(row, CHECK_DIRECTION);
    bool is_mass = quantity_parse(load->text, KIND_MASS, &weighing->load, &ignored);
    read_as(row, load, is_mass ? &mass : &check_columns[CHECK_LOAD], &weighing->load);
    read_quantity(row, CHECK_READING, &weighing->reading);
    read_quantity(row, CHECK_TOLERANCE, &weighing->tolerance);
    keep_text(row, CHECK_BY, "the name"); /* the certificate names him */
    keep_text(row, CHECK_MASSES, "the name of the weights");
    keep_text(row, CHECK_CERTIFICATE, "the certificate's number");
}

void gauge_log_read(struct arena *arena, struct diags *diags, const char *file,
                    struct file_text *text, struct shop *shop)
{
    struct records records;
    size_t before = diags_count(diags), noted = shop->read_as_count;
    *text = (struct file_text){.name = file, .bytes = ""};
    if (!file_is_there(file) || !file_read_long(arena, diags, file, LOG_LARGEST, text))
        return;
    if (!records_read(arena, diags, text, check_columns, CHECK_COLUMNS, &records))
        return;
    while (records_next(&records))
        read_weighing(&(struct row){arena, diags, &records, shop, noted});
    size_t count = shop->weighings.count;
    if (count > 0 && count < 3 && diags_count(diags) == before)
        fault(
            diags, (struct place){.file = file, .line = 1},
            "a check needs at least three weighings; hang weights of about half, once and one "
            "and a half times the pull");
}

/* ---- the log of pulls ---- */

/* Of a word of at least one sign. */
static bool begins_number(const char *word)
{
    return strchr("+.0123456789", *word) || quantity_minus(word);
}

static bool is_unit(const char *word, size_t length)
{
    return unit_of_kind(word, length, KIND_FORCE) != NULL;
}

/* "2026-03-02-1.csv": whatever it begins with. */
static bool is_trace(const char *word, size_t length)
{
    static const char *const endings[] = {".csv", ".tsv", ".txt"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++)
        if (length > 4 && strncmp(word + length - 4, endings[i], 4) == 0)
            return true;
    return false;
}

/* Behind the last word that is no trace. */
static const char *end_of_pulls(const char *text)
{
    const char *end = text;
    for (size_t length; *(text += strspn(text, " ")); text += length) {
        length = strcspn(text, " ");
        if (!is_trace(text, length))
            end = text + length;
    }
    return end;
}

/* The unit of a bare number: the word behind it, or else the one behind the last number
 * of all; "" where neither is a unit. */
static const char *unit_of_bare(const struct row *row, const char *behind)
{
    behind += strspn(behind, " ");
    size_t length = strcspn(behind, " ");
    if (!begins_number(behind) && is_unit(behind, length))
        return arena_slice(row->arena, behind, length);
    const char *end = end_of_pulls(behind);
    const char *last = end;
    while (last > behind && !strchr("0123456789., ", last[-1]))
        last--;
    length = (size_t)(end - last);
    return is_unit(last, length) ? arena_slice(row->arena, last, length) : "";
}

static void add_pull(const struct row *row, const struct csv_cell *cell, const char *at,
                     size_t length, struct pull_series *series)
{
    struct quantity_fault wrong;
    struct place place = place_in(cell, (size_t)(at - cell->text));
    size_t minus = quantity_minus(at);
    bool bare = minus + strspn(at + minus, "-0123456789.,") >= length;
    const char *text = arena_format(row->arena, "%.*s%s", (int)length, at,
                                    bare ? unit_of_bare(row, at + length) : "");
    struct quantity pull;
    if (strchr(text, '/'))
        fault(row->diags, place, "a fraction stands among pulls; write it with a point");
    else if (!quantity_parse(text, KIND_FORCE, &pull, &wrong))
        fault(row->diags, place, "%s", wrong.message);
    else if (pull.exact.negative)
        fault(row->diags, place,
              "a pull is below zero; write what the gauge shows while you pull");
    else if (in_range(row, place, &pull_columns[PULL_PULLS], &pull))
        series->pulls[series->pull_count++] = pull;
}

static void add_trace(const struct row *row, const struct csv_cell *cell, const char *at,
                      size_t length, struct pull_series *series)
{
    struct place place = place_in(cell, (size_t)(at - cell->text));
    const char *name = arena_slice(row->arena, at, length);
    if (name[0] == '.' || strchr(name, '/'))
        fault(row->diags, place,
              "a trace is a file in the folder traces beside the log; write its name alone");
    else if (shop_has_limits(row->shop) && row->shop->limits.torque == TORQUE_STARTING)
        fault(row->diags, place,
              "a trace is a pull at running speed, but the limits are for the starting drag; "
              "write the breakaway that spindlebook trace finds");
    else {
        *ARENA_PUSH(row->arena, series->traces, series->trace_count) =
            (struct traced_pull){name, place, series->pull_count};
        series->pulls[series->pull_count++] = (struct quantity){.unit = NULL};
    }
}

/* A word that is no number must be the unit of the number before it. */
static void check_unit(const struct row *row, const struct csv_cell *cell, const char *at,
                       size_t length, bool may_stand)
{
    if (!may_stand || !is_unit(at, length))
        fault(row->diags, place_in(cell, (size_t)(at - cell->text)),
              "'%.*s' is neither a pull nor its unit; write them as in 18.2 18.3 18.15 N",
              length < 40 ? (int)length : 40, at);
}

/* Each pull with a unit of its own. */
enum { MOST_WORDS = 2 * SERIES_PULLS };

/* "18.2 18.3 18.15 N" or "18.2N 18.3N" or "18.2 N 18.3 N". */
static void read_pulls(const struct row *row, struct pull_series *series)
{
    const struct csv_cell *cell = cell_of(row, PULL_PULLS);
    size_t numbers = 0, words = 0;
    bool after_number = false;
    for (const char *at = cell->text; *(at += strspn(at, " "));) {
        size_t length = strcspn(at, " ");
        bool trace = is_trace(at, length), number = trace || begins_number(at);
        if ((number && numbers == SERIES_PULLS) || words++ == MOST_WORDS) {
            fault(row->diags, place_in(cell, (size_t)(at - cell->text)),
                  "more than %d pulls; write two series", SERIES_PULLS);
            return;
        }
        numbers += number;
        if (trace)
            add_trace(row, cell, at, length, series);
        else if (number)
            add_pull(row, cell, at, length, series);
        else
            check_unit(row, cell, at, length, after_number);
        after_number = (number && !trace) || !is_unit(at, length);
        at += length;
    }
    if (cell->text[strspn(cell->text, " ")] == '\0')
        fault(row->diags, cell->at, "there are no pulls; write them as in 18.2 18.3 18.15 N");
}

/* Only where the row gives one of them: the settings' own are looked at elsewhere. */
static void check_thickness(const struct row *row, const struct pull_series *series)
{
    if ((words_of(row, PULL_DRUM)[0] || words_of(row, PULL_CORD)[0]) && series->drum.unit &&
        series->cord.unit && decimal_compare(&series->cord.exact, &series->drum.exact) >= 0)
        fault(row->diags, series->at,
              "the cord (%s %s) is not thinner than the drum (%s %s); correct one of the two",
              series->cord.digits, series->cord.unit->symbol, series->drum.digits,
              series->drum.unit->symbol);
}

const char breakaway_refused[] =
    "a breakaway stands beside the pulls, but the limits are for the starting drag, and the "
    "pulls are then the breakaways; write one pull for each start from rest, and leave this "
    "blank";

enum { LONGEST_JOB = 32 };

/* A file of its name holds its record. */
static const char *read_job(const struct row *row)
{
    static const char signs[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                "0123456789-_.";
    const char *job = said(row, PULL_JOB);
    size_t length = job ? strlen(job) : 0;
    if (length > LONGEST_JOB || (job && (job[strspn(job, signs)] || strchr("-_.", job[0]))))
        fault(row->diags, cell_of(row, PULL_JOB)->at,
              "'%.40s' is no name of a job; write at most %d letters, digits, -, _ and ., a "
              "letter or a digit first, as in 2026-1",
              job, LONGEST_JOB);
    return job;
}

/* Columns that a row of its sort has not. */
static void refuse_columns(const struct row *row, const enum pull_column *columns, size_t count,
                           const char *why)
{
    for (size_t i = 0; i < count; i++)
        if (said(row, columns[i]))
            fault(row->diags, cell_of(row, columns[i])->at, "%s; leave %s blank here", why,
                  pull_columns[columns[i]].name);
}

static void read_step(const struct row *row, struct pull_series *series)
{
    static const enum pull_column of_pulls[] = {PULL_DRUM,      PULL_CORD,   PULL_LOCK,
                                                PULL_DIRECTION, PULL_WARMTH, PULL_BREAKAWAY,
                                                PULL_PULLS};
    static const enum pull_column of_stage[] = {PULL_SPEED, PULL_MINUTES, PULL_TEMPERATURE};
    refuse_columns(row, of_pulls, sizeof of_pulls / sizeof of_pulls[0],
                   "a step has no pulls, which stand in a row of their own");
    read_quantity(row, PULL_SPEED, &series->speed);
    read_quantity(row, PULL_MINUTES, &series->minutes);
    for (size_t i = 0; i < sizeof of_stage / sizeof of_stage[0]; i++)
        if (series->step == STEP_RUN_IN && !said(row, of_stage[i]))
            fault(row->diags, series->at,
                  "a stage of running in has a speed, minutes and the cap's temperature; write "
                  "its %s",
                  pull_columns[of_stage[i]].name);
    if (!series->job)
        fault(row->diags, series->at,
              "a step belongs to a job; write the job's name into the column job");
    if (series->step == STEP_SKIPPED && !series->note[0])
        fault(row->diags, series->at, "a step was skipped; write which and why into the note");
    if (series->step == STEP_CORRECTED && !series->corrects)
        fault(row->diags, series->at,
              "a row is to count no more; write its id, or its date, into the column corrects");
}

/* In no more room than they need. */
static void keep_pulls(struct arena *arena, struct pull_series *series)
{
    size_t size = series->pull_count * sizeof *series->pulls;
    series->pulls = size ? memcpy(arena_get(arena, size), series->pulls, size) : NULL;
}

static void read_taken(const struct row *row, struct pull_series *series)
{
    static const enum pull_column of_stage[] = {PULL_SPEED, PULL_MINUTES};
    size_t before = diags_count(row->diags);
    struct quantity pulls[SERIES_PULLS];
    const struct shop *shop = shop_in_force(row->shop, series);
    series->drum = shop->drum.diameter.q;
    series->cord = shop->cord.diameter.q;
    refuse_columns(row, of_stage, sizeof of_stage / sizeof of_stage[0],
                   "only a row with run-in in the column step is a stage of running in");
    read_quantity(row, PULL_DRUM, &series->drum);
    read_quantity(row, PULL_CORD, &series->cord);
    read_quantity(row, PULL_BREAKAWAY, &series->breakaway);
    if (series->breakaway.unit && shop_reads_starting(row->shop))
        fault(row->diags, cell_of(row, PULL_BREAKAWAY)->at, "%s", breakaway_refused);
    series->lock = (enum lock)read_word(row, PULL_LOCK);
    series->other_way = read_word(row, PULL_DIRECTION);
    series->warm = read_word(row, PULL_WARMTH);
    series->pulls = pulls;
    read_pulls(row, series);
    keep_pulls(row->arena, series);
    if (diags_count(row->diags) == before)
        check_thickness(row, series);
}

static void read_series(const struct row *row, struct pull_series *series)
{
    const struct csv_cell *date = cell_of(row, PULL_DATE);
    series->at = date->at;
    series->number = row->records->row;
    series->date = records_date(row->diags, date) ? date->text : NULL;
    series->job = read_job(row);
    series->by = said(row, PULL_BY);
    series->id = said(row, PULL_ID);
    series->corrects = said(row, PULL_CORRECTS);
    series->note = words_of(row, PULL_NOTE);
    if (series->by)
        keep_text(row, PULL_BY, "the name");
    if (series->job && series->note[0]) /* its record has it */
        keep_text(row, PULL_NOTE, "the note");
    series->step = (enum step)read_word(row, PULL_STEP);
    read_quantity(row, PULL_NUT, &series->nut);
    read_quantity(row, PULL_TEMPERATURE, &series->temperature);
    read_quantity(row, PULL_ROOM, &series->room);
    if (series->step)
        read_step(row, series);
    else
        read_taken(row, series);
}

/* ---- corrections: nothing is edited, a later row stands in for an earlier one ---- */

/* What a row is called by, once by its id, once by its date within its job. */
struct row_name {
    const char *job, *text; /* job: "" where it has none; NULL: the text is an id */
    size_t row;             /* in the log */
    size_t next; /* the first name behind this one, in their order, whose row may count */
};

static int name_order(const struct row_name *a, const struct row_name *b)
{
    int order = strcmp(a->text, b->text);
    if (order || !a->job || !b->job)
        return order ? order : !a->job - !b->job;
    return strcmp(a->job, b->job);
}

static int by_name(const void *a, const void *b)
{
    const struct row_name *left = a, *right = b;
    int order = name_order(left, right);
    return order ? order : (left->row > right->row) - (left->row < right->row);
}

/* Of a log in its order. */
struct standing {
    const struct pull_series *rows;
    bool *gone;             /* of each row: it counts no more, or another stands for it */
    struct row_name *names; /* of all rows, in their order; a name's rows in theirs */
    size_t count;
};

static struct standing standing_of(struct arena *arena, const struct pull_series_log *all)
{
    struct standing standing = {
        .rows = all->items, .gone = arena_get(arena, all->count * sizeof(bool)), .names = NULL};
    for (size_t i = 0; i < all->count; i++) {
        const struct pull_series *row = &all->items[i];
        if (row->id)
            *ARENA_PUSH(arena, standing.names, standing.count) =
                (struct row_name){.text = row->id, .row = i};
        if (row->date)
            *ARENA_PUSH(arena, standing.names, standing.count) =
                (struct row_name){row->job ? row->job : "", row->date, i, 0};
    }
    if (standing.count)
        qsort(standing.names, standing.count, sizeof *standing.names, by_name);
    for (size_t i = 0; i < standing.count; i++)
        standing.names[i].next = i + 1;
    return standing;
}

/* The first name from one on whose row still counts; what is passed over is not met again. */
static size_t next_standing(struct standing *standing, size_t from)
{
    size_t at = from;
    while (at < standing->count && standing->gone[standing->names[at].row])
        at = standing->names[at].next;
    while (from < at) {
        size_t next = standing->names[from].next;
        standing->names[from].next = at;
        from = next;
    }
    return at;
}

enum { AMBIGUOUS = 2 }; /* so many rows of a name are as bad as any number */

/* The first rows before `end` that count and are called so; returns how many. */
static size_t rows_called(struct standing *standing, struct row_name name, size_t end,
                          size_t rows[AMBIGUOUS])
{
    size_t count = 0, low = 0, high = standing->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (name_order(&standing->names[middle], &name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    for (size_t at = low; count < AMBIGUOUS; at++) {
        at = next_standing(standing, at);
        if (at == standing->count || name_order(&standing->names[at], &name) != 0 ||
            standing->names[at].row >= end)
            break;
        rows[count++] = standing->names[at].row;
    }
    return count;
}

/* The one row before this one that it corrects, by its id or by its date in the same job; NULL
 * after a fault. */
static const struct pull_series *find_meant(struct diags *diags, struct standing *standing,
                                            size_t own)
{
    const struct pull_series *by = &standing->rows[own];
    const struct row_name names[] = {{.text = by->corrects},
                                     {.job = by->job ? by->job : "", .text = by->corrects}};
    size_t found[2 * AMBIGUOUS], count = 0;
    for (size_t i = 0; i < 2; i++)
        count += rows_called(standing, names[i], own, found + count);
    size_t first = SIZE_MAX, second = SIZE_MAX;
    for (size_t i = 0; i < count; i++)
        if (found[i] < first) {
            second = first;
            first = found[i];
        } else if (found[i] > first && found[i] < second) {
            second = found[i];
        }
    const struct pull_series *meant = count ? &standing->rows[first] : NULL;
    if (second != SIZE_MAX) {
        fault(diags, by->at,
              "more than one row is called '%.40s', lines %d and %d; give the row that is "
              "meant an id, and write that",
              by->corrects, meant->at.line, standing->rows[second].at.line);
        return NULL;
    }
    if (!meant)
        fault(diags, by->at,
              "no earlier row has the id '%.40s', nor is it the date of one in this job; write "
              "the id of the row that is corrected",
              by->corrects);
    else if (by->step != STEP_CORRECTED && !by->step != !meant->step)
        fault(diags, by->at,
              "a series of pulls cannot stand in for a step, nor a step for a series; line %d "
              "is the other. To take that row back write corrected into the column step",
              meant->at.line);
    return meant;
}

/* Every row that counts, in order of place; *count of them. */
static struct pull_series **standing_rows(struct arena *arena, struct diags *diags,
                                          const struct pull_series_log *all, size_t *count)
{
    struct pull_series **places = arena_get(arena, (all->count + 1) * sizeof *places);
    struct standing standing = {.rows = NULL}; /* most logs have no correction */
    for (size_t i = 0; i < all->count; i++) {
        struct pull_series *row = &all->items[i];
        places[i] = row;
        if (row->corrects && !standing.rows)
            standing = standing_of(arena, all);
        const struct pull_series *meant =
            row->corrects ? find_meant(diags, &standing, i) : NULL;
        if (!meant)
            continue;
        row->corrected = meant;
        standing.gone[meant - all->items] = true;
        if (row->step == STEP_CORRECTED) {
            places[meant->number - 1] = NULL;
            continue;
        }
        row->number = meant->number; /* and stands where that stood */
        places[row->number - 1] = row;
        places[i] = NULL;
    }
    for (size_t i = *count = 0; i < all->count; i++)
        if (places[i])
            places[(*count)++] = places[i];
    return places;
}

/* ---- the log as a whole ---- */

static void check_order(struct diags *diags, struct pull_series *const *rows, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (rows[i]->date && rows[i - 1]->date && strcmp(rows[i]->date, rows[i - 1]->date) < 0)
            fault(diags, rows[i]->at,
                  "this row is older than the one before it; keep the log in order of date");
}

/* A job is begun by its first row, closed by its last, and no other stands between them. */
static void check_jobs(struct diags *diags, struct pull_series *const *rows, size_t count)
{
    const char *job = NULL;
    bool open = false;
    for (size_t i = 0; i < count; i++) {
        const struct pull_series *row = rows[i];
        bool same = job && row->job && strcmp(row->job, job) == 0;
        if (!row->job && open)
            fault(diags, row->at,
                  "this row stands within the job %s and names none; write %s into its column "
                  "job",
                  job, job);
        else if (same && !open)
            fault(diags, row->at, "the job %s was closed above; begin another", job);
        else if (same && row->step == STEP_BEGUN)
            fault(diags, row->at, "the job %s was begun above; begin another", job);
        else if (row->job && !same && row->step != STEP_BEGUN)
            fault(diags, row->at,
                  "no row just above begins the job %s; write one with begun in the column "
                  "step, and keep the rows of a job together",
                  row->job);
        if (!row->job)
            continue;
        open = row->step != STEP_CLOSED;
        job = row->job;
    }
}

static int by_job(const void *a, const void *b)
{
    const struct pull_series *const *left = a, *const *right = b;
    int order = strcmp((*left)->job, (*right)->job);
    return order ? order
                 : ((*left)->number > (*right)->number) - ((*left)->number < (*right)->number);
}

/* A job that is begun again further below. */
static void check_begun_once(struct arena *arena, struct diags *diags,
                             const struct pull_series_log *steps)
{
    const struct pull_series **begun = NULL;
    size_t count = 0;
    for (size_t i = 0; i < steps->count; i++)
        if (steps->items[i].step == STEP_BEGUN)
            *ARENA_PUSH(arena, begun, count) = &steps->items[i];
    if (count)
        qsort(begun, count, sizeof *begun, by_job);
    for (size_t i = 1; i < count; i++)
        if (strcmp(begun[i]->job, begun[i - 1]->job) == 0)
            fault(diags, begun[i]->at,
                  "the job %s was begun in line %d; give this one another name", begun[i]->job,
                  begun[i - 1]->at.line);
}

/* As a disk leaves it that filled up, or a program that was stopped. */
static void note_half_line(struct arena *arena, const struct file_text *text, struct shop *shop)
{
    if (!text->length || strchr("\r\n", text->bytes[text->length - 1]))
        return;
    struct place at = file_place(text, text->length);
    at.column = 0;
    *ARENA_PUSH(arena, shop->read_as, shop->read_as_count) =
        (struct read_as){at, "the last line has no end. Was the file saved whole? Look at its "
                             "last cells, and end the line"};
}

/* Series to the one side, steps to the other; of a log that has series alone nothing moves. */
static void sort_rows(struct arena *arena, const struct pull_series_log *all,
                      struct pull_series *const *rows, size_t count, struct shop *shop)
{
    bool plain = count == all->count;
    for (size_t i = 0; i < count; i++)
        plain = plain && rows[i] == &all->items[i] && !rows[i]->step;
    if (plain) {
        shop->readings = *all;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        struct pull_series_log *log = rows[i]->step ? &shop->steps : &shop->readings;
        *ARENA_PUSH(arena, log->items, log->count) = *rows[i];
    }
}

void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop)
{
    struct file_text text;
    struct records records;
    struct pull_series_log all = {0};
    size_t before = diags_count(diags), noted = shop->read_as_count, count;
    if (!file_is_there(file) || !file_read_long(arena, diags, file, LOG_LARGEST, &text))
        return;
    if (!records_read(arena, diags, &text, pull_columns, PULL_COLUMNS, &records))
        return;
    while (records_next(&records))
        read_series(&(struct row){arena, diags, &records, shop, noted},
                    ARENA_PUSH(arena, all.items, all.count));
    note_half_line(arena, &text, shop);
    struct pull_series **rows = standing_rows(arena, diags, &all, &count);
    sort_rows(arena, &all, rows, count, shop);
    check_order(diags, rows, count);
    if (diags_count(diags) > before)
        return;
    check_jobs(diags, rows, count);
    check_begun_once(arena, diags, &shop->steps);
    pull_log_follow_nut(&shop->readings);
}
