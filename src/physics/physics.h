/* The trade's mathematics. Pure: doubles in SI in, doubles out, nothing else.
 *
 * Lengths in metres, forces in newtons, torques ("drag") in newton-metres,
 * angles in degrees. Lengths and radii must be above 0, forces and torques not
 * below 0; outside its range, and for input that is not finite, every function
 * returns NaN. */
#ifndef PHYSICS_PHYSICS_H
#define PHYSICS_PHYSICS_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* The ranges that its functions keep to. */

static inline bool above_zero(double value)
{
    return isfinite(value) && value > 0;
}

static inline bool not_below_zero(double value)
{
    return isfinite(value) && value >= 0;
}

/* Effective radius of a cord on a drum: the line of pull runs along the middle
 * of the cord, so R = (D + d) / 2.
 * D drum diameter at the cord's path, d cord diameter under tension (>= 0).
 * Source: the effective radius of a rope brake, as in mechanics textbooks. */
double drag_radius(double drum_diameter, double cord_diameter);

/* The same when the cord lies on its own layer number `layer` (1 = on the drum):
 * each layer below adds one cord diameter, R = (D + (2 layer - 1) d) / 2.
 * layer 1..10. Turns taken to lie one straight above the other.
 * Source: geometry. */
double drag_radius_on_layer(double drum_diameter, double cord_diameter, int layer);

/* Effective radius found without a caliper, from the cord that n whole turns pay
 * out: R = L / (2 pi n). n > 0. Source: geometry. */
double drag_radius_from_payout(double length, double turns);

/* Drag from a steady pull square to the spindle: T = F R. Source: definition. */
double drag_from_pull(double pull, double radius);

/* The pull that a drag asks for: F = T / R. */
double drag_to_pull(double drag, double radius);

/* The pull that gives at one arm the drag that another pull gives at another arm:
 * F2 = F1 R1 / R2. For a manual that states its pull at a radius of its own. */
double drag_pull_at_arm(double pull, double arm, double other_arm);

/* What must be added to a drag worked out as pull times the assumed radius, as a
 * fraction of it, when the true radius is another: true / assumed - 1. */
double drag_correction_for_radius(double true_radius, double assumed_radius);

/* The same for a skew pull taken to be square. A pull that leaves the plane square to the
 * spindle by an angle turns it only with its part in that plane, T = F R cos(angle): so
 * cos(angle) - 1, never above 0. 0 <= angle < 90 degrees. Source: resolution of a force. */
double drag_correction_for_skew(double angle);

/* A window of drag, and the same window as pulls on a drum. */
struct drag_window {
    double low, aim, high; /* aim: the middle */
};

struct drag_window drag_window_of(double low, double high);
struct drag_window drag_window_as_pull(struct drag_window drag, double radius);

/* Angles are in degrees, the C library's functions take radians. */

static inline double radians(double degrees)
{
    return degrees * (M_PI / 180);
}

/* An inch in metres, exactly: agreement of 1959. */
#define INCH 0.0254

/* How large a sign looks. */

/* What a sign must fill of the eye's field to be read, minutes of arc: at least, and
 * better. Source: NUREG-0700 revision 3, 11.4.1.5-1. */
enum { SIGHT_LEAST = 15, SIGHT_PREFERRED = 20 };

/* Height (m) of what fills so many minutes of arc at a distance (m):
 * 2 d tan(angle / 2). Above 0, angle below 180 degrees; NaN outside that. */
double sight_height(double distance, double minutes);

/* The other way round: minutes of arc that a height fills at a distance. */
double sight_minutes(double height, double distance);

/* Paper strips wound around what they measure. A strip of thickness t neither
 * stretches nor shrinks along its middle, which lies at the diameter D + t when it
 * is wound once around D. Lengths in metres; source: geometry. */

/* Where the mark for a diameter D stands, from the index line: pi (D + t).
 * D above 0, t not below 0; NaN outside that. */
double tape_position(double diameter, double thickness);

/* Distance of two lines of a vernier that divides one division of the diameter
 * into `parts`: (parts - 1) divisions of the diameter share `parts` spaces, so that
 * one space is pi division (parts - 1) / parts. parts >= 2. */
double tape_vernier_space(double division, int parts);

/* How far apart two marks stand that are so many degrees apart on a rim of this
 * diameter: pi (D + t) degrees / 360. Degrees not below 0. */
