/* The ground on which the program runs: what it makes sure of before anything else, and what it
 * gives up before it reads what others wrote. */
#ifndef BASE_GROUND_H
#define BASE_GROUND_H

#include <stdbool.h>

/* Before anything is opened: where a standard handle is closed, the next file would take its
 * number, and be written to in its place. It becomes one that holds nothing: to read from
 * standard input and to write to standard output then fails as it did. A file that may grow no
 * further is a write that fails, not the program's end. */
void ground_begin(void);

/* What may be done below a folder, or with a file. */
enum ground_may { MAY_READ, MAY_TIDY, MAY_MAKE };

/* Once all that may be touched is named, nothing else can be: files that exist may be read as
 * far as one of these names them, written by nobody; new ones may be made, and old ones moved
 * and removed, where MAY_MAKE names it; folders that are empty be removed where MAY_TIDY does.
 * No program can be run, no network be spoken to. It needs Landlock (Linux 5.19, its second
 * version) and seccomp; where the kernel lacks one of them, or does not let this process have
 * it, the program goes on without. It does so as well where SPINDLEBOOK_UNCONFINED is in the
 * environment: checks of memory and of coverage open files of their own at the program's end.
 * For the whole process, and for good. Sources: landlock(7), seccomp(2); the kernel's
 * Documentation/userspace-api/landlock.rst. */
struct ground;
struct ground *ground_open(void); /* NULL: not to be had */
void ground_allow(struct ground *ground, const char *path, enum ground_may may);
void ground_close(struct ground *ground); /* from now on; NULL is allowed */

/* Whether this kernel has what it takes: for --version. */
bool ground_is_firm(void);

#endif
