#include "shop/logs.h"

#include "base/file.h"
#include "base/utf8.h"
#include "number/quantity.h"
#include "shop/shop.h"

#include <string.h>

/* Texts of the user's that may be printed, from the settings and from the logs. */

enum { LONGEST_TEXT = 300 };

static bool has_control(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 || *text == 0x7F)
            return true;
    return false;
}

bool text_keep(struct arena *arena, struct diags *diags, struct shop *shop, const char *name,
               struct typed_text typed)
{
    bool control = has_control(typed.text);
    bool fits = utf8_count(typed.text, strlen(typed.text)) <= LONGEST_TEXT;
    if (control)
        fault(diags, typed.at,
              "%s holds a line end or another control character; write it on one line", name);
    else if (!fits)
        fault(diags, typed.at, "%s is longer than %d characters; shorten it", name,
              LONGEST_TEXT);
    else
        *ARENA_PUSH(arena, shop->texts, shop->text_count) = typed;
    return fits && !control;
}

/* Rows of a log with a fixed set of named columns. */

static void list_names(struct buffer *out, const struct record_column *columns, size_t count)
{
    for (size_t i = 0; i < count; i++)
        buffer_print(out, "%s%s", i ? ", " : "", columns[i].name);
}

static void find_heads(struct diags *diags, const struct record_column *columns, size_t count,
                       struct records *records, const char *names)
{
    for (size_t at = 0; at < records->csv.column_count; at++) {
        const struct csv_cell *head = &records->csv.cells[at];
        size_t column = 0;
        while (column < count && strcmp(columns[column].name, head->text) != 0)
            column++;
        if (head->text[strspn(head->text, " \t")] == '\0')
            continue; /* csv_read() has told of it */
        if (column == count)
            fault(diags, head->at, "there is no column '%s'; the columns are %s", head->text,
                  names);
        else if (records->where[column] >= 0)
            fault(diags, head->at, "the column '%s' stands here a second time; delete one",
                  head->text);
        else
            records->where[column] = (int)at;
    }
}

static bool has_heads(struct diags *diags, struct place at, const struct record_column *columns,
                      size_t count, const struct records *records)
{
    bool all = true;
    for (size_t i = 0; i < count; i++)
        if (columns[i].required && records->where[i] < 0) {
            all = false;
            fault(diags, at, "the column '%s' is missing; add it to the first line",
                  columns[i].name);
        }
    return all;
}

/* More would take long to set, and no one reads them. */
static void limit_rows(struct diags *diags, struct records *records)
{
    if (records->row_count <= MOST_RECORD_ROWS)
        return;
    fault(diags, records->csv.cells[(MOST_RECORD_ROWS + 1) * records->csv.column_count].at,
          "the log has more than %d rows; begin a new one and keep the old one elsewhere",
          MOST_RECORD_ROWS);
    records->row_count = MOST_RECORD_ROWS;
}

/* As a spreadsheet writes it where the decimal sign is a comma. One fault, not one for each
 * column that is then missing. */
static bool parted_by_commas(struct diags *diags, const struct file_text *text)
{
    size_t length = strcspn(text->bytes, "\r\n"), at = strcspn(text->bytes, ",;\t");
    if (at >= length || text->bytes[at] == ',')
        return true;
    fault(diags, (struct place){text->name, 1, 1 + (int)utf8_count(text->bytes, at)},
          "cells are parted by commas, not by %s; save the file as CSV with commas",
          text->bytes[at] == ';' ? "';'" : "tabs");
    return false;
}

bool records_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                  const struct record_column *columns, size_t count, struct records *records)
{
    struct place start = {.file = text->name, .line = 1, .column = 1};
    struct buffer names = {0};
    *records = (struct records){0};
    for (size_t i = 0; i < count; i++)
        records->where[i] = -1;
    if (!parted_by_commas(diags, text))
        return false;
    size_t before = diags_count(diags);
    csv_read(arena, diags, text->bytes, start, &records->csv);
    if (records->csv.row_count == 0 && diags_count(diags) > before)
        return false; /* the heads themselves could not be read */
    list_names(&names, columns, count);
    find_heads(diags, columns, count, records, names.bytes);
    buffer_free(&names);
    records->row_count = records->csv.row_count ? records->csv.row_count - 1 : 0;
    limit_rows(diags, records);
    return has_heads(diags, start, columns, count, records);
}

const struct csv_cell *records_cell(const struct records *records, size_t row, size_t column)
{
    if (records->where[column] < 0)
        return NULL;
    size_t at = (row + 1) * records->csv.column_count + (size_t)records->where[column];
    return &records->csv.cells[at];
}