double tape_arc(double diameter, double thickness, double degrees);

/* A drum to make: its sizes from the radius that is wanted and the cord. Lengths in
 * metres, above 0 (the cord's also 0); NaN outside that. */

/* Outside diameter of the land, on which the cord lies in one layer: the effective radius
 * is (D + d) / 2, so D = 2 R - d. NaN where nothing is left of it. Source: drag_radius(). */
double drum_land_diameter(double radius, double cord);

/* Width of the land: the peg, then n whole turns side by side. Those take n + 1 widths of
 * the cord, because the last turn ends beside where it began; and a tenth more, because
 * cords do not lie quite close. turns 1..100. The tenth is a rule of ours. */
double drum_land_width(int turns, double cord, double peg);

/* Height of the flanges over the land: three cords, at least 3 mm, so that no turn climbs
 * over. A rule of ours. A slope of 45 degrees over it takes as much of the width. */
double drum_flange_height(double cord);

/* Thickness of the flanges at their rims: the cord and 1.5 mm, 3 mm at least: in the notch a
 * loop's lower leg lies within it, below the peg. A rule of ours. */
double drum_flange_thickness(double cord);

/* Height of the peg for the cord's loop, and its width where it is of metal: two cords, at
 * least 3 mm. Of plastic it is twice as wide. Rules of ours. */
double drum_peg(double cord);

/* Width of the notch in the flange beside the peg, through which the loop goes on and falls
 * off: the peg and on both sides as much as it is high. A rule of ours. */
double drum_notch(double peg, double cord);

/* The stress (Pa) at the foot of a peg that stands out by `height` and is pulled across at its
 * tip (N): bending 6 F h / (a w^2) of a cantilever with shear F / (a w), as sqrt(s^2 + 3 t^2)
 * (von Mises). w: its width along the pull, a: its other side; m, above 0. The loop lies at the
 * foot, not at the tip: on the side of more stress. Source: textbooks of strength of
 * materials. */
double drum_peg_stress(double pull, double height, double width, double across);

/* A turning spindle: how fast the cord runs, and what it costs to speed up what turns. */

/* Speed (r/min) of one whole turn in so many seconds: 60 / s. */
double turning_speed(double seconds);

/* Speed of the cord (m/s) at an effective radius (m): 2 pi R n / 60. Source: the
 * circumference of a circle. */
double turning_cord_speed(double radius, double speed);

/* A solid cylinder that turns about its axis. Density in kg/m3, diameter and length in
 * m; mass in kg, moment of inertia in kg m2.
 *   m = density pi d^2 l / 4,  I = m (d / 2)^2 / 2
 * Source: the moment of inertia of a disc, mechanics textbooks. */
double turning_mass(double density, double diameter, double length);
double turning_inertia(double density, double diameter, double length);

/* Drag (N.m) that the gauge shows too much while the speed (r/min) rises by `change`
 * within so many seconds: I alpha, alpha = 2 pi change / 60 / s. Below 0 while it falls. */
double turning_drag_of_change(double inertia, double change, double seconds);

/* The lift test: a bar in the nose, pulled up with F and then with 2 F, an indicator on
 * the nose. What gives by spring alone gives twice as much for twice the pull; clearance
 * is taken up by the first pull and is not there for the second. Own reasoning: of a
 * needle at k F + c and at 2 k F + c the clearance c is 2 first - second. */

/* The clearance that two needle readings mean, in their unit; below zero where the
 * second pull moved the nose more than the first. Both: not below zero; else NaN. */
double lift_clearance(double first, double second);

/* How far that may be off, either way, where each reading is good to half a division:
 * one division for twice the first, half a one for the second. */
double lift_doubt(double division);

/* What a known mass weighs where it hangs. */

/* Standard gravity, m/s2: exact, 3rd CGPM (1901). The kgf and the lbf rest on it. */
extern const double standard_gravity;

/* Normal gravity, m/s2, by Somigliana's formula with the constants of WGS 84
 * (NGA.STND.0036). Latitude -90..90 degrees, north positive; height -1000..10000 m
 * over the ellipsoid, by the second-order term of the same standard. */
double gravity_at(double latitude, double height);

/* Force of a mass (kg) hung in air of 1.2 kg/m3; density of the weights 8000
 * kg/m3 (conventional mass, OIML D 28). */
double weight_of(double mass, double gravity);

