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
                              char *out, size_t bytes)
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
    memcpy(out, digest, bytes - 1);
    out[bytes - 1] = '\0';
    buffer_free(&text);
    free(sorted);
}

enum { DEEPEST = 8 };

/* One open mapping or sequence. */
struct level {
    bool sequence, empty;
    struct place at;
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
    if (!reader->depth)
        return;
    struct level *level = &reader->levels[reader->depth - 1];
    level->row += level->sequence;
    level->empty = false;
}

static void after_value(struct reader *reader)
{
    if (reader->depth && !reader->levels[reader->depth - 1].sequence)
        reader->levels[reader->depth - 1].key = NULL;
}

/* The text at a mark, none before an earlier one's line. Marks count characters. */
static const char *text_at(struct reader *reader, yaml_mark_t mark)
{
    for (; reader->number < mark.line && *reader->line; reader->number++) {
        reader->line += strcspn(reader->line, "\r\n");
        reader->line += strncmp(reader->line, "\r\n", 2) == 0;
        reader->line += *reader->line != '\0';
    }
    const char *at = reader->line;
    for (size_t i = 0; i < mark.column && *at; i++)
        utf8_next(&at);
    return at;
}

static bool remark_behind(struct reader *reader, yaml_mark_t end)
{
    const char *at = text_at(reader, end);
    return at[strspn(at, " \t")] == '#';
}

/* The path is filled in here. */
static void add_value(struct reader *reader, struct setting setting)
{
    setting.path = path_of(reader);
    const struct setting *earlier = setting_list_find(reader->list, setting.path);
    if (earlier)
        fault(reader->diags, setting.at,
              "%s is given twice, first on line %d; delete one of the two", setting.path,
              earlier->at.line);
    else
        *ARENA_PUSH(reader->arena, reader->list->items, reader->list->count) = setting;
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
    yaml_scalar_style_t style = event->data.scalar.style;
    struct setting setting = {.value = value, .at = at};
    if (style == YAML_SINGLE_QUOTED_SCALAR_STYLE || style == YAML_DOUBLE_QUOTED_SCALAR_STYLE) {
        setting.quote = style == YAML_SINGLE_QUOTED_SCALAR_STYLE ? '\'' : '"';
        setting.at.column = ++at.column; /* behind it */
    }
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
    if (reader->list->count == SETTINGS_MOST)
        return fault(reader->diags, at,
                     "more than %d values stand here; there are not so many keys",
                     SETTINGS_MOST);
    before_value(reader);
    setting.source = text_at(reader, event->start_mark) + (setting.quote != '\0');
    setting.cut = remark_behind(reader, event->end_mark);
    if (style == YAML_LITERAL_SCALAR_STYLE || style == YAML_FOLDED_SCALAR_STYLE)
        setting.source = NULL; /* it begins on a line below */
    add_value(reader, setting);
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
    reader->levels[reader->depth++] =
        (struct level){.sequence = sequence, .empty = true, .at = at};
    return true;
}

/* What holds nothing is itself a value, a blank one: its key may be one that wants a value, or
 * none that is known. */
static void close_level(struct reader *reader)
{
    struct level closed = reader->levels[--reader->depth];
    if (closed.empty && reader->depth)
        add_value(reader, (struct setting){.value = "", .at = closed.at});
    after_value(reader);
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
        close_level(reader);
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
