/* What the bench page begins with: the settings as they were typed, then what the logs add. */
#include "book/stages.h"

#include "judge/drums.h"
#include "judge/nut.h"
#include "shop/fields.h"

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

static void add_quantity(struct book *book, struct settings *settings, const char *key,
                         const struct quantity *quantity)
{
    add_setting(book, settings, key, quantity_typed(book->arena, quantity));
}

/* What no setting says: the gauge's check belongs to how sure a drag is; the most of breakaway
 * over mean to what a gauge must read; and what locking added the last time fills an input. */
static void add_logs(struct book *book, struct settings *settings)
{
    const struct weighings *check = &book->shop.weighings;
    const struct pull_series *series = hardest_breakaway(&book->shop);
    struct quantity added;
    for (size_t i = 0; i < check->count; i++) {
        add_quantity(book, settings, "weighing.load", &check->items[i].load);
        add_quantity(book, settings, "weighing.reading", &check->items[i].reading);
    }
    if (series)
        add_quantity(book, settings, "log.breakaway", &series->breakaway);
    for (size_t i = 0; series && i < series->pull_count; i++)
        add_quantity(book, settings, "log.pull", &series->pulls[i]);
    if (lock_added_known(&book->shop, &added))
        add_quantity(book, settings, "log.lock-added", &added);
}

struct bench_setting *book_bench_settings(struct book *book, size_t *count)
{
    struct settings settings = {0};
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!shop_has_limits(&book->shop) && is_limit(field->path))
            continue;
        for (size_t row = 1; row <= field_rows(field, &book->shop); row++)
            add_setting(book, &settings, field_path(book->arena, field, row),
                        field_text(book->arena, field, &book->shop, row));
    }
    add_logs(book, &settings);
    *count = settings.count;
    return settings.items;
}