/* The adjusting nut. */

/* Axial travel (m) for a turn (degrees): pitch * degrees / 360. Source: the
 * definition of a thread's lead, single start. */
double nut_travel(double pitch, double degrees);

/* Pitch (m) of so many threads per inch: 0.0254 / n. */
double nut_pitch_of_threads(double per_inch);

/* Length of rim (m) that passes for a turn: pi * diameter * degrees / 360. */
double nut_rim(double outside_diameter, double degrees);

/* A nut's place (degrees, tightening positive) and the drag found there (N.m). */
struct nut_point {
    double angle, drag;
    double expanded; /* U of the drag */
    double u;        /* standard: of what the series has alone, not of gauge, drum and cord */
};

/* Degrees between the newest place and the loosest that counts with it. A rule of thumb of
 * ours. */
#define NUT_FAR_APART 30.0

enum { NUT_PLACES = 12 }; /* the newest that count */

/* Places that were taken alike, from loose to tight, and the drag with the nut slack. */
struct nut_course {
    const struct nut_point *points; /* one and more, each tighter than the one before */
    size_t count;
    double slack, slack_u; /* N.m; slack: NAN where it is not known */
};

/* Drag against angle: slack + rise ((angle - begins) / (newest - begins))^exponent from where
 * it begins on, and before that the slack drag. What is not known is weighed over: exponents
 * from 1 to 2, beginnings up to NUT_FAR_APART before the newest place, each as likely before
 * the drags are seen; slack drag and rise follow for each by least squares. Without a slack
 * drag it is anything from 0 to the drag of the loosest place. Sources: contact of rollers and
 * balls (exponents 10/9 and 3/2), textbooks, from memory; the rest are rules of ours. */
enum { NUT_EXPONENTS = 5, NUT_BEGINNINGS = 24, NUT_MODELS = NUT_EXPONENTS * NUT_BEGINNINGS };

struct nut_model {
    double weight, exponent, begins;
    double slack, rise; /* N.m; rise: up to the newest place */
    double slack_u2, rise_u2, covariance;
};

struct nut_curve {
    double newest; /* degrees */
    struct nut_model models[NUT_MODELS];
};

/* Standard uncertainty of a nut's angle, degrees: read to a quarter of a degree, which counts
 * where it was read and where it is turned to. A rule of thumb of ours. */
extern const double nut_angle_u;

struct nut_curve nut_curve_of(const struct nut_course *course);

/* The drag (N.m) at an angle: it is as likely more as less. */
double nut_curve_drag(const struct nut_curve *curve, double angle);

/* A drag (N.m) that is not to be passed, how far that is not known (standard, with nu degrees
 * of freedom: what the drags share, what the lock will add), and the risk that is taken. */
struct nut_limit {
    double drag, u, nu, risk; /* drag: infinite where there is none */
};

/* The chance that the drag at an angle is above. */
double nut_curve_above(const struct nut_curve *curve, double angle,
                       const struct nut_limit *limit);

enum nut_advice {
    NUT_TURN,    /* tighten by .angle degrees */
    NUT_GOOD,    /* the drag is at the target */
    NUT_UNLOAD,  /* the drag is over the target: unload, start again from slack */
    NUT_BACKED,  /* the newer place is the looser: unload, start again from slack */
    NUT_FREE,    /* the drag is still that of the slack nut */
    NUT_NO_SLOPE /* the drag did not rise with the nut, or fell */
};

/* Degrees at once: about 20 micrometres on a pitch of 1.5 mm, already much for a
 * preload. A rule of thumb of ours. */
#define NUT_MOST_MOVE 5.0

/* From a single place. A rule of thumb of ours. */
#define NUT_FIRST_MOVE 2.0

struct nut_move {
    enum nut_advice advice;
    double angle; /* degrees to tighten; never negative */
    bool capped;  /* twice the last move, or NUT_MOST_MOVE: the curve asked for more */
    bool risky;   /* further, and the drag might pass a limit */
};

enum { NUT_LIMITS = 2 };

struct nut_bounds {
    double target, good; /* N.m; good: half-width about the target that counts as there */
    double free;         /* N.m: where the slack drag is not known, the most that may be it */
    struct nut_limit limits[NUT_LIMITS];
};

