/* The workshop as typed and checked: the lathe, its limits, the drum, the cord,
 * the gauge, the nut and the paper. Filled by shop/settings.c and
 * shop/logs.c, checked by shop_check(), and only read from then on.
 *
 * An optional value that was not given has no unit (see given()), unless something stands in
 * for it: the column `fallback` of settings_fields[], put in by fields_fill(). */
#ifndef SHOP_SHOP_H
#define SHOP_SHOP_H

#include "base/diag.h"
#include "number/quantity.h"

#include <stdbool.h>

/* A quantity and where it was written. */
struct measure {
    struct quantity q;
    struct place at;
};

static inline bool given(const struct measure *measure)
{
    return measure->q.unit != NULL;
}

/* Neither there nor there with a fault of its own. */
static inline bool absent(const struct measure *measure)
{
    return !given(measure) && !measure->at.file;
}

/* A whole number, and where it was written. 0: not given, and nothing stands in. */
struct count {
    int number;
    struct place at;
};

/* Whether the value is the user's own, and not what stands in for it. */
static inline bool is_typed(const struct place *at)
{
    return at->file != NULL;
}

enum on_file { ON_FILE_YES, ON_FILE_NONE };

enum torque_kind { TORQUE_RUNNING, TORQUE_STARTING };

enum basis { BASIS_ABSOLUTE, BASIS_INCREASE };

enum bearings { BEARINGS_NEW, BEARINGS_USED };

enum warmth { WARMTH_COLD, WARMTH_WARM };

/* One speed band of the maker's limits. Both edges belong to the band. */
struct band {
    struct place at;
    struct measure from, to;  /* turning speed */
    struct measure low, high; /* drag, in the maker's unit */
    const char *page;         /* of the manual; NULL where not given */
};

enum { MOST_LIST = 60 }; /* quantities of one list */

struct measures {
    struct measure *items;
    size_t count;
};

struct lathe {
    const char *name, *workshop;
    const char *notice;       /* printed on every sheet; NULL where not given */
    struct measure top_speed; /* the fastest it will ever run */
    struct measures speeds;   /* those it has, slow to fast; may be empty */
};

/* Without limits on file all else here is empty, and nothing may stand in for it. */
struct limits {
    const char *id;     /* in the register limits.yaml; NULL where all is typed */
    int on_file;        /* enum on_file */
    const char *source; /* the manual, in words */
    int torque;         /* enum torque_kind */
    int basis;          /* enum basis */
    int bearings;       /* enum bearings */
    int warmth;         /* enum warmth */
    struct band *bands; /* in order of speed */
    size_t band_count;
    struct measure never_exceed; /* optional; a drag on the same basis */
    struct measure slack_drag;   /* needed when the basis is an increase */
    struct measure maker_arm;    /* optional: the radius at which the maker pulls */
};

enum drum_material { DRUM_PRINTED, DRUM_ALUMINIUM, DRUM_STEEL };

struct drum {
    const char *id, *name; /* NULL where not given */
    struct measure diameter, tolerance;
    struct measure wanted_radius; /* optional: of a drum to make, with the cord on it */
    struct measure bore;          /* optional: of that drum */
    struct count turns;           /* of cord on it */
    /* What else that drum has; optional. What lies on the nose is a plain bore, where neither
     * plug nor cap is given. */
    const char *mark; /* cut into its face */
    struct measure flange, peg, most_width;
    struct measure plug_diameter, plug_length;
    struct count holes; /* for screws; 0: none */
    struct measure hole_circle, hole_diameter;
    struct measure cap_depth;
    int material; /* enum drum_material */
    struct measure shrinkage, layer;
};

struct cord {
    const char *id, *name; /* NULL where not given */
    struct measure diameter, tolerance;
    struct measure strength; /* optional: the pull at which it breaks */
};

struct gauge {
    const char *id, *name; /* NULL where not given */
    struct measure capacity, step;
    struct measure full_scale_error, reading_error; /* optional, % */
    struct measure checked_error;                   /* optional, force */
    struct measure zero_error, orientation_error;   /* optional, force */
};

/* One known weight hung on the gauge, or one known force. */
struct weighing {
    struct place at;
    const char *date;
    const char *by, *note;   /* who weighed, and anything; "" where not said */
    const char *masses;      /* what the weights are called; NULL where not said */
    const char *certificate; /* the number of theirs; NULL where they have none */
    bool down;               /* taken while unloading */
    struct quantity load;    /* mass or force */
    struct quantity reading;
    struct quantity tolerance; /* of the load, %; without a unit where not said */
};

