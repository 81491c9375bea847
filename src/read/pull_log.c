#include "read/pull_log.h"

#include "base/utf8.h"
#include "read/records.h"

#include <string.h>
#include <unistd.h>

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
    [DATE] = {"date", true},
    [DRUM] = {"drum", false},
    [CORD] = {"cord", false},
    [NUT] = {"nut", false},
    [LOCK] = {"lock", false},
    [DIRECTION] = {"direction", true},
    [WARMTH] = {"warmth", true},
    [TEMPERATURE] = {"temperature", false},
    [BREAKAWAY] = {"breakaway", false},
    [PULLS] = {"pulls", true},
    [NOTE] = {"note", false},
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
static void read_optional(const struct row *row, size_t column, enum kind kind,
                          struct quantity *quantity)
{
    if (text_of(row, column)[0])
        records_quantity(row->diags, records_cell(row->records, row->number, column), kind,
                         quantity);
}

/* One of two words; *second tells which. A blank is a fault only where needed. */
static void read_word(const struct row *row, size_t column, const char *first,
                      const char *other, bool needed, bool *given, bool *second)
{
    const char *text = text_of(row, column);
    *second = strcmp(text, other) == 0;
    *given = *second || strcmp(text, first) == 0;
    if (*given || (!needed && text[0] == '\0'))
        return;
    fault(row->diags, records_cell(row->records, row->number, column)->at,
          "'%.40s' cannot stand here; write %s or %s", text, first, other);
}

/* The unit behind the last pull holds for those that have none. */
static const char *last_unit(const char *text)
{
    const char *end = text + strlen(text), *at = end;
    while (at > text && !strchr("0123456789.", at[-1]))
        at--;
    return at;
}

static struct place place_in(const struct csv_cell *cell, const char *at)
{
    struct place place = cell->at;
    place.column += (int)utf8_count(cell->text, (size_t)(at - cell->text));
    return place;
}

static void add_pull(const struct row *row, const struct csv_cell *cell, const char *at,
                     size_t length, struct pull_series *series)
{
    struct quantity_fault wrong;
    bool bare = strspn(at, "-0123456789.") >= length;
    const char *text =
        arena_format(row->arena, "%.*s%s", (int)length, at, bare ? last_unit(cell->text) : "");
    struct quantity *pull = &series->pulls[series->pull_count];
    if (!quantity_parse(text, KIND_FORCE, pull, &wrong))
        fault(row->diags, place_in(cell, at), "%s", wrong.message);
    else if (pull->exact.negative)
        fault(row->diags, place_in(cell, at), "a pull is below nothing; write the steady pull");
    else
        series->pull_count++;
}

/* "18.2 18.3 18.15 N" or "18.2N 18.3N". A word that is a unit alone belongs to the
 * number before it. */
static void read_pulls(const struct row *row, struct pull_series *series)
{
    const struct csv_cell *cell = records_cell(row->records, row->number, PULLS);
    for (const char *at = cell->text; *(at += strspn(at, " "));) {
        size_t length = strcspn(at, " ");
        if (strchr("-.0123456789", *at) && series->pull_count == SERIES_PULLS) {
            fault(row->diags, place_in(cell, at), "more than %d pulls; write two series",
                  SERIES_PULLS);
            return;
        }
        if (strchr("-.0123456789", *at))
            add_pull(row, cell, at, length, series);
        at += length;
    }
    if (cell->text[strspn(cell->text, " ")] == '\0')
        fault(row->diags, cell->at, "there are no pulls; write them as in 18.2 18.3 18.15 N");
}

static void read_row(const struct row *row, const struct shop *shop, struct pull_series *series)
{
    bool given, after;
    const struct csv_cell *date = records_cell(row->records, row->number, DATE);
    series->at = date->at;
    series->date = date->text;
    series->note = text_of(row, NOTE);
    series->drum = shop->drum.diameter.q;
    series->cord = shop->cord.diameter.q;
    records_date(row->diags, date);
    read_optional(row, DRUM, KIND_LENGTH, &series->drum);
    read_optional(row, CORD, KIND_LENGTH, &series->cord);
    read_optional(row, NUT, KIND_ANGLE, &series->nut);
    read_optional(row, TEMPERATURE, KIND_TEMPERATURE, &series->temperature);
    read_optional(row, BREAKAWAY, KIND_FORCE, &series->breakaway);
    read_word(row, LOCK, "before", "after", false, &given, &after);
    series->lock = !given ? LOCK_UNSAID : after ? LOCK_AFTER : LOCK_BEFORE;
    read_word(row, DIRECTION, "usual", "other", true, &given, &series->other_way);
    read_word(row, WARMTH, "cold", "warm", true, &given, &series->warm);
    read_pulls(row, series);
}

static void check_order(struct diags *diags, const struct pull_series_log *log)
{
    for (size_t i = 1; i < log->count; i++)
        if (strcmp(log->items[i].date, log->items[i - 1].date) < 0)
            fault(diags, log->items[i].at,
                  "this row is older than the one before it; keep the log in order of date");
}

void pull_log_read(struct arena *arena, struct diags *diags, const char *file,
                   struct shop *shop)
{
    struct file_text text;
    struct records records;
    if (access(file, F_OK) != 0 || !file_read_text(arena, diags, file, &text))
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