/* The next move: to where the drag is as likely above the target as below it, but no further
 * than the risk of each limit allows, never more than twice the last move nor NUT_MOST_MOVE,
 * and always tightening: over the target, or after a backing-off, one unloads and comes again
 * from the slack side. A rise that is not above its doubt, twice the root of the sum of the
 * squares of both u, is none. While there is none over the slack drag, or over the loosest
 * place, no curve says how far. */
struct nut_move nut_next(const struct nut_course *course, const struct nut_bounds *bounds);

/* Oil: how thick it is at a temperature. Kinematic viscosities in mm2/s, temperatures in
 * degrees Celsius. */
struct oil {
    double a, b; /* log10 log10(v + 0.7) = a - b log10(T / K) */
};

/* From two known points, in either order. Source: ASTM D341, the form with 0.7,
 * which holds above 2 mm2/s. NaN for v <= 2 or equal temperatures. */
struct oil oil_from_points(double celsius1, double v1, double celsius2, double v2);

/* Viscosity at a temperature; NaN outside -30..150 degrees. */
double oil_viscosity(struct oil oil, double celsius);

/* Oil of which only the grade is known: how thick it is when hot. */

/* Viscosity (mm2/s) at 40 degrees Celsius that an oil of a viscosity index of 0 and of
 * 100 has, for a viscosity (mm2/s) of 2 to 22 at 100 degrees; NaN outside.
 * Source: the quadratic forms of ASTM D2270, from memory; the first was seen in a public
 * text. They meet within 0.2 % where one ends and the next begins. */
double oil_index_zero(double hot);
double oil_index_hundred(double hot);

/* Viscosity at 100 degrees of an oil with this viscosity at 40 degrees and this index, 0
 * to 100: zero - index / 100 (zero - hundred) = warm, by halving. NaN where none fits. */
double oil_hot_of_index(double warm, double index);

/* Rolling-bearing friction in the rough, by Palmgren's model: an order of magnitude,
 * never a limit. From memory of the textbook form (Palmgren; Harris), which the SI
 * form in a public thermal-modelling library agrees with. */

/* Drag (N.m) of churning oil. f0: of the bearing and its lubrication; viscosity in
 * mm2/s at working temperature; speed in r/min; pitch diameter in m.
 *   v n >= 2000: f0 1e-7 (v n)^(2/3) dm^3, else f0 160e-7 dm^3 (N.mm, mm)
 * At the branch the two differ by 0.8 %; at hand-pull speed only the second
 * applies, and it scatters widely. */
double friction_of_oil(double f0, double viscosity, double speed, double pitch_diameter);

/* The load P1 (N) that an axial load (N) means in a bearing of tapered rollers: P1 = 2 Y Fa
 * with Y = 0.4 cot a; contact angle a in degrees, 0..90 exclusive. Source: textbooks, from
 * memory. */
double friction_bearing_load(double axial_load, double contact_angle);

/* Drag (N.m) of the load: f1 P1 dm. Load in N, pitch diameter in m. */
double friction_of_load(double f1, double load, double pitch_diameter);

/* What warming does to the fit of two opposed bearings. Expansions (alpha) per kelvin, rises
 * (dT) in kelvin, lengths in metres; a rise below 0 is a fall. */

/* Free growth of a length: alpha L dT. Source: the definition of alpha. */
double growth_of_length(double expansion, double length, double rise);

/* Difference of growth between a spindle and its headstock over the same length:
 * (alpha_s dT_s - alpha_h dT_h) L; above 0 when the spindle grows more. */
double growth_difference(double spindle_expansion, double spindle_rise,
                         double headstock_expansion, double headstock_rise, double length);

struct bearing_pair {
    bool face_to_face;     /* X: the load lines meet between the bearings; else O, back to
                            * back: they spread outward */
    double cup1, cup2;     /* mean cup raceway diameters, m */
    double angle1, angle2; /* half cup angles, degrees, 0..90 exclusive */
    double spread;         /* distance between the bearings' middles, m */
};

/* How much end play is lost (m; negative: gained) when the spindle with its cones
 * is warmer than the headstock by `rise`: by geometry,
 *   alpha dT [ (D1/2) cot a1 + (D2/2) cot a2 - L ]  for O, + L for X.
 * Radial growth comes first while warming up: set spread to 0 for that. NaN where a cup is not
 * above 0 or an angle is out of range. */
double growth_end_play_lost(const struct bearing_pair *pair, double expansion, double rise);