struct weighings {
    struct weighing *items;
    size_t count;
};

enum { SERIES_PULLS = 20 };

/* Measured before or after locking, or with the nut unloaded, until end play is felt. */
enum lock { LOCK_UNSAID, LOCK_BEFORE, LOCK_AFTER, LOCK_UNLOADED };

/* What was done in a job and shows in no pull; the numbers are those of the words of
 * pull_columns[PULL_STEP]. */
enum step {
    STEP_NONE, /* a series of pulls */
    STEP_BEGUN,
    STEP_MADE_SAFE,
    STEP_FREED,
    STEP_LOCKED,
    STEP_OFF, /* cord, drum and spanner */
    STEP_RUN_IN,
    STEP_END_PLAY,
    STEP_LIFT_TEST,
    STEP_RUN_OUT,
    STEP_MARKED,
    STEP_SKIPPED,
    STEP_CORRECTED, /* the row that it names does not count */
    STEP_CLOSED
};

/* A pull of which the log names the trace. */
struct traced_pull {
    const char *file; /* in the folder of the traces */
    struct place at;
    size_t pull; /* which one of the series */
};

/* A row of the log as written: a series of pulls, or a step without any. What was not given has
 * no unit. */
struct pull_series {
    struct place at;
    size_t number; /* its place in the log; a correction has that of the row that it corrects */
    const char *date, *note;
    const char *job, *by, *id; /* NULL where not said */
    const char *corrects;      /* the id or the date of the row that it corrects, or NULL; */
    const struct pull_series *corrected; /* that row, which is in no list of rows any more */
    enum step step;
    struct quantity speed, minutes, room; /* may be missing; the workshop's temperature */
    struct quantity drum, cord;           /* the settings' own where the log gave none */
    struct quantity nut;                  /* angle, tightening positive; may be missing */
    enum lock lock;
    bool other_way; /* the spindle turned against its usual direction */
    bool warm;
    struct quantity temperature, breakaway; /* may be missing */
    struct quantity *pulls;                 /* at most SERIES_PULLS */
    size_t pull_count;
    struct traced_pull *traces; /* those pulls are read by traces_read() */
    size_t trace_count;
    double traces_u; /* of their readings: root of the sum of the squares, N */
    /* What the rows before make of it: pull_log_follow_nut(). */
    bool unloaded;                        /* it was pulled with the nut unloaded */
    const struct pull_series *backed_off; /* from that row the nut was turned back; or NULL */
};

struct pull_series_log {
    struct pull_series *items;
    size_t count;
};

/* Where the workshop lies, for the local gravity: that of the sea's level where only the
 * latitude is given, standard gravity where that is not. */
struct site {
    struct measure latitude; /* optional, north positive */
    struct measure height;   /* optional, above the sea */
};

/* How pulls are taken here, for what must be said before any is taken. */
struct pulls {
    struct count count;     /* of a series */
    struct measure scatter; /* standard deviation as % of the pull */
    struct measure skew;    /* the most that a pull is askew */
};

struct nut {
    struct measure pitch;            /* length; or */
    struct measure threads;          /* per inch: one of the two, or neither */
    struct measure outside_diameter; /* optional */
};

/* How the spindle is run in, from the lathe's manual. */
struct run_in {
    struct measure room;                 /* temperature of the workshop */
    struct measure stop;                 /* the most that the cap may have */
    struct measure rise;                 /* the most that it may be above the room */
    struct measure stage_time, top_time; /* the least at each stage, and at top speed */
};

enum arrangement { ARRANGEMENT_UNKNOWN, BACK_TO_BACK, FACE_TO_FACE };

/* The spindle's two bearings, for what warming does to them: all optional. */
struct spindle {
    int arrangement;                    /* enum arrangement */
    struct measure span;                /* between the middles of the two bearings */
    struct measure pitch_diameter;      /* of the front bearing */
    struct measure rear_pitch_diameter; /* that of the front where not given */
    struct measure contact_angle;       /* half the cup's included angle */
};

/* The oil: its grade, or two viscosities of its data sheet; all optional. */
struct oil_typed {
    int grade; /* index of the word in oil_grade_words */
    struct measure first_viscosity, first_temperature;
    struct measure second_viscosity, second_temperature;
};

