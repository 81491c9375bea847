#include "html/bench_page.h"

#include "html/html.h"
#include "html/policy.h"

#include <string.h>

/* Comments speak to who edits the template. */
static void add_without_comments(struct buffer *out, const char *html)
{
    for (const char *open; (open = strstr(html, "<!--"));) {
        const char *close = strstr(open, "-->");
        if (!close)
            break;
        buffer_add(out, html, (size_t)(open - html));
        html = close + strlen("-->");
        html += *html == '\n';
    }
    buffer_text(out, html);
}

static void add_settings(struct buffer *out, const struct bench_parts *parts)
{
    buffer_text(out, "<ul hidden id=\"bench_settings\" data-fingerprint=\"");
    escape_text(out, parts->fingerprint);
    buffer_text(out, "\">\n");
    for (size_t i = 0; i < parts->setting_count; i++) {
        buffer_text(out, "<li data-key=\"");
        escape_text(out, parts->settings[i].key);
        buffer_text(out, "\">");
        escape_text(out, parts->settings[i].text);
        buffer_text(out, "</li>\n");
    }
    buffer_text(out, "</ul>\n");
}

/* A script element of a type that no browser runs: a block of data. */
static void add_engine(struct buffer *out, const struct bench_parts *parts)
{
    buffer_text(out, "<script type=\"text/plain\" id=\"bench_engine\">");
    base64_add(out, parts->engine, parts->engine_length);
    buffer_text(out, "</script>\n");
}

void bench_page_paint(struct buffer *out, const struct bench_parts *parts)
{
    add_without_comments(out, parts->html);
    add_settings(out, parts);
    add_engine(out, parts);
}
