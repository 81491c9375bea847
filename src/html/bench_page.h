/* The bench page: templates/bench.html with the settings and the engine behind it. */
#ifndef HTML_BENCH_PAGE_H
#define HTML_BENCH_PAGE_H

#include "base/buffer.h"

#include <stdbool.h>
#include <stddef.h>

/* A setting as it is written in the settings file. */
struct bench_setting {
    const char *key, *text;
};

struct bench_parts {
    const char *html; /* of templates/bench.html */
    const struct bench_setting *settings;
    size_t setting_count;
    const char *fingerprint;
    const void *engine; /* WebAssembly */
    size_t engine_length;
};

/* The HTML of the page below its heading. */
void bench_page_paint(struct buffer *out, const struct bench_parts *parts);

#endif
