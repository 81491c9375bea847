#include "shop/settings.h"

#include "base/file.h"
#include "base/utf8.h"
#include "shop/fields.h"
#include "shop/logs.h"

#include <stdlib.h>
#include <string.h>

/* Words for a key that is not known and for one that is missing: what the writer may
 * have meant. */

static const char bands_path[] = "limits.bands";

/* Path of the section: all before the last dot. */
static size_t section_length(const char *path)
{
    const char *dot = strrchr(path, '.');
    return dot ? (size_t)(dot - path) : 0;
}

static bool is_section_of(const char *section, const char *path)
{
    size_t length = section_length(path);
    return strlen(section) == length && strncmp(path, section, length) == 0;
}

static bool is_below(const char *path, const char *section)
{
    size_t length = strlen(section);
    return strncmp(path, section, length) == 0 && path[length] == '.';
}

/* Does an earlier entry stand below the same path? Then that one was told of. */
static bool told_before(const struct setting_faults *faults, size_t index, const char *section)
{
    for (size_t i = 0; i < index; i++)
        if (is_below(faults->list->items[i].path, section))
            return true;
    return false;
}

/* What belongs behind a key, in words: "a length, 2 mm to 2 m". */
static const char *wanted(const struct setting_faults *faults, const struct field *field)
{
    const char *words = "";
    switch (field->type) {
    case FIELD_QUANTITY:
        return arena_format(faults->arena, "%s %s, %s to %s", kind_article(field->kind),
                            kind_name(field->kind), field->least, field->most);
    case FIELD_LIST:
        return arena_format(faults->arena, "values of %s with commas between them, in quotes",
                            kind_name(field->kind));
    case FIELD_COUNT:
        return arena_format(faults->arena, "a whole number from %s to %s", field->least,
                            field->most);
    case FIELD_CHOICE:
        for (int i = 0; field->choices[i]; i++)
            words = arena_format(faults->arena, "%s%s%s", words, i ? " or " : "the word ",
                                 field->choices[i]);
        return words;
    case FIELD_TEXT:
        break;
    }
    return "a few words";
}

/* A list or further keys where one value belongs. */
static bool divides_a_value(const struct setting_faults *faults, size_t index)
{
    const struct setting *setting = &faults->list->items[index];
    const char *above =
        arena_slice(faults->arena, setting->path, section_length(setting->path));
    int row;
    const struct field *field = field_find(above, &row);
    if (!field)
        return false;
    if (!told_before(faults, index, above))
        fault(faults->diags, setting->at, "%s is one value, not several; write %s", above,
              wanted(faults, field));
    return true;
}

/* A number written with a comma, within braces: the comma ended the value. */
static bool is_rest_of_number(const struct setting *setting)
{
    const char *key = strchr(setting->path, '.');
    key = key ? key + 1 : setting->path;
    field_band_row(setting->path, &key);
    return setting->value[0] == '\0' && key[0] >= '0' && key[0] <= '9';
}

/* One band too many, or something else than rows, below limits.bands. */
static bool is_wrong_band(const struct setting_faults *faults, size_t index)
{
    const struct setting *setting = &faults->list->items[index];
    const char *rest, *row = setting->path + sizeof bands_path;
    bool below = is_below(setting->path, bands_path);
    if ((!below && strcmp(setting->path, bands_path) != 0) ||
        field_band_row(setting->path, &rest))
        return false;
    for (size_t i = 0; below && i < index; i++)
        if (is_below(faults->list->items[i].path, bands_path) &&
            !field_band_row(faults->list->items[i].path, &rest))
            return true;
    if (below && row[strspn(row, "0123456789")] == '\0')
        fault(faults->diags, setting->at,
              "row %s of %s has no keys; write it as in '- {from: 0 r/min, to: 500 r/min, low: "
              "0.6 N.m, high: 0.9 N.m}'",
              row, bands_path);
    else if (below && row[0] >= '1' && row[0] <= '9' && strchr(row, '.'))
        fault(faults->diags, setting->at, "%s has more than %d rows; a manual has a few",
              bands_path, MOST_BANDS);
    else
        fault(faults->diags, setting->at,
              "%s is a list with a row for each speed band; begin each row with '- '",
              bands_path);
    return true;
}

