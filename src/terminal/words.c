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

const struct band *words_band(const struct question *question, struct diags *diags)
{
    char text[2 * QUANTITY_TEXT];
    struct quantity speed;
    struct quantity_fault wrong;
    if (!question->speed)
        return shop_own_band(question->shop);
    snprintf(text, sizeof text, "%s%s", question->speed,
             is_bare(question->speed) ? " r/min" : "");
    struct place at = {.file = "--speed"};
    if (!quantity_parse(text, KIND_SPEED, &speed, &wrong)) {
        fault(diags, at, "%s", wrong.message);
        return NULL;
    }
    const struct band *band = shop_band_at(question->shop, speed.base);
    if (!band)
        fault(diags, at, "%s lies in no speed band; give a speed that the limits cover", text);
    return band;
}

void answer_decimal(struct answer *answer, const char *name, const char *label, double value,
                    int places, const char *unit)
{
    answer_add(answer, name, label, show_places(value, places).text, unit);
}

void answer_band(struct answer *answer, const struct band *band)
{
    answer_add(answer, "band-from", "Speed band from", band->from.q.digits, "r/min");
    answer_add(answer, "band-to", "to", band->to.q.digits, "r/min");
}
