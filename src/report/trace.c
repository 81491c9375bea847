/* Rows and words of a trace: the reading first, then from which part of the trace it is, then
 * what else was seen. */
#include "report/trace.h"

#include "judge/results.h"
#include "number/show.h"

#include <math.h>

bool trace_fault_has_place(enum trace_fault fault)
{
    return fault == TRACE_NOT_A_NUMBER || fault == TRACE_TIME_BACK || fault == TRACE_GAP ||
           fault == TRACE_CLIPPED;
}

static const char *seconds(struct arena *arena, double value)
{
    return arena_format(arena, "%s s", show_significant(value, 3).text);
}

const char *trace_fault_words(struct arena *arena, const struct shop *shop,
                              const struct trace *trace)
{
    switch (trace->fault) {
    case TRACE_READ:
        return "";
    case TRACE_TOO_FEW:
        return "the pull has fewer than ten readings; take a gauge or a setting that gives "
               "more "
               "in a second, or pull for longer";
    case TRACE_NOT_A_NUMBER:
        return "this is no number that can be";
    case TRACE_TIME_BACK:
        return "the time is not later than that of the reading before; sort the readings, or "
               "leave the times out and say the interval";
    case TRACE_NO_PULL:
        return "no pull is seen: the reading is not above where the gauge rests; was the gauge "
               "zeroed under load?";
    case TRACE_PEAK_HELD:
        return "the reading never falls: the gauge holds its peak; switch that off and pull "
               "again";
    case TRACE_ZEROED:
        return "behind the pull the gauge rests lower than before it, by more than a tenth of "
               "the pull: it was zeroed under load; zero it at rest, and pull again";
    case TRACE_NO_TURN:
        return "how long a turn takes is not said, and no wave shows it; say how fast the "
               "spindle turned, as in --speed 12r/min, or in the file # speed: 12 r/min";
    case TRACE_SHORT:
        return arena_format(arena,
                            "the steady part is shorter than a turn (%s); pull for two turns "
                            "and more",
                            seconds(arena, trace->turn));
    case TRACE_UNSTEADY:
        return "no part as long as a turn is steady; pull evenly, and begin and end slowly";
    case TRACE_GAP:
        return "before this reading others are missing, for more than an eighth of a turn of "
               "the steady part; pull again";
    case TRACE_SLOW:
        return "there are fewer than five readings a turn; turn more slowly, or take a setting "
               "of the gauge that gives more in a second";
    case TRACE_CLIPPED:
        return arena_format(arena,
                            "the gauge is at its end (%s %s) while the cord runs: it reads too "
                            "little; take a larger gauge or a larger drum",
                            shop->gauge.capacity.q.digits, shop->gauge.capacity.q.unit->shown);
    }
    return "";
}

/* ---- rows ---- */

/* What forces are shown in: the gauge's unit, to the last place of U. */
struct scale {
    struct rows *rows;
    const struct unit *unit;
    int places;
};

static void put_force(const struct scale *scale, const char *name, const char *label,
                      double force)
{
    put_row(scale->rows, name, label,
            show_places(unit_from_base(force, scale->unit), scale->places).text,
            scale->unit->shown);
}

/* Rounded up. */
static void put_doubt(const struct scale *scale, const char *name, const char *label, double u)
{
    put_row(scale->rows, name, label,
            show_up(unit_from_base(u, scale->unit), scale->places).text, scale->unit->shown);
}

static const char *force_text(const struct scale *scale, double force)
{
    return arena_format(scale->rows->arena, "%s %s",
                        show_places(unit_from_base(force, scale->unit), scale->places).text,
                        scale->unit->shown);
}

static void put_part(struct rows *rows, const struct trace_text *text,
                     const struct trace *trace)
{
    double apart = (text->times[text->count - 1] - text->times[0]) / (double)(text->count - 1);
    put_row(rows, "readings", "Readings", show_places((double)text->count, 0).text, "");
    put_row(rows, "interval", "One every", show_significant(apart, 3).text, "s");
    put_row(rows, "turns", "Whole turns", show_places(trace->turns, 0).text, "");
    put_row(rows, "turn", "One turn", show_significant(trace->turn, 3).text, "s");
    put_row(rows, "steady-from", "Steady from",
            show_places(text->times[trace->steady[0]], 2).text, "s");
    put_row(rows, "steady-to", "to", show_places(text->times[trace->steady[1] - 1], 2).text,
            "s");
    put_row(rows, "effective", "Readings without memory that the mean is worth",
            show_significant(floor(trace->effective), 2).text, "");
}

