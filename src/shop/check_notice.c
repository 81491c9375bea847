/* Whoever puts in a lathe, limits and logs of his own takes the notice away: not before. */
#include "shop/shop.h"

#include <string.h>

static bool says_invented(const char *text)
{
    return text && strcasestr(text, "invented");
}

static void check_key(const struct shop *shop, const char *key, const char *text,
                      struct diags *diags)
{
    if (says_invented(text))
        fault(diags, (struct place){.file = shop->file},
              "%s still says 'invented', but lathe.notice is gone; write your own, or keep the "
              "notice",
              key);
}

/* Where there is one such row there are more: the first stands for all. */
static void fault_row(struct place at, struct diags *diags)
{
    fault(diags, at,
          "this row still says 'invented', but lathe.notice is gone; delete every row that is "
          "not your own, or keep the notice");
}

static void check_weighings(const struct weighings *log, struct diags *diags)
{
    for (size_t i = 0; i < log->count; i++)
        if (says_invented(log->items[i].note)) {
            fault_row(log->items[i].at, diags);
            return;
        }
}

static void check_readings(const struct pull_series_log *log, struct diags *diags)
{
    for (size_t i = 0; i < log->count; i++)
        if (says_invented(log->items[i].note)) {
            fault_row(log->items[i].at, diags);
            return;
        }
}

void shop_check_notice(const struct shop *shop, struct diags *diags)
{
    if (shop->lathe.notice)
        return;
    check_key(shop, "lathe.name", shop->lathe.name, diags);
    check_key(shop, "lathe.workshop", shop->lathe.workshop, diags);
    check_key(shop, "limits.source", shop->limits.source, diags);
    check_key(shop, "drum.name", shop->drum.name, diags);
    check_key(shop, "cord.name", shop->cord.name, diags);
    check_key(shop, "gauge.name", shop->gauge.name, diags);
    check_weighings(&shop->weighings, diags);
    check_readings(&shop->readings, diags);
}
