#include "judge/series.h"

#include "judge/window.h"
#include "physics/physics.h"

#include <stdio.h>
#include <string.h>

/* How a series was taken, and whether the limits may judge it at all. They hold for the
 * locked nut, for a spindle as warm as the manual says, turned the usual way. */

struct pull_conditions series_conditions(const struct pull_series *series)
{
    return (struct pull_conditions){.lock = series->lock,
                                    .warmth = series->warm ? SAID_WARM : SAID_COLD,
                                    .other_way = series->other_way};
}

/* ---- what is typed ---- */

bool conditions_read(enum pull_column column, const char *text,
                     struct pull_conditions *conditions, struct quantity_fault *fault)
{
    int word = text[0] ? column_word(&pull_columns[column], text, fault) : -1;
    bool good = !text[0] || word >= 0;
    if (column == PULL_LOCK)
        conditions->lock = word < 0 ? LOCK_UNSAID : (enum lock)word;
    else if (column == PULL_WARMTH)
        conditions->warmth = (enum said_warmth)(word + 1);
    else
        conditions->other_way = word == 1;
    if (!good) {
        size_t used = strlen(fault->message);
        snprintf(fault->message + used, sizeof fault->message - used, ": %s",
                 pull_columns[column].meaning);
    }
    return good;
}

/* ---- what the limits are for ---- */

static bool of_other_warmth(const struct shop *shop, const struct pull_conditions *taken)
{
    return taken->warmth == (shop->limits.warmth == WARMTH_WARM ? SAID_COLD : SAID_WARM);
}

bool conditions_suit_limits(const struct shop *shop, const struct pull_conditions *taken)
{
    return !taken->other_way && taken->lock != LOCK_UNLOADED && !of_other_warmth(shop, taken);
}

/* And with the nut locked: then it may be judged. */
static bool taken_to_judge(const struct shop *shop, const struct pull_conditions *taken)
{
    return conditions_suit_limits(shop, taken) && taken->lock == LOCK_AFTER;
}

enum state state_under_conditions(const struct shop *shop, const struct pull_conditions *taken,
                                  enum state side)
{
    if (side == STATE_REJECTED || side == STATE_NO_PULL || side == STATE_NO_LIMIT)
        return side;
    if (of_other_warmth(shop, taken))
        return taken->warmth == SAID_WARM ? STATE_FOR_COLD : STATE_FOR_WARM;
    if (taken->other_way)
        return STATE_OTHER_WAY;
    if (taken->lock == LOCK_UNLOADED)
        return STATE_UNLOADED;
    if (taken->lock == LOCK_AFTER)
        return side;
    return taken->lock == LOCK_BEFORE ? STATE_NOT_LOCKED : STATE_LOCK_UNSAID;
}

/* What the years compare: the series that close a job in the log. */

static bool may_close(const struct shop *shop, const struct pull_series *series)
{
    struct pull_conditions taken = series_conditions(series);
    return taken_to_judge(shop, &taken);
}

bool closes_job(const struct shop *shop, const struct pull_series *series)
{
    const struct pull_series *end = shop->readings.items + shop->readings.count;
    if (!may_close(shop, series))
        return false;
    for (const struct pull_series *at = series + 1; at < end; at++) {
        if (date_days(at->date) - date_days(at[-1].date) >= CLOSING_REST_DAYS)
            return true;
        if (may_close(shop, at))
            return false;
    }
    return true;
}

/* Whether a row of the log has the nut unloaded, or crept back: a slack nut does not unload
 * the bearings. */

/* Where the nut has been, row by row. */
struct course {
    const struct pull_series *place;        /* the last row that says where it stands */
    const struct pull_series *top, *in_job; /* furthest on since it was unloaded */
    const struct pull_series *from;         /* turned back from there to where it stands */
    bool unloaded;                          /* it stands so */
};

static bool job_begins(const struct shop *shop, const struct pull_series *at)
{
    return at == shop->readings.items ||
           date_days(at->date) - date_days(at[-1].date) >= CLOSING_REST_DAYS;
}

static const struct pull_series *further_on(const struct pull_series *top,
                                            const struct pull_series *at)
{
    return top && top->nut.base > at->nut.base ? top : at;
}

static void turn_to(struct course *course, const struct pull_series *at)
{
    const struct pull_series *top = course->top, *in_job = course->in_job;
    course->place = at;
    course->from = NULL;
    course->unloaded = top && top->nut.base - at->nut.base >= NUT_QUARTER_TURN;
    if (course->unloaded)
        course->top = course->in_job = at;
    else if (in_job && in_job->nut.base > at->nut.base)
        course->from = in_job;
}

