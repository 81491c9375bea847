/* How sure the closing series is, source by source. */
#include "judge/budget.h"
#include "report/words.h"
#include "tables/common.h"

#include <math.h>

static void put_nu(struct builder *b, double nu)
{
    if (isfinite(nu))
        put_places(b, "degrees of freedom", NULL, nu, 1);
    else
        put_word(b, "degrees of freedom", NULL, "endless");
}

/* The last three cells of each row. */
static void put_of_drag(struct builder *b, const struct unit *unit, double u, double share)
{
    put_significant(b, "u of the drag", unit->shown, unit_from_base(u, unit), 2)->strong = true;
    put_places(b, "share", "%", share, 1);
}

static void add_line(struct builder *b, const struct budget_line *line, const struct unit *unit)
{
    const struct unit *in = budget_unit(b->shop, line->measure);
    next_row(b);
    put_text(b, "source", budget_words(line));
    put_significant(b, "u of it", NULL, unit_from_base(line->u, in), 2);
    put_text(b, "in", in->shown);
    put_text(b, "distribution", line->sample ? "Student" : "rectangular");
    put_nu(b, line->doubt.nu);
    put_significant(b, "sensitivity", NULL,
                    unit_from_base(line->sensitivity, unit) / unit_from_base(1, in), 3);
    put_of_drag(b, unit, line->doubt.u, line->share);
}

/* Of the whole, or of what stands beside it. */
static void add_sum(struct builder *b, const struct unit *unit, const char *what, double nu,
                    double u, double share)
{
    next_row(b);
    put_text(b, "source", what);
    put_word(b, "u of it", NULL, "none");
    put_text(b, "in", "none");
    put_text(b, "distribution", "none");
    if (nu > 0)
        put_nu(b, nu);
    else
        put_word(b, "degrees of freedom", NULL, "none");
    put_word(b, "sensitivity", NULL, "none");
    put_of_drag(b, unit, u, share);
}

void make_budget(struct builder *b)
{
    const struct pull_series *left = b->results->last_job.left;
    if (!left) {
        only_none(b, "source", "no series of the log closes a job.");
        return;
    }
    struct budget_line lines[BUDGET_ROWS];
    const struct judgement *judgement = &results_row(b->results, left)->judgement;
    const struct drag_measured *drag = &judgement->measured.drag;
    const struct uncertainty *sureness = &drag->sureness;
    size_t count = budget_lines(judgement, lines);
    for (size_t i = 0; i < count; i++)
        add_line(b, &lines[i], judgement->unit);
    add_sum(b, judgement->unit, "all together", sureness->nu, sureness->standard, 100);
    if (drag->askew > 0)
        add_sum(b, judgement->unit, "askew, added to U", 0, drag->askew, NAN);
    add_sum(b, judgement->unit, "U, 95 of 100", 0, sureness->expanded, NAN);
    table_note(
        b->table,
        "The closing series of %s. u of the drag: u of the source times the sensitivity, "
        "the drag for one of its unit. All together: the root of the sum of the squares. "
        "U: that times %s, by Student's distribution, and what pulls askew may take "
        "beside.",
        left->date, show_places(sureness->factor, 3).text);
    table_note(b->table,
               "Shares are of the sum of the squares. In the manner of JCGM 100 (GUM).");
    note_inputs(b, true);
}
