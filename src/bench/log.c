/* A series as a row of content/readings.csv, for the user's own file. */
#include "bench/bench.h"

#include <stdio.h>
#include <string.h>

static const char *const heads[] = {"date",      "drum",      "cord",   "nut",
                                    "lock",      "direction", "warmth", "temperature",
                                    "breakaway", "pulls",     "note"};

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
    size_t count = 0;
    for (size_t i = 0; i < question->count; i++) {
        struct quantity pull;
        struct quantity_fault wrong;
        char digits[DECIMAL_TEXT];
        if (strcmp(question->fields[i].key, "pull") != 0)
            continue;
        if (!quantity_parse(question->fields[i].text, KIND_FORCE, &pull, &wrong)) {
            bench_fault("pull", wrong.offset, wrong.message);
            return;
        }
        add_text(line, count++ ? " " : "");
        add_text(line, digits_of(&pull, digits));
        add_text(line, pull.unit->symbol);
    }
    if (count <= SERIES_PULLS)
        return;
    char message[80];
    snprintf(message, sizeof message,
             "the log takes at most %d pulls a series; write two series", SERIES_PULLS);
    bench_fault("pull", 0, message);
}

/* One of two words, as the log's reader has them; the page offers them as a list. */
static void add_word(struct line *line, const struct bench_question *question, const char *key,
                     const char *first, const char *second)
{
    char message[120];
    const char *text = bench_text(question, key);
    if (!text[0])
        bench_fault(key, 0, "nothing is chosen here; choose one of the list");
    else if (strcmp(text, first) != 0 && strcmp(text, second) != 0) {
        snprintf(message, sizeof message, "'%.40s' cannot stand here; write %s or %s", text,
                 first, second);
        bench_fault(key, 0, message);
    }
    add_text(line, text);
}

static void add_optional(struct line *line, const struct bench_question *question,
                         const char *key, enum kind kind)
{
    struct quantity quantity;
    if (bench_text(question, key)[0] && bench_quantity(question, key, kind, &quantity))
        add_quantity(line, &quantity);
}

static void add_date(struct line *line, const char *date)
{
    if (!date[0])
        bench_fault("date", 0, "'' is no date; write year, month and day as in 2026-03-09");
    add_text(line, date);
}

static void add_cell(struct line *line, const struct bench_question *question, const char *head)
{
    const struct shop *shop = bench_shop();
    if (strcmp(head, "date") == 0)
        add_date(line, bench_text(question, head));
    else if (strcmp(head, "drum") == 0)
        add_quantity(line, &shop->drum.diameter.q);
    else if (strcmp(head, "cord") == 0)
        add_quantity(line, &shop->cord.diameter.q);
    else if (strcmp(head, "nut") == 0)
        add_optional(line, question, head, KIND_ANGLE);
    else if (strcmp(head, "direction") == 0)
        add_word(line, question, head, "usual", "other");
    else if (strcmp(head, "warmth") == 0)
        add_word(line, question, head, "cold", "warm");
    else if (strcmp(head, "temperature") == 0)
        add_optional(line, question, head, KIND_TEMPERATURE);
    else if (strcmp(head, "breakaway") == 0)
        add_optional(line, question, head, KIND_FORCE);
    else if (strcmp(head, "pulls") == 0)
        add_pulls(line, question);
    else
        add_text(line, bench_text(question, head));
}

/* date, nut, lock, direction, warmth, temperature, breakaway, pull..., note: the row. */
void bench_log(const struct bench_question *question)
{
    static struct line row;
    row.used = 0;
    for (size_t i = 0; i < HEADS; i++) {
        if (i)
            add(&row, ',');
        add_cell(&row, question, heads[i]);
    }
    bench_row("row", "", row.text, "");
}

/* The log's heads. */
void bench_heads(const struct bench_question *question)
{
    static struct line names;
    (void)question;
    names.used = 0;
    for (size_t i = 0; i < HEADS; i++) {
        if (i)
            add(&names, ',');
        add_text(&names, heads[i]);
    }
    bench_row("heads", "", names.text, "");
}
