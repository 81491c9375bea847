/* The verbs that convert units. */
#include "bench/bench.h"

#include "number/show.h"

#include <string.h>

enum { FACTOR_DIGITS = 6 };

/* Every kind: its name and an example of it. */
void bench_kinds(const struct bench_question *question)
{
    (void)question;
    for (enum kind kind = 0; kind < KIND_COUNT; kind++)
        bench_row("kind", kind_name(kind), kind_example(kind), "");
}

static enum kind kind_named(const char *name)
{
    enum kind kind = 0;
    while (kind + 1 < KIND_COUNT && strcmp(kind_name(kind), name) != 0)
        kind++;
    return kind;
}

/* Two spellings of one unit are one row. */
static bool is_repeat(size_t index)
{
    return index > 0 && strcmp(unit_at(index)->shown, unit_at(index - 1)->shown) == 0;
}

/* A thread may be said either way. */
static void convert_thread(const struct quantity *threads)
{
    const struct unit *mm = unit_find("mm", 2);
    double pitch = unit_from_base(nut_pitch_of_threads(threads->base), mm);
    bench_row("amount", "pitch", show_significant(pitch, FACTOR_DIGITS).text, mm->shown);
}

/* kind, amount: the amount in every unit of its kind. */
void bench_convert(const struct bench_question *question)
{
    enum kind kind = kind_named(bench_text(question, "kind"));
    struct quantity amount;
    if (!bench_quantity(question, "amount", kind, &amount))
        return;
    for (size_t i = 0; unit_at(i); i++) {
        const struct unit *unit = unit_at(i);
        if (unit->kind != kind || is_repeat(i))
            continue;
        struct shown shown = show_significant(quantity_in(&amount, unit), FACTOR_DIGITS);
        bool typed = strcmp(unit->shown, amount.unit->shown) == 0;
        bench_row("amount", typed ? "as typed" : "", typed ? amount.digits : shown.text,
                  unit->shown);
    }
    if (kind == KIND_THREADS)
        convert_thread(&amount);
}
