/* From a series of pulls to its drag, and with what chance it lies beyond the limits, by what
 * is known in this workshop on that day. */
#ifndef JUDGE_MEASURE_H
#define JUDGE_MEASURE_H

#include "judge/gauge.h"
#include "number/show.h"
#include "physics/physics.h"
#include "shop/shop.h"

/* A drum with a cord on it, as it stands in the shop. */
struct drum_setup {
    const struct quantity *drum, *drum_tolerance, *cord, *cord_tolerance;
};

struct drum_setup shop_drum_setup(const struct shop *shop);

/* The effective radius: from the spindle's axis to the middle of the cord. */
double effective_radius(const struct quantity *drum, const struct quantity *cord);

/* That of the shop's own drum and cord. */
double shop_radius(const struct shop *shop);

/* What is known on a day before a series is taken: the settings, the gauge's check, how pulls
 * scatter, and for limits that are an increase the pulls with the nut slack. */
struct known {
    const struct shop *shop;
    struct gauge_in_force gauge;
    struct scatter scatter;
    struct between between;
    struct pull_mean slack; /* as read, N; count 0: not needed */
    double slack_radius;    /* where it was read, m */
};

/* Before any series of the log. */
struct known known_at_first(const struct shop *shop);

/* Moves on to a day, date_days(): the check in force on it. slack: the pulls of the same job
 * with the nut slack, N as read at an effective radius (m); NULL: none were logged, and where
 * the limits are an increase the typed slack drag stands for the usual pulls with that mean. */
void known_on_day(struct known *known, const struct gauge_checks *checks, long day,
                  const struct pull_mean *slack, double radius);

/* A limit (N.m) of the whole drag: with the drag of the slack nut, by the check in force, where
 * the maker's limit is an increase over it. */
double whole_limit(const struct known *known, const struct measure *limit);

/* What a series teaches: its pulls as read, N. */
void known_learn(struct known *known, const double *pulls, size_t count);

/* The pulls that would be taken next with such a mean (N, as read): as many as are usual,
 * scattered as is known. */
struct pull_mean usual_pulls(const struct known *known, double reading);

/* The force (N) of a reading (N) by the check in force. */
double force_of_reading(const struct known *known, double reading);

/* The reading (N) of a drag (N.m) at an effective radius (m): a limit as the gauge shows it; of
 * an increase with the slack drag. And the other way round: the drag, or the increase, that a
 * mean reading means. */
double reading_of_drag(const struct known *known, double radius, double drag);
double drag_of_reading(const struct known *known, double radius, double reading);

/* The reading (N) at the shop's own radius of a drag that is typed as the whole of it. */
double reading_of_whole(const struct known *known, double drag);

/* A drag by the check in force, and by the other where two checks do not agree. */
struct measured {
    struct drag_measured drag, other; /* U of the first alone */
    bool two;                         /* other counts */
    bool trend;                       /* its pulls rise or fall steadily */
    /* By what share of the reading the check in force corrects it; and whether that is more
     * than twice the data sheet's error. Of a check that is confirmed 0, and false. */
    double far;
    bool beyond_sheet;
};

/* Of the reading: corrected by more than that, the weights may be wrong. */
#define FAR_OFF 0.2

/* All that the drag of a series follows from by a check of the gauge; NULL: by none. */
struct measuring measuring_of(const struct known *known, const struct drum_setup *setup,
                              const struct pull_mean *pulls, const struct gauge_check *check);

/* budget: BUDGET_ROWS, by the check in force; may be NULL. */
struct measured measure_pulls(const struct known *known, const struct drum_setup *setup,
                              const struct pull_mean *pulls, struct doubt *budget);

/* What a measured drag is against a low and a high limit (N.m), by its numbers alone. */
enum verdict {
    VERDICT_LOW,          /* below the low limit with a chance of 97.5 % and more */
    VERDICT_LOW_IN_DOUBT, /* with one of more than 2.5 % */
    VERDICT_GOOD,         /* outside the limits with a chance of 2.5 % at most */
    VERDICT_HIGH_IN_DOUBT,
    VERDICT_HIGH,
    VERDICT_NONE /* all else */
};

/* Why a drag that its numbers call good is not. */
enum withheld {
    WITHHELD_NOT,
    WITHHELD_CHECKS_DIFFER, /* two checks of the gauge do not agree */
    WITHHELD_FAR_OFF,       /* the check corrects the reading by more than a fifth, and is not
                               confirmed */
    WITHHELD_TREND          /* the pulls rise or fall steadily */
};

struct decision {
    enum verdict verdict;
    double below, above; /* the chances; where two checks count, the larger of the two */
    enum withheld withheld;
};

struct decision decide(const struct measured *measured, double low, double high);

/* The least and the greatest drag (N.m) that would be good, were the doubt that of this one.
 * False: there is none. */
bool good_drags(const struct measured *measured, double low, double high, double *least,
                double *most);

/* The chance that it lies above never-exceed (N.m), the larger one of two. */
double chance_over(const struct measured *measured, double never);

/* JCGM 106: the chance of being wrong that is taken when a drag is called good. */
extern const double risk_taken;

/* The least and the greatest reading (N) at which the usual pulls would be called good. False:
 * there is none. */
bool good_readings(const struct known *known, const struct drum_setup *setup, double low,
                   double high, double *least, double *most);

/* An uncertainty as it is shown: rounded up to two digits in a unit. Nothing, where there is
 * none. */
struct shown_uncertainty {
    struct decimal typed; /* in the unit */
    struct decimal exact; /* in the base unit */
    int places;           /* digits behind the point */
};

struct shown_uncertainty uncertainty_shown_in(double base, const struct unit *unit);

#endif
