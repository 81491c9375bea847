#include "read/settings.h"

#include "base/utf8.h"
#include "read/gauge_log.h"
#include "read/pull_log.h"
#include "read/setting_list.h"
#include "shop/fields.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_LIST = 60, LONGEST_TEXT = 300 };

static const char band_prefix[] = "limits.bands.", limit_prefix[] = "limits.";
static const char on_file_path[] = "limits.on-file";

struct filler {
    struct arena *arena;
    struct diags *diags;
    const struct setting_list *list;
    struct shop *shop;
};

static void *address_of(const struct filler *filler, const struct field *field, int row)
{
    if (row)
        return (char *)&filler->shop->limits.bands[row - 1] + field->offset;
    return (char *)filler->shop + field->offset;
}

/* Moves a place right by the code points of the first bytes of its value. */
static struct place place_within(const struct setting *setting, size_t bytes)
{
    struct place at = setting->at;
    if (at.column)
        at.column += (int)utf8_count(setting->value, bytes);
    return at;
}

static bool in_range(const struct filler *filler, const struct field *field, struct place at,
                     const char *path, const struct quantity *quantity)
{
    char message[RANGE_TEXT];
    bool fits = field_allows(field, path, quantity, message);
    if (!fits)
        fault(filler->diags, at, "%s", message);
    return fits;
}

static bool parse_quantity(const struct filler *filler, const struct field *field,
                           const struct setting *setting, const char *text, size_t offset,
                           struct measure *measure)
{
    struct quantity_fault wrong;
    measure->at = place_within(setting, offset);
    if (!quantity_parse(text, field->kind, &measure->q, &wrong)) {
        fault(filler->diags, place_within(setting, offset + wrong.offset), "%s: %s",
              setting->path, wrong.message);
        measure->q.unit = NULL;
        return false;
    }
    if (in_range(filler, field, measure->at, setting->path, &measure->q))
        return true;
    measure->q.unit = NULL;
    return false;
}

static void fill_list(const struct filler *filler, const struct field *field,
                      const struct setting *setting, struct measures *list)
{
    const char *start = setting->value;
    for (bool more = true; more && list->count < MOST_LIST;) {
        size_t length = strcspn(start, ",");
        more = start[length] == ',';
        const char *text = arena_slice(filler->arena, start, length);
        struct measure measure;
        if (parse_quantity(filler, field, setting, text, (size_t)(start - setting->value),
                           &measure))
            *ARENA_PUSH(filler->arena, list->items, list->count) = measure;
        start += length + more;
        if (more && list->count == MOST_LIST)
            fault(filler->diags, setting->at,
                  "%s has more than %d entries; keep the useful ones", setting->path,
                  MOST_LIST);
    }
}

static void fill_choice(const struct filler *filler, const struct field *field,
                        const struct setting *setting, int *choice)
{
    struct buffer words = {0};
    for (int i = 0; field->choices[i]; i++) {
        if (strcmp(field->choices[i], setting->value) == 0) {
            *choice = i;
            buffer_free(&words);
            return;
        }
        buffer_print(&words, "%s%s", i ? " or " : "", field->choices[i]);
    }
    fault(filler->diags, setting->at, "%s (%s) cannot be '%s'; write %s", setting->path,
          field->meaning, setting->value, words.bytes);
    buffer_free(&words);
}

static void fill_count(const struct filler *filler, const struct field *field,
                       const struct setting *setting, int *count)
{
    char *end;
    long least = strtol(field->least, NULL, 10), most = strtol(field->most, NULL, 10);
    long value = strtol(setting->value, &end, 10);
    if (*end == '\0' && end != setting->value && value >= least && value <= most)
        *count = (int)value;
    else
        fault(filler->diags, setting->at,
              "%s (%s) cannot be '%s'; write a whole number from %s to %s", setting->path,
              field->meaning, setting->value, field->least, field->most);
}

static bool has_control(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 || *text == 0x7F)
            return true;
    return false;
}