static void go_on(const struct shop *shop, struct course *course, const struct pull_series *at)
{
    if (job_begins(shop, at))
        course->in_job = NULL;
    if (at->lock == LOCK_UNLOADED) {
        *course = (struct course){.place = at->nut.unit ? at : NULL, .unloaded = true};
        return;
    }
    if (!at->nut.unit)
        return;
    if (!course->place || series_nut_moved(course->place, at))
        turn_to(course, at);
    course->top = further_on(course->top, at);
    course->in_job = further_on(course->in_job, at);
}

static struct course course_to(const struct shop *shop, const struct pull_series *series)
{
    struct course course = {0};
    for (const struct pull_series *at = shop->readings.items; at <= series; at++)
        go_on(shop, &course, at);
    return course;
}

bool series_unloaded(const struct shop *shop, const struct pull_series *series)
{
    return course_to(shop, series).unloaded;
}

const struct pull_series *series_backed_off(const struct shop *shop,
                                            const struct pull_series *series)
{
    return course_to(shop, series).from;
}

/* Five states of a drag against a window, and why there is none; the words and shapes for them.
 * The rule: ISO 14253-1 and JCGM 106, with the guard band equal to U. */

#define NOT_JUDGED "–"

static const struct {
    const char *words, *shape, *next;
} states[] = {
    [STATE_CLEARLY_LOW] = {"clearly low", "▼",
                           "Tighten by a small step from the loose side. Turn the spindle ten "
                           "times each way, lock, measure again."},
    [STATE_LOW_IN_DOUBT] =
        {"low or in doubt", "▽",
         "Do not call it good. Take more pulls or a surer gauge; or tighten by "
         "a very small step toward the aim, lock, measure again."},
    [STATE_GOOD] = {"good", "●",
                    "Leave the nut alone and write it down. To come nearer to the aim free the "
                    "lock, go on "
                    "by small steps from the loose side, lock, measure again."},
    [STATE_HIGH_IN_DOUBT] =
        {"high or in doubt", "△",
         "Do not call it good. Take more pulls or a surer gauge; if it stays, "
         "unload and come again from the loose side."},
    [STATE_CLEARLY_HIGH] = {"clearly high", "▲",
                            "Do not run it: " UNLOAD_BY_A_PUSH
                            ". Then start again from the loose side. Never "
                            "stop on a backing-off."},
    [STATE_UNDECIDED] =
        {"none: this gauge and drum cannot decide", "◇",
         "Make the doubt smaller: check the gauge with weights, take a finer gauge "
         "or a smaller drum (more pull for the same drag)."},
    [STATE_SCATTERED] =
        {"none: these pulls cannot decide", "◇",
         "Take more pulls, five or more. If they scatter, find out why before you "
         "take them."},
    [STATE_REJECTED] = {"rejected: find the cause, take all again", "×",
                        "Do not use these pulls: they lie further apart than a tenth of their "
                        "mean and than two steps of the gauge (rules of thumb of ours)."},
    [STATE_NO_PULL] =
        {"none: the gauge saw nothing", "×",
         "Look whether the cord pulls at the hook, whether the spindle turned, and "
         "whether the gauge is on. Then take all again. Do not move the nut by it."},
    [STATE_NO_LIMIT] = {NO_LIMIT_ON_FILE, "–",
                        "Write it down, and compare it with earlier drags taken alike. Never "
                        "move the nut by it: no drag is known to be right."},
    [STATE_FOR_COLD] =
        {"not judged: limits are for cold", NOT_JUDGED,
         "Let the spindle cool to the temperature of the workshop, the nut as it "
         "is, and measure again. A warm drag is only compared with warm ones."},
    [STATE_FOR_WARM] = {"not judged: limits are for warm", NOT_JUDGED,
                        "Warm the spindle as your manual says, the nut as it is, and measure "
                        "again. A cold drag is only compared with cold ones."},
    [STATE_OTHER_WAY] = {"not judged: other way round", NOT_JUDGED,
                         "Compare it with the usual way round, taken alike. Only the usual way "
                         "is judged."},
    [STATE_NOT_LOCKED] =
        {"not judged: not locked", NOT_JUDGED,
         "Lock, and measure again: only the drag of the locked nut is judged."},
    [STATE_LOCK_UNSAID] = {"not judged: lock not said", NOT_JUDGED,
                           "Say whether you pulled before or after the nut was locked. If "
                           "before: lock, and measure again."},
    [STATE_UNLOADED] =
        {"not judged: unloaded", NOT_JUDGED,
         "Write it down. Cord off, and come again from the loose side; by 1 to 2 "
         "degrees for the first steps (our rule), and measure after each."},
    [STATE_BACKED_OFF] =
        {"backed off, not unloaded: no good setting", "\u00d7",
         "A nut turned back does not unload the bearings. Do not run it: " UNLOAD_BY_A_PUSH
         ". Then come again from the loose side."},
};