struct paper {
    int booklet;                     /* index of the word in fields.c */
    int card;                        /* likewise */
    struct measure thickness;        /* of the booklet's and the strips' paper */
    struct count gathering;          /* most sheets folded into one another */
    struct measure reading_distance; /* from the eye to the card */
    struct measure hole;             /* optional: of the card, from its top edge */
};

enum { FINGERPRINT_TEXT = 9 };

/* A text of the user's, and where it was written. */
struct typed_text {
    const char *text;
    struct place at;
    bool cut; /* a remark, "# ...", stands behind it: a part of the text may have been meant */
};

/* What was read in another way than it is written: an old name, a comma, another way to write a
 * unit. */
struct read_as {
    struct place at;
    const char *words;
};

struct stored_record; /* shop/stored.h */

/* Settings that were in force before a day, date_days(). */
struct earlier {
    long day;
    const struct shop *shop;
};

struct shop {
    const char *file;        /* of the settings */
    struct earlier *earlier; /* in the order of their days; may be empty */
    size_t earlier_count;
    const struct shop *filed; /* without what is replaced for this run; NULL: nothing is, or
                                 what is filed does not stand without it */
    struct read_as *read_as;  /* of each log the first alone */
    size_t read_as_count;
    struct typed_text *texts; /* all that may be printed */
    size_t text_count;
    struct lathe lathe;
    struct limits limits;
    struct drum drum;
    struct cord cord;
    struct gauge gauge;
    struct pulls pulls;
    struct site site;
    struct weighings weighings;      /* the gauge's check; may be empty */
    struct pull_series_log readings; /* the log of pulls, oldest first; may be empty */
    struct pull_series_log steps;    /* the log's rows without pulls, likewise */
    struct stored_record *stored;    /* what was said of closed jobs, by their names */
    size_t stored_count;
    struct nut nut;
    struct run_in run_in;
    struct spindle spindle;
    struct oil_typed oil;
    struct measures drum_sizes; /* common drums to tabulate, small to large */
    struct measures arms;       /* radii to compare with; may be empty */
    struct paper paper;
    char fingerprint[FINGERPRINT_TEXT]; /* of settings and gauge check, in hex digits */
};

/* Notes a text of one line and fitting length in the shop, with its place: whether every
 * character can be printed is only known later. Else false, with a fault that calls it by the
 * given name. */
bool shop_keep_text(struct shop *shop, struct arena *arena, struct diags *diags,
                    const char *name, struct typed_text typed);

/* Where a text of the shop's was written; of another the settings as a whole. */
struct place shop_place_of_text(const struct shop *shop, const char *text);

/* Notes that a value was read in another way than it is written, if it was. */
void shop_note_quantity(struct shop *shop, struct arena *arena, struct place at,
                        const char *name, const struct quantity *quantity);

/* Looks at what was given: bands in order without gap or overlap, low below high, nothing above
 * never-exceed, the gauge's step below its capacity, and so on. Every fault goes to diags.
 * Sorts the bands, the lathe's speeds, the drum sizes and the arms. False where the bands are
 * not in order. */
bool shop_check_given(struct shop *shop, struct diags *diags);

/* The same, and that nothing is missing which another key asks for: a band for the top speed, a
 * slack drag for an increase, an error of the gauge. */
void shop_check(struct shop *shop, struct diags *diags);

/* What stands wherever a limit would, in a shop that has none. */
#define NO_LIMIT         "no limit on file"
#define NO_LIMIT_ON_FILE NO_LIMIT ": trend only"

/* The settings in force on a day, date_days(): by them what was logged on it is judged. Those
 * that were filed, whatever a run replaces. */
const struct shop *shop_on_day(const struct shop *shop, long day);

/* Whether there are limits. Without them no function gives a band, and drags are only
 * compared with earlier ones. */
bool shop_has_limits(const struct shop *shop);

/* Whether the pulls that count are starting ones, each the most that the gauge shows as the
 * spindle starts from rest. Else they are steady ones: also without limits. */
bool shop_reads_starting(const struct shop *shop);

/* The unit in which drags are shown: that of the lathe's own band; without limits the
 * newton-metre, or the pound-force inch where the gauge reads an imperial force. */
const struct unit *shop_drag_unit(const struct shop *shop);

/* The band that holds for a speed (r/min): of two that share the speed as an
 * edge, the stricter, which is the one with the lower high limit, or with equal
 * high limits the one with the higher low limit. NULL outside all bands, and without
 * limits. */
const struct band *shop_band_at(const struct shop *shop, double speed);

