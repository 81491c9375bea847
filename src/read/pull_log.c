#include "read/pull_log.h"

#include "base/file.h"
#include "base/utf8.h"
#include "read/records.h"

#include <string.h>

enum {
    DATE,
    DRUM,
    CORD,
    NUT,
    LOCK,
    DIRECTION,
    WARMTH,
    TEMPERATURE,
    BREAKAWAY,
    PULLS,
    NOTE,
    COLUMNS
};

static const struct record_column columns[COLUMNS] = {
    [DATE] = RECORD_WORDS("date", true),
    [DRUM] = {"drum", false, KIND_LENGTH, "2 mm", "2 m"},
    [CORD] = {"cord", false, KIND_LENGTH, "0 mm", "20 mm"},
    [NUT] = {"nut", false, KIND_ANGLE, "-36000 deg", "36000 deg"},
    [LOCK] = RECORD_WORDS("lock", false),
    [DIRECTION] = RECORD_WORDS("direction", true),
    [WARMTH] = RECORD_WORDS("warmth", true),
    [TEMPERATURE] = {"temperature", false, KIND_TEMPERATURE, "-40 degC", "150 degC"},
    [BREAKAWAY] = {"breakaway", false, KIND_FORCE, "0 N", "10000 N"},
    [PULLS] = {"pulls", true, KIND_FORCE, "0 N", "10000 N"},
    [NOTE] = RECORD_WORDS("note", false),
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
                         &columns[column], quantity);
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
    else if (records_in_range(row->diags, place, &columns[PULLS], pull))
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

static void read_row(const struct row *row, const struct shop *shop, struct pull_series *series)
{
    size_t before = diags_count(row->diags);
    const struct csv_cell *date = records_cell(row->records, row->number, DATE);
    series->at = date->at;
    series->date = records_date(row->diags, date) ? date->text : NULL;
    series->note = text_of(row, NOTE);
    series->drum = shop->drum.diameter.q;
    series->cord = shop->cord.diameter.q;
    read_optional(row, DRUM, &series->drum);
    read_optional(row, CORD, &series->cord);
    read_optional(row, NUT, &series->nut);
    read_optional(row, TEMPERATURE, &series->temperature);
    read_optional(row, BREAKAWAY, &series->breakaway);
    series->lock = read_lock(row);
    read_word(row, DIRECTION, "usual", "other", &series->other_way);
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
    if (!records_read(arena, diags, &text, columns, COLUMNS, &records))
        return;
    struct pull_series_log *log = &shop->readings;
    for (size_t i = 0; i < records.row_count; i++) {
        struct row row = {arena, diags, &records, i};
        read_row(&row, shop, ARENA_PUSH(arena, log->items, log->count));
    }
    check_order(diags, log);
}
