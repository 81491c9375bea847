/* The order of the questions is a table; which of them is next follows from the answers so far,
 * so that it does not matter who asks, nor whether it was interrupted. */
#include "shop/asked.h"

#include "base/utf8.h"

#include <stdlib.h>
#include <string.h>

/* ---- what is asked ---- */

enum when { ALWAYS, WITH_LIMITS, OF_EACH_BAND, OF_AN_INCREASE, WITHOUT_GAUGE_ERROR };

/* In this order. A blank answer is taken where a key may be left out, but not where it must be
 * answered here. */
static const struct {
    const char *path;
    enum when when;
    bool must; /* though the settings file may leave it out */
} order[] = {
    {"lathe.name", ALWAYS, true},
    {ON_FILE_KEY, ALWAYS, true},
    {"limits.source", WITH_LIMITS, true},
    {"limits.torque", WITH_LIMITS, true},
    {"limits.basis", WITH_LIMITS, true},
    {"limits.bearings", WITH_LIMITS, true},
    {"limits.warmth", WITH_LIMITS, true},
    {"lathe.top-speed", ALWAYS, true},
    {"limits.bands.#.to", OF_EACH_BAND, false},
    {"limits.bands.#.low", OF_EACH_BAND, true},
    {"limits.bands.#.high", OF_EACH_BAND, true},
    {"limits.bands.#.page", OF_EACH_BAND, true},
    {"limits.never-exceed", WITH_LIMITS, false},
    {"limits.slack-drag", OF_AN_INCREASE, true},
    {"drum.diameter", ALWAYS, true},
    {"drum.tolerance", ALWAYS, true},
    {"cord.diameter", ALWAYS, true},
    {"cord.tolerance", ALWAYS, true},
    {"gauge.name", ALWAYS, false},
    {"gauge.capacity", ALWAYS, true},
    {"gauge.step", ALWAYS, true},
    {"gauge.full-scale-error", WITHOUT_GAUGE_ERROR, false},
    {"gauge.reading-error", WITHOUT_GAUGE_ERROR, false},
    {"gauge.checked-error", WITHOUT_GAUGE_ERROR, true},
    {"paper.card", ALWAYS, false},
    {"paper.booklet", ALWAYS, false},
};

enum { QUESTIONS = sizeof order / sizeof order[0] };

static const char *answer_to(const struct setting_list *answers, const char *path)
{
    for (size_t i = 0; i < answers->count; i++)
        if (strcmp(answers->items[i].path, path) == 0)
            return answers->items[i].value;
    return NULL;
}

static bool answered(const struct setting_list *answers, const char *path, const char *value)
{
    const char *answer = answer_to(answers, path);
    return answer && strcmp(answer, value) == 0;
}

static const char *band_path(struct arena *arena, const char *path, size_t row)
{
    const char *mark = strchr(path, '#');
    return arena_format(arena, "%.*s%zu%s", (int)(mark - path), path, row, mark + 1);
}

/* Does a band reach as far as the spindle runs? */
static bool reaches_top(struct arena *arena, const struct setting_list *answers, size_t row)
{
    struct quantity to, top;
    struct quantity_fault ignored;
    const char *end = answer_to(answers, band_path(arena, "limits.bands.#.to", row));
    const char *speed = answer_to(answers, "lathe.top-speed");
    return end && speed && quantity_parse(end, KIND_SPEED, &to, &ignored) &&
           quantity_parse(speed, KIND_SPEED, &top, &ignored) && to.base >= top.base;
}

static bool is_asked(const struct setting_list *answers, enum when when)
{
    bool limits = !answered(answers, ON_FILE_KEY, "none");
    switch (when) {
    case ALWAYS:
        return true;
    case WITH_LIMITS:
    case OF_EACH_BAND:
        return limits;
    case OF_AN_INCREASE:
        return limits && answered(answers, "limits.basis", "increase");
    case WITHOUT_GAUGE_ERROR:
        for (size_t i = 0; i < QUESTIONS; i++) {
            const char *answer =
                order[i].when == when ? answer_to(answers, order[i].path) : NULL;
            if (answer && *answer)
                return false;
        }
        return true;
    }
    return false;
}

