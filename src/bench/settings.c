/* The workshop from keys and texts, as the settings file has them: the same table of
 * fields, the same ranges, the same check of the whole. */
#include "bench/bench.h"

#include "shop/fields.h"
#include "verdict/remarks.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Texts of the settings live here; everything points into them. */
static char texts[BENCH_ROOM];
static struct band bands[MOST_BANDS];
static struct measure drum_sizes[MOST_LIST], arms[MOST_LIST], speeds[MOST_LIST];
static struct weighing weighings[MOST_WEIGHINGS];
static struct pull_series hardest;
static struct shop own;
static bool is_good;

const struct shop *bench_shop(void)
{
    return is_good ? &own : NULL;
}

/* ---- faults of the shop's check: the place's file is the key ---- */

struct diags {
    const char *key; /* told instead of the place's, where not NULL */
    size_t count;
};

void fault(struct diags *diags, struct place at, const char *format, ...)
{
    char message[400];
    va_list args;
    va_start(args, format);
    vsnprintf(message, sizeof message, format, args);
    va_end(args);
    diags->count++;
    bench_fault(diags->key ? diags->key : at.file ? at.file : "", 0, message);
}

size_t diags_count(const struct diags *diags)
{
    return diags->count;
}

/* ---- filling ---- */

static void *address_of(struct shop *shop, const struct field *field, int row)
{
    if (!row)
        return (char *)shop + field->offset;
    return (char *)&shop->limits.bands[row - 1] + field->offset;
}

/* path: where the value belongs; key: whom to tell of a fault. */
static bool read_measure(const struct field *field, const char *path, const char *key,
                         const char *text, struct measure *measure)
{
    struct quantity_fault wrong;
    char message[RANGE_TEXT];
    *measure = (struct measure){.at = {.file = key}};
    if (!quantity_parse(text, field->kind, &measure->q, &wrong))
        bench_fault(key, wrong.offset, wrong.message);
    else if (!field_allows(field, path, &measure->q, message))
        bench_fault(key, 0, message);
    else
        return true;
    measure->q.unit = NULL;
    return false;
}

static void read_list(const struct field *field, const struct bench_field *from,
                      struct measures *list, struct measure *items)
{
    char text[2 * QUANTITY_TEXT];
    list->items = items;
    list->count = 0;
    for (const char *at = from->text; list->count < MOST_LIST;) {
        size_t length = strcspn(at, ",");
        snprintf(text, sizeof text, "%.*s", (int)length, at);
        if (read_measure(field, from->key, from->key, text, &items[list->count]))
            list->count++;
        if (!at[length])
            return;
        at += length + 1;
    }
}

static int choice_of(const struct field *field, const char *text)
{
    for (int i = 0; field->choices[i]; i++)
        if (strcmp(field->choices[i], text) == 0)
            return i;
    return 0;
}

static void fill_field(struct shop *shop, const struct field *field, int row,
                       const struct bench_field *from)
{
    void *address = address_of(shop, field, row);
    switch (field->type) {
    case FIELD_TEXT:
        *(const char **)address = from->text;
        break;
    case FIELD_QUANTITY:
        if (from->text[0] || field->required)
            read_measure(field, from->key, from->key, from->text, address);
        break;
    case FIELD_LIST:
        read_list(field, from, address,
                  address == (void *)&shop->drum_sizes     ? drum_sizes
                  : address == (void *)&shop->lathe.speeds ? speeds
                                                           : arms);
        break;
    case FIELD_COUNT:
        *(int *)address = (int)strtol(from->text, NULL, 10);
        break;
    case FIELD_CHOICE:
        *(int *)address = choice_of(field, from->text);
        break;
    }
}

