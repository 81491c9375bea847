/* A settings file flattened: libyaml's events, with the open levels on a stack from which a
 * value's path follows. */
#include "shop/setting_list.h"

#include "base/fatal.h"
#include "base/memory.h"
#include "base/utf8.h"

#include <sha256.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

struct setting *setting_list_find(const struct setting_list *list, const char *path)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].path, path) == 0)
            return &list->items[i];
    return NULL;
}

bool setting_list_replace(struct arena *arena, struct setting_list *list,
                          const char *assignment)
{
    const char *equals = strchr(assignment, '=');
    if (!equals || equals == assignment)
        return false;
    const char *path = arena_slice(arena, assignment, (size_t)(equals - assignment));
    struct setting *setting = setting_list_find(list, path);
    if (!setting)
        setting = ARENA_PUSH(arena, list->items, list->count);
    *setting = (struct setting){.path = path,
                                .value = arena_text(arena, equals + 1),
                                .at = {.file = arena_format(arena, "--set %s", path)}};
    return true;
}

static int by_path(const void *a, const void *b)
{
    const struct setting *const *left = a, *const *right = b;
    return strcmp((*left)->path, (*right)->path);
}

void setting_list_fingerprint(const struct setting_list *list, const struct file_text *check,
                              char *out)
{
    const struct setting **sorted = heap_get(list->count * sizeof *sorted);
    for (size_t i = 0; i < list->count; i++)
        sorted[i] = &list->items[i];
    qsort(sorted, list->count, sizeof *sorted, by_path);
    struct buffer text = {0};
    for (size_t i = 0; i < list->count; i++)
        buffer_print(&text, "%s=%s\n", sorted[i]->path, sorted[i]->value);
    buffer_add(&text, check->bytes, check->length);
    char digest[SHA256_DIGEST_STRING_LENGTH];
    SHA256Data((const uint8_t *)text.bytes, text.length, digest);
    memcpy(out, digest, 8);
    out[8] = '\0';
    buffer_free(&text);
    free(sorted);
}

enum { DEEPEST = 8, MOST_VALUES = 2000 };

/* One open mapping or sequence. */
struct level {
    bool sequence;
    int row;         /* sequence: number of the item being read */
    const char *key; /* mapping: the key being read; NULL while a key is due */
};

struct reader {
    const char *line; /* of the text, where reading is ... */
    size_t number;    /* ... and which it is, from 0 */
    struct arena *arena;
    struct diags *diags;
    struct setting_list *list;
    struct level levels[DEEPEST];
    int depth;
};

static struct place place_of(const struct reader *reader, yaml_mark_t mark)
{
    return (struct place){/* NOLINTNEXTLINE: the list is there from the start */
                          .file = reader->list->file,
                          .line = (int)mark.line + 1,
                          .column = (int)mark.column + 1};
}

static const char *path_of(const struct reader *reader)
{
    const char *path = "";
    for (int i = 0; i < reader->depth; i++) {
        const struct level *level = &reader->levels[i];
        const char *dot = i ? "." : "";
        path = level->sequence ? arena_format(reader->arena, "%s%s%d", path, dot, level->row)
                               : arena_format(reader->arena, "%s%s%s", path, dot, level->key);
    }
    return path;
}

/* A value or a container begins or ends: the innermost level moves on. */
static void before_value(struct reader *reader)
{
    if (reader->depth && reader->levels[reader->depth - 1].sequence)
        reader->levels[reader->depth - 1].row++;
}

static void after_value(struct reader *reader)
{
    if (reader->depth && !reader->levels[reader->depth - 1].sequence)
        reader->levels[reader->depth - 1].key = NULL;
}

/* Whether a remark stands behind what ends at the mark. Marks count characters, and more
 * kinds of line ends than this does: where they differ a remark may be missed. */
static bool remark_behind(struct reader *reader, yaml_mark_t end)
{
    for (; reader->number < end.line && *reader->line; reader->number++) {
        reader->line += strcspn(reader->line, "\n");
        reader->line += *reader->line == '\n';
    }
    const char *at = reader->line;
    for (size_t i = 0; i < end.column && *at; i++)
        utf8_next(&at);
    return at[strspn(at, " \t")] == '#';
}

static void add_value(struct reader *reader, const char *value, struct place at, bool cut)
{
    const char *path = path_of(reader);
    const struct setting *earlier = setting_list_find(reader->list, path);
    if (earlier) {
        fault(reader->diags, at, "%s is given twice, first on line %d; delete one of the two",
              path, earlier->at.line);
        return;
    }
    struct setting *setting =
        ARENA_PUSH(reader->arena, reader->list->items, reader->list->count);
    *setting = (struct setting){.path = path, .value = value, .at = at, .cut = cut};
}

/* The whole file is none. */
static void add_section(struct reader *reader, struct place at)
{
    struct setting_list *list = reader->list;
    if (reader->depth)
        *ARENA_PUSH(reader->arena, list->sections, list->section_count) =
            (struct setting_section){path_of(reader), at};
}

static bool is_key(const struct reader *reader)
{
    return reader->depth && !reader->levels[reader->depth - 1].sequence &&
           !reader->levels[reader->depth - 1].key;
}