const char *state_words(enum state state)
{
    return states[state].words;
}

const char *state_shape(enum state state)
{
    return states[state].shape;
}

void state_text(enum state state, char text[STATE_TEXT])
{
    snprintf(text, STATE_TEXT, "%s %s", state_shape(state), state_words(state));
}

bool state_turns_nut(enum state state)
{
    return state != STATE_GOOD && state != STATE_REJECTED && state != STATE_NO_PULL &&
           state != STATE_BACKED_OFF;
}

const char *state_next(enum state state)
{
    return states[state].next;
}

enum state state_of(const struct decimal *drag, const struct decimal *low,
                    const struct decimal *high, const struct decimal *expanded)
{
    struct decimal least = decimal_subtract(drag, expanded), most = decimal_add(drag, expanded);
    if (decimal_compare(&most, low) < 0)
        return STATE_CLEARLY_LOW;
    if (decimal_compare(&least, high) > 0)
        return STATE_CLEARLY_HIGH;
    bool low_doubt = decimal_compare(&least, low) < 0;
    bool high_doubt = decimal_compare(&most, high) > 0;
    if (low_doubt && high_doubt)
        return STATE_UNDECIDED;
    if (low_doubt)
        return STATE_LOW_IN_DOUBT;
    return high_doubt ? STATE_HIGH_IN_DOUBT : STATE_GOOD;
}

const char *next_when_high(enum lock lock)
{
    return lock == LOCK_AFTER ? state_next(STATE_CLEARLY_HIGH)
                              : "Do not lock, do not run: " UNLOAD_BY_A_PUSH
                                ". Then come again from the loose side.";
}

bool good_by_few(const struct judgement *judgement)
{
    return judgement->state == STATE_GOOD && judgement->pulls.count < 3;
}

bool drag_below_slack(const struct shop *shop, const struct judgement *judgement)
{
    return judgement->band && shop->limits.basis == BASIS_INCREASE &&
           judgement->conditions.lock != LOCK_UNLOADED && judgement->pulls.most > 0 &&
           judgement->drag < shop->limits.slack_drag.q.base;
}

struct series series_of_pulls(const struct quantity *pulls, size_t count)
{
    double values[MOST_PULLS];
    for (size_t i = 0; i < count; i++)
        values[i] = pulls[i].base;
    return series_of(values, count);
}

static struct decimal times(const struct decimal *a, int64_t factor)
{
    struct decimal many = decimal_of(factor, 0);
    return decimal_multiply(a, &many);
}

/* The mean drag times 2 n, exactly: the sum of the pulls times (D + d). */
static struct decimal scaled_drag(const struct drum_setup *setup, const struct quantity *pulls,
                                  size_t count)
{
    struct decimal sum = decimal_of(0, 0), span = double_radius(setup->drum, setup->cord);
    for (size_t i = 0; i < count; i++)
        sum = decimal_add(&sum, &pulls[i].exact);
    return decimal_multiply(&sum, &span);
}

static struct decimal range_of(const struct quantity *pulls, size_t count)
{
    struct decimal least = pulls[0].exact, most = pulls[0].exact;
    for (size_t i = 1; i < count; i++) {
        if (decimal_compare(&pulls[i].exact, &least) < 0)
            least = pulls[i].exact;
        if (decimal_compare(&pulls[i].exact, &most) > 0)
            most = pulls[i].exact;
    }
    return decimal_subtract(&most, &least);
}

bool pulls_too_wide(const struct shop *shop, const struct quantity *pulls, size_t count)
{
    struct decimal range = range_of(pulls, count), sum = decimal_of(0, 0);
    for (size_t i = 0; i < count; i++)
        sum = decimal_add(&sum, &pulls[i].exact);
    struct decimal tenfold = times(&range, 10 * (int64_t)count);
    struct decimal steps = times(&shop->gauge.step.q.exact, 2);
    return decimal_compare(&tenfold, &sum) > 0 && decimal_compare(&range, &steps) > 0;
}

/* Whether the scatter of the pulls is the largest part of the doubt. */
static bool scatter_leads(const struct doubt *doubts, double bias)
{
    for (int i = 0; i < DOUBT_SOURCES; i++)
        if (doubts[i].u > doubts[DOUBT_REPEAT].u)
            return false;
    return bias / 2 <= doubts[DOUBT_REPEAT].u; /* halved as a doubt is, before it is doubled */
}