/* The band for the fastest speed that the lathe will ever run; NULL without limits. */
const struct band *shop_own_band(const struct shop *shop);

enum { MOST_DRUMS = MOST_LIST + 1 }; /* the common ones and the fitted one */

/* The common drums and the fitted one, where none of them is as large, in its place among
 * them, from small to large; returns how many. */
size_t shop_drums(const struct shop *shop, const struct quantity *drums[MOST_DRUMS]);

/* Whether a drum is as large as the fitted one. */
bool shop_drum_fitted(const struct shop *shop, const struct quantity *drum);

/* Whether two series were taken alike, so that their drags compare: drum, cord,
 * warmth, direction and lock. */
bool series_alike(const struct pull_series *a, const struct pull_series *b);
bool series_alike_but_lock(const struct pull_series *a, const struct pull_series *b);

/* Whether the nut was moved between two series; a place that is not said was not
 * changed, unless the nut was unloaded at one of the two. */
bool series_nut_moved(const struct pull_series *a, const struct pull_series *b);

/* Of a log without jobs: one ends where the log then rests for this many days (a rule of
 * ours). */
enum { CLOSING_REST_DAYS = 30 };

/* The record of a job; NULL: there is none. Of several the first whose settings can be read,
 * or the first. */
const struct stored_record *shop_record(const struct shop *shop, const char *job);

/* The settings that the record of a job has; NULL: there is none, or it has none. */
const struct shop *shop_of_record(const struct shop *shop, const char *job);

/* The settings by which a row is judged: those that the record of its job has, else those of
 * its day. A row whose date had a fault is of today. */
const struct shop *shop_in_force(const struct shop *shop, const struct pull_series *row);

/* Whether a row, and the one that follows it in the log, belong to one job: to that of one
 * name; where none is named, by the days between them. */
bool series_same_job(const struct pull_series *row, const struct pull_series *next);

/* Back by so much the nut counts as unloaded, degrees: a rule of ours. At a pitch of 1.5 mm it
 * is 0.4 mm along the spindle, many times what the bearings give way under their preload. */
#define NUT_QUARTER_TURN 90

/* Follows the nut through the log, once its rows are there, and fills in of every row
 * - whether it was pulled with the nut unloaded: the row says so, or the nut stands a quarter
 *   turn or more behind the furthest place since it was last unloaded;
 * - the row from which the nut was turned back, within one job and not unloaded since, to where
 *   it stands in this one: no good setting, for as long as it stays there. */
void pull_log_follow_nut(const struct pull_series_log *log);

/* The latest weighing, by which the gauge's check is dated: rows need not stand in order, and
 * of one day's the last is the latest. NULL: there is none. */
const struct weighing *shop_last_weighing(const struct shop *shop);

/* Whether temperatures to write down are asked for in degrees Fahrenheit: as run-in.room is. */
bool shop_in_fahrenheit(const struct shop *shop);

/* Dates as the logs write them. */

/* Whether a text is a date, year, month and day as in "2026-03-09", of the years 1900 to 2199.
 */
bool date_is_good(const char *text);

/* Days from 1900-01-01 to a date that was read and found good, as "2026-03-09".
 * Source: the Gregorian calendar. */
long date_days(const char *date);

/* Days from 1900-01-01 to the first of January of a year, 1900 and later. */
long date_year_days(int year);
int date_year(const char *date);

enum { DATE_TEXT = 11 };

/* The same day a year later, DATE_TEXT bytes; the 29th of February becomes the 28th, so
 * that a year is not exceeded. */
void date_year_later(const char *date, char *later);

/* The grades of oil that the settings may name. */

/* The words of oil.grade, NULL-ended. The first one: the grade is not known. */
extern const char *const oil_grade_words[];

/* Viscosity (mm2/s) in the middle of a grade at 40 degC: its number, by ISO 3448. grade:
 * index of its word; 0 for the first. */
double oil_grade_viscosity(int grade);

/* What was typed, as it is printed. Texts are owned by the arena. */

/* A quantity with the digits that were typed: "62 mm", "2 9/16 in". */
const char *quantity_text(struct arena *arena, const struct quantity *quantity);

/* The same as it may be typed again: "62 mm" with a plain blank and the unit's own letters. */
const char *quantity_typed(struct arena *arena, const struct quantity *quantity);

/* "500–1200 r/min". */
const char *band_text(struct arena *arena, const struct band *band);

#endif