/* Keys that may stand where a wrong one was written. */
static const char *neighbours(const struct setting_faults *faults, const char *path)
{
    const char *rest, *list = "";
    const char *section = field_band_row(path, &rest) ? "limits.bands.#" : path;
    size_t length = section == path ? section_length(path) : strlen(section);
    for (size_t i = 0; i < settings_field_count; i++) {
        const char *known = settings_fields[i].path;
        if (length && section_length(known) == length && strncmp(known, section, length) == 0)
            list = arena_format(faults->arena, "%s%s%s", list, *list ? ", " : "",
                                known + length + 1);
    }
    return list;
}

/* "lathe, limits, drum ... and paper". */
static const char *sections(const struct setting_faults *faults)
{
    const char *list = "", *last = "";
    for (size_t i = 0; i < settings_field_count; i++) {
        const char *path = settings_fields[i].path;
        if (*last && is_below(path, last))
            continue;
        if (*last)
            list = arena_format(faults->arena, "%s%s%s", list, *list ? ", " : "", last);
        last = arena_slice(faults->arena, path, strcspn(path, "."));
    }
    return arena_format(faults->arena, "%s and %s", list, last);
}

static bool is_section(const char *path)
{
    for (size_t i = 0; i < settings_field_count; i++)
        if (is_below(settings_fields[i].path, path))
            return true;
    return false;
}

/* The entry at index is no field. Of several entries that come from one mistake, only
 * the first is told of. */
static void setting_fault_unknown(const struct setting_faults *faults, size_t index)
{
    const struct setting *setting = &faults->list->items[index];
    if (divides_a_value(faults, index) || is_wrong_band(faults, index))
        return;
    const char *known = neighbours(faults, setting->path);
    if (is_rest_of_number(setting))
        fault(faults->diags, setting->at,
              "'%s' looks like the rest of a number with a comma; the decimal sign is a point",
              setting->path);
    else if (is_section(setting->path))
        fault(faults->diags, setting->at,
              "'%s' is a section; write its keys on lines of their own below it",
              setting->path);
    else if (*known)
        fault(faults->diags, setting->at,
              "there is no setting '%s'; the keys in that section are %s", setting->path,
              known);
    else
        fault(faults->diags, setting->at, "there is no setting '%s'; the sections are %s",
              setting->path, sections(faults));
}

/* Where the keys of a section stand, or the one value that stands there instead; only the
 * file where neither is in it. */
static struct place place_of_section(const struct setting_list *list, const char *path)
{
    for (size_t i = 0; i < list->section_count; i++)
        if (is_section_of(list->sections[i].path, path))
            return list->sections[i].at;
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].at.line && is_section_of(list->items[i].path, path))
            return list->items[i].at;
    return (struct place){.file = list->file};
}

/* One fault, not one for each key. */
static bool is_row_without_keys(const struct setting_faults *faults, const char *path)
{
    const char *rest;
    return field_band_row(path, &rest) &&
           setting_list_find(faults->list,
                             arena_slice(faults->arena, path, section_length(path)));
}

/* Tells of a required field that the list lacks; path: the field's, with its row. */
static void setting_require(const struct setting_faults *faults, const struct field *field,
                            const char *path)
{
    if (setting_list_find(faults->list, path) ||
        told_before(faults, faults->list->count, path) || is_row_without_keys(faults, path))
        return;
    fault(faults->diags, place_of_section(faults->list, path),
          "%s (%s) is missing; add a line '%s:' with %s", path, field->meaning,
          path + section_length(path) + 1, wanted(faults, field));
}

/* The settings file, and what of it was replaced for this run -> the workshop. */

static const char limit_prefix[] = "limits.";

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
    if (*end == '\0' && value >= least && value <= most)
        *count = (int)value;
    else
        fault(filler->diags, setting->at,
              "%s (%s) cannot be '%s'; write a whole number from %s to %s", setting->path,
              field->meaning, setting->value, field->least, field->most);
}

