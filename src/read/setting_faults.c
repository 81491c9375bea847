#include "read/setting_faults.h"

#include <string.h>

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

void setting_fault_unknown(const struct setting_faults *faults, size_t index)
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

void setting_require(const struct setting_faults *faults, const struct field *field,
                     const char *path)
{
    if (setting_list_find(faults->list, path) ||
        told_before(faults, faults->list->count, path) || is_row_without_keys(faults, path))
        return;
    fault(faults->diags, place_of_section(faults->list, path),
          "%s (%s) is missing; add a line '%s:' with %s", path, field->meaning,
          path + section_length(path) + 1, wanted(faults, field));
}
