/* Runs a fuzz target over kept inputs, for compilers without a fuzzer.
 * Usage: fuzz_NAME FILE...; prints how many there were. */
#include "fuzz_file.h"

static void run_one(const char *name)
{
    static uint8_t bytes[1 << 20];
    FILE *file = fopen(name, "rb");
    fuzz_must(file != NULL, name);
    size_t length = fread(bytes, 1, sizeof bytes, file);
    fuzz_must(!ferror(file) && feof(file), name);
    fclose(file);
    /* A copy of the very length, so that tools see a step behind its end. */
    uint8_t *copy = malloc(length ? length : 1);
    fuzz_must(copy != NULL, "no memory");
    for (size_t i = 0; i < length; i++)
        copy[i] = bytes[i];
    LLVMFuzzerTestOneInput(copy, length);
    free(copy);
}

int main(int count, char **names)
{
    for (int i = 1; i < count; i++)
        run_one(names[i]);
    printf("%d inputs\n", count - 1);
    return 0;
}
