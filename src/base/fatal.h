/* The machine failed: no memory, no disk. Says why and ends with status 3. */
#ifndef BASE_FATAL_H
#define BASE_FATAL_H

enum { FATAL_STATUS = 3 };

/* Prints "spindlebook: MESSAGE" on standard error, runs what atexit() holds
 * (unfinished outputs are removed there) and ends the program with FATAL_STATUS. */
_Noreturn void fatal(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* The same where the machine has given no memory. */
_Noreturn void fatal_no_memory(void);

#endif
