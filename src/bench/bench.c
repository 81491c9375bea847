#include "bench/bench.h"

#include <stdio.h>
#include <string.h>

static char room[BENCH_ROOM];
static char answer[BENCH_ROOM];
static size_t used, faults;

#ifdef __wasm__
#define EXPORTED(name) __attribute__((export_name(name)))

/* Without this the C library would bring in its files and streams to say so. */
_Noreturn void __assert_fail(const char *what, const char *file, int line,
                             const char *function);
_Noreturn void __assert_fail(const char *what, const char *file, int line, const char *function)
{
    (void)what, (void)file, (void)line, (void)function;
    __builtin_trap();
}
#else
#define EXPORTED(name) /* for an editor, which compiles it for its own machine */
#endif

EXPORTED("bench_room") char *bench_room(void)
{
    return room;
}

/* A row that has no room would be a wrong answer: rather none at all. */
void bench_row(const char *name, const char *label, const char *value, const char *unit)
{
    int length = snprintf(answer + used, sizeof answer - used, "%s\t%s\t%s\t%s\n", name, label,
                          value, unit);
    if (length < 0 || (size_t)length >= sizeof answer - used)
        __builtin_trap();
    used += (size_t)length;
}

void bench_fault(const char *key, size_t offset, const char *message)
{
    char at[24];
    snprintf(at, sizeof at, "%lu", (unsigned long)offset);
    bench_row("fault", key, at, message);
    faults++;
}

size_t bench_fault_count(void)
{
    return faults;
}

static void tell_row(void *to, const char *name, const char *label, const char *value,
                     const char *unit)
{
    (void)to;
    bench_row(name, label, value, unit);
}

const struct teller bench_teller = {.row = tell_row};

const char *bench_text(const struct bench_question *question, const char *key)
{
    for (size_t i = 0; i < question->count; i++)
        if (strcmp(question->fields[i].key, key) == 0)
            return question->fields[i].text;
    return "";
}

bool bench_quantity(const struct bench_question *question, const char *key, enum kind kind,
                    struct quantity *quantity)
{
    struct quantity_fault wrong;
    if (quantity_parse(bench_text(question, key), kind, quantity, &wrong))
        return true;
    bench_fault(key, wrong.offset, wrong.message);
    return false;
}

/* Cuts the room's text at its line ends and tabs. */
static void read_question(struct bench_question *question)
{
    question->verb = strtok(room, "\n");
    question->count = 0;
    for (char *line; (line = strtok(NULL, "\n")) && question->count < MOST_FIELDS;) {
        char *tab = strchr(line, '\t');
        if (!tab)
            continue;
        *tab = '\0';
        question->fields[question->count++] = (struct bench_field){line, tab + 1};
    }
}

static const struct {
    const char *name;
    void (*answer)(const struct bench_question *question);
    bool needs_shop;
} verbs[] = {
    {"settings", bench_settings, false},
    {"pull", bench_pull, true},
    {"judge", bench_judge, true},
    {"window", bench_window, true},
    {"drums", bench_drums, true},
    {"nut", bench_nut, true},
    {"kinds", bench_kinds, false},
    {"convert", bench_convert, false},
    {"log", bench_log, true},
    {"heads", bench_heads, false},
};

EXPORTED("bench_ask") const char *bench_ask(void)
{
    static struct bench_question question;
    used = faults = 0;
    answer[0] = '\0';
    read_question(&question);
    for (size_t i = 0; question.verb && i < sizeof verbs / sizeof verbs[0]; i++)
        if (strcmp(verbs[i].name, question.verb) == 0 && (bench_shop() || !verbs[i].needs_shop))
            verbs[i].answer(&question);
    return answer;
}