/* Whether a quantity keeps to its column's range; else a fault at the place. */
static bool records_in_range(struct diags *diags, struct place at,
                             const struct record_column *column,
                             const struct quantity *quantity)
{
    if (quantity_between(quantity, column->least, column->most))
        return true;
    fault(diags, at, "%s must lie between %s and %s, not %s %s", column->name, column->least,
          column->most, quantity->digits, quantity->unit->symbol);
    return false;
}

/* The cell as a quantity of its column; a fault at the very sign, and false, where it
 * is none or out of range. */
static bool records_quantity(struct diags *diags, const struct csv_cell *cell,
                             const struct record_column *column, struct quantity *quantity)
{
    struct quantity_fault wrong;
    if (quantity_parse(cell->text, column->kind, quantity, &wrong))
        return records_in_range(diags, cell->at, column, quantity);
    struct place at = cell->at;
    at.column += (int)utf8_count(cell->text, wrong.offset);
    fault(diags, at, "%s", wrong.message);
    return false;
}

bool records_date(struct diags *diags, const struct csv_cell *cell)
{
    if (date_is_good(cell->text))
        return true;
    fault(diags, cell->at, "'%.40s' is no date; write year, month and day as in 2026-03-09",
          cell->text);
    return false;
}

/* content/gauge-check.csv: known weights hung on the gauge, and what it read.
 *
 *   date,direction,load,reading,by,note
 *
 * direction: up or down; load: a mass or a force; by and note may be left out. */

_Static_assert((int)MOST_RECORD_ROWS <= (int)MOST_WEIGHINGS, "every row of the log must count");

enum { DATE, DIRECTION, LOAD, READING, BY, NOTE, COLUMNS };

static const struct record_column columns[COLUMNS] = {
    [DATE] = RECORD_WORDS("date", true),
    [DIRECTION] = RECORD_WORDS("direction", true),
    [LOAD] = {"load", true, KIND_FORCE, "0 N", "10000 N"},
    [READING] = {"reading", true, KIND_FORCE, "-100 N", "10000 N"},
    [BY] = RECORD_WORDS("by", false),
    [NOTE] = RECORD_WORDS("note", false),
};

/* A load may also be written as a mass. */
static const struct record_column mass = {"load", true, KIND_MASS, "0 kg", "1000 kg"};

static void read_direction(struct diags *diags, const struct csv_cell *cell, bool *down)
{
    *down = strcmp(cell->text, "down") == 0;
    if (*down || strcmp(cell->text, "up") == 0)
        return;
    fault(diags, cell->at, "the direction cannot be '%.40s'; write up or down", cell->text);
}

/* A mass where the unit is one of mass, else a force. */
static void read_load(struct diags *diags, const struct csv_cell *cell, struct quantity *load)
{
    struct quantity_fault ignored;
    bool is_mass = quantity_parse(cell->text, KIND_MASS, load, &ignored);
    records_quantity(diags, cell, is_mass ? &mass : &columns[LOAD], load);
}

/* Who weighed: the certificate names him. */
static void keep_name(struct arena *arena, struct diags *diags, struct shop *shop,
                      const struct csv_cell *cell)
{
    if (cell)
        text_keep(arena, diags, shop, "the name",
                  (struct typed_text){cell->text, cell->at, false});
}

static void read_row(struct diags *diags, const struct records *records, size_t row,
                     struct weighing *weighing)
{
    const struct csv_cell *load = records_cell(records, row, LOAD);
    const struct csv_cell *date = records_cell(records, row, DATE);
    weighing->at = load->at;
    const struct csv_cell *by = records_cell(records, row, BY);
    const struct csv_cell *note = records_cell(records, row, NOTE);
    weighing->date = date->text;
    weighing->by = by ? by->text : "";
    weighing->note = note ? note->text : "";
    records_date(diags, date);
    read_direction(diags, records_cell(records, row, DIRECTION), &weighing->down);
    read_load(diags, load, &weighing->load);
    records_quantity(diags, records_cell(records, row, READING), &columns[READING],
                     &weighing->reading);
}

void gauge_log_read(struct arena *arena, struct diags *diags, const char *file,
                    struct file_text *text, struct shop *shop)
{
    struct records records;
    size_t before = diags_count(diags);
    *text = (struct file_text){.name = file, .bytes = ""};
    if (!file_is_there(file) || !file_read_text(arena, diags, file, text))
        return;
    if (!records_read(arena, diags, text, columns, COLUMNS, &records))
        return;
    struct weighings *log = &shop->weighings;
    for (size_t row = 0; row < records.row_count; row++) {
        read_row(diags, &records, row, ARENA_PUSH(arena, log->items, log->count));
        keep_name(arena, diags, shop, records_cell(&records, row, BY));
    }
    if (log->count > 0 && log->count < 3 && diags_count(diags) == before)
        fault(
            diags, (struct place){.file = file, .line = 1},
            "a check needs at least three weighings; hang weights of about half, once and one "
            "and a half times the pull");
}

