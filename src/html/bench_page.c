#include "html/bench_page.h"

#include "html/markup.h"

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

void bench_page_paint(struct buffer *out, const struct html_site *site, const void *with)
{
    const struct bench_parts *parts = with;
    (void)site;
    add_without_comments(out, parts->html);
    markup(out, "<ul hidden id=\"bench_settings\" data-fingerprint=\"%s\">\n",
           parts->fingerprint);
    for (size_t i = 0; i < parts->setting_count; i++)
        markup(out, "<li data-key=\"%s\">%s</li>\n", parts->settings[i].key,
               parts->settings[i].text);
    /* A script element of a type that no browser runs: a block of data. */
    buffer_text(out, "</ul>\n<script type=\"text/plain\" id=\"bench_engine\">");
    base64_add(out, parts->engine, parts->engine_length);
    buffer_text(out, "</script>\n");
}