static void fill_text(const struct filler *filler, const struct field *field,
                      const struct setting *setting, const char **text)
{
    const char *name = arena_format(filler->arena, "%s (%s)", setting->path, field->meaning);
    struct typed_text typed = {setting->value, setting->at, setting->cut};
    if (shop_keep_text(filler->shop, filler->arena, filler->diags, name, typed))
        *text = setting->value;
}

static void fill_field(const struct filler *filler, const struct field *field, int row,
                       const struct setting *setting)
{
    void *address = address_of(filler, field, row);
    if (row && filler->shop->limits.bands[row - 1].at.line == 0)
        filler->shop->limits.bands[row - 1].at = setting->at;
    if (setting->value[strspn(setting->value, " ")] == '\0') {
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

static void require_all(const struct filler *filler, const struct setting_faults *faults)
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
            setting_require(faults, field, field->path);
        for (size_t row = 1; hash && row <= filler->shop->limits.band_count; row++)
            setting_require(faults, field,
                            arena_format(filler->arena, "limits.bands.%zu.%s", row, hash + 2));
    }
}

static void fill(const struct filler *filler)
{
    struct setting_faults faults = {filler->arena, filler->diags, filler->list};
    make_bands(filler);
    for (size_t i = 0; i < filler->list->count; i++) {
        const struct setting *setting = &filler->list->items[i];
        int row;
        const struct field *field = field_find(setting->path, &row);
        if (field)
            fill_field(filler, field, row, setting);
        else
            setting_fault_unknown(&faults, i);
    }
    require_all(filler, &faults);
}

const char *settings_log(struct arena *arena, const char *file, const char *log)
{
    static const char ending[] = ".yaml";
    const char *slash = strrchr(file, '/'), *name = slash ? slash + 1 : file;
    if (strcmp(name, SETTINGS_NAME) == 0 || !file_ends_in(name, ending))
        return arena_format(arena, "%.*s%s", (int)(name - file), file, log);
    return arena_format(arena, "%.*s-%s", (int)(strlen(file) - strlen(ending)), file, log);
}

/* Is the same setting replaced by an earlier one? */
static bool replaced_before(const char *const *replacements, size_t index)
{
    size_t length = strcspn(replacements[index], "=") + 1;
    for (size_t i = 0; i < index; i++)
        if (strncmp(replacements[i], replacements[index], length) == 0)
            return true;
    return false;
}

static void replace(const struct filler *filler, struct setting_list *list,
                    const char *const *replacements, size_t count)
{
    static const struct place at = {.file = "--set"};
    for (size_t i = 0; i < count; i++)
        if (utf8_valid(replacements[i], strlen(replacements[i])) != strlen(replacements[i]))
            fault(filler->diags, at, "'%s' is not UTF-8; write it in plain text",
                  replacements[i]);
        else if (!setting_list_replace(filler->arena, list, replacements[i]))
            fault(filler->diags, at,
                  "'%s' is not a key, '=' and a value; write it as in drum.diameter=60mm",
                  replacements[i]);
        else if (replaced_before(replacements, i))
            fault(filler->diags, at, "%.*s is replaced twice; give it one value",
                  (int)strcspn(replacements[i], "="), replacements[i]);
}

/* The logs are read whatever the settings' faults are: all are told of in one run. */
void settings_read(struct arena *arena, struct diags *diags, const char *file,
                   const char *const *replacements, size_t count, struct shop *shop)
{
    struct file_text text, check;
    struct setting_list list = {0};
    struct filler filler = {.arena = arena, .diags = diags, .list = &list, .shop = shop};
    size_t before = diags_count(diags);
    *shop = (struct shop){.file = arena_text(arena, file)};
    if (file_read_text(arena, diags, file, &text))
        setting_list_read(arena, diags, &text, &list);
    bool readable = diags_count(diags) == before;
    replace(&filler, &list, replacements, count);
    if (readable)
        fill(&filler);
    gauge_log_read(arena, diags, settings_log(arena, file, GAUGE_LOG_NAME), &check, shop);
    pull_log_read(arena, diags, settings_log(arena, file, PULL_LOG_NAME), shop);
    if (readable)
        shop_check(shop, diags);
    if (diags_count(diags) == before)
        setting_list_fingerprint(&list, &check, shop->fingerprint);
}
