#include "html/policy.h"

#include <sha256.h>
#include <stdint.h>
#include <string.h>
#include <sys/types.h>

/* Bytes as text (RFC 4648, section 4). */

void base64_add(struct buffer *out, const void *bytes, size_t length)
{
    static const char signs[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const unsigned char *at = bytes;
    for (size_t i = 0; i < length; i += 3) {
        size_t here = length - i < 3 ? length - i : 3;
        uint32_t group = (uint32_t)at[i] << 16;
        group |= here > 1 ? (uint32_t)at[i + 1] << 8 : 0;
        group |= here > 2 ? (uint32_t)at[i + 2] : 0;
        char four[4] = {signs[group >> 18 & 63], signs[group >> 12 & 63],
                        here > 1 ? signs[group >> 6 & 63] : '=',
                        here > 2 ? signs[group & 63] : '='};
        buffer_add(out, four, sizeof four);
    }
}

/* What a page may load and run: its own style sheet and scripts known by their
 * SHA-256, nothing else. (Content Security Policy, level 3.) */

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

/* 'self' is a server's own; a page opened from a folder names file: for that. */
static void add_style(struct buffer *out, const struct policy *policy)
{
    buffer_text(out, "; style-src");
    if (policy->style)
        add_hash(out, policy->style);
    else
        buffer_text(out, " 'self' file:");
}

static void add_scripts(struct buffer *out, const struct policy *policy)
{
    buffer_text(out, "; script-src");
    for (size_t i = 0; i < policy->script_count; i++)
        add_hash(out, policy->scripts[i]);
    if (policy->has_engine)
        buffer_text(out, " 'wasm-unsafe-eval'");
}

void policy_paint(struct buffer *out, const struct policy *policy)
{
    buffer_text(out,
                "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'");
    add_style(out, policy);
    if (policy->script_count)
        add_scripts(out, policy);
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
