/* Tables of words, and sentences with numbers in them. */
#include "report/words.h"

#include <math.h>

#include "judge/gauge.h"
#include "judge/window.h"
#include "number/show.h"
#include "physics/physics.h"

/* ---- states ---- */

#define STATE(shape, words)                                                                    \
    {                                                                                          \
        words, shape, shape " " words                                                          \
    }
#define NOT_JUDGED(why) STATE("–", "not judged: " why)

static const struct {
    const char *words, *shape, *text;
} states[] = {
    [STATE_CLEARLY_LOW] = STATE("▼", "clearly low"),
    [STATE_LOW_IN_DOUBT] = STATE("▽", "low or in doubt"),
    [STATE_GOOD] = STATE("●", "good"),
    [STATE_HIGH_IN_DOUBT] = STATE("△", "high or in doubt"),
    [STATE_CLEARLY_HIGH] = STATE("▲", "clearly high"),
    [STATE_UNDECIDED] = STATE("◇", "none: " CANNOT_DECIDE),
    [STATE_SCATTERED] = STATE("◇", "none: these pulls cannot decide"),
    [STATE_REJECTED] = STATE("×", "rejected: find the cause, take all again"),
    [STATE_NO_PULL] = STATE("×", "none: the gauge saw nothing"),
    [STATE_NO_LIMIT] = STATE("–", NO_LIMIT_ON_FILE),
    [STATE_FOR_COLD] = NOT_JUDGED("limits are for cold"),
    [STATE_FOR_WARM] = NOT_JUDGED("limits are for warm"),
    [STATE_OTHER_WAY] = NOT_JUDGED("other way round"),
    [STATE_NOT_LOCKED] = NOT_JUDGED("not locked"),
    [STATE_LOCK_UNSAID] = NOT_JUDGED("lock not said"),
    [STATE_UNLOADED] = NOT_JUDGED("unloaded"),
    [STATE_BACKED_OFF] = STATE("×", "backed off, not unloaded: no good setting"),
};

const char *state_words(enum state state)
{
    return states[state].words;
}

const char *state_shape(enum state state)
{
    return states[state].shape;
}

const char *state_text(enum state state)
{
    return states[state].text;
}

/* ---- what to do next ---- */

/* What every answer says of it; which end is pushed, its page says. */
#define UNLOAD_BY_A_PUSH                                                                       \
    "unload until there is end play, by a steady push and never by a blow on the nose (page "  \
    "\"Move the nut\")"

#define TURN_EACH_WAY "Turn the spindle ten times each way"

