#include "terminal/words.h"

#include "verdict/typed.h"

#include <string.h>

/* A bare number takes the following word as its unit. */
static bool is_bare(const char *word)
{
    word += quantity_minus(word);
    return word[strspn(word, "0123456789./-")] == '\0';
}

/* Whether a word begins a number that is no fraction of the bare one before it. */
static bool is_next_number(const char *before, const char *word)
{
    size_t digits = strspn(word, "0123456789");
    bool fraction = word[digits] == '/' && !strpbrk(before, "./");
    return (digits > 0 || word[0] == '.' || quantity_minus(word)) && !fraction;
}

/* The unit behind the last of some numbers without one; NULL: there is none. */
static const char *shared_unit(const struct question *question, size_t at)
{
    while (at < question->word_count && is_bare(question->words[at]))
        at++;
    if (at == question->word_count)
        return NULL;
    const char *word = question->words[at];
    return word + strspn(word, "0123456789.");
}

/* What a part of was left out would be read as something else. */
static bool has_room(size_t used, size_t room, const char *place, struct diags *diags)
{
    if (used < room)
        return true;
    fault(diags, (struct place){.file = place},
          "this is too long for a number and its unit; leave the rest off");
    return false;
}

enum { TYPED_TEXT = 2 * QUANTITY_TEXT };

/* A bare number with another behind it: with the unit that the pulls share. False after a
 * fault. */
static bool add_shared_unit(const struct question *question, size_t at, enum kind kind,
                            struct diags *diags, char text[TYPED_TEXT])
{
    const char *first = question->words[at - 1];
    const char *unit = kind == KIND_FORCE ? shared_unit(question, at) : NULL;
    if (unit) {
        snprintf(text, TYPED_TEXT, "%s %s", first, unit);
        return true;
    }
    fault(diags, (struct place){.file = first},
          "this number has no unit; write it behind the number, as in %s", kind_example(kind));
    return false;
}

bool words_quantity(const struct question *question, size_t *at, enum kind kind,
                    struct diags *diags, struct quantity *quantity)
{
    char text[TYPED_TEXT];
    struct quantity_fault wrong;
    const char *first = question->words[*at];
    size_t used = (size_t)snprintf(text, sizeof text, "%s", question->words[(*at)++]);
    bool shared = *at < question->word_count && is_bare(first) &&
                  is_next_number(first, question->words[*at]);
    if (shared && !add_shared_unit(question, *at, kind, diags, text))
        return false;
    while (!shared && used < sizeof text && is_bare(question->words[*at - 1]) &&
           *at < question->word_count)
        used +=
            (size_t)snprintf(text + used, sizeof text - used, " %s", question->words[(*at)++]);
    if (!has_room(used, sizeof text, first, diags))
        return false;
    if (quantity_parse(text, kind, quantity, &wrong))
        return true;
    fault(diags, (struct place){.file = first}, "%s", wrong.message);
    return false;
}

bool words_band(const struct question *question, struct diags *diags, const struct band **band)
{
    static const char place[] = "--speed";
    char text[TYPED_TEXT];
    struct quantity_fault wrong;
    *band = shop_own_band(question->shop);
    if (!question->speed)
        return true;
    size_t used = (size_t)snprintf(text, sizeof text, "%s%s", question->speed,
                                   is_bare(question->speed) ? " r/min" : "");
    if (!has_room(used, sizeof text, place, diags))
        return false;
    bool good = band_read(question->shop, text, band, &wrong);
    if (!good)
        fault(diags, (struct place){.file = place}, "%s", wrong.message);
    return good;
}

typedef bool taken_reader(const char *text, struct taken *taken, struct quantity_fault *fault);

static bool read_taken(const char *option, const char *text, taken_reader *read,
                       struct taken *taken, struct diags *diags)
{
    struct quantity_fault wrong = {.message =
                                       "a word is missing; write it, or leave the option out"};
    if (!text || (text[0] && read(text, taken, &wrong)))
        return true;
    fault(diags, (struct place){.file = option}, "%s", wrong.message);
    return false;
}

bool words_taken(const struct question *question, struct diags *diags, struct taken *taken)
{
    bool lock = read_taken("--lock", question->lock, taken_lock_read, taken, diags);
    bool warmth = read_taken("--warmth", question->warmth, taken_warmth_read, taken, diags);
    bool direction =
        read_taken("--direction", question->direction, taken_direction_read, taken, diags);
    return lock && warmth && direction;
}

bool words_lock_added(const struct question *question, struct diags *diags, double *added)
{
    struct quantity typed;
    struct quantity_fault wrong;
    *added = lock_added_last(question->shop);
    if (!question->lock_added)
        return true;
    if (!quantity_parse(question->lock_added, KIND_TORQUE, &typed, &wrong)) {
        fault(diags, (struct place){.file = "--lock-added"}, "%s", wrong.message);
        return false;
    }
    *added = typed.base;
    return true;
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
