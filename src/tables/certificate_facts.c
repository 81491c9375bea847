/* What a certificate rests on: the lathe, its limits, drum, cord, gauge, and when the next
 * check is due. */
#include "shop/date.h"
#include "tables/common.h"
#include "verdict/job.h"
#include "verdict/radius.h"
#include "verdict/state.h"

static const char blank[] = "________________";

struct builder {
    const struct table_ask *ask;
    struct table *table;
};

static void add_fact(const struct builder *b, const char *what, const char *text)
{
    struct cell *cell = table_row(b->table);
    put_text(cell, what);
    put_text(cell + 1, text && text[0] ? text : "not said");
}

/* ", turned drum, no. 1" */
static const char *behind(const struct builder *b, const char *name)
{
    return name ? arena_format(b->ask->arena, ", %s", name) : "";
}

static const char *sized(const struct builder *b, const struct measure *size,
                         const struct measure *tolerance, const char *name)
{
    return arena_format(b->ask->arena, "%s ± %s%s", quantity_text(b->ask->arena, &size->q),
                        quantity_text(b->ask->arena, &tolerance->q), behind(b, name));
}

static void add_limits(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    const struct band *band = shop_own_band(shop);
    if (!band) {
        add_fact(b, "limits", NO_LIMIT_ON_FILE);
        return;
    }
    add_fact(b, "limits from", shop->limits.source);
    char kind[LIMIT_KIND_TEXT];
    shop_limit_kind(shop, kind);
    add_fact(b, "limits for", arena_text(arena, kind));
    add_fact(b, "limits",
             arena_format(arena, "%s to %s for %s", quantity_text(arena, &band->low.q),
                          quantity_text(arena, &band->high.q), band_text(arena, band)));
    if (shop->limits.basis == BASIS_INCREASE)
        add_fact(b, "slack drag, on top", quantity_text(arena, &shop->limits.slack_drag.q));
}

static void add_rig(const struct builder *b)
{
    const struct shop *shop = b->ask->shop;
    struct arena *arena = b->ask->arena;
    add_fact(b, "drum", sized(b, &shop->drum.diameter, &shop->drum.tolerance, shop->drum.name));
    add_fact(b, "cord", sized(b, &shop->cord.diameter, &shop->cord.tolerance, shop->cord.name));
    add_fact(b, "effective radius", arena_text(arena, radius_words(shop).text));
    add_fact(b, "gauge",
             arena_format(
                 arena, "%s in steps of %s%s", quantity_text(arena, &shop->gauge.capacity.q),
                 quantity_text(arena, &shop->gauge.step.q), behind(b, shop->gauge.name)));
}

static void add_weighing(const struct builder *b)
{
    const struct weighing *last = shop_last_weighing(b->ask->shop);
    add_fact(b, "gauge checked on", last ? last->date : "never: there is no log of weights");
    if (last)
        add_fact(b, "gauge checked by", last->by[0] ? last->by : blank);
}

static void add_dates(const struct builder *b)
{
    struct job job = job_last(b->ask->shop);
    char later[DATE_TEXT];
    if (!job.left) {
        add_fact(b, "closing check", "none yet");
        return;
    }
    const struct pull_series *last = job.since ? job.since : job.left;
    enum state state = judge_series(b->ask->shop, last).state;
    bool good = state == STATE_GOOD || state == STATE_NO_LIMIT;
    date_year_later(last->date, later);
    add_fact(b, "closing check", job.left->date);
    add_fact(b, "checked since", job.since ? job.since->date : "no");
    add_fact(b, "next check not after",
             good ? arena_text(b->ask->arena, later) : "none: not good, set again");
}

struct table *make_certificate_facts(const struct table_ask *ask)
{
    const struct lathe *lathe = &ask->shop->lathe;
    struct builder b = {.ask = ask};
    b.table = table_new(ask->arena, "certificate-facts", "What the certificate rests on");
    table_column(b.table, COLUMN_TEXT, "what", NULL);
    table_column(b.table, COLUMN_TEXT, "as the settings and the logs have it", NULL);
    add_fact(&b, "lathe", lathe->name);
    add_fact(&b, "workshop", lathe->workshop);
    add_fact(&b, "top speed", quantity_text(ask->arena, &lathe->top_speed.q));
    add_limits(&b);
    add_rig(&b);
    add_weighing(&b);
    add_dates(&b);
    table_note(b.table,
               "The next check: a year later at the latest (our rule), sooner where "
               "your manual says so, and after a crash. Settings %s.",
               ask->shop->fingerprint);
    return b.table;
}