static const struct {
    const char *words, *brief;
} advices[] = {
    [ADVICE_UNLOAD] = {"Do not run it: " UNLOAD_BY_A_PUSH
                       ". Then start again from the loose side. Never stop on a backing-off.",
                       "do not run it: unload, begin again from the loose side"},
    [ADVICE_UNLOAD_UNLOCKED] = {"Do not lock, do not run: " UNLOAD_BY_A_PUSH
                                ". Then come again from the loose side.",
                                "do not lock, do not run: unload, begin again"},
    [ADVICE_TAKE_AGAIN_HIGH] = {"Do not run it, and do not use these pulls: they " TOO_WIDE
                                ", and lie high. Find the cause, take all again.",
                                "do not run it; take the last series again"},
    [ADVICE_COOL_HIGH] = {"Do not run it. Let the spindle cool to the temperature of the "
                          "workshop, the nut as it is, and measure again.",
                          "do not run it: let it cool, measure again"},
    [ADVICE_USUAL_WAY_HIGH] = {"Do not run it. Measure the usual way round, the nut as it is: "
                               "only that is judged.",
                               "do not run it: measure the usual way round"},
    [ADVICE_TAKE_AGAIN] = {"Do not use these pulls: they " TOO_WIDE
                           " (by chance once in 1,000 series). Find the cause, take all "
                           "again.",
                           "take the last series again: it says nothing"},
    [ADVICE_FIND_NO_PULL] = {"Look whether the cord pulls at the hook, whether the spindle "
                             "turned, and whether the gauge is on. Then take all again. Do not "
                             "move the nut by it.",
                             "the gauge saw nothing: take the last series again"},
    [ADVICE_LOOK_AT_WARMTH] = {"Leave the nut. The cap's temperature does not fit the warmth "
                               "that was said: mend the row, or measure again as warm as the "
                               "limits ask.",
                               "leave the nut: cap and warmth do not fit"},
    [ADVICE_COOL] = {"Let the spindle cool to the temperature of the workshop, the nut as it "
                     "is, and measure again. A warm drag is only compared with warm ones.",
                     "let it cool, measure again"},
    [ADVICE_WARM] = {"Warm the spindle as your manual says, the nut as it is, and measure "
                     "again. A cold drag is only compared with cold ones.",
                     "warm it as the manual says, measure again"},
    [ADVICE_COMPARE_WAYS] = {"Compare it with the usual way round, taken alike. Only the usual "
                             "way is judged.",
                             "measure the usual way round"},
    [ADVICE_BEGIN_AGAIN] = {"Write it down. Cord off, and come again from the loose side; by 1 "
                            "to 2 degrees for the first steps (our rule), and measure after "
                            "each.",
                            "unloaded: come again from the loose side"},
    [ADVICE_UNLOAD_BACKED_OFF] = {"A nut turned back does not unload the bearings. Do not run "
                                  "it: " UNLOAD_BY_A_PUSH
                                  ". Then come again from the loose side.",
                                  "turned back: unload, begin again from the loose side"},
    [ADVICE_COMPARE_LATER] = {"Write it down, and compare it with earlier drags taken alike. "
                              "Never move the nut by it: no drag is known to be right. Set it "
                              "by end play and temperature, as the page \"The manual is "
                              "lost\" says.",
                              NO_LIMIT_ON_FILE},
    [ADVICE_SAY_LOCK] = {"Say whether you pulled before or after the nut was locked. If "
                         "before: lock, and measure again.",
                         "say whether it was locked"},
    [ADVICE_SURER_GAUGE] =
        {"Leave the nut, and make the doubt smaller first: by a check of the gauge with "
         "weights, a finer gauge or another drum.",
         "leave the nut: a surer gauge or another drum first"},
    [ADVICE_MORE_PULLS] =
        {"Leave the nut. Take more pulls, five or more; if they scatter, find out why first.",
         "leave the nut: more pulls first"},
    [ADVICE_SAME_CAP] =
        {"Leave the nut. Its cap is not at the temperature of the check before, "
         "and the oil alone makes another drag then: measure again with the cap as "
         "it was.",
         "leave the nut: the cap is not as it was"},
    [ADVICE_TIGHTEN] =
        {"Free the lock and tighten by a small step from the loose side. " TURN_EACH_WAY
         ", lock, measure again.",
         "free the lock, tighten by a small step, ten turns each way, lock"},
    [ADVICE_MEASURE_LOW] = {"Do not call it good. Take more pulls or a surer gauge; or free "
                            "the lock and tighten by a very small step toward the aim, lock, "
                            "measure again.",
                            "more pulls or a surer gauge, or tighten very little"},
    [ADVICE_THREE_PULLS] = {"Good, but by too few pulls: take more, three at least and better "
                            "five, before you go by it.",
                            "good, but by too few pulls: take more"},
    [ADVICE_LEAVE] = {"Leave the nut alone and write it down. To come nearer to the aim free "
                      "the lock, go on by small steps from the loose side, lock, measure "
                      "again.",
                      "the last in the log is good: leave it"},
    [ADVICE_LEAVE_ABOVE_AIM] =
        {"Good, above the aim: leave the nut alone and write it down. To "
         "come nearer to the aim, unload and begin again from the loose "
         "side; never back off.",
         "the last in the log is good: leave it"},
    [ADVICE_MEASURE_HIGH] = {"Do not call it good. Take more pulls or a surer gauge; if it "
                             "stays, unload and come again from the loose side.",
                             "more pulls or a surer gauge; if it stays, unload"},
    [ADVICE_TIGHTEN_UNLOCKED] =
        {"Do not lock yet. Tighten by a small step from the loose side. " TURN_EACH_WAY
         ", measure again before locking.",
         "do not lock yet: tighten by a small step"},
    [ADVICE_LOCK] = {"Lock, and measure again: only the drag of the locked nut is judged.",
                     "lock, and measure again"},
    [ADVICE_LOCK_TO_LEARN] = {"What the lock adds is not known: lock, and measure again. If it "
                              "is then too high, unload and aim lower.",
                              "lock, to learn what it adds, and measure again"},
    [ADVICE_UNLOAD_FOR_LOCK] =
        {"Do not lock: too much is to be expected. Instead " UNLOAD_BY_A_PUSH
         ". Then come again from the loose side to a lower drag.",
         "do not lock: unload, come again to a lower drag"},
    [ADVICE_UNLOAD_TO_LEARN] =
        {"Do not lock: what the lock adds is not known, and from here it may be too much. "
         "Instead " UNLOAD_BY_A_PUSH
         ". Then come again from the loose side to a lower drag, and lock there first, to "
         "learn what the lock adds.",
         "do not lock: unload, come again lower, lock there to learn what it adds"},
    [ADVICE_SEAT_ROLLERS] = {"The drag did not rise with the nut by more than its doubt: leave "
                             "the nut, turn the spindle ten times each way, and measure both "
                             "places again.",
                             "no rise with the nut: seat the rollers, measure again"},
};

