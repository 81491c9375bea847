/* spindlebook gauge: what is known of the gauge at the pulls of your band. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/fit.h"
#include "verdict/gauge.h"
#include "verdict/gauge_source.h"
#include "verdict/window.h"

static void add_force(struct answer *answer, const char *name, const char *label, double force,
                      const struct shop *shop)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    answer_add(answer, name, label, show_places(unit_from_base(force, unit), places).text,
               unit->shown);
}

static void add_doubt(struct answer *answer, double force, const struct shop *shop)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    answer_add(answer, "known-within", "Known within",
               show_up(unit_from_base(force, unit), places).text, unit->shown);
}

static void answer_check(struct answer *answer, const struct shop *shop, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    if (!gauge_check_covers(&check, pull)) {
        add_force(answer, "error", "Error, either way", gauge_within_at(shop, pull), shop);
        return;
    }
    double error = gauge_check_error(&check, pull);
    add_force(answer, "error", "Error found", error, shop);
    add_force(answer, "to-add", "To add to a reading", -error, shop);
    answer_add(answer, "note", "Note",
               "never correct a pull by hand: write and type what the gauge shows; the program "
               "knows the error, and makes U wider by it",
               "");
    add_doubt(answer, gauge_known_within(&check, pull), shop);
}

/* Of all pulls that are looked for: the band's; without limits the one asked about. */
static void answer_notes(struct answer *answer, const struct shop *shop,
                         const struct band *band, double pull)
{
    struct gauge_check check = gauge_check_of(shop);
    struct pull_window window = {.low = pull, .high = pull};
    char odd[SLOPE_TEXT], reach[REACH_TEXT];
    if (band)
        window = pull_window_of(shop, band);
    if (gauge_slope_is_odd(&check, odd))
        answer_add(answer, "note", "Note", odd, "");
    if (gauge_reach_ends(shop, window.low, window.high, reach))
        answer_add(answer, "note", "Note", reach, "");
}

static void answer_fitness(struct answer *answer, const struct shop *shop,
                           const struct band *band)
{
    if (!band) {
        answer_add(answer, "state", "Fit", NO_LIMIT_ON_FILE, "");
        return;
    }
    struct fitness fitness = fitness_on(shop, band, &shop->drum.diameter.q);
    char text[MOST_PULL_TEXT];
    answer_add(answer, "half-window-over-u", "Half the window over U",
               show_places(fitness.ratio, 1).text, "");
    fitness_words(shop, &fitness, text);
    answer_add(answer, "state", "Fit", text, "");
}

bool terminal_gauge(const struct question *question, struct diags *diags, struct answer *answer)
{
    const struct shop *shop = question->shop;
    if (question->word_count) {
        fault(diags, (struct place){.file = question->words[0]},
              "gauge takes no words; write the weighings into gauge-check.csv");
        return false;
    }
    const struct band *band;
    if (!words_band(question, diags, &band))
        return false;
    double pull = band ? pull_window_of(shop, band).aim : gauge_usual_pull(shop);
    add_force(answer, band ? "aim" : "pull", band ? "At the aim" : "At half its capacity", pull,
              shop);
    answer_add(answer, "source", "Known from", gauge_source_words(gauge_source_at(shop, pull)),
               "");
    answer_check(answer, shop, pull);
    answer_notes(answer, shop, band, pull);
    answer_add(answer, "weighings", "Weighings in the log",
               show_places((double)shop->weighings.count, 0).text, "");
    answer_fitness(answer, shop, band);
    return true;
}