static struct question question_of(const struct setting_list *answers, size_t at,
                                   const char *path)
{
    int row;
    const struct field *field = field_find(path, &row);
    const char *blank = order[at].must ? NULL : "";
    if (field->fallback)
        blank = field->fallback;
    else if (field->type == FIELD_CHOICE && !field->required)
        blank = order[at].must ? NULL : field->choices[0];
    else if (order[at].when == OF_EACH_BAND && blank)
        blank = answer_to(answers, "lathe.top-speed");
    return (struct question){field, path, blank};
}

bool question_next(struct arena *arena, const struct setting_list *answers,
                   struct question *question)
{
    size_t row = 1;
    for (size_t i = 0; i < QUESTIONS; i++) {
        const char *path = order[i].path;
        bool last_of_band = i + 1 == QUESTIONS || order[i + 1].when != OF_EACH_BAND;
        if (!is_asked(answers, order[i].when))
            continue;
        if (order[i].when == OF_EACH_BAND)
            path = band_path(arena, path, row);
        if (!answer_to(answers, path)) {
            *question = question_of(answers, i, path);
            return true;
        }
        if (order[i].when == OF_EACH_BAND && last_of_band && row < MOST_BANDS &&
            !reaches_top(arena, answers, row)) {
            row++; /* from the first question of a band again */
            while (i > 0 && order[i - 1].when == OF_EACH_BAND)
                i--;
            i--;
        }
    }
    return false;
}

/* That a band begins where the one below it ends is not asked. */
static bool follows_by_itself(const char *path)
{
    const char *rest;
    return field_band_row(path, &rest) && strcmp(rest, "from") == 0;
}

size_t question_number(const struct setting_list *answers)
{
    size_t number = 1;
    for (size_t i = 0; i < answers->count; i++)
        number += !follows_by_itself(answers->items[i].path);
    return number;
}

const char *question_words(struct arena *arena, const struct question *question)
{
    char *words = arena_text(arena, question->field->meaning);
    if (words[0] >= 'a' && words[0] <= 'z')
        words[0] += 'A' - 'a';
    return words;
}

/* ---- the answers ---- */

static void add_answer(struct arena *arena, struct setting_list *answers, const char *path,
                       const char *value)
{
    *ARENA_PUSH(arena, answers->items, answers->count) =
        (struct setting){.path = path, .value = value, .at = {.file = path}};
}

static void add_start_of_band(struct arena *arena, struct setting_list *answers, const char *to)
{
    const char *rest, *start = "0 r/min";
    int row = field_band_row(to, &rest);
    if (!row || strcmp(rest, "to") != 0)
        return;
    if (row > 1)
        start = answer_to(answers, band_path(arena, "limits.bands.#.to", (size_t)row - 1));
    add_answer(arena, answers, band_path(arena, "limits.bands.#.from", (size_t)row), start);
}

static const char *whole_word(const struct field *field, const char *answer)
{
    const char *found = NULL;
    for (size_t i = 0; field->type == FIELD_CHOICE && field->choices[i]; i++)
        if (*answer && strncmp(field->choices[i], answer, strlen(answer)) == 0) {
            if (found)
                return answer;
            found = field->choices[i];
        }
    return found ? found : answer;
}

bool answer_take(struct arena *arena, struct diags *diags, struct setting_list *answers,
                 const struct question *question, const char *text, struct shop *shop)
{
    size_t count = answers->count, before = diags_count(diags);
    struct place at = {.file = question->path};
    *shop = (struct shop){0};
    text = whole_word(question->field, text);
    if (!*text && question->blank)
        text = question->blank;
    add_start_of_band(arena, answers, question->path);
    add_answer(arena, answers, question->path, text);
    if (!*text && !question->blank)
        fault(diags, at, "an answer is needed here; type %s",
              field_wanted(arena, question->field));
    else if (utf8_valid(text, strlen(text)) != strlen(text))
        fault(diags, at, "this is not UTF-8; type it in plain letters");
    else
        answers_shop(arena, diags, answers, shop);
    bool good = diags_count(diags) == before;
    if (!good)
        answers->count = count;
    return good;
}

const char *answer_read_as(const struct shop *shop, const char *path)
{
    for (size_t i = 0; i < shop->read_as_count; i++)
        if (strcmp(shop->read_as[i].at.file, path) == 0)
            return shop->read_as[i].words;
    return NULL;
}

void answer_take_back(struct setting_list *answers)
{
    answers->count -= answers->count > 0;
    while (answers->count && follows_by_itself(answers->items[answers->count - 1].path))
        answers->count--;
}

