/* The known weights that were hung on the gauge, and what they say of its readings. */
#include "judge/gauge.h"
#include "tables/common.h"

#include <math.h>

/* ---- a row for each load that was hung: errors in the manner of ISO 7500-1, q of the reading,
 * b of repeated readings, v between unloading and loading ---- */

/* The readings of one load in one direction, N. */
struct readings {
    size_t count;
    double sum, least, most;
};

struct load {
    const struct quantity *typed;
    double force; /* N */
    struct readings up, down;
};

static void add_reading(struct readings *readings, double reading)
{
    readings->least = readings->count ? fmin(readings->least, reading) : reading;
    readings->most = readings->count ? fmax(readings->most, reading) : reading;
    readings->sum += reading;
    readings->count++;
}

/* The loads of a check, each once, from the least to the most. */
static size_t gather(const struct shop *shop, const struct gauge_check *check,
                     struct load *loads)
{
    size_t count = 0;
    for (size_t i = 0; i < check->count; i++) {
        const struct weighing *weighing = check->rows[i];
        if (i == 0 || decimal_compare(&loads[count - 1].typed->exact, &weighing->load.exact))
            loads[count++] = (struct load){.typed = &weighing->load,
                                           .force = weighing_force(shop, weighing)};
        struct load *load = &loads[count - 1];
        add_reading(weighing->down ? &load->down : &load->up, weighing->reading.base);
    }
    return count;
}

static double spread(const struct readings *readings)
{
    return readings->count > 1 ? readings->most - readings->least : NAN;
}

static void add_load(struct builder *b, const struct load *load, const struct gauge_line *line)
{
    double force = load->force;
    double mean = (load->up.sum + load->down.sum) / (double)(load->up.count + load->down.count);
    double up = load->up.sum / (double)load->up.count;
    double down = load->down.sum / (double)load->down.count;
    double repeats = fmax(spread(&load->up), spread(&load->down));
    next_row(b);
    put_text(b, "load", quantity_text(b->arena, load->typed));
    put_pull(b, "force", force);
    put_pull(b, "mean reading", mean);
    put_pull(b, "error", mean - force)->strong = true;
    put_places(b, "error q", "%", gauge_share(mean - force, force), 2);
    put_places(b, "repeats b", "%", gauge_share(repeats, force), 2);
    put_places(b, "down less up v", "%", gauge_share(down - up, force), 2);
    put_pull(b, "off the line", mean - gauge_line_reading(line, force));
}

static void note_line(const struct builder *b, const struct gauge_check *check)
{
    const struct gauge_line *line = &check->line;
    const struct shop *shop = b->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    table_note(b->table,
               "The check of %s%s. Line through its %zu readings: %s\u00a0%s at no load, %s of "
               "the force; scatter about it %s\u00a0%s.",
               check->date, check->complete ? "" : ", not complete", line->count,
               show_significant(unit_from_base(line->intercept, unit), 3).text, unit->shown,
               show_significant(line->slope, 5).text,
               show_significant(unit_from_base(line->sd, unit), 2).text, unit->shown);
    table_note(b->table, "Weights pull with %s\u00a0m/s² (%s), less 0.015\u00a0%% for the air.",
               show_places(shop_gravity(shop), 4).text,
               given(&shop->site.latitude) ? "local, WGS 84"
                                           : "standard; the site is not given");
    table_note(b->table, "q, b and v in the manner of ISO 7500-1; none where there was one "
                         "reading, or one direction.");
}

void make_gauge_check(struct builder *b)
{
    const struct gauge_check *check = b->results->known.gauge.check;
    if (!check) {
        only_none(b, "load",
                  "there is no log of known weights yet. Write gauge-check.csv beside the "
                  "settings.");
        return;
    }
    struct load *loads = arena_get(b->arena, check->count * sizeof *loads);
    size_t count = gather(b->shop, check, loads);
    for (size_t i = 0; i < count; i++)
        add_load(b, &loads[i], &check->line);
    note_line(b, check);
}

/* ---- what the known weights say at the pulls of your own band ---- */

static void add_place(struct builder *b, const struct gauge_check *check, const char *name,
                      double pull)
{
    const struct unit *unit = b->shop->gauge.step.q.unit;
    double force = gauge_line_force(&check->line, pull);
    next_row(b);
    put_text(b, "at", name);
    put_pull(b, "reading", pull);
    put_pull(b, "force", force)->strong = true;
    put_pull(b, "error", pull - force);
    put_up(b, "known within", unit->shown,
           unit_from_base(gauge_known_within(check, force), unit), finer_than_step(b->shop));
    put_text(b, "checked there", gauge_check_covers(check, force) ? "yes" : "no");
}

void make_gauge_correction(struct builder *b)
{
    const struct gauge_check *check = b->results->known.gauge.check;
    if (!check) {
        only_none(b, "at", "there is no log of known weights yet.");
        return;
    }
    if (b->band) {
        const struct pull_window *window = &b->results->own->plain;
        add_place(b, check, "low pull", window->low);
        add_place(b, check, "aim", window->aim);
        add_place(b, check, "high pull", window->high);
    } else { /* no pull is looked for: along the gauge then */
        double capacity = b->shop->gauge.capacity.q.base;
        add_place(b, check, "a quarter of the capacity", capacity / 4);
        add_place(b, check, "half of it", capacity / 2);
        add_place(b, check, "three quarters of it", 3 * capacity / 4);
    }
    table_note(b->table,
               "The force that makes each reading. Type what the gauge shows, never corrected "
               "pulls: the program corrects them.");
    table_note(
        b->table,
        "Known within, either way (95 of 100): the doubt of the line and of the weights, what "
        "a gauge drifts until the next check, what coming down reads more.");
    table_note(b->table,
               "Checked there: the weights reached from half the least to one and a quarter "
               "of the most that was hung (a rule of thumb of ours). Past that the "
               "larger of the line's doubt and what is stated of the gauge counts.");
}