static void fill_text(const struct filler *filler, const struct field *field,
                      const struct setting *setting, const char **text)
{
    if (has_control(setting->value))
        fault(filler->diags, setting->at,
              "%s (%s) holds a line end or another control sign; write it on one line",
              setting->path, field->meaning);
    else if (utf8_count(setting->value, strlen(setting->value)) > LONGEST_TEXT)
        fault(filler->diags, setting->at, "%s (%s) is longer than %d signs; shorten it",
              setting->path, field->meaning, LONGEST_TEXT);
    else
        *text = setting->value;
}

static void fill_field(const struct filler *filler, const struct field *field, int row,
                       const struct setting *setting)
{
    void *address = address_of(filler, field, row);
    if (row && filler->shop->limits.bands[row - 1].at.line == 0)
        filler->shop->limits.bands[row - 1].at = setting->at;
    if (setting->value[0] == '\0') {
        fault(filler->diags, setting->at, "%s (%s) has no value; write one, or delete the line",
              setting->path, field->meaning);
        return;
    }
    switch (field->type) {
    case FIELD_TEXT:
        fill_text(filler, field, setting, address);
        break;
    case FIELD_QUANTITY:
        parse_quantity(filler, field, setting, setting->value, 0, address);
        break;
    case FIELD_LIST:
        fill_list(filler, field, setting, address);
        break;
    case FIELD_COUNT:
        fill_count(filler, field, setting, address);
        break;
    case FIELD_CHOICE:
        fill_choice(filler, field, setting, address);
        break;
    }
}

/* Path of the section: all before the last dot. */
static size_t section_length(const char *path)
{
    const char *dot = strrchr(path, '.');
    return dot ? (size_t)(dot - path) : 0;
}

/* Keys that may stand where a wrong one was written. */
static void list_neighbours(struct buffer *out, const char *path)
{
    const char *rest;
    const char *section = field_band_row(path, &rest) ? "limits.bands.#" : path;
    size_t length = section == path ? section_length(path) : strlen(section);
    for (size_t i = 0; i < settings_field_count; i++) {
        const char *known = settings_fields[i].path;
        if (length && section_length(known) == length && strncmp(known, section, length) == 0)
            buffer_print(out, "%s%s", out->length ? ", " : "", known + length + 1);
    }
}

static void fault_unknown(const struct filler *filler, const struct setting *setting)
{
    struct buffer known = {0};
    list_neighbours(&known, setting->path);
    if (known.length)
        fault(filler->diags, setting->at,
              "there is no setting '%s'; the keys in that section are %s", setting->path,
              known.bytes);
    else
        fault(filler->diags, setting->at,
              "there is no setting '%s'; the sections are lathe, limits, drum, cord, gauge, "
              "pulls, site, nut, run-in, tables and paper",
              setting->path);
    buffer_free(&known);
}

static void make_bands(const struct filler *filler)
{
    struct limits *limits = &filler->shop->limits;
    const char *rest;
    for (size_t i = 0; i < filler->list->count; i++) {
        size_t row = (size_t)field_band_row(filler->list->items[i].path, &rest);
        if (row > limits->band_count)
            limits->band_count = row;
    }
    limits->bands = arena_get(filler->arena, (limits->band_count + 1) * sizeof *limits->bands);
    for (size_t i = 0; i < limits->band_count; i++)
        limits->bands[i].at.file = filler->list->file;
}

/* Line of the first entry of a section, so that a missing key has a place. */
static struct place place_of_section(const struct setting_list *list, const char *path)
{
    size_t length = section_length(path);
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].at.line && strncmp(list->items[i].path, path, length + 1) == 0)
            return (struct place){.file = list->file, .line = list->items[i].at.line};
    return (struct place){.file = list->file};
}

/* What belongs behind a key, in words: "a length, 2 mm to 2 m". */
static const char *wanted(const struct filler *filler, const struct field *field)
{
    switch (field->type) {
    case FIELD_QUANTITY:
        return arena_format(filler->arena, "%s %s, %s to %s", kind_article(field->kind),
                            kind_name(field->kind), field->least, field->most);
    case FIELD_LIST:
        return arena_format(filler->arena, "values of %s with commas between them",
                            kind_name(field->kind));
    case FIELD_CHOICE:
        return arena_format(filler->arena, "the word %s or another that is known",
                            field->choices[0]);
    default:
        return "a few words";
    }
}

