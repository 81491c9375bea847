/* Reads the page template. Its slots are HTML's own <slot name="...">, so that the
 * template is a page that opens in a browser, with sample text in every slot. */
#include "base/file.h"
#include "html/page.h"

#include <string.h>

static const char *const names[SLOT_COUNT] = {
    [SLOT_POLICY] = "policy",   [SLOT_STYLE] = "style",
    [SLOT_SCRIPTS] = "scripts", [SLOT_TITLE] = "title",
    [SLOT_BOOK] = "book",       [SLOT_SHEET] = "sheet",
    [SLOT_NOTICE] = "notice",   [SLOT_SHORTCUTS] = "shortcuts",
    [SLOT_HEADING] = "heading", [SLOT_CONTENTS] = "contents",
    [SLOT_MAIN] = "main",       [SLOT_PREVIOUS] = "previous",
    [SLOT_NEXT] = "next",       [SLOT_NAVIGATION] = "navigation",
    [SLOT_INPUTS] = "inputs",   [SLOT_FINGERPRINT] = "fingerprint",
};

struct scan {
    struct arena *arena;
    struct diags *diags;
    struct file_text text;
    struct html_template *made;
    const char *copied;         /* everything before this is in a piece, or dropped */
    const char *seen;           /* up to here ... */
    struct place at;            /* ... whose place is this */
    int first_line[SLOT_COUNT]; /* where a slot first stood; 0: not yet */
};

/* Goes on from the place that was asked for last: none lies before it. */
static struct place place_of(struct scan *scan, const char *at)
{
    for (; scan->seen < at; scan->seen++)
        if (*scan->seen == '\n' || (*scan->seen == '\r' && scan->seen[1] != '\n'))
            scan->at = (struct place){scan->at.file, scan->at.line + 1, 1};
        else
            scan->at.column += (*scan->seen & 0xC0) != 0x80;
    return scan->at;
}

static void add_piece(struct scan *scan, const char *end, enum slot slot)
{
    struct html_template *made = scan->made;
    *ARENA_PUSH(scan->arena, made->pieces, made->count) = (struct template_piece){
        .bytes = scan->copied, .length = (size_t)(end - scan->copied), .slot = slot};
}

static enum slot slot_named(const char *name, size_t length)
{
    for (enum slot slot = 0; slot < SLOT_COUNT; slot++)
        if (strlen(names[slot]) == length && memcmp(names[slot], name, length) == 0)
            return slot;
    return SLOT_NONE;
}

static const char *all_names(struct arena *arena)
{
    struct buffer list = {0};
    for (enum slot slot = 0; slot < SLOT_COUNT; slot++)
        buffer_print(&list, "%s%s", slot ? ", " : "", names[slot]);
    char *text = arena_slice(arena, list.bytes, list.length);
    buffer_free(&list);
    return text;
}

/* The name in <slot name="...">; NULL where the tag is written in another way. */
static const char *read_name(const char *open, size_t *length)
{
    static const char blanks[] = " \t\r\n", key[] = "name=";
    const char *at = open + strlen("<slot");
    at += strspn(at, blanks);
    if (strncmp(at, key, strlen(key)) != 0)
        return NULL;
    at += strlen(key);
    char ends[] = {*at, '<', '\0'};
    if (*at != '"' && *at != '\'')
        return NULL;
    *length = strcspn(++at, ends);
    const char *behind = at + *length;
    if (*length == 0 || *behind != ends[0])
        return NULL;
    behind += 1 + strspn(behind + 1, blanks);
    return *behind == '>' ? at : NULL;
}

static enum slot read_slot_name(struct scan *scan, const char *open)
{
    size_t length = 0;
    const char *name = read_name(open, &length);
    if (!name) {
        fault(scan->diags, place_of(scan, open),
              "this slot has no name; write it as <slot name=\"main\"></slot>, with "
              "nothing else in the tag");
        return SLOT_NONE;
    }
    enum slot slot = slot_named(name, length);
    if (slot == SLOT_NONE)
        fault(scan->diags, place_of(scan, open),
              "'%.*s' is no slot known here; the slots are %s", (int)length, name,
              all_names(scan->arena));
    return slot;
}

/* A slot's sample text ends at its </slot>; another slot cannot begin before. */
static const char *find_slot_end(const char *open)
{
    static const char closing[] = "</slot>";
    for (const char *at = open + 1; (at = strchr(at, '<')); at++) {
        if (strncasecmp(at, closing, strlen(closing)) == 0)
            return at + strlen(closing);
        if (strncasecmp(at, "<slot", strlen("<slot")) == 0)
            break;
    }
    return NULL;
}

/* Gives where the scan goes on. */
static const char *read_slot(struct scan *scan, const char *open)
{
    enum slot slot = read_slot_name(scan, open);
    const char *end = find_slot_end(open);
    if (slot != SLOT_NONE && !scan->first_line[slot])
        scan->first_line[slot] = place_of(scan, open).line;
    else if (slot != SLOT_NONE && slot != SLOT_TITLE &&
             slot != SLOT_BOOK) /* these may repeat */
        fault(scan->diags, place_of(scan, open),
              "the slot '%s' already stands on line %d; keep one of the two", names[slot],
              scan->first_line[slot]);
    if (!end) {
        fault(scan->diags, place_of(scan, open),
              "this slot is not closed; write </slot> behind its sample text, before any "
              "other slot");
        return open + strlen("<slot");
    }
    add_piece(scan, open, slot);
    scan->copied = end;
    return end;
}

/* Comments speak to who edits the template: they are left out, with their line end. */
static const char *drop_comment(struct scan *scan, const char *open)
{
    const char *close = strstr(open + strlen("<!--"), "-->");
    if (!close) {
        fault(scan->diags, place_of(scan, open),
              "this comment is not closed; write --> behind it");
        return open + strlen(open);
    }
    add_piece(scan, open, SLOT_NONE);
    scan->copied = close + strlen("-->");
    scan->copied += *scan->copied == '\r';
    scan->copied += *scan->copied == '\n';
    return scan->copied;
}

static const char *read_tag(struct scan *scan, const char *open)
{
    if (strncmp(open, "<!--", 4) == 0)
        return drop_comment(scan, open);
    if (strncasecmp(open, "<slot", 5) == 0 && strchr(" \t\r\n/>", open[5]))
        return read_slot(scan, open);
    if (strncasecmp(open, "</slot", 6) == 0)
        fault(scan->diags, place_of(scan, open),
              "this </slot> closes no slot; delete it, or write the <slot name=\"...\"> "
              "that is missing before it");
    return open + 1;
}

struct html_template *html_template_read(struct arena *arena, struct diags *diags,
                                         const char *file)
{
    struct scan scan = {.arena = arena, .diags = diags};
    size_t faults_before = diags_count(diags);
    if (!file_read_text(arena, diags, file, &scan.text))
        return NULL;
    scan.made = arena_get(arena, sizeof *scan.made);
    scan.copied = scan.seen = scan.text.bytes;
    scan.at = (struct place){scan.text.name, 1, 1};
    for (const char *at = scan.text.bytes; (at = strchr(at, '<'));)
        at = read_tag(&scan, at);
    add_piece(&scan, scan.text.bytes + scan.text.length, SLOT_NONE);
    for (enum slot slot = 0; slot < SLOT_COUNT; slot++)
        if (!scan.first_line[slot])
            fault(diags, place_of(&scan, scan.text.bytes + scan.text.length),
                  "the slot '%s' is missing; write <slot name=\"%s\"></slot> where it belongs",
                  names[slot], names[slot]);
    return diags_count(diags) == faults_before ? scan.made : NULL;
}
