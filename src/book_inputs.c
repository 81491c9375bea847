#include "book_inputs.h"

#include "base/file.h"
#include "base/strangers.h"
#include "read/settings.h"

#include <errno.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* With its length, so that no two lists of texts run together alike. */
static void add_bytes(SHA256_CTX *sum, const void *bytes, size_t length)
{
    char text[32];
    snprintf(text, sizeof text, "%zu:", length);
    SHA256Update(sum, (const uint8_t *)text, strlen(text));
    SHA256Update(sum, bytes, length);
}

static void add_text(SHA256_CTX *sum, const char *text)
{
    add_bytes(sum, text ? text : "", text ? strlen(text) : 0);
}

/* A file that cannot be read counts with the reason. */
static void add_file(SHA256_CTX *sum, const char *path, const char *name)
{
    struct arena *arena = arena_new();
    struct file_text file;
    add_text(sum, name);
    if (file_read_bytes(arena, path, &file))
        add_bytes(sum, file.bytes, file.length);
    else
        add_text(sum, strerror(errno));
    arena_free(arena);
}

static void add_folder(SHA256_CTX *sum, const char *folder, const char *suffix)
{
    struct arena *arena = arena_new();
    const char **names = file_list(arena, folder, suffix);
    for (size_t i = 0; names && names[i]; i++)
        add_file(sum, arena_format(arena, "%s/%s", folder, names[i]), names[i]);
    arena_free(arena);
}

static const char *end_sum(struct arena *arena, SHA256_CTX *sum)
{
    char digest[SHA256_DIGEST_STRING_LENGTH];
    SHA256End(sum, digest);
    return arena_text(arena, digest);
}

const char *book_inputs_shared(struct arena *arena, const struct book_paths *paths)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_file(&sum, "/proc/self/exe", "exe");
    add_folder(&sum, paths->content, ".md");
    add_folder(&sum, paths->templates, "");
    if (paths->bench)
        add_file(&sum, paths->bench, paths->bench);
    for (size_t i = 0; i < paths->replacement_count; i++)
        add_text(&sum, paths->replacements[i]);
    add_bytes(&sum, &paths->parts, sizeof paths->parts);
    add_text(&sum, getenv("SOURCE_DATE_EPOCH"));
    return end_sum(arena, &sum);
}

const char *book_inputs_digest(struct arena *arena, const char *shared, const char *settings)
{
    SHA256_CTX sum;
    SHA256Init(&sum);
    add_text(&sum, shared);
    add_file(&sum, settings, "settings");
    add_file(&sum, settings_log(arena, settings, PULL_LOG_NAME), PULL_LOG_NAME);
    add_file(&sum, settings_log(arena, settings, GAUGE_LOG_NAME), GAUGE_LOG_NAME);
    return end_sum(arena, &sum);
}

/* Is every file there that the set's own list names? */
static bool is_whole(struct arena *arena, const char *out)
{
    struct file_text list;
    if (!file_read_bytes(arena, arena_format(arena, "%s/" LIST_NAME, out), &list))
        return false;
    for (const char *line = list.bytes; *line;) {
        size_t length = strcspn(line, "\n");
        if (access(arena_format(arena, "%s/%.*s", out, (int)length, line), F_OK) != 0)
            return false;
        line += length + (line[length] == '\n');
    }
    return true;
}

bool book_inputs_made(const char *out, const char *digest)
{
    struct arena *arena = arena_new();
    struct file_text found;
    bool same = file_read_bytes(arena, arena_format(arena, "%s/" MADE_FROM, out), &found) &&
                strcmp(found.bytes, digest) == 0 && is_whole(arena, out);
    arena_free(arena);
    return same;
}
