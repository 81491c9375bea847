#include "read/gauge_log.h"

#include "read/records.h"
#include "read/texts.h"

#include <string.h>

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
