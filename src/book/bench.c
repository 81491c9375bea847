#include "book/bench.h"

#include "judge/drums.h"
#include "judge/nut.h"
#include "shop/fields.h"

#include <string.h>

/* With the unit as it is typed, so that an input may be filled with it. */
static const char *as_typed(struct arena *arena, const struct quantity *quantity)
{
    return arena_format(arena, "%s %s", quantity->digits, quantity->unit->symbol);
}

static const char *list_text(struct arena *arena, const struct measures *list)
{
    const char *text = "";
    for (size_t i = 0; i < list->count; i++)
        text = arena_format(arena, "%s%s%s", text, i ? ", " : "",
                            as_typed(arena, &list->items[i].q));
    return text;
}

/* NULL where the value was not given. */
static const char *field_text(struct arena *arena, const struct field *field,
                              const void *address)
{
    const struct measure *measure = address;
    switch (field->type) {
    case FIELD_TEXT:
        return *(const char *const *)address;
    case FIELD_QUANTITY:
        return given(measure) ? as_typed(arena, &measure->q) : NULL;
    case FIELD_LIST:
        return list_text(arena, address);
    case FIELD_COUNT:
        return *(const int *)address ? arena_format(arena, "%d", *(const int *)address) : NULL;
    case FIELD_CHOICE:
        return field->choices[*(const int *)address];
    }
    return NULL;
}

struct settings {
    struct bench_setting *items;
    size_t count;
};

static void add_setting(struct book *book, struct settings *settings, const char *key,
                        const char *text)
{
    if (text && text[0])
        *ARENA_PUSH(book->arena, settings->items, settings->count) =
            (struct bench_setting){key, text};
}

static void add_band(struct book *book, struct settings *settings, const struct field *field)
{
    const char *hash = strchr(field->path, '#');
    for (size_t i = 0; i < book->shop.limits.band_count; i++)
        add_setting(book, settings,
                    arena_format(book->arena, "%.*s%zu%s", (int)(hash - field->path),
                                 field->path, i + 1, hash + 1),
                    field_text(book->arena, field,
                               (char *)&book->shop.limits.bands[i] + field->offset));
}

/* The gauge's check belongs to how sure a drag is. */
static void add_weighings(struct book *book, struct settings *settings)
{
    const struct weighings *check = &book->shop.weighings;
    for (size_t i = 0; i < check->count; i++) {
        add_setting(book, settings, "weighing.load",
                    as_typed(book->arena, &check->items[i].load));
        add_setting(book, settings, "weighing.reading",
                    as_typed(book->arena, &check->items[i].reading));
    }
}

/* The most of breakaway over mean belongs to what a gauge must read. */
static void add_breakaway(struct book *book, struct settings *settings)
{
    const struct pull_series *series = hardest_breakaway(&book->shop);
    if (!series)
        return;
    add_setting(book, settings, "log.breakaway", as_typed(book->arena, &series->breakaway));
    for (size_t i = 0; i < series->pull_count; i++)
        add_setting(book, settings, "log.pull", as_typed(book->arena, &series->pulls[i]));
}

/* All but the word that there is none. */
static bool is_limit(const struct field *field)
{
    return strncmp(field->path, "limits.", strlen("limits.")) == 0 &&
           strcmp(field->path, "limits.on-file") != 0;
}

/* No setting: what the log knows of the lock, to fill in an input. */
static void add_lock(struct book *book, struct settings *settings)
{
    struct quantity added;
    if (lock_added_known(&book->shop, &added))
        add_setting(book, settings, "log.lock-added", as_typed(book->arena, &added));
}

struct bench_setting *book_bench_settings(struct book *book, size_t *count)
{
    struct settings settings = {0};
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!shop_has_limits(&book->shop) && is_limit(field))
            continue;
        if (strchr(field->path, '#'))
            add_band(book, &settings, field);
        else
            add_setting(book, &settings, field->path,
                        field_text(book->arena, field, (char *)&book->shop + field->offset));
    }
    add_weighings(book, &settings);
    add_breakaway(book, &settings);
    add_lock(book, &settings);
    *count = settings.count;
    return settings.items;
}
