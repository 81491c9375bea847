#include "tables/common.h"

#include "report/values.h"
#include "report/words.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- cells ---- */

void next_row(struct builder *b)
{
    assert(b->column == b->table->column_count); /* the row before is whole */
    b->table->row_count++;
    b->column = 0;
}

/* The row's next cell. The cells of all rows lie one behind the other. */
static struct cell *next_cell(struct builder *b, enum column_kind kind, const char *head,
                              const char *unit)
{
    struct table *table = b->table;
    if (table->row_count == 1)
        table_column(table, kind, head, unit);
    assert(b->column < table->column_count);
    assert(strcmp(table->columns[b->column].quantity, head) == 0);
    b->column++;
    return ARENA_PUSH(b->arena, table->cells, b->cell_count);
}

static struct column *column_put(const struct builder *b)
{
    return &b->table->columns[b->column - 1];
}

void bold_head(struct builder *b, bool bold)
{
    b->table->cells[b->cell_count - b->column].strong = bold;
}

void bold_row(struct builder *b)
{
    for (size_t i = b->cell_count - b->column; i < b->cell_count; i++)
        b->table->cells[i].strong = true;
}

struct column *put_text(struct builder *b, const char *head, const char *text)
{
    next_cell(b, COLUMN_TEXT, head, NULL)->shown = b->none ? "none" : text;
    return column_put(b);
}

struct column *put_word(struct builder *b, const char *head, const char *unit, const char *word)
{
    next_cell(b, COLUMN_NUMBER, head, unit)->shown = b->none ? "none" : word;
    return column_put(b);
}

struct column *put_number(struct builder *b, const char *head, const char *unit, double value,
                          const char *shown)
{
    if (b->none || !isfinite(value))
        return put_word(b, head, unit, "none");
    *next_cell(b, COLUMN_NUMBER, head, unit) =
        (struct cell){.shown = arena_text(b->arena, shown), .value = value, .has_value = true};
    return column_put(b);
}

struct column *put_places(struct builder *b, const char *head, const char *unit, double value,
                          int places)
{
    return put_number(b, head, unit, value, show_places(value, places).text);
}

struct column *put_significant(struct builder *b, const char *head, const char *unit,
                               double value, int digits)
{
    return put_number(b, head, unit, value, show_significant(value, digits).text);
}

struct column *put_up(struct builder *b, const char *head, const char *unit, double value,
                      int places)
{
    return put_number(b, head, unit, value, show_up(value, places).text);
}

struct column *put_uncertainty(struct builder *b, const char *head, const char *unit,
                               double value, const struct shown_uncertainty *u)
{
    char digits[DECIMAL_TEXT];
    decimal_print(&u->typed, u->places, digits);
    return put_number(b, head, unit, value, digits);
}

struct column *put_steps(struct builder *b, const char *head, double pull, int64_t steps)
{
    const struct quantity *step = &b->shop->gauge.step.q;
    return put_number(b, head, step->unit->shown, unit_from_base(pull, step->unit),
                      show_steps(steps, &step->typed).text);
}

struct column *put_low(struct builder *b, const char *head, const struct pull_window *window)
{
    b->closed |= window->closed;
    return put_steps(b, head, window->closed ? NAN : window->low, window->low_steps);
}

struct column *put_high(struct builder *b, const char *head, const struct pull_window *window)
{
    return put_steps(b, head, window->closed ? NAN : window->high, window->high_steps);
}

int finer_than_step(const struct shop *shop)
{
    return decimal_places(&shop->gauge.step.q.typed) + 1;
}

struct column *put_pull(struct builder *b, const char *head, double pull)
{
    const struct unit *unit = b->shop->gauge.step.q.unit;
    return put_places(b, head, unit->shown, unit_from_base(pull, unit),
                      finer_than_step(b->shop));
}

const char *gauge_unit(const struct builder *b)
{
    return b->shop->gauge.step.q.unit->shown;
}

void only_none(struct builder *b, const char *head, const char *why)
{
    next_row(b);
    put_text(b, head, "none");
    table_note(b->table, "none: %s", why);
}

/* ---- what is said of series and drums ---- */

struct judgement judgement_or_none(const struct builder *b, const struct pull_series *series)
{
    return b->none ? (struct judgement){.unit = shop_drag_unit(b->shop)}
                   : results_row(b->results, series)->judgement;
}

const char *said_text(struct arena *arena, const struct quantity *quantity)
{
    return quantity->unit ? quantity_text(arena, quantity) : "not said";
}

const char *drum_text(struct arena *arena, const struct quantity *drum)
{
    return arena_format(arena, "%s drum", quantity_text(arena, drum));
}

size_t drum_and_neighbours(const struct shop *shop, const struct quantity *drums[3],
                           size_t *fitted)
{
    const struct quantity *own = &shop->drum.diameter.q, *smaller = NULL, *larger = NULL;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order < 0 && decimal_compare(&size->exact, &shop->cord.diameter.q.exact) > 0)
            smaller = size;
        if (order > 0 && !larger)
            larger = size;
    }
    size_t count = 0;
    if (smaller)
        drums[count++] = smaller;
    *fitted = count;
    drums[count++] = own;
    if (larger)
        drums[count++] = larger;
    return count;
}

/* ---- notes ---- */

static void note_values(const struct builder *b, const char *text)
{
    table_note(b->table, "%s", values_fill(b->arena, b->results, text));
}

void note_drum_and_cord(const struct builder *b)
{
    note_values(b, "Drum {drum-named}, cord {cord-named}: effective radius {radius}.");
}

void note_inputs(const struct builder *b, bool with_drum)
{
    const struct shop *shop = b->shop;
    const char *settings = arena_format(b->arena, "Settings %s.", shop->fingerprint);
    if (with_drum)
        note_drum_and_cord(b);
    else
        note_values(b, "Cord {cord-named}.");
    if (!shop_has_limits(shop)) {
        table_note(b->table, "Limits: " NO_LIMIT_ON_FILE ". %s", settings);
        return;
    }
    table_note(b->table, "%s %s",
               values_fill(b->arena, b->results, "Limits: {source}; {limit-kind}."), settings);
    if (shop->limits.basis == BASIS_INCREASE)
        note_values(b,
                    "The pulls hold the slack drag of {slack-drag} as well as the increase.");
}

void note_inward(const struct builder *b)
{
    note_values(b,
                "Rounded inward to the gauge's steps of {gauge-step}: low pulls up, high pulls "
                "down.");
}

void note_closed(const struct builder *b)
{
    if (b->closed)
        table_note(b->table, CLOSED_WINDOW ".");
}

void note_fingerprint(const struct builder *b)
{
    table_note(b->table, "Settings %s.", b->shop->fingerprint);
}

void note_reach(const struct builder *b, double low, double high)
{
    const char *reach = gauge_reach_words(b->arena, b->results, low, high);
    if (reach[0])
        table_note(b->table, "%s.", reach);
}
