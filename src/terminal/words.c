#include "terminal/words.h"

#include <string.h>

/* A bare number takes the following word as its unit. */
static bool is_bare(const char *word)
{
    return word[strspn(word, "0123456789./-")] == '\0';
}

bool words_quantity(const struct question *question, size_t *at, enum kind kind,
                    struct diags *diags, struct quantity *quantity)
{
    char text[2 * QUANTITY_TEXT];
    struct quantity_fault wrong;
    size_t first = *at;
    size_t used = (size_t)snprintf(text, sizeof text, "%s", question->words[(*at)++]);
    while (used < sizeof text && is_bare(question->words[*at - 1]) &&
           *at < question->word_count)
        used +=
            (size_t)snprintf(text + used, sizeof text - used, " %s", question->words[(*at)++]);
    if (quantity_parse(text, kind, quantity, &wrong))
        return true;
    fault(diags, (struct place){.file = question->words[first]}, "%s", wrong.message);
    return false;
}

bool words_band(const struct question *question, struct diags *diags, const struct band **band)
{
    char text[2 * QUANTITY_TEXT];
    struct quantity_fault wrong;
    *band = shop_own_band(question->shop);
    if (!question->speed)
        return true;
    snprintf(text, sizeof text, "%s%s", question->speed,
             is_bare(question->speed) ? " r/min" : "");
    bool good = band_read(question->shop, text, band, &wrong);
    if (!good)
        fault(diags, (struct place){.file = "--speed"}, "%s", wrong.message);
    return good;
}

bool words_lock(const struct question *question, struct diags *diags, struct lock_told *lock)
{
    struct quantity added;
    struct quantity_fault wrong;
    *lock = (struct lock_told){LOCK_UNSAID, lock_added_last(question->shop)};
    bool good = lock_read(question->lock ? question->lock : "", &lock->lock, &wrong);
    if (!good)
        fault(diags, (struct place){.file = "--lock"}, "%s", wrong.message);
    if (!question->lock_added)
        return good;
    if (!quantity_parse(question->lock_added, KIND_TORQUE, &added, &wrong)) {
        fault(diags, (struct place){.file = "--lock-added"}, "%s", wrong.message);
        return false;
    }
    lock->added = added.base;
    return good;
}

static void add_row(void *to, const char *name, const char *label, const char *value,
                    const char *unit)
{
    answer_add(to, name, label, value, unit);
}

struct teller answer_teller(struct answer *answer)
{
    return (struct teller){.row = add_row, .to = answer};
}
