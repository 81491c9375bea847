/* The whole job on one page: what is done, what is asked, where the answers lead. */
#include "figures/figures.h"

static const double LEFT = 4, WIDE = 168, RIGHT = 194, NARROW = 114; /* two columns */
static const double BUS = 313; /* the way back, at the right edge */
static const double PAD = 5, GAP = 10.5;

struct box {
    double x, y, width, height; /* its upper left corner */
};

enum shape { STEP, QUESTION }; /* square corners, or cut ones */

static struct box put(struct canvas *c, double x, double y, double width, enum shape shape,
                      const char *words)
{
    double last =
        canvas_words(c, x + width / 2, y + PAD + 5.8, width - 2 * PAD, ALIGN_MIDDLE, words);
    struct box box = {x, y, width, last + PAD + 1.2 - y};
    double right = x + width, bottom = y + box.height, cut = shape == QUESTION ? 7 : 0;
    const double points[] = {
        x + cut,     y,      right - cut, y,      right, y + cut,      right, bottom - cut,
        right - cut, bottom, x + cut,     bottom, x,     bottom - cut, x,     y + cut};
    canvas_polygon(c, points, 8, &ink_thick);
    return box;
}

static double below(const struct box *box)
{
    return box->y + box->height;
}

static double half_way(const struct box *box)
{
    return box->y + box->height / 2;
}

/* The next box of the left column, with the arrow to it and the answer beside that. */
static struct box follow(struct canvas *c, const struct box *from, double gap, enum shape shape,
                         const char *words, const char *answer)
{
    double x = LEFT + WIDE / 2, y = below(from) + gap;
    canvas_arrow(c, x, below(from), x, y);
    if (answer)
        canvas_text(c, x + 5, (below(from) + y) / 2 + 2, ALIGN_LEFT, answer);
    return put(c, LEFT, y, WIDE, shape, words);
}

/* A box of the right column beside a question, for the answer no. */
static struct box aside(struct canvas *c, const struct box *from, const char *words)
{
    struct box box = put(c, RIGHT, from->y, NARROW, STEP, words);
    double y = half_way(&box);
    canvas_arrow(c, LEFT + WIDE, y, RIGHT, y);
    canvas_text(c, (LEFT + WIDE + RIGHT) / 2 - 2, y - 3, ALIGN_MIDDLE, "no");
    return box;
}

static void go_back(struct canvas *c, const struct box *from)
{
    canvas_line(c, RIGHT + NARROW, half_way(from), BUS, half_way(from), &ink_thin);
}

/* What a mean can say other than good; gives the y below. */
static double answers(struct canvas *c, const struct box *question, double y)
{
    static const char *const words[] = {
        "▽ △ in doubt: more pulls, or a surer gauge; else as below",
        "▼ low: free the lock, tighten by 1 or 2 degrees, ten turns each way, lock",
        ("▲ high: free the lock, unload until there is end play, come again from the loose "
         "side, lock")};
    const double fork = (LEFT + WIDE + RIGHT) / 2;
    double first = 0, last = 0;
    for (int i = 0; i < 3; i++) {
        struct box box = put(c, RIGHT, y, NARROW, STEP, words[i]);
        last = half_way(&box);
        first = i ? first : last;
        canvas_arrow(c, fork, last, RIGHT, last);
        go_back(c, &box);
        y = below(&box) + 6;
    }
    canvas_line(c, fork, first, fork, last, &ink_thin);
    canvas_line(c, LEFT + WIDE, half_way(question), fork, half_way(question), &ink_thin);
    return y;
}

/* From locking off to the first pull; gives the step to which all comes back. */
static struct box prepare(struct canvas *c)
{
    struct box box = put(c, LEFT, 4, WIDE, QUESTION,
                         "Does the manual give a drag, and do you know of which kind?");
    aside(c, &box, "No limit known: trend only. Set nothing by it.");
    box = follow(c, &box, GAP, STEP, "Lock off, prove dead. Chuck off, gears out.", "yes");
    box = follow(c, &box, GAP, QUESTION,
                 "Does the spindle turn freely, without a catch or a rumble?", NULL);
    aside(c, &box, "Find the fault: preload cures none.");
    box = follow(c, &box, GAP, STEP,
                 "Mark the nut. Write down end play, temperature and drag as found.", "yes");
    return follow(c, &box, GAP, STEP,
                  "Check the gauge with known weights. Wind one layer. Five pulls each way, "
                  "read as the manual means it.",
                  NULL);
}

/* From a good mean to the record. */
static struct box finish(struct canvas *c, const struct box *good)
{
    struct box box = follow(c, good, GAP + 46, STEP,
                            "Verify: push and pull, lift test, run-out. Cord, drum, spanner "
                            "and indicator off, and counted. Guards on. Only then power.",
                            "● good, and locked");
    box = follow(c, &box, GAP, QUESTION,
                 "Run in by stages: does the cap settle, well below the stop?", NULL);
    struct box stop = aside(c, &box, "Stop, let it cool, lock off, unload.");
    go_back(c, &stop);
    follow(c, &box, GAP, STEP,
           "Measure warm, then cold. Write it down, with the date of the next check.", "yes");
    return stop;
}

void draw_decision(const struct figure_ask *ask, struct canvas *canvas)
{
    (void)ask;
    struct canvas *c = canvas;
    struct box wind = prepare(c);
    struct box even = follow(
        c, &wind, GAP, QUESTION,
        "Do the five differ by no more than a tenth of their mean, or two steps of the gauge?",
        NULL);
    struct box again = aside(c, &even, "Throw all five away, look for the cause.");
    go_back(c, &again);
    struct box mean = follow(c, &even, GAP + 12, QUESTION, "What does the mean say?", "yes");
    answers(c, &mean, below(&again) + 8);
    struct box stop = finish(c, &mean);
    double y = half_way(&wind);
    canvas_line(c, BUS, half_way(&stop), BUS, y, &ink_thin);
    canvas_arrow(c, BUS, y, LEFT + WIDE, y);
    canvas_text(c, RIGHT + NARROW / 2, y - 3, ALIGN_MIDDLE, "measure again");
}
