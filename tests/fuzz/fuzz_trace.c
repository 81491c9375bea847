/* Any bytes as a trace, once with all said beside it and once with nothing: an answer or a
 * fault. */
#include "cli/terminal.h"
#include "fuzz_file.h"
#include "judge/results.h"
#include "shop/settings.h"
#include "shop/trace_text.h"

static void ask(const struct results *results, const char *file, bool said)
{
    struct arena *arena = arena_new();
    struct rows rows = {.arena = arena};
    struct file_text text;
    struct question question = {.results = results,
                                .trace = &text,
                                .speed = said ? "12 r/min" : NULL,
                                .interval = said ? "0.05 s" : NULL,
                                .unit = said ? "N" : NULL,
                                .diags = diags_new(arena),
                                .rows = &rows};
    if (file_read_long(arena, question.diags, file, TRACE_LARGEST, &text)) {
        bool answered = terminal_trace(&question);
        fuzz_must(answered == (diags_count(question.diags) == 0), "neither answer nor fault");
        fuzz_must(!answered || rows.count > 0, "an answer without words");
    }
    arena_free(arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static struct fuzz_file file;
    static struct arena *arena;
    static struct shop shop;
    static const struct results *results;
    if (!arena) {
        arena = arena_new();
        struct diags *diags = diags_new(arena);
        settings_read(arena, diags, "tests/faults/base/settings.yaml", NULL, 0, &shop);
        fuzz_must(diags_count(diags) == 0, "the fixed settings have faults");
        results = results_of(arena, &shop);
    }
    const char *name = fuzz_file(&file, bytes, length);
    ask(results, name, false);
    ask(results, name, true);
    return 0;
}