/* content/readings.csv: the log of pulls, kept by the user, one series a row.
 *
 *   date,drum,cord,nut,lock,direction,warmth,temperature,breakaway,pulls,note
 *
 * Needed: date, direction (usual or other), warmth (cold or warm), pulls (with blanks
 * between them, each with its unit, or one unit behind the last). */

enum {
    PULL_LOG_DATE,
    DRUM,
    CORD,
    NUT,
    LOCK,
    PULL_LOG_DIRECTION,
    WARMTH,
    TEMPERATURE,
    BREAKAWAY,
    PULLS,
    PULL_LOG_NOTE,
    PULL_LOG_COLUMNS
};

static const struct record_column pull_log_columns[PULL_LOG_COLUMNS] = {
    [PULL_LOG_DATE] = RECORD_WORDS("date", true),
    [DRUM] = {"drum", false, KIND_LENGTH, "2 mm", "2 m"},
    [CORD] = {"cord", false, KIND_LENGTH, "0 mm", "20 mm"},
    [NUT] = {"nut", false, KIND_ANGLE, "-36000 deg", "36000 deg"},
    [LOCK] = RECORD_WORDS("lock", false),
    [PULL_LOG_DIRECTION] = RECORD_WORDS("direction", true),
    [WARMTH] = RECORD_WORDS("warmth", true),
    [TEMPERATURE] = {"temperature", false, KIND_TEMPERATURE, "-40 degC", "150 degC"},
    [BREAKAWAY] = {"breakaway", false, KIND_FORCE, "0 N", "10000 N"},
    [PULLS] = {"pulls", true, KIND_FORCE, "0 N", "10000 N"},
    [PULL_LOG_NOTE] = RECORD_WORDS("note", false),
};

struct row {
    struct arena *arena;
    struct diags *diags;
    const struct records *records;
    size_t number;
};

/* The cell's text without blanks at its start; "" where the column is missing. */
static const char *text_of(const struct row *row, size_t column)
{
    const struct csv_cell *cell = records_cell(row->records, row->number, column);
    return cell ? cell->text + strspn(cell->text, " ") : "";
}

/* A cell that may be blank; then the quantity is left as it is. */
static void read_optional(const struct row *row, size_t column, struct quantity *quantity)
{
    if (text_of(row, column)[0])
        records_quantity(row->diags, records_cell(row->records, row->number, column),
                         &pull_log_columns[column], quantity);
}

/* One of two words; *second tells which. */
static void read_word(const struct row *row, size_t column, const char *first,
                      const char *other, bool *second)
{
    const char *text = text_of(row, column);
    *second = strcmp(text, other) == 0;
    if (*second || strcmp(text, first) == 0)
        return;
    fault(row->diags, records_cell(row->records, row->number, column)->at,
          "'%.40s' cannot stand here; write %s or %s", text, first, other);
}

static enum lock read_lock(const struct row *row)
{
    static const char *const words[] = {[LOCK_UNSAID] = "",
                                        [LOCK_BEFORE] = "before",
                                        [LOCK_AFTER] = "after",
                                        [LOCK_UNLOADED] = "unloaded"};
    const char *text = text_of(row, LOCK);
    for (int lock = LOCK_UNSAID; lock <= LOCK_UNLOADED; lock++)
        if (strcmp(text, words[lock]) == 0)
            return (enum lock)lock;
    fault(row->diags, records_cell(row->records, row->number, LOCK)->at,
          "'%.40s' cannot stand here; write before, after or unloaded", text);
    return LOCK_UNSAID;
}

static struct place place_in(const struct csv_cell *cell, const char *at)
{
    struct place place = cell->at;
    place.column += (int)utf8_count(cell->text, (size_t)(at - cell->text));
    return place;
}

/* Of a word of at least one sign. */
static bool begins_number(const char *word)
{
    return strchr("+.0123456789", *word) || quantity_minus(word);
}

static bool is_unit(const char *word, size_t length)
{
    const struct unit *unit = unit_find_as(word, length, KIND_FORCE);
    return unit && unit->kind == KIND_FORCE;
}

/* The unit of a bare number: the word behind it, or else the one behind the last number
 * of all; "" where neither is a unit. */
static const char *unit_of_bare(const struct row *row, const char *behind)
{
    behind += strspn(behind, " ");
    size_t length = strcspn(behind, " ");
    if (is_unit(behind, length))
        return arena_slice(row->arena, behind, length);
    const char *end = behind + strlen(behind);
    while (end > behind && end[-1] == ' ')
        end--;
    const char *last = end;
    while (last > behind && !strchr("0123456789. ", last[-1]))
        last--;
    length = (size_t)(end - last);
    return is_unit(last, length) ? arena_slice(row->arena, last, length) : "";
}

