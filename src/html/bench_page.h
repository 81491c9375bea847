/* The bench page: templates/bench.html with the settings and the engine behind it. */
#ifndef HTML_BENCH_PAGE_H
#define HTML_BENCH_PAGE_H

#include "html/html.h"

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

/* Paints the extra page (struct html_extra) of a struct bench_parts. */
void bench_page_paint(struct buffer *out, const struct html_site *site, const void *parts);

#endif
