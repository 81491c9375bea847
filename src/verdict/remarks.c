#include "verdict/remarks.h"

#include "verdict/guard.h"
#include "verdict/most_pull.h"

#include <math.h>

/* Common practice, no source: below a fifth of its capacity few gauges are good. */
static const double least_share = 0.2;
/* A foot is twelve inches: limits that far apart are likely two units mixed up. */
static const double unlike = 6;

static void tell_band(const struct shop *shop, const struct band *band,
                      const struct speaker *speaker)
{
    struct pull_window window = pull_window_of(shop, band);
    const char *from = band->from.q.digits, *to = band->to.q.digits;
    if (window.closed)
        speaker_say(speaker, "band %s-%s r/min: no step of the gauge lies between the limits",
                    from, to);
    struct most_pull most = most_pull_of(shop, &window);
    char text[MOST_PULL_TEXT];
    most_pull_words(shop, &most, text);
    if (most.beyond && !most.never)
        speaker_say(speaker, "band %s-%s r/min: %s", from, to, text);
}

static void tell_own_band(const struct shop *shop, const struct speaker *speaker)
{
    struct guarded_window window = guarded_window_own(shop);
    double capacity = shop->gauge.capacity.q.base;
    if (!window.plain.closed && window.closed)
        speaker_say(speaker,
                    "your band: this gauge and drum cannot decide; see the table sure-windows");
    struct most_pull most = most_pull_of(shop, &window.plain);
    char text[MOST_PULL_TEXT];
    most_pull_words(shop, &most, text);
    if (most.beyond && most.never)
        speaker_say(speaker, "%s", text);
    if (window.plain.low < least_share * capacity)
        speaker_say(
            speaker,
            "your band: the low pull is below a fifth of the gauge's capacity; take a gauge of "
            "smaller capacity, or check this one with weights near that pull. A smaller drum "
            "helps only as far as it fits the nose of your spindle");
}

/* lbf.in beside lbf.ft, or a point in the wrong place. */
static void tell_units(const struct shop *shop, const struct speaker *speaker)
{
    double least = INFINITY, most = 0;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        least = fmin(least, shop->limits.bands[i].high.q.base);
        most = fmax(most, shop->limits.bands[i].high.q.base);
    }
    if (most > unlike * least)
        speaker_say(
            speaker,
            "the high limits of the bands lie far apart; is one of them in another unit?");
}

/* Whether `times` of the part are more than the whole; exactly. */
static bool more_than(const struct measure *part, int64_t times, const struct measure *whole)
{
    struct decimal factor = decimal_of(times, 0);
    struct decimal many = decimal_multiply(&part->q.exact, &factor);
    return decimal_compare(&many, &whole->q.exact) > 0;
}

/* Millimetres typed for sixteenths of an inch, and the like: rules of thumb of ours. */
static void tell_lengths(const struct shop *shop, const struct speaker *speaker)
{
    const struct drum *drum = &shop->drum;
    const struct cord *cord = &shop->cord;
    if (more_than(&cord->diameter, 20, &drum->diameter))
        speaker_say(
            speaker,
            "the cord, %s %s, is thicker than a twentieth of the drum, %s %s; is its unit "
            "right?",
            cord->diameter.q.digits, cord->diameter.q.unit->symbol, drum->diameter.q.digits,
            drum->diameter.q.unit->symbol);
    if (more_than(&drum->tolerance, 50, &drum->diameter))
        speaker_say(speaker,
                    "drum.tolerance, %s %s, is more than a fiftieth of the drum; is it right?",
                    drum->tolerance.q.digits, drum->tolerance.q.unit->symbol);
    if (more_than(&cord->tolerance, 100, &drum->diameter))
        speaker_say(speaker,
                    "cord.tolerance, %s %s, is more than a hundredth of the drum; is it right?",
                    cord->tolerance.q.digits, cord->tolerance.q.unit->symbol);
}

/* A blank and # begin a remark, within a name too: "ply drum #2". */
static void tell_cut_texts(const struct shop *shop, const struct speaker *speaker)
{
    for (size_t i = 0; i < shop->text_count; i++) {
        const struct typed_text *text = &shop->texts[i];
        struct speaker of_text = speaker_at(speaker->listener, text->at, NULL);
        if (text->cut)
            speaker_say(&of_text,
                        "what stands behind # is not read; if it belongs to the text, put all "
                        "of it in quotes");
    }
}

static bool is_higher(const struct measure *a, const struct measure *b)
{
    return decimal_compare(&a->q.exact, &b->q.exact) > 0;
}

/* Practice: the faster the band, the lower its limits. */
static void tell_order(const struct shop *shop, const struct speaker *speaker)
{
    for (size_t i = 1; i < shop->limits.band_count; i++) {
        const struct band *slow = &shop->limits.bands[i - 1], *fast = slow + 1;
        if (is_higher(&fast->low, &slow->low) || is_higher(&fast->high, &slow->high))
            speaker_say(
                speaker,
                "band %s-%s r/min: its limits are higher than those of the slower band before "
                "it; are rows exchanged?",
                fast->from.q.digits, fast->to.q.digits);
    }
}

/* The band is that of the top speed: where no speed is the top speed, one may be missing. */
static void tell_speeds(const struct shop *shop, const struct speaker *speaker)
{
    const struct measures *speeds = &shop->lathe.speeds;
    const struct quantity *top = &shop->lathe.top_speed.q;
    const struct quantity *fastest = speeds->count ? &speeds->items[speeds->count - 1].q : NULL;
    if (fastest && decimal_compare(&fastest->exact, &top->exact) != 0)
        speaker_say(
            speaker,
            "no speed of lathe.speeds is lathe.top-speed, %s r/min; the fastest is %s r/min. "
            "Is one missing?",
            top->digits, fastest->digits);
}

static void tell_unused_slack(const struct shop *shop, const struct speaker *speaker)
{
    if (shop->limits.basis == BASIS_ABSOLUTE && given(&shop->limits.slack_drag))
        speaker_say(
            speaker,
            "limits.slack-drag is not used, since limits.basis is absolute: if the manual "
            "limits what the nut adds, write increase there; else leave it out");
}

void remarks_tell(const struct shop *shop, const struct listener *listener)
{
    struct speaker speaker = {.listener = listener};
    tell_cut_texts(shop, &speaker);
    tell_speeds(shop, &speaker);
    tell_lengths(shop, &speaker);
    if (!shop_has_limits(shop)) {
        speaker_say(
            &speaker, NO_LIMIT_ON_FILE
            ". There are no windows, and a drag is only compared with earlier ones; see the "
            "page \"The manual is lost\"");
        return;
    }
    for (size_t i = 0; i < shop->limits.band_count; i++)
        tell_band(shop, &shop->limits.bands[i], &speaker);
    tell_own_band(shop, &speaker);
    tell_units(shop, &speaker);
    tell_order(shop, &speaker);
    tell_unused_slack(shop, &speaker);
}