/* The gauge's check, a load and its reading in turn; the book has looked at them. */
static bool fill_weighing(struct weighings *check, const struct bench_field *from)
{
    struct quantity_fault ignored;
    struct weighing *at = &weighings[check->count];
    bool is_reading = strcmp(from->key, "weighing.reading") == 0;
    if ((!is_reading && strcmp(from->key, "weighing.load") != 0) ||
        check->count == MOST_WEIGHINGS)
        return is_reading;
    if (is_reading)
        check->count += quantity_parse(from->text, KIND_FORCE, &at->reading, &ignored);
    else if (!quantity_parse(from->text, KIND_MASS, &at->load, &ignored))
        quantity_parse(from->text, KIND_FORCE, &at->load, &ignored);
    check->items = weighings;
    return true;
}

/* Of the log only the series with the hardest breakaway: its breakaway, then its pulls. */
static bool fill_breakaway(struct pull_series_log *log, const struct bench_field *from)
{
    struct quantity_fault ignored;
    if (strcmp(from->key, "log.breakaway") == 0) {
        hardest.pull_count = 0;
        log->items = &hardest;
        log->count = quantity_parse(from->text, KIND_FORCE, &hardest.breakaway, &ignored);
        return true;
    }
    if (strcmp(from->key, "log.pull") != 0)
        return false;
    if (hardest.pull_count < SERIES_PULLS)
        hardest.pull_count += quantity_parse(from->text, KIND_FORCE,
                                             &hardest.pulls[hardest.pull_count], &ignored);
    return true;
}

static void fill(struct shop *shop, const struct bench_field *from)
{
    int row;
    if (fill_weighing(&shop->weighings, from) || fill_breakaway(&shop->readings, from))
        return;
    const struct field *field = field_find(from->key, &row);
    if (!field)
        return;
    if ((size_t)row > shop->limits.band_count)
        shop->limits.band_count = (size_t)row;
    fill_field(shop, field, row, from);
}

/* A copy that outlives the question. */
static const char *keep(const char *text, size_t *kept)
{
    size_t length = strlen(text) + 1;
    if (length > sizeof texts - *kept)
        __builtin_trap();
    char *copy = memcpy(texts + *kept, text, length);
    *kept += length;
    return copy;
}

static void hear(void *to, const char *remark)
{
    (void)to;
    bench_row("remark", "", remark, "");
}

static void tell_limits(const struct band *band)
{
    char at_speeds[3 * QUANTITY_TEXT], drags[3 * QUANTITY_TEXT];
    char from[QUANTITY_TEXT], to[QUANTITY_TEXT], low[QUANTITY_TEXT], high[QUANTITY_TEXT];
    quantity_show(&band->from.q, from);
    quantity_show(&band->to.q, to);
    quantity_show(&band->low.q, low);
    quantity_show(&band->high.q, high);
    snprintf(at_speeds, sizeof at_speeds, "%s to %s", from, to);
    snprintf(drags, sizeof drags, "%s to %s", low, high);
    bench_row("limit", at_speeds, drags, "");
}

void bench_settings(const struct bench_question *question)
{
    static const struct listener listener = {.hear = hear};
    size_t kept = 0;
    is_good = false;
    memset(bands, 0, sizeof bands);
    own = (struct shop){.limits.bands = bands};
    for (size_t i = 0; i < question->count; i++) {
        struct bench_field from = {keep(question->fields[i].key, &kept),
                                   keep(question->fields[i].text, &kept)};
        fill(&own, &from);
    }
    struct diags diags = {NULL, bench_fault_count()};
    shop_check(&own, &diags); /* as far as it was given */
    is_good = diags.count == 0;
    if (!is_good)
        return;
    for (size_t i = 0; i < own.limits.band_count; i++)
        tell_limits(&own.limits.bands[i]);
    if (!shop_has_limits(&own))
        bench_row("limit", "limits", NO_LIMIT_ON_FILE, "");
    remarks_tell(&own, &listener);
}

bool bench_shop_with(const char *path, const char *key, const char *text, struct shop *shop)
{
    int row;
    const struct field *field = field_find(path, &row);
    struct diags diags = {key, 0};
    *shop = own;
    if (!field || !read_measure(field, path, key, text, address_of(shop, field, row)))
        return false;
    shop_check(shop, &diags);
    return diags.count == 0;
}
