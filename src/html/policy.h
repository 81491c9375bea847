/* What a page may load and run: its own style sheet and scripts known by their
 * SHA-256, nothing else. (Content Security Policy, level 3.) */
#ifndef HTML_POLICY_H
#define HTML_POLICY_H

#include "html/html.h"

/* The engine where one of these pages asks it; else NULL. */
const struct html_engine *html_engine_of(const struct html_site *site,
                                         const struct html_extra *extras, size_t count);

/* The policy of a file in which the scripts of these pages stand. style: a style sheet within
 * the file; NULL: files beside it. */
void policy_paint(struct buffer *out, const struct html_site *site,
                  const struct html_extra *extras, size_t count, const char *style);

/* The text as an element; carriage returns are left out, as a browser reads it. */
void script_paint(struct buffer *out, const char *script);
void style_paint(struct buffer *out, const char *style);

#endif