static bool read_scalar(struct reader *reader, const yaml_event_t *event)
{
    struct place at = place_of(reader, event->start_mark);
    const char *value = arena_slice(reader->arena, (const char *)event->data.scalar.value,
                                    event->data.scalar.length);
    if (event->data.scalar.style != YAML_PLAIN_SCALAR_STYLE)
        at.column++; /* behind the quote */
    if (strlen(value) != event->data.scalar.length)
        return fault(reader->diags, at, "the value holds a NUL; write plain text");
    if (is_key(reader)) {
        reader->levels[reader->depth - 1].key = value;
        return true;
    }
    if (reader->depth == 0)
        return fault(reader->diags, at,
                     "a lone value stands here; write sections with keys, as in "
                     "'drum:' and under it '  diameter: 60 mm'");
    if (reader->list->count == MOST_VALUES)
        return fault(reader->diags, at,
                     "more than %d values stand here; there are not so many keys", MOST_VALUES);
    before_value(reader);
    add_value(reader, value, at, remark_behind(reader, event->end_mark));
    after_value(reader);
    return true;
}

static bool open_level(struct reader *reader, const yaml_event_t *event, bool sequence)
{
    struct place at = place_of(reader, event->start_mark);
    if (is_key(reader))
        return fault(reader->diags, at,
                     "a key is a single word; write it as in 'diameter: 60 mm'");
    if (sequence && reader->depth == 0)
        return fault(reader->diags, at,
                     "a list stands here; write sections with keys, as in 'drum:' and under it "
                     "'  diameter: 60 mm'");
    if (reader->depth == DEEPEST)
        return fault(reader->diags, at,
                     "sections stand too deep in each other; two levels are enough");
    before_value(reader);
    add_section(reader, at);
    reader->levels[reader->depth++] = (struct level){.sequence = sequence};
    return true;
}

static bool has_extras(const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_ALIAS_EVENT:
        return true;
    case YAML_SCALAR_EVENT:
        return event->data.scalar.anchor || event->data.scalar.tag;
    case YAML_MAPPING_START_EVENT:
        return event->data.mapping_start.anchor || event->data.mapping_start.tag;
    case YAML_SEQUENCE_START_EVENT:
        return event->data.sequence_start.anchor || event->data.sequence_start.tag;
    default:
        return false;
    }
}

/* False when reading cannot go on. */
static bool take(struct reader *reader, const yaml_event_t *event)
{
    if (has_extras(event))
        return fault(
            reader->diags, place_of(reader, event->start_mark),
            "anchors (&), aliases (*) and tags (!) are not used here; put the value in quotes "
            "if it begins with such a character");
    switch (event->type) {
    case YAML_SCALAR_EVENT:
        return read_scalar(reader, event);
    case YAML_MAPPING_START_EVENT:
        return open_level(reader, event, false);
    case YAML_SEQUENCE_START_EVENT:
        return open_level(reader, event, true);
    case YAML_MAPPING_END_EVENT:
    case YAML_SEQUENCE_END_EVENT:
        reader->depth--;
        after_value(reader);
        return true;
    default:
        return true;
    }
}

static void fault_of_parser(struct reader *reader, const yaml_parser_t *parser)
{
    if (parser->error == YAML_MEMORY_ERROR)
        fatal_no_memory();
    if (parser->context &&
        (strstr(parser->context, "quoted") || strstr(parser->context, "flow")))
        fault(reader->diags, place_of(reader, parser->context_mark),
              "what begins here cannot be read: on line %d, column %d, %s; "
              "close the quote, brace or bracket, and put commas between the values",
              (int)parser->problem_mark.line + 1, (int)parser->problem_mark.column + 1,
              parser->problem);
    else
        fault(reader->diags, place_of(reader, parser->problem_mark),
              "the settings cannot be read from here on (%s%s%s); check the blanks before the "
              "key, "
              "the ': ' behind it, and that quotes and brackets are closed",
              parser->context ? parser->context : "", parser->context ? ": " : "",
              parser->problem);
}

static void read_events(struct reader *reader, yaml_parser_t *parser)
{
    int documents = 0;
    for (bool more = true; more;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            fault_of_parser(reader, parser);
            return;
        }
        documents += event.type == YAML_DOCUMENT_START_EVENT;
        more = event.type != YAML_STREAM_END_EVENT && take(reader, &event);
        if (documents > 1) {
            fault(reader->diags, place_of(reader, event.start_mark),
                  "a second document begins; delete the line of dashes");
            more = false;
        }
        yaml_event_delete(&event);
    }
}

/* U+0085, U+2028 and U+2029 end a line of YAML, and none on a screen: what looks like the rest
 * of a remark would be read. */
static bool ends_line_unseen(uint32_t point)
{
    return point == 0x85 || point == 0x2028 || point == 0x2029;
}

static bool has_unseen_line_end(struct diags *diags, const struct file_text *text)
{
    const char *next = text->bytes, *at = next;
    for (uint32_t point; (point = utf8_next(&next)) != 0; at = next)
        if (ends_line_unseen(point)) {
            fault(diags, file_place(text, (size_t)(at - text->bytes)),
                  "a line ends here that no editor shows (U+%04X); delete it", (unsigned)point);
            return true;
        }
    return false;
}

void setting_list_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                       struct setting_list *list)
{
    struct reader reader = {.line = text->bytes, .arena = arena, .diags = diags, .list = list};
    *list = (struct setting_list){.file = text->name};
    if (has_unseen_line_end(diags, text))
        return;
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser))
        fatal_no_memory();
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)text->bytes, text->length);
    read_events(&reader, &parser);
    yaml_parser_delete(&parser);
}
