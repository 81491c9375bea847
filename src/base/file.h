/* Whole files, read at once. A disk that fails, and a machine without memory, end the
 * program (base/fatal.h); what is told here is the user's to mend. */
#ifndef BASE_FILE_H
#define BASE_FILE_H

#include "base/buffer.h"
#include "base/diag.h"

#include <stdbool.h>
#include <time.h>

struct file_text {
    const char *name;  /* as the user would type it; owned by the arena */
    const char *bytes; /* NUL-terminated; owned by the arena */
    size_t length;
};

enum { FILE_LARGEST = 4 * 1024 * 1024 }; /* bytes: a larger text is a fault */

/* Reads a file of UTF-8 text. A file that is missing, unreadable, a directory,
 * too large, a link that leads out of its folder, or that holds NUL or bad UTF-8 is a
 * fault with its place; then false. A byte-order mark at the start is dropped. */
bool file_read_text(struct arena *arena, struct diags *diags, const char *name,
                    struct file_text *text);

/* The same of at most so many bytes. */
bool file_read_long(struct arena *arena, struct diags *diags, const char *name, size_t most,
                    struct file_text *text);

/* The same from standard input, called "-", whatever that is. */
bool file_read_input(struct arena *arena, struct diags *diags, size_t most,
                     struct file_text *text);

/* Where a byte of a text stands. */
struct place file_place(const struct file_text *text, size_t byte);

/* Whether anything bears this name: a file that may be left out is looked for so. A link
 * to nothing is there: to read it is then a fault. */
bool file_is_there(const char *name);

/* Whether a name is a link to something outside the folder that it stands in. */
bool file_leads_out(struct arena *arena, const char *name);

/* Reads any file whole, of at most so many bytes; on failure false, with errno set. */
bool file_read_bytes(struct arena *arena, const char *name, size_t most,
                     struct file_text *text);

/* The same by the file's name in an open folder; a link is not followed (ELOOP). */
bool file_read_in(struct arena *arena, int folder, const char *name, size_t most,
                  struct file_text *text);

/* Shows any file where it lies, without a copy of it: large, and read in few places. On failure
 * false, with errno set; else file_unmap() in the end, also where length is 0. */
bool file_map(const char *name, const unsigned char **bytes, size_t *length);
void file_unmap(const unsigned char *bytes, size_t length);

/* Makes a file that is not there yet, and the folder that it lies in. Once this is back it is
 * on the disk; under its name it is at no time but whole. False: the name is taken, and what
 * bears it stays as it is. */
bool file_keep(struct arena *arena, const char *folder, const char *name,
               const struct buffer *text);

/* Does a name end so, and is it longer than that? */
bool file_ends_in(const char *name, const char *suffix);

/* The order of names in a list, for qsort() and bsearch(): that of their bytes. */
int file_order(const void *a, const void *b);

/* The names in an open folder, but for "." and "..", in byte order; NULL-ended. On failure,
 * which may come after some names were given, NULL with errno set. */
const char **file_names(struct arena *arena, int folder);

/* Names of the files in a folder that end in suffix, in byte order; NULL-ended.
 * On failure NULL, with errno set. Hidden files are passed over. */
const char **file_list(struct arena *arena, const char *folder, const char *suffix);

/* The same of those that begin with prefix. */
const char **file_list_from(struct arena *arena, const char *folder, const char *prefix,
                            const char *suffix);

/* The only date that the outputs may bear: the one that the caller sets. */

/* The moment of the environment's SOURCE_DATE_EPOCH, as
 * https://reproducible-builds.org/specs/source-date-epoch/ has it; false where it is
 * not set, or to what source_date_check() does not let through. */
bool source_date(struct tm *utc);

/* Its day, "2026-03-09", in UTC; NULL where there is none. Owned by the arena. */
const char *source_date_day(struct arena *arena);

/* A fault where it is set to no whole number of seconds, or to one beyond the year 9999. */
void source_date_check(struct diags *diags);

#endif
