/* Bytes of a fuzzer as a file that the program can open by name. */
#ifndef FUZZ_FILE_H
#define FUZZ_FILE_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

struct fuzz_file {
    int handle;
    char name[64];
};

static inline void fuzz_must(int ok, const char *what)
{
    if (ok)
        return;
    fprintf(stderr, "fuzzing found: %s\n", what);
    abort();
}

/* Fills the file anew; it is made at the first call. */
static inline const char *fuzz_file(struct fuzz_file *file, const uint8_t *bytes, size_t length)
{
    if (!file->name[0]) {
        file->handle = memfd_create("fuzz", MFD_CLOEXEC);
        fuzz_must(file->handle >= 0, "no file in memory can be made");
        snprintf(file->name, sizeof file->name, "/proc/self/fd/%d", file->handle);
    }
    fuzz_must(ftruncate(file->handle, 0) == 0 &&
                  pwrite(file->handle, bytes, length, 0) == (ssize_t)length,
              "the file in memory cannot be written");
    return file->name;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

#endif