static void add_pull(const struct row *row, const struct csv_cell *cell, const char *at,
                     size_t length, struct pull_series *series)
{
    struct quantity_fault wrong;
    struct place place = place_in(cell, at);
    size_t minus = quantity_minus(at);
    bool bare = minus + strspn(at + minus, "-0123456789.") >= length;
    const char *text = arena_format(row->arena, "%.*s%s", (int)length, at,
                                    bare ? unit_of_bare(row, at + length) : "");
    struct quantity *pull = &series->pulls[series->pull_count];
    if (strchr(text, '/'))
        fault(row->diags, place, "a fraction stands among pulls; write it with a point");
    else if (!quantity_parse(text, KIND_FORCE, pull, &wrong))
        fault(row->diags, place, "%s", wrong.message);
    else if (pull->exact.negative)
        fault(row->diags, place, "a pull is below zero; write the steady pull");
    else if (records_in_range(row->diags, place, &pull_log_columns[PULLS], pull))
        series->pull_count++;
}

/* A word that is no number must be the unit of the number before it. */
static void check_unit(const struct row *row, const struct csv_cell *cell, const char *at,
                       size_t length, bool may_stand)
{
    if (!may_stand || !is_unit(at, length))
        fault(row->diags, place_in(cell, at),
              "'%.*s' is neither a pull nor its unit; write them as in 18.2 18.3 18.15 N",
              length < 40 ? (int)length : 40, at);
}

/* A mass in place of the unit of force: one fault for the whole cell. */
static bool weighed_in_mass(const struct row *row, const struct csv_cell *cell)
{
    for (const char *at = cell->text; *(at += strspn(at, " "));) {
        const char *letters = at + strspn(at, "+-.0123456789");
        size_t length = strcspn(letters, " ");
        const struct unit *unit = unit_find_as(letters, length, KIND_FORCE);
        if (unit && unit->kind == KIND_MASS) {
            fault(row->diags, place_in(cell, letters),
                  "%s is a mass; a gauge's %s is typed %sf, as in 3.1 3.2 3.1 %sf",
                  unit->symbol, unit->symbol, unit->symbol, unit->symbol);
            return true;
        }
        at = letters + length;
    }
    return false;
}

/* Each pull with a unit of its own. */
enum { MOST_WORDS = 2 * SERIES_PULLS };

/* "18.2 18.3 18.15 N" or "18.2N 18.3N" or "18.2 N 18.3 N". */
static void read_pulls(const struct row *row, struct pull_series *series)
{
    const struct csv_cell *cell = records_cell(row->records, row->number, PULLS);
    size_t numbers = 0, words = 0;
    bool after_number = false;
    if (weighed_in_mass(row, cell))
        return;
    for (const char *at = cell->text; *(at += strspn(at, " "));) {
        size_t length = strcspn(at, " ");
        bool number = begins_number(at);
        if ((number && numbers == SERIES_PULLS) || words++ == MOST_WORDS) {
            fault(row->diags, place_in(cell, at), "more than %d pulls; write two series",
                  SERIES_PULLS);
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
    if ((text_of(row, DRUM)[0] || text_of(row, CORD)[0]) && series->drum.unit &&
        series->cord.unit && decimal_compare(&series->cord.exact, &series->drum.exact) >= 0)
        fault(row->diags, series->at,
              "the cord (%s %s) is not thinner than the drum (%s %s); correct one of the two",
              series->cord.digits, series->cord.unit->symbol, series->drum.digits,
              series->drum.unit->symbol);
}

static void pull_log_read_row(const struct row *row, const struct shop *shop,
                              struct pull_series *series)
{
    size_t before = diags_count(row->diags);
    const struct csv_cell *date = records_cell(row->records, row->number, PULL_LOG_DATE);
    series->at = date->at;
    series->date = records_date(row->diags, date) ? date->text : NULL;
    series->note = text_of(row, PULL_LOG_NOTE);
    series->drum = shop->drum.diameter.q;
    series->cord = shop->cord.diameter.q;
    read_optional(row, DRUM, &series->drum);
    read_optional(row, CORD, &series->cord);
    read_optional(row, NUT, &series->nut);
    read_optional(row, TEMPERATURE, &series->temperature);
    read_optional(row, BREAKAWAY, &series->breakaway);
    series->lock = read_lock(row);
    read_word(row, PULL_LOG_DIRECTION, "usual", "other", &series->other_way);
    read_word(row, WARMTH, "cold", "warm", &series->warm);
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
    if (!records_read(arena, diags, &text, pull_log_columns, PULL_LOG_COLUMNS, &records))
        return;
    struct pull_series_log *log = &shop->readings;
    for (size_t i = 0; i < records.row_count; i++) {
        struct row row = {arena, diags, &records, i};
        pull_log_read_row(&row, shop, ARENA_PUSH(arena, log->items, log->count));
    }
    check_order(diags, log);
}
