/* spindlebook pull: what a series of pulls says of the drag. */
#include "terminal/terminal.h"

#include "terminal/words.h"
#include "verdict/typed.h"

static size_t read_pulls(const struct question *question, struct diags *diags,
                         struct quantity *pulls)
{
    size_t count = 0;
    for (size_t at = 0; at < question->word_count; count++) {
        struct quantity pull;
        struct quantity_fault wrong;
        const char *first = question->words[at];
        if (!words_quantity(question, &at, KIND_FORCE, diags, &pull))
            return 0;
        if (!pull_allowed(question->shop, &pull, count, &wrong)) {
            fault(diags, (struct place){.file = first}, "%s", wrong.message);
            return 0;
        }
        pulls[count] = pull;
    }
    if (count == 0)
        fault(diags, (struct place){.file = "pull"},
              "there are no pulls; write them behind the verb, as in 4.31N 4.28N 4.35N");
    return count;
}

bool terminal_pull(const struct question *question, struct diags *diags, struct answer *answer)
{
    struct quantity pulls[MOST_PULLS];
    size_t count = read_pulls(question, diags, pulls);
    const struct band *band;
    struct taken taken = {LOCK_UNSAID, SAID_NOTHING, false};
    double lock_added;
    bool taken_known = words_taken(question, diags, &taken);
    bool lock_known = words_lock_added(question, diags, &lock_added);
    if (!words_band(question, diags, &band) || !count || !taken_known || !lock_known)
        return false;
    struct rig rig = shop_rig(question->shop);
    struct judgement judgement = judge_pulls(question->shop, band, &rig, &taken, pulls, count);
    struct teller teller = answer_teller(answer);
    tell_judgement(&teller, question->shop, &judgement, pulls, lock_added);
    return true;
}
