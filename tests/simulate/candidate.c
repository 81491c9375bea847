/* A place to try a model in plain arithmetic, on what a log would hold: simulate --candidate
 * asks it in place of the library. As it stands it is the plainest that there is: the line of
 * the latest check read backwards, and Student's t of the pulls alone. */
#include "chain.h"
#include "physics/physics.h"

/* Up to today; slope NaN: there is none. */
static struct line latest_line(const struct chain_data *data)
{
    double forces[CHAIN_WEIGHINGS], readings[CHAIN_WEIGHINGS];
    size_t count = 0;
    int day = -1;
    for (int i = 0; i < data->weighing_count; i++) {
        const struct weighing_seen *seen = &data->weighings[i];
        if (seen->day > data->today)
            break;
        if (seen->day != day)
            count = 0;
        day = seen->day;
        forces[count] = weight_of(seen->mass, data->gravity);
        readings[count++] = seen->reading;
    }
    return line_through(forces, readings, count);
}

static enum called called_of(double drag, double expanded, double low, double high)
{
    double least = drag - expanded, most = drag + expanded;
    if (most < low)
        return CALLED_LOW;
    if (least > high)
        return CALLED_HIGH;
    if (least < low)
        return most > high ? CALLED_UNDECIDED : CALLED_LOW_IN_DOUBT;
    return most > high ? CALLED_HIGH_IN_DOUBT : CALLED_GOOD;
}

void candidate(const struct chain_data *data, struct answer *answer)
{
    double arm = drag_radius(data->drum, data->cord);
    struct line line = latest_line(data);
    if (!isfinite(line.slope))
        line = (struct line){.slope = 1};
    struct series pulls = series_of(data->series.pulls, (size_t)data->series.count);
    double zero = line.intercept, n = (double)pulls.count, variance = pulls.sd * pulls.sd / n;
    if (data->increase) {
        struct series slack = series_of(data->slack.pulls, (size_t)data->slack.count);
        zero = slack.mean;
        variance += slack.sd * slack.sd / (double)slack.count;
    }
    answer->drag = (pulls.mean - zero) / line.slope * arm;
    answer->expanded =
        student_factor(student_coverage, n - 1) * sqrt(variance) / line.slope * arm;
    answer->state = called_of(answer->drag, answer->expanded, data->low, data->high);
}
