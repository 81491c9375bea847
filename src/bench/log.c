/* A series as a row of the log, for the user's own file. */
#include "bench/bench.h"

#include <stdio.h>
#include <string.h>

static const char *const heads[] = {"date",   "drum",        "cord",      "gauge", "direction",
                                    "warmth", "temperature", "breakaway", "pulls", "note"};

enum { HEADS = sizeof heads / sizeof heads[0], LINE_ROOM = 8 * 1024 };

struct line {
    char text[LINE_ROOM];
    size_t used;
};

static void add(struct line *line, char sign)
{
    if (line->used + 1 >= sizeof line->text)
        __builtin_trap();
    line->text[line->used++] = sign;
    line->text[line->used] = '\0';
}

/* RFC 4180: a text with a comma or a quote stands in quotes. */
static void add_text(struct line *line, const char *text)
{
    bool quoted = text[strcspn(text, ",\"")] != '\0';
    if (quoted)
        add(line, '"');
    for (; *text; text++) {
        if (*text == '"')
            add(line, '"');
        add(line, *text);
    }
    if (quoted)
        add(line, '"');
}

static void add_quantity(struct line *line, const struct quantity *quantity)
{
    char text[2 * QUANTITY_TEXT];
    snprintf(text, sizeof text, "%s %s", quantity->digits, quantity->unit->symbol);
    add_text(line, text);
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
static void add_pulls(struct line *line, const struct bench_question *question)
{
    const char *blank = "";
    for (size_t i = 0; i < question->count; i++) {
        struct quantity pull;
        struct quantity_fault wrong;
        char digits[DECIMAL_TEXT];
        if (strcmp(question->fields[i].key, "pull") != 0)
            continue;
        if (!quantity_parse(question->fields[i].text, KIND_FORCE, &pull, &wrong)) {
            bench_fault("pull", wrong.offset, wrong.message);
            continue;
        }
        add_text(line, blank);
        add_text(line, digits_of(&pull, digits));
        add_text(line, pull.unit->symbol);
        blank = " ";
    }
}

static void add_cell(struct line *line, const struct bench_question *question, const char *head)
{
    const struct shop *shop = bench_shop();
    if (strcmp(head, "drum") == 0)
        add_quantity(line, &shop->drum.diameter.q);
    else if (strcmp(head, "cord") == 0)
        add_quantity(line, &shop->cord.diameter.q);
    else if (strcmp(head, "gauge") == 0 && shop->gauge.name)
        add_text(line, shop->gauge.name);
    else if (strcmp(head, "gauge") == 0)
        add_quantity(line, &shop->gauge.capacity.q);
    else if (strcmp(head, "pulls") == 0)
        add_pulls(line, question);
    else
        add_text(line, bench_text(question, head));
}

/* date, direction, warmth, temperature, breakaway, pull..., note: the heads and the
 * row. */
void bench_log(const struct bench_question *question)
{
    struct line names = {.used = 0}, row = {.used = 0};
    for (size_t i = 0; i < HEADS; i++) {
        if (i) {
            add(&names, ',');
            add(&row, ',');
        }
        add_text(&names, heads[i]);
        add_cell(&row, question, heads[i]);
    }
    bench_row("heads", "", names.text, "");
    bench_row("row", "", row.text, "");
}