static void decide(const struct shop *shop, const struct drum_setup *setup,
                   const struct quantity *pulls, struct judgement *judgement)
{
    int64_t scale = 2 * (int64_t)judgement->pulls.count;
    struct decimal drag = scaled_drag(setup, pulls, judgement->pulls.count);
    struct decimal low = pulled_limit(shop, &judgement->band->low);
    struct decimal high = pulled_limit(shop, &judgement->band->high);
    struct decimal expanded = times(&judgement->shown_u.exact, scale);
    low = times(&low, scale);
    high = times(&high, scale);
    judgement->by_number = state_of(&drag, &low, &high, &expanded);
    if (judgement->by_number == STATE_UNDECIDED && judgement->scattered)
        judgement->by_number = STATE_SCATTERED;
    if (given(&shop->limits.never_exceed)) {
        struct decimal never = pulled_limit(shop, &shop->limits.never_exceed);
        struct decimal most = decimal_add(&drag, &expanded);
        never = times(&never, scale);
        judgement->over_never = decimal_compare(&most, &never) > 0;
    }
}

struct judgement judge_pulls(const struct shop *shop, const struct band *band,
                             const struct drum_setup *setup,
                             const struct pull_conditions *taken, const struct quantity *pulls,
                             size_t count)
{
    struct doubt doubts[DOUBT_SOURCES];
    struct judgement judgement = {
        .band = band, .conditions = *taken, .pulls = series_of_pulls(pulls, count)};
    double mean = judgement.pulls.mean;
    judgement.drag = drag_from_pull(mean, effective_radius(setup->drum, setup->cord));
    judgement.uncertainty = pull_uncertainty(shop, setup, mean, &judgement.pulls, doubts);
    judgement.unit = band ? band->high.q.unit : shop_drag_unit(shop);
    judgement.shown_u = uncertainty_shown_in(judgement.uncertainty.expanded, judgement.unit);
    judgement.scattered = scatter_leads(doubts, judgement.uncertainty.bias);
    judgement.by_number = STATE_NO_LIMIT;
    if (judgement.pulls.most <= 0)
        judgement.by_number = STATE_NO_PULL;
    else if (pulls_too_wide(shop, pulls, count))
        judgement.by_number = STATE_REJECTED;
    else if (band)
        decide(shop, setup, pulls, &judgement);
    judgement.state = state_under_conditions(shop, taken, judgement.by_number);
    return judgement;
}

/* Not where the pulls say nothing, nor where the drag says worse. */
static bool is_said_of_backed_off(enum state state)
{
    return state != STATE_CLEARLY_HIGH && state != STATE_REJECTED && state != STATE_NO_PULL;
}

struct judgement judge_series_as(const struct shop *shop, const struct band *band,
                                 const struct pull_conditions *taken,
                                 const struct pull_series *series)
{
    struct drum_setup setup = shop_drum_setup(shop);
    setup.drum = &series->drum;
    setup.cord = &series->cord;
    struct judgement judgement =
        judge_pulls(shop, band, &setup, taken, series->pulls, series->pull_count);
    judgement.backed_off = series_backed_off(shop, series);
    if (judgement.backed_off && is_said_of_backed_off(judgement.state))
        judgement.state = STATE_BACKED_OFF;
    return judgement;
}

struct judgement judge_series(const struct shop *shop, const struct pull_series *series)
{
    struct pull_conditions taken = series_conditions(series);
    return judge_series_as(shop, shop_own_band(shop), &taken, series);
}

/* What is typed at the bench, and whether it may stand. */

static bool refused(struct quantity_fault *fault, const char *why)
{
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message, "%s", why);
    return false;
}

bool pull_allowed(const struct shop *shop, const struct quantity *pull, size_t taken,
                  struct quantity_fault *fault)
{
    if (taken >= MOST_PULLS)
        return refused(fault, "there are too many pulls; judge them in two series");
    if (pull->exact.negative)
        return refused(fault, "a pull is below zero; zero the gauge and write the pull");
    if (shop && decimal_compare(&pull->exact, &shop->gauge.capacity.q.exact) > 0)
        return refused(fault,
                       "this is more than the gauge can read; if the gauge ran to its end, it "
                       "reads too little, and the pull is too high to read: unload, or take a "
                       "larger gauge or a larger drum. Else look for a slip of the pen, or "
                       "correct gauge.capacity in the settings");
    return true;
}

bool band_read(const struct shop *shop, const char *text, const struct band **band,
               struct quantity_fault *fault)
{
    struct quantity speed;
    *band = NULL;
    if (!quantity_parse(text, KIND_SPEED, &speed, fault))
        return false;
    *band = shop_band_at(shop, speed.base);
    if (*band || !shop_has_limits(shop))
        return true;
    fault->offset = 0;
    snprintf(fault->message, sizeof fault->message,
             "%s lies in no speed band; give a speed that the limits cover", text);
    return false;
}
