/* What is asked of who begins a lathe: one question at a time, in one order at the terminal and
 * on a page, each answer checked at once by what reads the settings file. The answers are a
 * list of settings in the order in which they were given, a blank one as "". */
#ifndef SHOP_ASKED_H
#define SHOP_ASKED_H

#include "base/buffer.h"
#include "shop/fields.h"

struct question {
    const struct field *field;
    const char *path;
    const char *blank; /* what a blank answer stands for, as typed; NULL: it is not taken; "":
                        * the key is left out */
};

/* The next question; false: all is answered. Owned by the arena. */
bool question_next(struct arena *arena, const struct setting_list *answers,
                   struct question *question);

/* Which question it is, from 1. */
size_t question_number(const struct setting_list *answers);

/* "The drag that the manual means". */
const char *question_words(struct arena *arena, const struct question *question);

/* Adds an answer as it was typed, with what follows from it, and reads all into the shop; or
 * finds a fault, and the list stays as it was. A word may be told by its beginning. */
bool answer_take(struct arena *arena, struct diags *diags, struct setting_list *answers,
                 const struct question *question, const char *text, struct shop *shop);

/* How an answer was understood where that is not as it was typed, else NULL. */
const char *answer_read_as(const struct shop *shop, const char *path);

/* Takes the last answer back, with what followed from it; or all that was said of the speed
 * bands, which is then asked again. */
void answer_take_back(struct setting_list *answers);
void answers_forget_bands(struct setting_list *answers);

/* The shop of the answers so far: what is missing is no fault, and no logs are read. */
void answers_shop(struct arena *arena, struct diags *diags, const struct setting_list *answers,
                  struct shop *shop);

/* The answers as a settings file, a key and its value a line, a blank answer as a remark; and
 * the way back. Only a text that begins as such a file does is one. */
void answers_print(struct arena *arena, struct buffer *out, const struct setting_list *answers);
bool answers_are(const char *text);
void answers_read(struct arena *arena, struct diags *diags, const char *file, const char *text,
                  struct setting_list *answers);

#endif
