/* The least that could be done: floor FOLDER OUT reads every file below FOLDER and writes it
 * into the folder OUT under a number: a PDF file, whose streams are unpacked, deflated at
 * zlib's level 6; any other as it is. No reading of Markdown, no layout. */
#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

enum { LEVEL = 6 };

static const char *out;
static int written;

struct bytes {
    unsigned char *at;
    size_t length;
};

static void stop(const char *path)
{
    perror(path);
    exit(1);
}

static struct bytes read_whole(const char *path)
{
    struct stat status;
    int handle = open(path, O_RDONLY);
    if (handle < 0 || fstat(handle, &status) != 0)
        stop(path);
    struct bytes all = {malloc((size_t)status.st_size + 1), (size_t)status.st_size};
    if (!all.at || read(handle, all.at, all.length) != (ssize_t)all.length)
        stop(path);
    close(handle);
    return all;
}

static void write_whole(const struct bytes *all)
{
    char name[4096];
    snprintf(name, sizeof name, "%s/%d", out, written++);
    int handle = open(name, O_WRONLY | O_CREAT | O_EXCL, 0666);
    if (handle < 0 || write(handle, all->at, all->length) != (ssize_t)all->length)
        stop(name);
    close(handle);
}

static struct bytes deflated(const struct bytes *all)
{
    uLongf length = compressBound(all->length);
    struct bytes packed = {malloc(length), 0};
    if (!packed.at || compress2(packed.at, &length, all->at, all->length, LEVEL) != Z_OK)
        stop("zlib");
    packed.length = length;
    return packed;
}

static int copy(const char *path, const struct stat *status, int kind, struct FTW *place)
{
    (void)status;
    if (kind != FTW_F)
        return 0;
    struct bytes all = read_whole(path);
    const char *end = strrchr(path + place->base, '.');
    if (end && strcmp(end, ".pdf") == 0) {
        struct bytes packed = deflated(&all);
        free(all.at);
        all = packed;
    }
    write_whole(&all);
    free(all.at);
    return 0;
}

int main(int count, char **words)
{
    if (count != 3)
        return 2;
    out = words[2];
    if (mkdir(out, 0777) != 0 || nftw(words[1], copy, 16, FTW_PHYS) != 0)
        stop(out);
    return 0;
}
