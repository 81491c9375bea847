#include "html/policy.h"

#include "html/markup.h"

#include <sha256.h>
#include <stdint.h>
#include <string.h>
#include <sys/types.h>

static void add_without_returns(struct buffer *out, const char *text)
{
    for (size_t length; *text; text += length) {
        text += strspn(text, "\r");
        length = strcspn(text, "\r");
        buffer_add(out, text, length);
    }
}

static void add_hash(struct buffer *out, const char *text)
{
    struct buffer plain = {0};
    uint8_t hash[SHA256_DIGEST_LENGTH];
    SHA2_CTX context;
    add_without_returns(&plain, text);
    SHA256Init(&context);
    SHA256Update(&context, (const uint8_t *)plain.bytes, plain.length);
    SHA256Final(hash, &context);
    buffer_text(out, " 'sha256-");
    base64_add(out, hash, sizeof hash);
    buffer_text(out, "'");
    buffer_free(&plain);
}

const struct html_engine *html_engine_of(const struct html_site *site,
                                         const struct html_extra *extras, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (extras[i].has_engine)
            return site->engine;
    return NULL;
}

void policy_paint(struct buffer *out, const struct html_site *site,
                  const struct html_extra *extras, size_t count, const char *style)
{
    const struct html_engine *engine = html_engine_of(site, extras, count);
    bool any = false;
    buffer_text(out, "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src "
                     "'none'; style-src");
    if (style)
        add_hash(out, style);
    else /* 'self' is a server's own; a page opened from a folder names file: for that */
        buffer_text(out, " 'self' file:");
    if (engine) {
        buffer_text(out, "; script-src");
        add_hash(out, engine->script);
        any = true;
    }
    for (size_t i = 0; i < count; i++) {
        if (!extras[i].script)
            continue;
        buffer_text(out, any ? "" : "; script-src");
        add_hash(out, extras[i].script);
        any = true;
    }
    if (engine)
        buffer_text(out, " 'wasm-unsafe-eval'");
    buffer_text(out, "; base-uri 'none'; form-action 'none'\">");
}

void script_paint(struct buffer *out, const char *script)
{
    buffer_text(out, "<script>");
    add_without_returns(out, script);
    buffer_text(out, "</script>\n");
}

void style_paint(struct buffer *out, const char *style)
{
    buffer_text(out, "<style>");
    add_without_returns(out, style);
    buffer_text(out, "</style>");
}