/* Numbers that are taken again and again. */

/* A series in brief. For fewer than two values sd is NaN, for none all are. */
struct series {
    size_t count;
    double mean;
    double sd; /* sample standard deviation, divisor n - 1 (GUM 4.2.2) */
    double least, most;
};

/* Two passes over deviations from the mean, so that nearly equal large numbers
 * keep their digits. Values that are not finite make everything NaN. */
struct series series_of(const double *values, size_t count);

/* Spread over mean: (most - least) / mean; NaN where the mean is 0. */
double series_relative_range(const struct series *series);

/* Student's t distribution. */

/* The share of 0.9545 (two standard deviations of a normal distribution) that an
 * expanded uncertainty covers here, so that its factor comes down to 2 for many
 * degrees of freedom. */
extern const double student_coverage;

/* Two-sided factor t_p(nu): a share p of the distribution lies within -t..t.
 * 0 < p < 1; nu >= 1, need not be whole; an infinite nu gives the normal
 * distribution. NaN outside. Nine digits are right for p from 0.1 up. Source: GUM G.3,
 * table G.2 (= NIST TN 1297 table B.1); worked out here by way of the incomplete beta
 * function. */
double student_factor(double p, double nu);

/* The share of Student's distribution that lies above t, right to 1e-10. nu >= 1, infinite for
 * the normal distribution; else NaN. Above 10,000 by the first two terms of Fisher's expansion
 * about that (Metron 5, 1925, from memory). */
double student_above(double t, double nu);

/* The share of the ratio of two sample variances, of nu1 and nu2 degrees of freedom, that lies
 * above a ratio: Fisher's distribution. nu >= 1; else NaN. */
double fisher_above(double ratio, double nu1, double nu2);

/* A straight line through points, by least squares. */

/* y = intercept + slope x, with standard errors and their covariance. */
struct line {
    size_t count;
    double intercept, slope;
    double intercept_se, slope_se, covariance;
    double sd;      /* of the residuals, divisor n - 2 */
    double squares; /* sum of squared residuals */
};

/* At least two points, not all at one x; else all NaN. Two leave sd and all standard errors
 * NaN. Source: the usual normal
 * equations, worked about the mean; NIST StRD data sets check them. */
struct line line_through(const double *x, const double *y, size_t count);

/* The same, forced through the origin: at least two points; divisor n - 1. */
struct line line_through_origin(const double *x, const double *y, size_t count);
double line_at(const struct line *line, double x);

/* Standard error of the line's own height at x (not of a new point). */
double line_se_at(const struct line *line, double x);

/* Two measurements of what should be the same, side by side. */

/* The expanded uncertainty of a difference, sqrt(U1^2 + U2^2): a difference beyond it is
 * one (the En number of ISO 13528, above 1). What both share, as the drum's own error,
 * counts twice here and would in truth cancel: on the side of calling less a change.
 * before, now: the two U, not below zero; else NaN. */
double change_doubt(double before, double now);

/* Whether the two ways round differ by more than the pulls of one way among themselves:
 * the means lie further apart than the wider of the two ranges, and than one step of
 * the gauge. A rule of thumb of ours. Both series: at least two pulls; else false. */
bool directions_differ(const struct series *usual, const struct series *other, double step);

/* How sure a drag is: the GUM's rules for T = F (D + d) / 2 (JCGM 100:2008). */

/* One source of doubt. u: its standard uncertainty in the result's unit; nu: its
 * degrees of freedom, infinite where it rests on a limit and not on a sample. */
struct doubt {
    double u, nu;
};

struct uncertainty {
    double standard; /* combined, u_c */
    double nu;       /* effective degrees of freedom, not truncated */
    double factor;   /* k = t_95.45(nu truncated downward) */
    double expanded; /* U = k u_c */
};

/* Half-width of a range in which every value is as likely -> a / sqrt(3)
 * (GUM 4.3.7). */
double doubt_rectangular(double half_width);

/* A display that moves in steps: the truth is within half a step, step / (2 sqrt 3)
 * (GUM F.2.2.1). */
double doubt_of_step(double step);

/* Root of the sum of squares (GUM 5.1.2) with the effective degrees of freedom of
 * Welch and Satterthwaite, u_c^4 / sum(u_i^4 / nu_i) (GUM G.4.1). */
struct uncertainty uncertainty_of(const struct doubt *doubts, size_t count);

