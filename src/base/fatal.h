/* How the program ends: its exit statuses; and where the machine fails (no memory, no disk),
 * at once, with why. */
#ifndef BASE_FATAL_H
#define BASE_FATAL_H

#include <stdio.h>

enum status { DONE = 0, FAULTS = 1, WRONG_USAGE = 2, MACHINE_FAILED = 3 };

/* Prints any bytes within a line: what a user's file or its name holds must not move the
 * terminal's cursor, nor hide or turn words. Each such sign, and each byte that is not UTF-8,
 * becomes a question mark. */
void print_plainly(FILE *out, const char *text);

/* Prints "spindlebook: MESSAGE" plainly on standard error, as a line; and goes on. */
void tell(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* Tells it as tell() does, runs what atexit() holds (unfinished outputs are removed there) and
 * ends the program with MACHINE_FAILED. */
_Noreturn void fatal(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* fatal() where the machine has given no memory. */
_Noreturn void fatal_no_memory(void);

#endif