void answers_forget_bands(struct setting_list *answers)
{
    size_t kept = 0;
    const char *rest;
    for (size_t i = 0; i < answers->count; i++)
        if (!field_band_row(answers->items[i].path, &rest))
            answers->items[kept++] = answers->items[i];
    answers->count = kept;
}

void answers_shop(struct arena *arena, struct diags *diags, const struct setting_list *answers,
                  struct shop *shop)
{
    *shop = (struct shop){.file = answers->file};
    struct settings_reader reader = {arena, diags, answers, shop, true};
    bands_make(&reader);
    for (size_t i = 0; i < answers->count; i++) {
        int row;
        const struct field *field = field_find(answers->items[i].path, &row);
        if (answers->items[i].value[0])
            field_read(&reader, field, row, &answers->items[i]);
    }
    shop_check_given(shop, diags);
}

/* ---- the file of answers ---- */

static const char head[] = "# Answers to spindlebook begin: a key and its value a line. Change "
                           "them as you like.\n";

void answers_print(struct arena *arena, struct buffer *out, const struct setting_list *answers)
{
    buffer_text(out, head);
    for (size_t i = 0; i < answers->count; i++) {
        const struct setting *answer = &answers->items[i];
        int row;
        const struct field *field = field_find(answer->path, &row);
        bool words = field->type == FIELD_TEXT && *answer->value;
        buffer_print(out, "\n# %s\n%s%s: %s\n", field->meaning, *answer->value ? "" : "# ",
                     answer->path, words ? text_quoted(arena, answer->value) : answer->value);
    }
}

bool answers_are(const char *text)
{
    return strncmp(text, head, sizeof head - 1) == 0;
}

static const char blanks[] = " \t\r";

/* A value in double quotes or bare, a remark behind it; NULL where it is neither. */
static const char *value_of(struct arena *arena, const char *text)
{
    struct buffer value = {0};
    const char *at = text + (*text == '"');
    bool quoted = *text == '"', good = strchr("'{[&*!|>%@`", *text) == NULL || !*text;
    for (; *at && (quoted ? *at != '"' : !(strchr(blanks, *at) && at[1] == '#')); at++) {
        at += quoted && *at == '\\' && at[1];
        buffer_print(&value, "%c", *at);
    }
    while (!quoted && value.length && strchr(blanks, value.bytes[value.length - 1]))
        value.length--;
    if (quoted) {
        good = *at == '"';
        at += good;
    }
    at += strspn(at, blanks);
    good = good && (!*at || *at == '#');
    const char *kept = good ? arena_slice(arena, value.bytes, value.length) : NULL;
    buffer_free(&value);
    return kept;
}

/* "key: value", or a blank answer, "# key:"; any other remark says nothing. */
static void read_line(struct arena *arena, struct diags *diags, struct place at, char *line,
                      struct setting_list *answers)
{
    size_t length = strlen(line);
    while (length && strchr(blanks, line[length - 1]))
        line[--length] = '\0';
    bool remark = line[0] == '#';
    char *key = line + (remark ? strspn(line, "# ") : 0), *colon = strchr(key, ':');
    int row;
    if (!line[0] || (remark && (!colon || colon[1])))
        return;
    if (!colon || (colon[1] && colon[1] != ' ')) {
        fault(diags, at,
              "'%.40s' is no key with its value; write it as in drum.diameter: 62 mm", line);
        return;
    }
    *colon = '\0';
    const char *text = colon + 1 + strspn(colon + 1, " ");
    const char *value = value_of(arena, text);
    if (!field_find(key, &row)) {
        if (!remark)
            fault(
                diags, at,
                "there is no setting '%.60s'; write each key whole, as in drum.diameter: 62 mm",
                key);
        return;
    }
    at.column = 1 + (int)(text - line);
    if (!value)
        fault(diags, at,
              "this is no value that can be read; write it bare or in double quotes");
    else if (answer_to(answers, key))
        fault(diags, at, "%s is given twice; delete one of the two", key);
    else
        *ARENA_PUSH(arena, answers->items, answers->count) =
            (struct setting){.path = key, .value = value, .at = at};
}

void answers_read(struct arena *arena, struct diags *diags, const char *file, const char *text,
                  struct setting_list *answers)
{
    struct place at = {file, 0, 1};
    answers->file = file;
    while (*text) {
        size_t length = strcspn(text, "\n");
        at.line++;
        read_line(arena, diags, at, arena_slice(arena, text, length), answers);
        text += length + (text[length] == '\n');
    }
}