/* ---- from pulls to a drag, how sure it is, and with what chance it is beyond a limit ---- */

/* How the pulls of a workshop scatter, as shares of the pull: what is known before the next
 * series. Each series is normal about its own mean, neighbours correlated with r^k over k
 * places. Both the variance and r are unknown: the variance has a scaled inverse chi-squared
 * distribution with df degrees of freedom, r is one of CORRELATIONS values. Source: the
 * conjugate analysis of a normal sample, textbooks of Bayesian statistics; autoregression of
 * first order, textbooks of time series. */
enum { CORRELATIONS = 8 };

struct scatter {
    double df;
    double squares[CORRELATIONS];  /* df times the variance, for each r */
    double evidence[CORRELATIONS]; /* logarithm of each one's weight, but for squares and df */
};

/* The stated prior: worth 4 degrees of freedom at a standard deviation sd (share of the pull,
 * above 0); r from 0 to 0.95, the likelier the smaller: its density falls as the square of
 * what is left to 0.95. Rules of ours. */
struct scatter scatter_before_any(double sd);

/* Adds what a series shows: count pulls (N) in their order, read in steps (N), whose own
 * rounding is taken off. Fewer than two pulls, or a mean of 0, teach nothing. The older fades
 * so that df stays at most 80, a rule of ours. */
void scatter_learn(struct scatter *scatter, const double *pulls, size_t count, double step);

struct scatter_of_mean {
    double u;           /* standard uncertainty of a mean of count pulls, share of it */
    double nu;          /* its degrees of freedom */
    double sd;          /* of one pull, share of it */
    double correlation; /* r that is to be expected */
};

struct scatter_of_mean scatter_of_mean(const struct scatter *scatter, size_t count);

/* What is odd about a series in itself: each is told by a chance of 2 in 1,000 and less, that
 * pulls which are all right look so (a rule of ours), and by more than two steps of the gauge.
 */
struct oddities {
    bool scattered; /* wider than what is known of the scatter allows; Fisher's test */
    bool trend;  /* rises or falls steadily, three pulls and more; Student's test of a slope */
    int outlier; /* index of the pull that lies apart, four pulls and more (Grubbs' test);
                    -1: none */
    bool stuck;  /* four pulls and more, all equal, where the scatter is wider than a step */
};

/* before: as known without this series. */
struct oddities series_oddities(const struct scatter *before, const double *pulls, size_t count,
                                double step);

/* What all pulls of one series share and another series does not, shares of the pull: cord and
 * drum put on anew. Its prior: 0.7 % worth 3 degrees of freedom, a rule of ours. */
struct between {
    double df, squares; /* squares: df times the variance */
};

struct between between_before_any(void);

/* Adds what a series shows against `count` others at the same setting: the difference of its
 * mean from theirs (share of the pull), and the variance that the scatter alone gives this
 * difference. */
void between_learn(struct between *between, double difference, double variance, size_t count);

/* The straight line of a gauge's reading (N) against force (N), by one check. */
struct gauge_line {
    size_t count;
    double intercept, slope; /* slope: NaN without two different forces, or not above 0 */
    double middle, sxx;      /* mean of the forces; sum of the squares about it */
    double sd, nu;           /* of a reading about the line, with its degrees of freedom */
};

/* step: of the gauge, N. Its standard uncertainty stands for the scatter of the readings with
 * 4 degrees of freedom before they are seen, a rule of ours. */
struct gauge_line gauge_line_through(const double *forces, const double *readings, size_t count,
                                     double step);

/* The force that makes a reading, and the reading that a force makes. */
double gauge_line_force(const struct gauge_line *line, double reading);
double gauge_line_reading(const struct gauge_line *line, double force);

/* Standard uncertainty (N) of the force read through the line, of the line alone. Source:
 * calibration by a straight line, JCGM 100 H.3, taken back through the slope. */
double gauge_line_u(const struct gauge_line *line, double force);

/* The rows of a drag's budget. */
enum budget_row {
    BUDGET_SCATTER,
    BUDGET_BETWEEN,
    BUDGET_STEP,
    BUDGET_TRACES, /* what traces leave open of their pulls */
    BUDGET_ZERO,
    BUDGET_GAUGE, /* the check's line; or what is stated of the gauge, where that is more */
    BUDGET_MASSES,
    BUDGET_GRAVITY,
    BUDGET_DRIFT,
    BUDGET_HYSTERESIS,
    BUDGET_ORIENTATION,
    BUDGET_DRUM,
    BUDGET_CORD,
    BUDGET_ROWS
};

