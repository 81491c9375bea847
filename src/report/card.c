/* Facts of the card, by the U of the usual pulls. */
#include "report/card.h"

#include "judge/window.h"
#include "number/show.h"
#include "report/words.h"

#include <math.h>

static struct card_state state_at(struct arena *arena, enum state state, const char *pulls)
{
    return (struct card_state){
        arena_format(arena, "%s\u00a0%s", state_shape(state), state_words(state)), pulls};
}

struct card_facts card_facts(struct arena *arena, const struct results *results)
{
    const struct guarded_window *good = results->own;
    const struct pull_window *plain = &good->plain;
    const struct quantity *step = &results->shop->gauge.step.q;
    const char *unit = step->unit->shown;
    const char *from = arena_text(arena, show_steps(good->low_steps, &step->typed).text);
    const char *to = arena_text(arena, show_steps(good->high_steps, &step->typed).text);
    const char *head = good->closed ? CANNOT_DECIDE : state_at(arena, STATE_GOOD, "").words;
    struct card_facts facts = {
        .head = arena_format(arena, "%s, at %s", head, band_text(arena, results->band)),
        .good = good->closed ? "no pull is good"
                             : arena_format(arena, "%s \u2013 %s\u00a0%s", from, to, unit),
        .decides = !good->closed,
        .good_from = good->low_steps,
        .good_to = good->high_steps,
        .states = {state_at(arena, STATE_CLEARLY_LOW, ""),
                   state_at(arena, STATE_LOW_IN_DOUBT, arena_format(arena, "below %s", from)),
                   state_at(arena, STATE_GOOD, arena_format(arena, "%s to %s", from, to)),
                   state_at(arena, STATE_HIGH_IN_DOUBT, arena_format(arena, "above %s", to)),
                   state_at(arena, STATE_CLEARLY_HIGH, "")}};
    const struct card_mark marks[CARD_MARKS] = {{plain->low_steps, NULL, "low pull"},
                                                {plain->aim_steps, NULL, "aim"},
                                                {plain->high_steps, NULL, "high pull"}};
    for (; facts.mark_count < CARD_MARKS && !plain->closed; facts.mark_count++) {
        struct card_mark *mark = &facts.marks[facts.mark_count];
        *mark = marks[facts.mark_count];
        mark->number = arena_text(arena, show_steps(mark->steps, &step->typed).text);
    }
    if (!isnan(plain->never))
        facts.never = arena_format(arena, "%s\u00a0%s",
                                   show_steps(plain->never_steps, &step->typed).text, unit);
    return facts;
}
