/* spindlebook pull: what a series of pulls says of the drag. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/state.h"
#include "verdict/window.h"

static size_t read_pulls(const struct question *question, struct diags *diags,
                         struct quantity *pulls)
{
    size_t count = 0;
    for (size_t at = 0; at < question->word_count; count++) {
        if (count == MOST_PULLS) {
            fault(diags, (struct place){.file = question->words[at]},
                  "more than %d pulls; judge them in two series", MOST_PULLS);
            return 0;
        }
        if (!words_quantity(question, &at, KIND_FORCE, diags, &pulls[count]))
            return 0;
        if (pulls[count].exact.negative) {
            fault(diags, (struct place){.file = question->words[at - 1]},
                  "a pull is below nothing; zero the gauge and write the steady pull");
            return 0;
        }
    }
    if (count == 0)
        fault(diags, (struct place){.file = "pull"},
              "there are no pulls; write them behind the verb, as in 4.31N 4.28N 4.35N");
    return count;
}

static void answer_pulls(struct answer *answer, const struct judgement *judgement,
                         const struct shop *shop)
{
    const struct unit *unit = shop->gauge.step.q.unit;
    int places = decimal_places(&shop->gauge.step.q.typed);
    const struct series *pulls = &judgement->pulls;
    answer_decimal(answer, "pulls", "Pulls", (double)pulls->count, 0, "");
    answer_decimal(answer, "mean", "Mean pull", unit_from_base(pulls->mean, unit), places + 1,
                   unit->shown);
    answer_decimal(answer, "range", "Highest less lowest",
                   unit_from_base(pulls->most - pulls->least, unit), places, unit->shown);
}

static void answer_drag(struct answer *answer, const struct judgement *judgement)
{
    const struct unit *unit = judgement->band->high.q.unit;
    char digits[DECIMAL_TEXT];
    decimal_print(&judgement->sureness.typed, judgement->sureness.places, digits);
    answer_decimal(answer, "drag", "Drag", unit_from_base(judgement->drag, unit),
                   judgement->sureness.places, unit->shown);
    answer_add(answer, "uncertainty", "Sure within, either way (95 %)", digits, unit->shown);
    answer_add(answer, "low", "Low limit", judgement->band->low.q.digits,
               judgement->band->low.q.unit->shown);
    answer_add(answer, "high", "High limit", judgement->band->high.q.digits, unit->shown);
}

static void answer_state(struct answer *answer, const struct judgement *judgement)
{
    char text[80];
    snprintf(text, sizeof text, "%s %s", state_shape(judgement->state),
             state_words(judgement->state));
    answer_add(answer, "state", "State", text, "");
    if (judgement->over_never)
        answer_add(answer, "never-exceed", "Never exceed",
                   "PASSED, or in doubt: do not run the spindle", "");
    answer_add(answer, "next", "Next", state_next(judgement->state), "");
    if (judgement->pulls.count < 2)
        answer_add(answer, "note", "Note",
                   "one pull says nothing of the scatter: the usual one was taken; pull again",
                   "");
    else if (series_relative_range(&judgement->pulls) > 0.1)
        answer_add(
            answer, "note", "Note",
            "the pulls lie further apart than a tenth of their mean: find the cause first "
            "(a rule of thumb of ours)",
            "");
}

bool terminal_pull(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct quantity pulls[MOST_PULLS];
    size_t count = read_pulls(question, diags, pulls);
    const struct band *band = words_band(question, diags);
    if (!count || !band)
        return false;
    struct rig rig = shop_rig(question->shop);
    struct judgement judgement = judge_pulls(question->shop, band, &rig, pulls, count);
    answer_pulls(answer, &judgement, question->shop);
    answer_drag(answer, &judgement);
    answer_band(answer, band);
    answer_state(answer, &judgement);
    return true;
}
