/* Any lines as answers of who begins a lathe: those that are taken stand in the file as they
 * were given, and once all is answered the file has no fault and gives every table. */
#include "fuzz_file.h"
#include "judge/results.h"
#include "report/values.h"
#include "shop/asked.h"
#include "shop/settings.h"
#include "tables/tables.h"

#include <string.h>

enum { MOST_ANSWERS = 120 };

/* The answers as their file, after they were read back from it and printed once more. */
static void print_twice(struct arena *arena, struct buffer *text,
                        const struct setting_list *answers)
{
    struct diags *diags = diags_new(arena);
    struct buffer again = {0};
    struct setting_list read = {.file = "answers"};
    answers_print(arena, text, answers);
    fuzz_must(answers_are(text->bytes), "answers are not known as such");
    answers_read(arena, diags, "answers", text->bytes, &read);
    fuzz_must(diags_count(diags) == 0, "answers cannot be read back");
    answers_print(arena, &again, &read);
    fuzz_must(strcmp(text->bytes, again.bytes) == 0, "answers are read back as others");
    buffer_free(&again);
}

static void look_at(struct arena *arena, const struct buffer *text)
{
    static struct fuzz_file file;
    struct diags *diags = diags_new(arena);
    struct shop shop;
    settings_read(arena, diags, fuzz_file(&file, (const uint8_t *)text->bytes, text->length),
                  NULL, 0, &shop);
    if (diags_count(diags))
        diags_print(diags, stderr);
    fuzz_must(diags_count(diags) == 0, "all is answered, and the settings have faults");
    const struct results *results = results_of(arena, &shop);
    struct table_ask ask = {.arena = arena, .diags = diags, .results = results};
    for (size_t i = 0; tables_at(i); i++)
        fuzz_must(tables_make(tables_at(i)->name, &ask) && diags_count(diags) == 0,
                  "a begun lathe lacks a table");
    if (shop_has_limits(&shop))
        fuzz_must(limits_read_back_words(arena, results)[0], "limits without words");
}

static void answer(struct arena *arena, struct setting_list *answers,
                   const struct question *question, const char *line)
{
    struct shop shop;
    if (strcmp(line, "back") == 0)
        answer_take_back(answers);
    else if (strcmp(line, "no") == 0)
        answers_forget_bands(answers);
    else if (answer_take(arena, diags_new(arena), answers, question, line, &shop))
        answer_read_as(&shop, question->path);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct arena *arena = arena_new();
    struct setting_list answers = {.file = "answers"};
    struct question question;
    struct buffer text = {0};
    const char *line = arena_slice(arena, (const char *)bytes, length);
    bool asked = true;
    for (int i = 0; i < MOST_ANSWERS && *line; i++) {
        size_t end = strcspn(line, "\n");
        asked = question_next(arena, &answers, &question);
        if (!asked)
            break;
        question_words(arena, &question);
        size_t before = strspn(line, " \t\r"), last = end; /* as the terminal gives it */
        while (last > before && strchr(" \t\r", line[last - 1]))
            last--;
        answer(arena, &answers, &question,
               before < last ? arena_slice(arena, line + before, last - before) : "");
        line += end + (line[end] == '\n');
    }
    asked = asked && question_next(arena, &answers, &question);
    print_twice(arena, &text, &answers);
    if (!asked)
        look_at(arena, &text);
    buffer_free(&text);
    arena_free(arena);
    return 0;
}