static void require(const struct filler *filler, const struct field *field, const char *path)
{
    if (!setting_list_find(filler->list, path))
        fault(filler->diags, place_of_section(filler->list, path),
              "%s (%s) is missing; add a line '%s:' with %s", path, field->meaning,
              path + section_length(path) + 1, wanted(filler, field));
}

static bool is_limit(const char *path)
{
    return strncmp(path, limit_prefix, sizeof limit_prefix - 1) == 0;
}

/* Half a limit beside "there is none" would be one or the other by guess. All bands are
 * one fault. */
static void forbid_limits(const struct filler *filler)
{
    bool band_seen = false;
    for (size_t i = 0; i < filler->list->count; i++) {
        const struct setting *setting = &filler->list->items[i];
        const char *rest;
        bool is_band = field_band_row(setting->path, &rest) != 0;
        if (is_limit(setting->path) && strcmp(setting->path, on_file_path) != 0 &&
            !(is_band && band_seen))
            fault(
                filler->diags, setting->at,
                "%s stands beside limits.on-file: none; delete %s, or delete on-file if there "
                "is a limit",
                is_band ? "a speed band" : setting->path, is_band ? "all bands" : "it");
        band_seen = band_seen || is_band;
    }
}

static void require_all(const struct filler *filler)
{
    bool without_limits = !shop_has_limits(filler->shop);
    if (without_limits)
        forbid_limits(filler);
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        const char *hash = strchr(field->path, '#');
        if (!field->required || (without_limits && is_limit(field->path)))
            continue;
        if (!hash)
            require(filler, field, field->path);
        for (size_t row = 1; hash && row <= filler->shop->limits.band_count; row++)
            require(filler, field,
                    arena_format(filler->arena, "%s%zu.%s", band_prefix, row, hash + 2));
    }
}

static void fill(const struct filler *filler)
{
    make_bands(filler);
    for (size_t i = 0; i < filler->list->count; i++) {
        const struct setting *setting = &filler->list->items[i];
        int row;
        const struct field *field = field_find(setting->path, &row);
        if (field)
            fill_field(filler, field, row, setting);
        else
            fault_unknown(filler, setting);
    }
    require_all(filler);
}

/* The path of another file in the same folder. */
static const char *beside(struct arena *arena, const char *file, const char *name)
{
    const char *slash = strrchr(file, '/');
    return arena_format(arena, "%.*s%s", slash ? (int)(slash - file + 1) : 0, file, name);
}

void settings_read(struct arena *arena, struct diags *diags, const char *file,
                   const char *const *replacements, size_t count, struct shop *shop)
{
    struct file_text text;
    struct setting_list list;
    *shop = (struct shop){0};
    if (!file_read_text(arena, diags, file, &text))
        return;
    size_t before = diags_count(diags);
    setting_list_read(arena, diags, &text, &list);
    bool readable = diags_count(diags) == before;
    for (size_t i = 0; i < count; i++)
        if (!setting_list_replace(arena, &list, replacements[i]))
            fault(diags, (struct place){.file = "--set"},
                  "'%s' is not a key, '=' and a value; write it as in drum.diameter=60mm",
                  replacements[i]);
    struct filler filler = {.arena = arena, .diags = diags, .list = &list, .shop = shop};
    if (!readable)
        return;
    fill(&filler);
    struct file_text log;
    gauge_log_read(arena, diags, beside(arena, file, "gauge-check.csv"), &log, shop);
    if (diags_count(diags) == before)
        pull_log_read(arena, diags, beside(arena, file, "readings.csv"), shop);
    setting_list_fingerprint(&list, &log, shop->fingerprint);
    if (diags_count(diags) == before)
        shop_check(shop, diags);
}
