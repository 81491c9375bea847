/* Whoever puts in a lathe, limits and logs of his own takes the notice away: not before. */
#include "shop/check_parts.h"

#include <string.h>

static bool says_invented(const char *text)
{
    return text && strcasestr(text, "invented");
}

static struct place place_of(const struct shop *shop, const char *text)
{
    for (size_t i = 0; i < shop->text_count; i++)
        if (shop->texts[i].text == text)
            return shop->texts[i].at;
    return (struct place){.file = shop->file};
}

static void check_key(const struct shop *shop, const char *key, const char *text,
                      struct diags *diags)
{
    if (says_invented(text))
        fault(diags, place_of(shop, text),
              "%s still says 'invented', but lathe.notice is gone; write your own, or keep the "
              "notice",
              key);
}

/* Where there is one such row there are more: the first stands for all. */
static bool told_of_row(const char *note, struct place at, struct diags *diags)
{
    if (!says_invented(note))
        return false;
    fault(diags, at,
          "this row still says 'invented', but lathe.notice is gone; delete every row that is "
          "not your own, or keep the notice");
    return true;
}

static void check_rows(const struct shop *shop, struct diags *diags)
{
    const struct weighings *weighings = &shop->weighings;
    const struct pull_series_log *readings = &shop->readings;
    for (size_t i = 0; i < weighings->count; i++)
        if (told_of_row(weighings->items[i].note, weighings->items[i].at, diags))
            break;
    for (size_t i = 0; i < readings->count; i++)
        if (told_of_row(readings->items[i].note, readings->items[i].at, diags))
            break;
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
    check_rows(shop, diags);
}