const char *advice_words(enum advice advice)
{
    return advices[advice].words;
}

const char *advice_in_brief(enum advice advice)
{
    return advices[advice].brief;
}

/* ---- the budget, and what would make it smaller ---- */

const char *budget_words(const struct budget_line *line)
{
    static const char *const words[] = {[BUDGET_SCATTER] = "scatter of the pulls",
                                        [BUDGET_BETWEEN] = "drum and cord put on anew",
                                        [BUDGET_STEP] = "steps of the gauge",
                                        [BUDGET_TRACES] = "the traces' own doubt",
                                        [BUDGET_ZERO] = "zero of the gauge",
                                        [BUDGET_GAUGE] = "line of the check",
                                        [BUDGET_MASSES] = "weights of the check",
                                        [BUDGET_GRAVITY] = "gravity, the site not given",
                                        [BUDGET_DRIFT] = "drift since the check",
                                        [BUDGET_HYSTERESIS] = "hysteresis of the gauge",
                                        [BUDGET_ORIENTATION] = "orientation of the gauge",
                                        [BUDGET_DRUM] = "diameter of the drum",
                                        [BUDGET_CORD] = "thickness of the cord"};
    return line->stated ? "what is stated of the gauge" : words[line->source];
}

const struct unit *budget_unit(const struct shop *shop, enum budget_measure measure)
{
    return measure == BUDGET_READING  ? shop->gauge.step.q.unit
           : measure == BUDGET_LENGTH ? shop->drum.diameter.q.unit
                                      : unit_find("%", 1);
}

static const char *change_words(struct arena *arena, const struct improvement *improvement)
{
    static const char *const words[] = {
        [IMPROVE_SITE] = "to say where the workshop lies (site.latitude)",
        [IMPROVE_SQUARE] =
            "pulls that are no further askew than half of pulls.skew, once that is "
            "so and said",
        [IMPROVE_WEIGHTS] = "a check of the gauge with known weights near this pull",
        [IMPROVE_SURE_WEIGHTS] =
            "a check of the gauge near this pull with weights that are good "
            "to 0.1\u00a0%",
        [IMPROVE_GAUGE] = "a gauge of a fifth of the step, checked with known weights",
    };
    if (improvement->kind == IMPROVE_PULLS)
        return arena_format(arena, "%d pulls in all", improvement->count);
    if (improvement->kind == IMPROVE_SETUPS)
        return arena_format(arena,
                            "drum and cord put on anew, %d more series at this place, if they "
                            "agree as earlier ones did",
                            improvement->count);
    if (improvement->kind == IMPROVE_DRUM)
        return arena_format(arena, "the drum of %s, if it fits the spindle nose",
                            quantity_text(arena, improvement->drum));
    return words[improvement->kind];
}

const char *improvement_words(struct arena *arena, const struct improvement *improvement)
{
    static const char *const then[] = {[VERDICT_LOW] = "clearly low",
                                       [VERDICT_GOOD] = "good",
                                       [VERDICT_HIGH] = "clearly high"};
    if (improvement->kind == IMPROVE_NOT_ASKED)
        return "";
    if (improvement->kind == IMPROVE_CHECK)
        return "a further check of the gauge that agrees with the one in force, by weights of "
               "another name or with a certificate";
    if (improvement->kind == IMPROVE_NOTHING)
        return "no single change: not 20 pulls, a new winding, surer weights, another drum of "
               "those listed or a gauge of a fifth of the step";
    return arena_format(arena, "%s: the same drag is then %s", change_words(arena, improvement),
                        then[improvement->then]);
}

/* ---- how far the gauge reads, and whether it can decide ---- */

