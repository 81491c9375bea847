/* The least that could be done: floor FOLDER OUT [FILE...] reads every file below FOLDER,
 * writes the same bytes to a file of its own in the folder OUT, and deflates each further
 * FILE as a PDF library does (zlib, its usual level). No reading of Markdown, no layout. */
#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

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

static int copy(const char *path, const struct stat *status, int kind, struct FTW *place)
{
    char name[4096];
    (void)status;
    (void)place;
    if (kind != FTW_F)
        return 0;
    struct bytes all = read_whole(path);
    snprintf(name, sizeof name, "%s/%d", out, written++);
    int handle = open(name, O_WRONLY | O_CREAT | O_EXCL, 0666);
    if (handle < 0 || write(handle, all.at, all.length) != (ssize_t)all.length)
        stop(name);
    close(handle);
    free(all.at);
    return 0;
}

static void pack(const char *path)
{
    struct bytes all = read_whole(path);
    uLongf length = compressBound(all.length);
    unsigned char *packed = malloc(length);
    if (!packed || compress(packed, &length, all.at, all.length) != Z_OK)
        stop(path);
    free(packed);
    free(all.at);
}

int main(int count, char **words)
{
    if (count < 3)
        return 2;
    out = words[2];
    if (mkdir(out, 0777) != 0 || nftw(words[1], copy, 16, FTW_PHYS) != 0)
        stop(out);
    for (int i = 3; i < count; i++)
        pack(words[i]);
    return 0;
}
