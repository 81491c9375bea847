/* Any bytes as a page template: taken whole or refused with a fault. */
#include "fuzz_file.h"
#include "html/html.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static struct fuzz_file file;
    struct arena *arena = arena_new();
    struct diags *diags = diags_new(arena);
    const char *name = fuzz_file(&file, bytes, length);
    struct html_template *template = html_template_read(arena, diags, name);
    fuzz_must((template != NULL) == (diags_count(diags) == 0), "neither template nor fault");
    arena_free(arena);
    return 0;
}