const char *most_pull_words(struct arena *arena, const struct shop *shop,
                            const struct most_pull *most)
{
    const struct quantity *step = &shop->gauge.step.q, *capacity = &shop->gauge.capacity.q;
    return arena_format(
        arena,
        BEYOND_THE_GAUGE ", which ends at %s %s: %s %s %s; take a larger drum or a larger "
                         "gauge",
        capacity->digits, capacity->unit->shown,
        most->never                 ? "never-exceed is a pull of"
        : shop_reads_starting(shop) ? "the high limit is a pull of"
                                    : "the breakaway at the high limit may be",
        show_up(unit_from_base(most->force, step->unit), decimal_places(&step->typed)).text,
        step->unit->shown);
}

const char *hardest_pull_words(const struct shop *shop)
{
    return shop_reads_starting(shop) ? "pull" : "breakaway";
}

const char *beyond_rule_words(struct arena *arena, const struct shop *shop)
{
    return arena_format(arena,
                        "Beyond the gauge: the %s at the high limit, or the pull at "
                        "never-exceed where one is given, is more than the gauge can read.",
                        hardest_pull_words(shop));
}

static const struct {
    const char *word, *words;
} fits[] = {
    [FIT_BEYOND] = {BEYOND_THE_GAUGE, NULL}, /* its words have numbers in them */
    [FIT_NONE] = {"cannot decide", NOTHING_GOOD},
    [FIT_BARELY] = {"barely", "barely: most of the window is in doubt"},
    [FIT_USABLE] = {"usable", "usable: keep to the good part of the window"},
    [FIT_SURE] = {"sure", "sure: U is a small part of the window"},
};

const char *fit_word(enum fit fit)
{
    return fits[fit].word;
}

const char *fitness_words(struct arena *arena, const struct shop *shop,
                          const struct fitness *fitness)
{
    return fitness->fit == FIT_BEYOND ? most_pull_words(arena, shop, &fitness->most)
                                      : fits[fitness->fit].words;
}

/* ---- what is known of the gauge ---- */

const char *peg_words(struct arena *arena, const struct results *results,
                      const struct drum_to_make *drum)
{
    static const char *const materials[] = {[DRUM_PRINTED] = "printed plastic",
                                            [DRUM_ALUMINIUM] = "aluminium",
                                            [DRUM_STEEL] = "steel"};
    const struct shop *shop = results->shop;
    struct peg_load load = peg_load_of(results, drum);
    const struct unit *unit = shop->gauge.step.q.unit;
    return arena_format(
        arena,
        "A peg of %s breaks at %s times the largest pull, %s\u00a0%s (%s\u00a0MPa at its foot "
        "of the %s\u00a0MPa that we count on). %s",
        materials[shop->drum.material], show_places(floor(10 * load.factor) / 10, 1).text,
        show_up(unit_from_base(load.pull, unit), 1).text, unit->shown,
        show_up(load.stress / 1e6, 1).text, show_places(load.strength / 1e6, 0).text,
        load.enough ? "Three times is enough (our rule)."
                    : "That is too weak: three times is needed (our rule). Make it wider "
                      "(drum.peg) or of a stronger material, or file it off and press in a "
                      "metal pin.");
}

const char *gauge_source_words(enum gauge_source source)
{
    static const char *const words[] = {
        [GAUGE_WEIGHED] = "the check in force",
        [GAUGE_CHECKED] = "the checked error of the settings",
        [GAUGE_DATA_SHEET] = "the data sheet",
        [GAUGE_CHECKED_OR_CARRIED] = "the larger of the checked error and the doubt of the "
                                     "check in force, whose weights "
                                     "do not reach there",
        [GAUGE_SHEET_OR_CARRIED] = "the larger of the data sheet and the doubt of the check in "
                                   "force, whose weights do "
                                   "not reach there"};
    return words[source];
}

const char *withheld_words(enum withheld withheld)
{
    static const char *const words[] = {
        [WITHHELD_CHECKS_DIFFER] = "two checks of the gauge do not agree: nothing is called "
                                   "good until a further check agrees with the one in force",
        [WITHHELD_FAR_OFF] = "the check corrects the reading by more than a fifth: nothing is "
                             "called good by it until a check by other weights agrees",
        [WITHHELD_TREND] = "the pulls rise or fall steadily: their mean is not where the drag "
                           "is now"};
    return words[withheld];
}

