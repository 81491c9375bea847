/* Bytes as text (RFC 4648, section 4). */
#ifndef HTML_POLICY_H
#define HTML_POLICY_H

#include "base/buffer.h"

#include <stdbool.h>

void base64_add(struct buffer *out, const void *bytes, size_t length);

/* What a page may load and run: its own style sheet and scripts known by their
 * SHA-256, nothing else. (Content Security Policy, level 3.) */

enum { POLICY_SCRIPTS = 4 };

struct policy {
    const char *scripts[POLICY_SCRIPTS]; /* as script_paint() gets them */
    size_t script_count;
    const char *style; /* a style sheet within the page; NULL: files beside it */
    bool has_engine;   /* a script makes WebAssembly */
};

void policy_paint(struct buffer *out, const struct policy *policy);

/* The text as an element; carriage returns are left out, as a browser reads it. */
void script_paint(struct buffer *out, const char *script);
void style_paint(struct buffer *out, const char *style);

#endif
