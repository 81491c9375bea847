#include "tables/common.h"

#include "judge/drums.h"
#include "judge/gauge.h"
#include "judge/window.h"

#include <ctype.h>
#include <string.h>

void put_number(struct arena *arena, struct cell *cell, double value, const char *shown)
{
    cell->shown = arena_text(arena, shown);
    cell->value = value;
    cell->has_value = true;
}

void put_text(struct cell *cell, const char *text)
{
    cell->shown = text;
}

const char *drum_text(struct arena *arena, const struct quantity *drum)
{
    return arena_format(arena, "%s drum", quantity_text(arena, drum));
}

const char *option_value(const struct table_ask *ask, const char *key, struct place *at)
{
    for (size_t i = 0; i < ask->option_count; i++)
        if (strcmp(ask->options[i].key, key) == 0) {
            *at = ask->options[i].at;
            return ask->options[i].value;
        }
    return NULL;
}

const char *band_or_none(struct arena *arena, const struct band *band)
{
    return band ? band_text(arena, band) : NO_LIMIT_ON_FILE;
}

bool asked_band(const struct table_ask *ask, const struct band **band)
{
    struct place at;
    struct quantity speed;
    struct quantity_fault wrong;
    const char *text = option_value(ask, "speed", &at);
    *band = shop_own_band(ask->shop);
    if (!text)
        return true;
    if (!quantity_parse(text, KIND_SPEED, &speed, &wrong)) {
        fault(ask->diags, at, "speed: %s", wrong.message);
        return false;
    }
    *band = shop_band_at(ask->shop, speed.base);
    if (*band || !shop_has_limits(ask->shop))
        return true;
    fault(ask->diags, at, "the speed %s lies in no speed band; give one that the limits cover",
          text);
    return false;
}

size_t drum_and_neighbours(const struct shop *shop, const struct quantity *drums[3],
                           size_t *fitted)
{
    const struct quantity *own = &shop->drum.diameter.q, *smaller = NULL, *larger = NULL;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order < 0 && decimal_compare(&size->exact, &shop->cord.diameter.q.exact) > 0)
            smaller = size;
        if (order > 0 && !larger)
            larger = size;
    }
    size_t count = 0;
    if (smaller)
        drums[count++] = smaller;
    *fitted = count;
    drums[count++] = own;
    if (larger)
        drums[count++] = larger;
    return count;
}

void put_steps(const struct table_ask *ask, struct cell *cell, double pull, int64_t steps)
{
    const struct quantity *step = &ask->shop->gauge.step.q;
    struct shown shown = show_steps(steps, &step->typed);
    put_number(ask->arena, cell, unit_from_base(pull, step->unit), shown.text);
}

bool put_pulls(const struct table_ask *ask, struct cell *low, const struct pull_window *window)
{
    if (window->closed) {
        put_text(low, "none");
        put_text(low + 1, "none");
        return false;
    }
    put_steps(ask, low, window->low, window->low_steps);
    put_steps(ask, low + 1, window->high, window->high_steps);
    return true;
}

/* " (turned drum, no. 1)", so that two of one size can be told apart; else "". */
static const char *in_brackets(struct arena *arena, const char *name)
{
    return name ? arena_format(arena, " (%s)", name) : "";
}

void note_rig(struct table *table, const struct shop *shop)
{
    struct arena *arena = table->arena;
    table_note(table, "Drum %s%s, cord %s%s: effective radius %s.",
               quantity_text(arena, &shop->drum.diameter.q),
               in_brackets(arena, shop->drum.name),
               quantity_text(arena, &shop->cord.diameter.q),
               in_brackets(arena, shop->cord.name), radius_words(shop).text);
}

void note_inputs(struct table *table, const struct shop *shop, bool with_drum)
{
    struct arena *arena = table->arena;
    char kind[LIMIT_KIND_TEXT];
    if (with_drum)
        note_rig(table, shop);
    else
        table_note(table, "Cord %s%s.", quantity_text(arena, &shop->cord.diameter.q),
                   in_brackets(arena, shop->cord.name));
    if (!shop_has_limits(shop)) {
        table_note(table, "Limits: " NO_LIMIT_ON_FILE ". Settings %s.", shop->fingerprint);
        return;
    }
    shop_limit_kind(shop, kind);
    table_note(table, "Limits: %s; %s. Settings %s.", shop->limits.source, kind,
               shop->fingerprint);
    if (shop->limits.basis == BASIS_INCREASE)
        table_note(table, "The pulls hold the slack drag of %s as well as the increase.",
                   quantity_text(arena, &shop->limits.slack_drag.q));
}

void note_inward(struct table *table, const struct shop *shop)
{
    table_note(table,
               "Rounded inward to the gauge's steps of %s%s: low pulls up, high pulls down.",
               quantity_text(table->arena, &shop->gauge.step.q),
               in_brackets(table->arena, shop->gauge.name));
}

void note_bands_beyond(struct table *table, const struct shop *shop)
{
    struct most_pull most = {0};
    char text[MOST_PULL_TEXT];
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        struct pull_window window = pull_window_of(shop, &shop->limits.bands[i]);
        struct most_pull next = most_pull_of(shop, &window);
        if (next.force > most.force)
            most = next;
    }
    most_pull_words(shop, &most, text);
    if (most.beyond)
        table_note(table, "%c%s.", toupper(text[0]), text + 1);
}

void note_reach(struct table *table, const struct shop *shop, double low, double high)
{
    char text[REACH_TEXT];
    if (gauge_reach_ends(shop, low, high, text))
        table_note(table, "%s.", text);
}

void note_closed(struct table *table)
{
    table_note(table,
               "none: no step of this gauge lies between the limits. Take a finer gauge, or "
               "a smaller drum, which asks for more pull.");
}

void note_no_closing(struct table *table)
{
    table_note(table, "none: the log holds no series that was turned the usual way, as warm as "
                      "the limits say (cold without limits) and not before locking.");
}
