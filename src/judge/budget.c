/* What the measuring left of each source of doubt, with the way back to the source itself. */
#include "judge/budget.h"

#include <math.h>

static const enum budget_measure measures[] = {
    [BUDGET_SCATTER] = BUDGET_READING,     [BUDGET_BETWEEN] = BUDGET_READING,
    [BUDGET_STEP] = BUDGET_READING,        [BUDGET_TRACES] = BUDGET_READING,
    [BUDGET_ZERO] = BUDGET_READING,        [BUDGET_GAUGE] = BUDGET_READING,
    [BUDGET_MASSES] = BUDGET_SHARE,        [BUDGET_GRAVITY] = BUDGET_SHARE,
    [BUDGET_DRIFT] = BUDGET_SHARE,         [BUDGET_HYSTERESIS] = BUDGET_READING,
    [BUDGET_ORIENTATION] = BUDGET_READING, [BUDGET_DRUM] = BUDGET_LENGTH,
    [BUDGET_CORD] = BUDGET_LENGTH,
};

size_t budget_lines(const struct judgement *judgement, struct budget_line lines[BUDGET_ROWS])
{
    const struct drag_measured *drag = &judgement->measured.drag;
    const double per_one[] = {[BUDGET_READING] = drag->per_newton,
                              [BUDGET_SHARE] = fabs(drag->drag) / 100,
                              [BUDGET_LENGTH] = fabs(drag->per_metre)};
    double whole = drag->sureness.standard * drag->sureness.standard;
    size_t count = 0;
    for (int i = 0; i < BUDGET_ROWS; i++) {
        struct doubt doubt = judgement->budget[i];
        if (!(fabs(doubt.u) > 0))
            continue;
        lines[count++] = (struct budget_line){.source = (enum budget_row)i,
                                              .stated = i == BUDGET_GAUGE && isinf(doubt.nu),
                                              .sample = isfinite(doubt.nu),
                                              .measure = measures[i],
                                              .u = fabs(doubt.u) / per_one[measures[i]],
                                              .sensitivity = per_one[measures[i]],
                                              .doubt = {fabs(doubt.u), doubt.nu},
                                              .share = 100 * doubt.u * doubt.u / whole};
    }
    return count;
}
