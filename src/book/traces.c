#include "book/traces.h"

#include "judge/measure.h"
#include "number/show.h"
#include "report/trace.h"
#include "shop/settings.h"

enum { PLACES_MORE = 2 }; /* than the gauge's step has */

static struct quantity quantity_of_force(struct arena *arena, const struct shop *shop,
                                         double force)
{
    const struct quantity *step = &shop->gauge.step.q;
    struct quantity quantity = {.unit = NULL};
    struct quantity_fault ignored;
    struct shown shown = show_places(unit_from_base(force, step->unit),
                                     decimal_places(&step->typed) + PLACES_MORE);
    quantity_parse(arena_format(arena, "%s %s", shown.text, step->unit->symbol), KIND_FORCE,
                   &quantity, &ignored);
    return quantity;
}

/* False after a fault. */
static bool read_one(struct arena *arena, struct diags *diags, struct shop *shop,
                     struct pull_series *series, const struct traced_pull *traced)
{
    struct file_text file;
    struct trace_text text = {0};
    struct trace_facts nothing = {.unit = NULL};
    const char *name =
        arena_format(arena, "%s/%s", settings_log(arena, shop->file, "traces"), traced->file);
    if (!file_is_there(name))
        return fault(diags, traced->at, "there is no trace %s; put it there, or mend the name",
                     name);
    bool good = file_read_long(arena, diags, name, TRACE_LARGEST, &file) &&
                trace_text_read(arena, diags, &file, &nothing, shop->gauge.step.q.unit, &text);
    if (good) {
        struct trace trace =
            judge_trace(shop, &text, effective_radius(&series->drum, &series->cord));
        good = trace.fault == TRACE_READ;
        if (!good)
            fault(diags,
                  trace_fault_has_place(trace.fault) ? trace_text_place(&file, &text, trace.at)
                                                     : (struct place){.file = name},
                  "%s", trace_fault_words(arena, shop, &trace));
        else
            series->pulls[traced->pull] = quantity_of_force(arena, shop, trace.mean);
        series->traces_u = hypot(series->traces_u, trace.sureness.expanded / 2);
        if (good && trace.broke_away && !trace.peak_clipped &&
            !(series->breakaway.unit && series->breakaway.base >= trace.breakaway))
            series->breakaway = quantity_of_force(arena, shop, trace.breakaway);
    }
    trace_text_free(&text);
    return good;
}

void traces_read(struct arena *arena, struct diags *diags, struct shop *shop)
{
    for (size_t i = 0; i < shop->readings.count; i++) {
        struct pull_series *series = &shop->readings.items[i];
        struct quantity typed = series->breakaway;
        for (size_t k = 0; k < series->trace_count; k++)
            read_one(arena, diags, shop, series, &series->traces[k]);
        if (typed.unit)
            series->breakaway = typed;
    }
}
