/* The bench page's engine: one question in, one answer out, both plain text. It is
 * compiled to WebAssembly from the same number, drag, shop and verdict as the program,
 * and holds no formula, rounding, rule or word of its own for what those can say.
 *
 * A question is a verb, then lines of a key and a text with a tab between them. An
 * answer is rows of four fields with tabs between them: name, label, value, unit; or,
 * for a text that cannot be, "fault", the key, the byte of the text, the words. */
#ifndef BENCH_BENCH_H
#define BENCH_BENCH_H

#include "verdict/told.h"

/* A weighing is two fields; the rest are settings. */
enum { BENCH_ROOM = 256 * 1024, MOST_FIELDS = 2 * MOST_WEIGHINGS + 500 };

/* ---- what the page calls ---- */

/* Where the question is to be written: BENCH_ROOM bytes, a NUL behind the text. */
char *bench_room(void);

/* The answer; it stays until the next question. */
const char *bench_ask(void);

/* ---- what the files of the engine share ---- */

struct bench_field {
    const char *key, *text;
};

struct bench_question {
    const char *verb;
    struct bench_field fields[MOST_FIELDS];
    size_t count;
};

/* The text of a key; "" where it is not there. */
const char *bench_text(const struct bench_question *question, const char *key);

void bench_row(const char *name, const char *label, const char *value, const char *unit);
void bench_fault(const char *key, size_t offset, const char *message);
size_t bench_fault_count(void);

/* Whatever is told becomes rows. */
extern const struct teller bench_teller;

/* The text of a key as a quantity; false after a fault. */
bool bench_quantity(const struct bench_question *question, const char *key, enum kind kind,
                    struct quantity *quantity);

/* The workshop that the last good "settings" gave; NULL before. */
const struct shop *bench_shop(void);

/* The same with one setting replaced, checked as a whole; false after a fault, which
 * is told of `key`. */
bool bench_shop_with(const char *path, const char *key, const char *text, struct shop *shop);

/* The verbs. */
void bench_settings(const struct bench_question *question);
void bench_pull(const struct bench_question *question);
void bench_judge(const struct bench_question *question);
void bench_window(const struct bench_question *question);
void bench_drums(const struct bench_question *question);
void bench_nut(const struct bench_question *question);
void bench_kinds(const struct bench_question *question);
void bench_convert(const struct bench_question *question);
void bench_log(const struct bench_question *question);
void bench_heads(const struct bench_question *question);

#endif
