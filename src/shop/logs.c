/* The logs: columns of a table, told from heads; then a row at a time. Whatever is wrong is a
 * fault at its sign, and reading goes on behind it. */
#include "shop/logs.h"

#include "base/utf8.h"
#include "shop/fields.h"

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
    [PULL_DIRECTION] = WORDS("direction", true, THESE("usual", "other"),
                             "which way round the spindle was turned"),
    [PULL_WARMTH] =
        WORDS("warmth", true, THESE("cold", "warm"), "how the spindle was when pulled"),
    [PULL_TEMPERATURE] = QUANTITY("temperature", false, KIND_TEMPERATURE, "-40 degC",
                                  "150 degC", "temperature of the cap"),
    [PULL_BREAKAWAY] = QUANTITY("breakaway", false, KIND_FORCE, "0 N", "10000 N",
                                "the pull at which the spindle began to turn"),
    [PULL_PULLS] = QUANTITY("pulls", true, KIND_FORCE, "0 N", "10000 N",
                            "up to 20 steady pulls with blanks between them",
                            .hint = "Each with its unit, or one unit behind the last. No "
                                    "fractions."),
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
    words += !words[0][0]; /* "or leave it blank" goes without saying */
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
        const struct csv_cell *head = &records->csv.cells[at];
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
    csv_read(arena, diags, text->bytes, start, &records->csv);
    if (records->csv.row_count == 0 && diags_count(diags) > before)
        return false; /* the heads themselves could not be read */
    find_heads(diags, records);
    records->row_count = records->csv.row_count ? records->csv.row_count - 1 : 0;
    return has_heads(diags, start, records);
}

/* ---- cells ---- */

const struct csv_cell *records_cell(const struct records *records, size_t row, size_t column)
{
    if (records->where[column] < 0)
        return NULL;
    size_t at = (row + 1) * records->csv.column_count + (size_t)records->where[column];
    return &records->csv.cells[at];
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
    size_t number; /* from 0, below the heads */
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
    return records_cell(row->records, row->number, column);
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

/* The number of the cell's word; 0 after a fault. */
static int read_word(const struct row *row, size_t column)
{
    struct quantity_fault wrong;
    int word = column_word(&row->records->columns[column], words_of(row, column), &wrong);
    if (word < 0)
        fault(row->diags, cell_of(row, column)->at, "%s", wrong.message);
    return word < 0 ? 0 : word;
}

/* ---- the gauge's check ---- */

/* NULL where the cell is blank, or there is none. */
static const char *said(const struct row *row, size_t column)
{
    return words_of(row, column)[0] ? words_of(row, column) : NULL;
}

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
    if (!file_is_there(file) || !file_read_text(arena, diags, file, text))
        return;
    if (!records_read(arena, diags, text, check_columns, CHECK_COLUMNS, &records))
        return;
    for (size_t i = 0; i < records.row_count; i++)
        read_weighing(&(struct row){arena, diags, &records, i, shop, noted});
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

/* The unit of a bare number: the word behind it, or else the one behind the last number
 * of all; "" where neither is a unit. */
static const char *unit_of_bare(const struct row *row, const char *behind)
{
    behind += strspn(behind, " ");
    size_t length = strcspn(behind, " ");
    if (!begins_number(behind) && is_unit(behind, length))
        return arena_slice(row->arena, behind, length);
    const char *end = behind + strlen(behind);
    while (end > behind && end[-1] == ' ')
        end--;
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
        fault(row->diags, place, "a pull is below zero; write the steady pull");
    else if (in_range(row, place, &pull_columns[PULL_PULLS], &pull))
        *ARENA_PUSH(row->arena, series->pulls, series->pull_count) = pull;
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
        bool number = begins_number(at);
        if ((number && numbers == SERIES_PULLS) || words++ == MOST_WORDS) {
            fault(row->diags, place_in(cell, (size_t)(at - cell->text)),
                  "more than %d pulls; write two series", SERIES_PULLS);
            return;
        }
        numbers += number;
        if (number)
            add_pull(row, cell, at, length, series);
        else
            check_unit(row, cell, at, length, after_number);
        after_number = number || !is_unit(at, length);
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

static void read_series(const struct row *row, struct pull_series *series)
{
    const struct shop *shop = row->shop;
    size_t before = diags_count(row->diags);
    const struct csv_cell *date = cell_of(row, PULL_DATE);
    series->at = date->at;
    series->date = records_date(row->diags, date) ? date->text : NULL;
    series->note = words_of(row, PULL_NOTE);
    series->drum = shop->drum.diameter.q;
    series->cord = shop->cord.diameter.q;
    read_quantity(row, PULL_DRUM, &series->drum);
    read_quantity(row, PULL_CORD, &series->cord);
    read_quantity(row, PULL_NUT, &series->nut);
    read_quantity(row, PULL_TEMPERATURE, &series->temperature);
    read_quantity(row, PULL_BREAKAWAY, &series->breakaway);
    series->lock = (enum lock)read_word(row, PULL_LOCK);
    series->other_way = read_word(row, PULL_DIRECTION);
    series->warm = read_word(row, PULL_WARMTH);
    read_pulls(row, series);
    if (diags_count(row->diags) == before)
        check_thickness(row, series);
}

static void check_order(struct diags *diags, const struct pull_series_log *log)
{
    for (size_t i = 1; i < log->count; i++)
        if (log->items[i].date && log->items[i - 1].date &&
            strcmp(log->items[i].date, log->items[i - 1].date) < 0)
            fault(diags, log->items[i].at,
                  "this row is older than the one before it; keep the log in order of date");
}

void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop)
{
    struct file_text text;
    struct records records;
    if (!file_is_there(file) || !file_read_text(arena, diags, file, &text))
        return;
    if (!records_read(arena, diags, &text, pull_columns, PULL_COLUMNS, &records))
        return;
    struct pull_series_log *log = &shop->readings;
    size_t before = diags_count(diags), noted = shop->read_as_count;
    for (size_t i = 0; i < records.row_count; i++)
        read_series(&(struct row){arena, diags, &records, i, shop, noted},
                    ARENA_PUSH(arena, log->items, log->count));
    check_order(diags, log);
    if (diags_count(diags) == before)
        pull_log_follow_nut(log);
}
