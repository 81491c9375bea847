/* Bytes of a fuzzer as a file that the program can open by name. */
#ifndef FUZZ_FILE_H
#define FUZZ_FILE_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

struct fuzz_file {
    int handle;
    char name[64];
};

enum { FUZZ_FILES = 4 };
static const char *fuzz_files[FUZZ_FILES];
static int fuzz_files_count;

static inline void fuzz_files_remove(void)
{
    while (fuzz_files_count)
        unlink(fuzz_files[--fuzz_files_count]);
}

static inline void fuzz_must(int ok, const char *what)
{
    if (ok)
        return;
    fprintf(stderr, "fuzzing found: %s\n", what);
    abort();
}

/* Fills the file anew; it is made at the first call, and goes with the program. A link, as to a
 * file in memory, would be refused by what reads it. */
static inline const char *fuzz_file(struct fuzz_file *file, const uint8_t *bytes, size_t length)
{
    if (!file->name[0]) {
        snprintf(file->name, sizeof file->name, "/dev/shm/spindlebook-fuzz-XXXXXX");
        file->handle = mkstemp(file->name);
        fuzz_must(file->handle >= 0, "no file in memory can be made");
        fuzz_must(fuzz_files_count < FUZZ_FILES, "too many files");
        fuzz_files[fuzz_files_count++] = file->name;
        atexit(fuzz_files_remove);
    }
    fuzz_must(ftruncate(file->handle, 0) == 0 &&
                  pwrite(file->handle, bytes, length, 0) == (ssize_t)length,
              "the file in memory cannot be written");
    return file->name;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

#endif