const char *gauge_slope_words(struct arena *arena, const struct gauge_check *check)
{
    static const char *const causes[] = {
        [SLOPE_LOADS_IN_LB] = "are the loads in lb, not kg, or the readings in kgf, not lbf?",
        [SLOPE_LOADS_IN_KG] = "are the loads in kg, not lb, or the readings in lbf, not kgf?",
        [SLOPE_READINGS_IN_N] = "are the readings in N, not kgf?",
        [SLOPE_READINGS_IN_KGF] = "are the readings in kgf, not N?",
        [SLOPE_ODD] = "look for a wrong unit, or a slip of the pen"};
    enum gauge_slope slope = gauge_slope_of(check);
    return slope == SLOPE_NEAR_ONE
               ? ""
               : arena_format(arena, "the gauge reads %s times the load: %s",
                              show_places(check->line.slope, 2).text, causes[slope]);
}

const char *gauge_reach_words(struct arena *arena, const struct results *results, double low,
                              double high)
{
    const struct shop *shop = results->shop;
    const struct gauge_check *check = results->known.gauge.check;
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed) + 1;
    if (!check || (gauge_check_covers(check, low) && gauge_check_covers(check, high)))
        return "";
    return arena_format(
        arena,
        "U where the known weights do not reach (they speak for %s to %s %s) takes "
        "the larger of %s and the doubt of their line carried on: hang weights near such pulls",
        show_places(unit_from_base(gauge_check_from(check), unit), places).text,
        show_places(unit_from_base(gauge_check_to(check), unit), places).text, unit->shown,
        given(&shop->gauge.checked_error) ? "the checked error" : "the data sheet");
}

/* ---- the log's last series ---- */

const char *last_alike_words(struct arena *arena, const struct results *results,
                             const struct pull_conditions *conditions)
{
    const struct judged *last = last_alike(results, conditions);
    if (!last)
        return "";
    const struct judgement *judgement = &last->judgement;
    const struct quantity *step = &results->shop->gauge.step.q;
    return arena_format(
        arena, "%s: %s\u00a0%s, %s\u00a0%s", last->series->date,
        show_places(unit_from_base(judgement->pulls.mean, step->unit),
                    decimal_places(&step->typed) + 1)
            .text,
        step->unit->shown,
        show_places(unit_from_base(judgement->drag, judgement->unit), judgement->shown_u.places)
            .text,
        judgement->unit->shown);
}

/* ---- what the windows rest on ---- */

const char *radius_text(struct arena *arena, const struct shop *shop)
{
    return arena_format(arena, "%s\u00a0%s", radius_digits(shop).text,
                        shop->drum.diameter.q.unit->shown);
}

static const char *shop_torque_word(const struct shop *shop)
{
    return shop->limits.torque == TORQUE_RUNNING ? "running" : "starting";
}

const char *shop_basis_word(const struct shop *shop)
{
    return shop->limits.basis == BASIS_ABSOLUTE ? "whole drag" : "increase over the slack drag";
}

const char *shop_bearings_word(const struct shop *shop)
{
    return shop->limits.bearings == BEARINGS_NEW ? "new bearings" : "used bearings";
}

const char *shop_warmth_word(const struct shop *shop)
{
    return shop->limits.warmth == WARMTH_COLD ? "cold" : "warm";
}

const char *limit_kind_text(struct arena *arena, const struct shop *shop)
{
    return arena_format(arena, "%s drag, %s, %s, %s", shop_torque_word(shop),
                        shop_basis_word(shop), shop_bearings_word(shop),
                        shop_warmth_word(shop));
}

const char *series_lock_word(enum lock lock)
{
    static const char *const words[] = {[LOCK_UNSAID] = "not said",
                                        [LOCK_BEFORE] = "before lock",
                                        [LOCK_AFTER] = "locked",
                                        [LOCK_UNLOADED] = "unloaded"};
    return words[lock];
}

const char *next_check_words(struct arena *arena, const struct results *results)
{
    const struct job *job = &results->last_job;
    const struct pull_series *last = job->since ? job->since : job->left;
    char later[DATE_TEXT];
    if (!last)
        return "none: no job is closed";
    switch (advise_on_row(results, results_row(results, last)).advice) {
    case ADVICE_LEAVE:
    case ADVICE_LEAVE_ABOVE_AIM:
    case ADVICE_COMPARE_LATER:
        date_year_later(last->date, later);
        return arena_text(arena, later);
    case ADVICE_THREE_PULLS:
        return "none: good by too few pulls";
    case ADVICE_LOOK_AT_WARMTH:
        return "none: cap and warmth do not fit";
    default:
        return "none: not good";
    }
}
