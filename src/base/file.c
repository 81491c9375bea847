/* A failure of the machine is told from one of the user's as soon as the system has told of it;
 * what a text holds is checked before anybody sees it. */
#include "base/file.h"

#include "base/fatal.h"
#include "base/utf8.h"

#include <ctype.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

/* Not the user's fault: the disk, or the machine's memory or tables are at an end. */
static void stop_if_machine_failed(const char *name, int error)
{
    if (error == EIO || error == ENOMEM || error == EMFILE || error == ENFILE ||
        error == ENOSPC)
        fatal("%s cannot be read: %s", name, strerror(error));
}

/* Not larger than `most`; else false, with errno set. expected: about how many bytes. */
static bool read_pieces(struct arena *arena, int handle, size_t expected, size_t most,
                        struct file_text *text)
{
    struct buffer all = {0};
    char piece[16384]; /* the stack may be small */
    int error = 0;
    buffer_reserve(&all, expected);
    for (ssize_t got = 1; got > 0 && !error;) {
        got = read(handle, piece, sizeof piece);
        error = got < 0 ? errno : 0;
        buffer_add(&all, piece, got > 0 ? (size_t)got : 0);
        if (all.length > most)
            error = EFBIG;
    }
    text->bytes = arena_slice(arena, all.bytes, all.length);
    text->length = all.length;
    buffer_free(&all);
    errno = error;
    return error == 0;
}

/* Of a plain file. */
static bool read_all(struct arena *arena, int handle, size_t most, struct file_text *text)
{
    struct stat status;
    if (fstat(handle, &status) != 0)
        return false;
    errno = S_ISDIR(status.st_mode)            ? EISDIR
            : !S_ISREG(status.st_mode)         ? EINVAL
            : (uintmax_t)status.st_size > most ? EFBIG
                                               : 0;
    /* it may have grown since */
    return errno == 0 && read_pieces(arena, handle, (size_t)status.st_size, most, text);
}

/* The handle, which may be -1 with errno set, is closed. */
static bool read_file(struct arena *arena, int handle, const char *name, size_t most,
                      struct file_text *text)
{
    *text = (struct file_text){.name = arena_text(arena, name)};
    bool ok = handle >= 0 && read_all(arena, handle, most, text);
    int error = ok ? 0 : errno;
    if (handle >= 0)
        close(handle);
    stop_if_machine_failed(name, error);
    errno = error;
    return ok;
}

enum { TO_READ = O_RDONLY | O_CLOEXEC | O_NONBLOCK };

bool file_read_bytes(struct arena *arena, const char *name, size_t most, struct file_text *text)
{
    return read_file(arena, open(name, TO_READ), name, most, text);
}

bool file_read_in(struct arena *arena, int folder, const char *name, size_t most,
                  struct file_text *text)
{
    return read_file(arena, openat(folder, name, TO_READ | O_NOFOLLOW), name, most, text);
}