struct pull_mean {
    size_t count;   /* of pulls; 0: there is no such series */
    double reading; /* their mean as read, N */
    double range;   /* highest less lowest, N */
    double traces;  /* standard uncertainty of the mean by the pulls that are traces, N */
};

/* All that a drag is worked out from. SI units; half-widths of ranges in which every value is
 * as likely. */
struct measuring {
    struct pull_mean pulls;
    struct pull_mean slack; /* with the nut slack, the same set-up: the increase is measured */
    struct scatter scatter; /* as known with these pulls */
    struct between between;
    double step;                    /* of the gauge, N */
    double zero;                    /* how far the zero may be off, N of reading */
    const struct gauge_line *check; /* NULL: readings are taken as they are */
    double masses, gravity;         /* shares: what all weights of the check have in common */
    double drift;                   /* share: of the gauge since its check */
    double hysteresis, orientation; /* N of reading */
    double stated; /* N of force: what is stated of the gauge; 0 where the check reaches */
    double drum, drum_tolerance, cord, cord_tolerance;
    double skew; /* the most that the pull is askew, degrees */
};

struct drag_measured {
    double drag;  /* N.m: of the series; with a slack one, what it is more */
    double whole; /* N.m: of the series, whatever there is of a slack one */
    double askew; /* N.m: what skew pulls may lose more or less than is taken off */
    double share; /* of the whole: the doubt that is in proportion to it */
    double per_newton, per_metre; /* of the drag: of a reading, of the drum's diameter */
    struct uncertainty sureness;  /* expanded: with askew added */
};

/* T = F (D + d) / 2 with F taken back through the check's line, less the middle of what skew
 * pulls lose, T (1 - cos skew) / 2; and its budget[BUDGET_ROWS], in N.m. An increase has no
 * part of what both series share. Sources: JCGM 100, 4.2, 4.3, 5.1. */
struct drag_measured measure_drag(const struct measuring *measuring, struct doubt *budget);

/* Its U, with askew added. By far the most of the work, and no chance needs it. */
void drag_expand(struct drag_measured *drag);

/* The combined doubt with degrees of freedom u^2 / sum(u_i^2 / nu_i), and U at
 * student_coverage. Fewer degrees than by Welch and Satterthwaite, whose formula covers too
 * little where one source of few degrees meets a larger one of many: a rule of ours, held by
 * simulation. */
struct uncertainty sureness_of(const struct doubt *doubts, size_t count);

/* The chance that the drag lies above or below a limit (N.m): Student's distribution about the
 * estimate (JCGM 106, 7), with the doubt that a drag at the limit would have, where that is
 * more. How far a hand pulls askew is a habit and no chance: so it lies between two. */
struct chance {
    double least, most; /* at either end of what skew pulls may have lost */
};

struct chance chance_above(const struct drag_measured *drag, double limit);
struct chance chance_below(const struct drag_measured *drag, double limit);

/* ---- a pull as a trace: what a gauge read while the cord ran ---- */

enum { WAVE_HARMONICS = 3, WAVE_TERMS = 2 + 2 * WAVE_HARMONICS };

/* Readings that a wave is fitted to; weights: how many each is the mean of. */
struct wave_points {
    const double *times, *values, *weights; /* s, N */
    size_t count;
};

/* value = terms[0] + sum over k of terms[2k - 1] cos k w t + terms[2k] sin k w t, w = 2 pi /
 * turn, t from `middle`, and with a drift terms[2 * harmonics + 1] (t - middle) / half. */
struct wave_model {
    double turn, middle, half; /* s */
    int harmonics;             /* 0..WAVE_HARMONICS */
    bool drift;
};

struct wave {
    struct wave_model model;
    double terms[WAVE_TERMS], u[WAVE_TERMS]; /* u: standard uncertainties */
    double nu;                               /* their degrees of freedom: points less terms */
    double squares;                          /* weighted sum of the squared residuals */
    double memory; /* time constant of the noise, s; 0: none, or not asked for */
};

int wave_terms(const struct wave_model *model);
double wave_at(const struct wave *wave, double time);

