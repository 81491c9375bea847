/* How the program ends: its exit statuses; and where the machine fails (no memory, no disk),
 * at once, with why. */
#ifndef BASE_FATAL_H
#define BASE_FATAL_H

enum status { DONE = 0, FAULTS = 1, WRONG_USAGE = 2, MACHINE_FAILED = 3 };

/* Prints "spindlebook: MESSAGE" on standard error, runs what atexit() holds
 * (unfinished outputs are removed there) and ends the program with MACHINE_FAILED. */
_Noreturn void fatal(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* The same where the machine has given no memory. */
_Noreturn void fatal_no_memory(void);

#endif
