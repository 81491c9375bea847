/* Rows of the logs as a record has them: column and value, as they may be typed again. */
#include "shop/logs.h"

static const char *add_text(struct arena *arena, const char *text, const char *column,
                            const char *value)
{
    if (!value || !value[0])
        return text;
    return arena_format(arena, "%s%s%s %s", text, text[0] ? "; " : "", column, value);
}

static const char *add_quantity(struct arena *arena, const char *text, const char *column,
                                const struct quantity *quantity)
{
    return quantity->unit ? add_text(arena, text, column, quantity_typed(arena, quantity))
                          : text;
}

const char *pull_row_text(struct arena *arena, const struct pull_series *row)
{
    const struct record_column *columns = pull_columns;
    const struct {
        enum pull_column column;
        const struct quantity *quantity;
    } quantities[] = {{PULL_DRUM, &row->drum},   {PULL_CORD, &row->cord},
                      {PULL_NUT, &row->nut},     {PULL_TEMPERATURE, &row->temperature},
                      {PULL_ROOM, &row->room},   {PULL_BREAKAWAY, &row->breakaway},
                      {PULL_SPEED, &row->speed}, {PULL_MINUTES, &row->minutes}};
    const char *text = add_text(arena, "", "date", row->date), *pulls = "";
    text = add_text(arena, text, "job", row->job);
    text = add_text(arena, text, "step", columns[PULL_STEP].words[row->step]);
    text = add_text(arena, text, "by", row->by);
    for (size_t i = 0; i < sizeof quantities / sizeof quantities[0]; i++)
        text = add_quantity(arena, text, columns[quantities[i].column].name,
                            quantities[i].quantity);
    if (!row->step) {
        text = add_text(arena, text, "lock", columns[PULL_LOCK].words[row->lock]);
        text =
            add_text(arena, text, "direction", columns[PULL_DIRECTION].words[row->other_way]);
        text = add_text(arena, text, "warmth", columns[PULL_WARMTH].words[row->warm]);
    }
    for (size_t i = 0; i < row->pull_count; i++)
        pulls = arena_format(arena, "%s%s%s", pulls, i ? ", " : "",
                             quantity_typed(arena, &row->pulls[i]));
    text = add_text(arena, text, "pulls", pulls);
    text = add_text(arena, text, "id", row->id);
    text = add_text(arena, text, "corrects", row->corrects);
    return add_text(arena, text, "note", row->note);
}

const char *weighing_text(struct arena *arena, const struct weighing *weighing)
{
    const char *text = add_text(arena, "", "date", weighing->date);
    text = add_text(arena, text, "direction",
                    check_columns[CHECK_DIRECTION].words[weighing->down]);
    text = add_quantity(arena, text, "load", &weighing->load);
    text = add_quantity(arena, text, "reading", &weighing->reading);
    text = add_quantity(arena, text, "tolerance", &weighing->tolerance);
    text = add_text(arena, text, "masses", weighing->masses);
    text = add_text(arena, text, "certificate", weighing->certificate);
    text = add_text(arena, text, "by", weighing->by);
    return add_text(arena, text, "note", weighing->note);
}
