/* A model to try in place of the library's: plain arithmetic on what a log would hold. As it
 * stands it says what the library says today; simulate --candidate asks it. */
#include "chain.h"
#include "physics/physics.h"

/* The gauge: one line through all weighings, its error at the reading left in. */
static struct pull_doubts doubts_of_gauge(const struct chain_data *data, double mean)
{
    struct pull_doubts doubts = {.pull = mean, .step = data->step};
    double forces[CHAIN_WEIGHINGS], readings[CHAIN_WEIGHINGS], least = INFINITY, most = 0;
    for (int i = 0; i < data->weighing_count; i++) {
        forces[i] = weight_of(data->weighings[i].mass, data->gravity);
        readings[i] = data->weighings[i].reading;
        least = fmin(least, forces[i]);
        most = fmax(most, forces[i]);
    }
    struct line line = line_through(forces, readings, (size_t)data->weighing_count);
    if (!isfinite(line.slope)) {
        doubts.gauge_half_width = data->stated_error;
        return doubts;
    }
    double last = fmin(fmax(mean, least / 2), most * 1.25);
    doubts.gauge_bias =
        fmax(fabs(line_at(&line, mean) - mean), fabs(line_at(&line, last) - last));
    doubts.gauge_u = fmax(hypot(line_se_at(&line, mean), line.sd), doubt_of_step(data->step));
    doubts.gauge_nu = (double)line.count - 2;
    return doubts;
}

/* Where there are fewer pulls than five, the scatter is at least 2 %. */
static void add_scatter(const struct series *series, struct pull_doubts *doubts)
{
    static const size_t usual = 5;
    double planned = 0.02 * series->mean;
    bool own = series->count >= 2 && (series->count >= usual || series->sd > planned);
    doubts->sd_of_mean = (own ? series->sd : planned) / sqrt((double)series->count);
    doubts->pulls_nu = (double)(own ? series->count : usual) - 1;
}

static enum verdict_state state_of_drag(const struct verdict *verdict, double low, double high)
{
    double least = verdict->drag - verdict->expanded, most = verdict->drag + verdict->expanded;
    if (most < low)
        return VERDICT_LOW;
    if (least > high)
        return VERDICT_HIGH;
    if (least < low)
        return most > high ? VERDICT_UNDECIDED : VERDICT_LOW_IN_DOUBT;
    return most > high ? VERDICT_HIGH_IN_DOUBT : VERDICT_GOOD;
}

void candidate(const struct chain_data *data, struct verdict *verdict)
{
    double radius = drag_radius(data->drum, data->cord), slack = 0;
    struct series series = series_of(data->series.pulls, (size_t)data->series.count);
    struct pull_doubts known = doubts_of_gauge(data, series.mean);
    known.drum = data->drum;
    known.drum_tolerance = data->drum_tolerance;
    known.cord = data->cord;
    known.cord_tolerance = data->cord_tolerance;
    known.skew = data->skew;
    add_scatter(&series, &known);
    struct doubt doubts[DOUBT_SOURCES];
    if (data->increase)
        slack = series_of(data->slack.pulls, (size_t)data->slack.count).mean * radius;
    verdict->expanded = drag_uncertainty(&known, doubts).expanded;
    verdict->drag = series.mean * radius - slack;
    double range = series.most - series.least;
    bool wide = range > series.mean / 10 && range > 2 * data->step;
    verdict->state = wide ? VERDICT_REJECTED : state_of_drag(verdict, data->low, data->high);
}