/* By least squares with these weights, for noise without memory. Too few points: NaN.
 * Source: normal equations; with a constant and one harmonic that is the periodogram with a
 * floating mean (Zechmeister and Kuerster, A&A 496, 2009) of unevenly spaced readings. */
struct wave wave_fit(const struct wave_points *points, const struct wave_model *model);

/* The same for noise that has a memory: a part without, of variance 1 / weight, and a part
 * whose correlation falls as exp(-t / time constant). Shares and time constants of a grid are
 * weighed by how well they explain the points (restricted likelihood), as in scatter_learn();
 * the doubt holds for all of them together. Source: Kalman's filter of an autoregression of
 * first order at uneven times, textbooks of time series; the grid is a rule of ours. */
struct wave wave_fit_correlated(const struct wave_points *points,
                                const struct wave_model *model);

/* The turn (s) from `least` to `most` whose wave of so many harmonics explains most; *ratio:
 * Fisher's ratio of what it explains to what it leaves. */
double wave_find_turn(const struct wave_points *points, struct wave_model model, double least,
                      double most, double *ratio);

/* Why a trace cannot be read; TRACE_READ: it was. */
enum trace_fault {
    TRACE_READ,
    TRACE_TOO_FEW,      /* readings */
    TRACE_NOT_A_NUMBER, /* at the reading `at` */
    TRACE_TIME_BACK,    /* time does not increase at the reading `at` */
    TRACE_NO_PULL,      /* the reading never rises above rest */
    TRACE_PEAK_HELD,    /* the gauge holds its peak */
    TRACE_ZEROED,       /* under load: it rests lower behind the pull than before */
    TRACE_NO_TURN,      /* how long a turn takes is neither said nor seen */
    TRACE_SHORT,        /* the steady part is shorter than a turn */
    TRACE_UNSTEADY,     /* no part as long as a turn is steady */
    TRACE_GAP,          /* in the steady part, at the reading `at` */
    TRACE_SLOW,         /* fewer than 5 readings a turn */
    TRACE_CLIPPED       /* the gauge is at its end in the steady part, at the reading `at` */
};

struct trace_given {
    const double *times, *forces; /* s, and N as the gauge shows them */
    size_t count;
    double turn;     /* s; NaN: to be found in the wave */
    double step;     /* of the gauge, N; 0: not known */
    double capacity; /* of the gauge, N; infinite: not known */
};

/* The doubts of a trace's mean. */
enum trace_doubt { TRACE_NOISE, TRACE_STEP, TRACE_ZERO, TRACE_DRIFT, TRACE_DOUBTS };

struct trace {
    enum trace_fault fault;
    size_t at; /* of the fault, where one reading has it */
    /* Indices of readings: the pull from the rise to the fall; the steady part, whole turns.
     * Each up to the second, exclusive. */
    size_t pull[2], steady[2];
    bool rested;         /* the gauge is seen at rest */
    double zero, zero_u; /* N: where it rests; 0 where it does not */
    double zero_moved;   /* N: what it rests at behind the pull less before; NaN: not seen */
    double turn;         /* s */
    bool turn_seen;      /* the wave shows the turn, or corrects what was said */
    int turns;
    double mean; /* N: of the steady part, less zero */
    struct doubt budget[TRACE_DOUBTS];
    struct uncertainty sureness; /* of the mean */
    double noise;                /* N: standard deviation of a reading about the wave */
    double effective;            /* readings without memory that the mean is worth */
    struct wave wave;
    double once, once_u;   /* N: the wave once a turn, half its height; 95 in 100 within u */
    double twice, thrice;  /* N: its harmonics */
    double drift, drift_u; /* N: over the steady part, with its expanded uncertainty */
    bool broke_away;       /* a peak stands where the spindle began to turn */
    size_t peak;           /* index of its reading */
    double breakaway, breakaway_u; /* N: less zero; expanded */
    bool peak_clipped;             /* the gauge was at its end: it was more */
    double slips;                  /* a second; 0: it does not stick and slip */
    double holds;  /* s: the gauge shows something new only so often; 0: every time */
    double smooth; /* s: readings follow each other so long: the gauge averages, or the drag
                    * wanders; 0: they do not */
};

/* What a trace says, in time proportional to its length. The rules by which it is cut are
 * those of docs/mathematics.md, "A pull as a trace". */
struct trace trace_of(const struct trace_given *given);

#endif