bool file_map(const char *name, const unsigned char **bytes, size_t *length)
{
    struct stat status = {0};
    void *at = NULL;
    int handle = open(name, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    int error = handle < 0 || fstat(handle, &status) != 0 ? errno : 0;
    if (!error && !S_ISREG(status.st_mode))
        error = S_ISDIR(status.st_mode) ? EISDIR : EINVAL;
    *length = error ? 0 : (size_t)status.st_size;
    if (*length)
        at = mmap(NULL, *length, PROT_READ, MAP_PRIVATE | MAP_POPULATE, handle, 0);
    error = at == MAP_FAILED ? errno : error;
    if (handle >= 0)
        close(handle);
    stop_if_machine_failed(name, error);
    *bytes = at;
    errno = error;
    return error == 0;
}

void file_unmap(const unsigned char *bytes, size_t length)
{
    if (length)
        munmap((void *)bytes, length);
}

struct place file_place(const struct file_text *text, size_t byte)
{
    struct place at = {.file = text->name, .line = 1};
    size_t start = 0;
    for (size_t i = 0; i < byte; i++)
        if (text->bytes[i] == '\n' || (text->bytes[i] == '\r' && text->bytes[i + 1] != '\n')) {
            at.line++;
            start = i + 1;
        }
    at.column = (int)utf8_count(text->bytes + start, byte - start) + 1;
    return at;
}

static bool is_control(unsigned char byte)
{
    return (byte < 0x20 && !strchr("\t\n\r", byte)) || byte == 0 || byte == 0x7F;
}

static bool check_text(struct diags *diags, const struct file_text *text)
{
    size_t valid = utf8_valid(text->bytes, text->length), at = 0;
    while (at < valid && !is_control((unsigned char)text->bytes[at]))
        at++;
    if (at == text->length)
        return true;
    struct place place = file_place(text, at);
    unsigned char byte = (unsigned char)text->bytes[at];
    if (byte == 0)
        return fault(diags, place,
                     "a NUL byte stands here; delete it: the file must be plain text");
    if (at < valid)
        return fault(diags, place, "control character 0x%02X stands here; delete it", byte);
    return fault(diags, place, "byte 0x%02X is not UTF-8; save the file as UTF-8 text", byte);
}

/* Where a link leads to in the end, if that lies in the folder in which the link stands, or
 * further in; else NULL. Owned by the arena. */
static const char *target_within(struct arena *arena, const char *name)
{
    char target[PATH_MAX], folder[PATH_MAX];
    const char *slash = strrchr(name, '/');
    const char *above = slash ? arena_slice(arena, name, (size_t)(slash - name) + 1) : ".";
    if (!realpath(name, target) || !realpath(above, folder))
        return NULL;
    size_t length = strlen(folder);
    bool within = strncmp(target, folder, length) == 0 && target[length] == '/';
    return within ? arena_text(arena, target) : NULL;
}

bool file_leads_out(struct arena *arena, const char *name)
{
    struct stat status, target;
    return lstat(name, &status) == 0 && S_ISLNK(status.st_mode) && stat(name, &target) == 0 &&
           !target_within(arena, name);
}

/* A folder that came from elsewhere must not pull other files into the book. What was opened
 * is looked at, not what the name leads to a moment before: somebody may change it meanwhile.
 * -1 with errno set on failure, EXDEV where it lies outside. */
static int open_within(struct arena *arena, const char *name)
{
    int handle = open(name, TO_READ | O_NOFOLLOW);
    if (handle >= 0 || errno != ELOOP)
        return handle;
    handle = open(name, TO_READ);
    if (handle < 0)
        return handle;
    struct stat opened, within;
    const char *target = target_within(arena, name);
    if (target && stat(target, &within) == 0 && fstat(handle, &opened) == 0 &&
        within.st_ino == opened.st_ino && within.st_dev == opened.st_dev)
        return handle;
    close(handle);
    errno = EXDEV;
    return -1;
}

bool file_is_there(const char *name)
{
    struct stat status;
    return lstat(name, &status) == 0 || errno != ENOENT;
}

bool file_read_text(struct arena *arena, struct diags *diags, const char *name,
                    struct file_text *text)
{
    return file_read_long(arena, diags, name, FILE_LARGEST, text);
}

/* Without a byte-order mark. */
static bool is_text(struct diags *diags, struct file_text *text)
{
    if (text->length >= 3 && memcmp(text->bytes, "\xEF\xBB\xBF", 3) == 0) {
        text->bytes += 3;
        text->length -= 3;
    }
    return check_text(diags, text);
}

bool file_read_input(struct arena *arena, struct diags *diags, size_t most,
                     struct file_text *text)
{
    *text = (struct file_text){.name = "-"};
    bool ok = read_pieces(arena, STDIN_FILENO, 0, most, text);
    stop_if_machine_failed("-", ok ? 0 : errno);
    if (!ok)
        return fault(diags, (struct place){.file = "-"},
                     "standard input cannot be read (%s); it must be at most %zu MiB of text",
                     strerror(errno), most >> 20);
    return is_text(diags, text);
}

bool file_read_long(struct arena *arena, struct diags *diags, const char *name, size_t most,
                    struct file_text *text)
{
    struct place at = {.file = name};
    if (!read_file(arena, open_within(arena, name), name, most, text))
        switch (errno) {
        case EXDEV:
            return fault(diags, at,
                         "this link leads out of its folder; put the file itself here");
        case ENOENT:
            return fault(diags, at, "there is no such file; make it, or give the right name");
        case EISDIR:
            return fault(diags, at, "this is a folder; a file belongs here");
        case EFBIG:
            return fault(diags, at,
                         "the file is larger than %zu MiB; a page or a log is far smaller",
                         most >> 20);
        default:
            return fault(diags, at,
                         "the file cannot be read (%s); it must be a plain file that you may "
                         "read",
                         strerror(errno));
        }
    return is_text(diags, text);
}

bool file_ends_in(const char *name, const char *suffix)
{
    size_t length = strlen(name), tail = strlen(suffix);
    return length > tail && strcmp(name + length - tail, suffix) == 0;
}

int file_order(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* Those that begin and end so, in byte order. */
static const char **names_in(struct arena *arena, int folder, const char *prefix,
                             const char *suffix)
{
    const char **names = NULL;
    size_t count = 0;
    int handle = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *entries = handle < 0 ? NULL : fdopendir(handle);
    errno = entries ? 0 : errno;
    for (struct dirent *entry; entries && (entry = readdir(entries)); errno = 0)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0 &&
            strncmp(entry->d_name, prefix, strlen(prefix)) == 0 &&
            (!*suffix || file_ends_in(entry->d_name, suffix))) {
            const char *name = arena_text(arena, entry->d_name);
            *ARENA_PUSH(arena, names, count) = name;
        }
    int error = errno;
    if (entries)
        closedir(entries);
    else if (handle >= 0)
        close(handle);
    if (count)
        qsort(names, count, sizeof *names, file_order);
    *ARENA_PUSH(arena, names, count) = NULL;
    errno = error;
    return error ? NULL : names;
}

const char **file_names(struct arena *arena, int folder)
{
    return names_in(arena, folder, "", "");
}

const char **file_list_from(struct arena *arena, const char *folder, const char *prefix,
                            const char *suffix)
{
    int handle = open(folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
    const char **names = handle < 0 ? NULL : names_in(arena, handle, prefix, suffix);
    int error = names ? 0 : errno;
    if (handle >= 0)
        close(handle);
    stop_if_machine_failed(folder, error);
    errno = error;
    if (!names)
        return NULL;
    size_t count = 0;
    for (size_t i = 0; names[i]; i++)
        if (names[i][0] != '.')
            names[count++] = names[i];
    names[count] = NULL;
    return names;
}

const char **file_list(struct arena *arena, const char *folder, const char *suffix)
{
    return file_list_from(arena, folder, "", suffix);
}

static const char variable[] = "SOURCE_DATE_EPOCH";

static const long long LAST_SECOND = 253402300799; /* of the year 9999 */

/* Seconds since 1970; -1 where the text is no moment. */
static long long seconds_of(const char *text)
{
    char *end = NULL;
    long long seconds = strtoll(text, &end, 10); /* of too many digits: its greatest */
    return isdigit((unsigned char)text[0]) && !*end && seconds <= LAST_SECOND ? seconds : -1;
}

void source_date_check(struct diags *diags)
{
    const char *text = getenv(variable);
    if (text && seconds_of(text) < 0)
        fault(diags, (struct place){.file = variable},
              "'%.40s' is no date; set it to a whole number of seconds since 1970, up to %lld "
              "(the year 9999), or unset it",
              text, LAST_SECOND);
}

bool source_date(struct tm *utc)
{
    const char *text = getenv(variable);
    time_t moment = text ? (time_t)seconds_of(text) : -1;
    return moment >= 0 && gmtime_r(&moment, utc);
}

const char *source_date_day(struct arena *arena)
{
    struct tm utc;
    if (!source_date(&utc))
        return NULL;
    return arena_format(arena, "%04d-%02d-%02d", utc.tm_year + 1900, utc.tm_mon + 1,
                        utc.tm_mday);
}

/* ---- files that are kept ---- */

static bool write_all(int file, const struct buffer *text)
{
    for (size_t done = 0; done < text->length;) {
        ssize_t more = write(file, text->bytes + done, text->length - done);
        if (more < 0 && errno != EINTR)
            return false;
        done += more > 0 ? (size_t)more : 0;
    }
    return fsync(file) == 0;
}

/* The name itself is on the disk only once its folder is. */
static bool folder_is_safe(const char *folder)
{
    int at = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    bool safe = at >= 0 && fsync(at) == 0;
    if (at >= 0)
        close(at);
    return safe;
}

bool file_keep(struct arena *arena, const char *folder, const char *name,
               const struct buffer *text)
{
    const char *path = arena_format(arena, "%s/%s", folder, name);
    const char *part = arena_format(arena, "%s/.%s.%d", folder, name, (int)getpid());
    if (mkdir(folder, 0777) != 0 && errno != EEXIST)
        fatal("the folder %s cannot be made: %s", folder, strerror(errno));
    int file = open(part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0444);
    bool written = file >= 0 && write_all(file, text);
    int error = errno;
    if (file >= 0)
        close(file);
    bool named = written && renameat2(AT_FDCWD, part, AT_FDCWD, path, RENAME_NOREPLACE) == 0;
    if (written && !named)
        error = errno;
    if (file >= 0 && !named)
        unlink(part);
    if (!named && !(written && error == EEXIST))
        fatal("%s cannot be written: %s; nothing was changed", path, strerror(error));
    if (named && !folder_is_safe(folder))
        fatal("%s may not be on the disk: %s", folder, strerror(errno));
    return named;
}