static void put_seen(const struct scale *scale, const struct trace *trace)
{
    put_force(scale, "wave", "Wave once a turn, half its height", trace->once);
    put_doubt(scale, "wave-uncertainty", "U of it", trace->once_u);
    put_force(scale, "wave-twice", "twice a turn", trace->twice);
    put_force(scale, "wave-thrice", "three times a turn", trace->thrice);
    put_force(scale, "drift", "Drift over the steady part", trace->drift);
    put_doubt(scale, "drift-uncertainty", "U of it", trace->drift_u);
    put_force(scale, "noise", "Scatter of a reading about it", trace->noise);
    if (trace->slips > 0)
        put_row(scale->rows, "slips", "Slips", show_significant(trace->slips, 2).text,
                "a second");
}

/* ---- notes ---- */

static void note_zero(const struct scale *scale, const struct trace *trace)
{
    struct rows *rows = scale->rows;
    if (!trace->rested)
        put_note(rows, "the trace shows the gauge nowhere at rest: its zero is taken as it is; "
                       "begin a trace two seconds before the pull");
    else if (fabs(trace->zero_moved) > trace->mean / 20)
        put_note(rows,
                 "behind the pull the gauge rests %s from where it did before: the zero before "
                 "the pull is taken",
                 force_text(scale, trace->zero_moved));
}

static void note_turn(struct rows *rows, const struct trace_text *text, const struct shop *shop,
                      const struct trace *trace)
{
    double said = trace_said_turn(&text->facts, shop_radius(shop));
    if (isnan(said))
        put_note(rows, "how fast it turned was not said: the turn is that of the wave");
    else if (fabs(trace->turn / said - 1) > 0.03)
        put_note(rows, "the wave shows a turn of %s, not the said %s: it is taken",
                 seconds(rows->arena, trace->turn), seconds(rows->arena, said));
}

static void note_breakaway(struct rows *rows, const struct trace *trace)
{
    if (!trace->broke_away)
        put_note(rows, "no breakaway is seen: no first peak from which the reading falls");
    else if (trace->peak_clipped)
        put_note(rows, "the gauge was at its end at the breakaway: it was more");
    else if (trace->holds > 0 || trace->smooth > 0)
        put_note(rows, "a display that holds or averages shows less of a short breakaway than "
                       "there was");
}

static void note_display(struct rows *rows, const struct trace *trace)
{
    if (trace->holds > 0)
        put_note(rows, "the display holds: it shows something new every %s alone",
                 seconds(rows->arena, trace->holds));
    if (trace->smooth > 0)
        put_note(rows,
                 "readings follow each other over %s: the gauge averages, or the drag wanders "
                 "that slowly",
                 seconds(rows->arena, trace->smooth));
    if (trace->slips > 0)
        put_note(rows, "it sticks and slips: the reading falls suddenly again and again. Turn "
                       "a little faster, take a stiffer cord; a dry seal does so too");
    if (fabs(trace->drift) > trace->drift_u && fabs(trace->drift) > trace->mean / 50)
        put_note(rows, "the reading %s while the spindle turns: half of that is in U",
                 trace->drift > 0 ? "rises" : "falls");
}

void report_trace(struct rows *rows, const struct results *results,
                  const struct trace_text *text, const struct trace *trace)
{
    const struct shop *shop = results->shop;
    const struct unit *unit = shop->gauge.step.q.unit;
    double u = trace->sureness.expanded;
    struct scale scale = {rows, unit, uncertainty_shown_in(u, unit).places};
    put_force(&scale, "mean", "Steady pull, as read", trace->mean);
    put_doubt(&scale, "uncertainty", "U of it, of the trace alone", u);
    put_force(&scale, "force", "The force that it means",
              force_of_reading(&results->known, trace->mean));
    if (trace->broke_away) {
        put_force(&scale, "breakaway", "Breakaway", trace->breakaway);
        put_doubt(&scale, "breakaway-uncertainty", "U of it", trace->breakaway_u);
        put_row(rows, "breakaway-at", "at", show_places(text->times[trace->peak], 2).text, "s");
    }
    if (trace->rested)
        put_force(&scale, "zero", "At rest it reads", trace->zero);
    put_part(rows, text, trace);
    put_seen(&scale, trace);
    if (!text->unit_said)
        put_note(rows, "no unit is said: the readings are taken as %s, the gauge's",
                 unit->shown);
    note_zero(&scale, trace);
    note_turn(rows, text, shop, trace);
    note_breakaway(rows, trace);
    note_display(rows, trace);
    put_note(rows, "one trace is one pull: judge it with others, by its mean or in the log by "
                   "the file's name");
}
