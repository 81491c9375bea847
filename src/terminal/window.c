/* spindlebook window: what the gauge may read on this drum. */
#include "terminal/terminal.h"

#include "terminal/words.h"

bool terminal_window(const struct question *question, struct diags *diags,
                     struct answer *answer)
{
    if (question->word_count) {
        fault(diags, (struct place){.file = question->words[0]},
              "window takes no words; give a drum with --drum and a speed with --speed");
        return false;
    }
    const struct band *band;
    struct teller teller = answer_teller(answer);
    if (!words_band(question, diags, &band))
        return false;
    tell_window(&teller, question->shop, band);
    return true;
}
