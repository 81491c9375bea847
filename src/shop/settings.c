/* The settings file, and what of it was replaced for this run -> the workshop. Most of this is
 * about keys that are not known or are missing: what the writer may have meant. Then the other
 * way: a file in which every key stands with a remark, all of it from settings_fields[]. */
#include "shop/settings.h"

#include "base/utf8.h"
#include "shop/fields.h"
#include "shop/logs.h"
#include "shop/stored.h"

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
static bool told_before(const struct settings_reader *reader, size_t index, const char *section)
{
    for (size_t i = 0; i < index; i++)
        if (is_below(reader->list->items[i].path, section))
            return true;
    return false;
}

/* A list or further keys where one value belongs. */
static bool divides_a_value(const struct settings_reader *reader, size_t index)
{
    const struct setting *setting = &reader->list->items[index];
    const char *above =
        arena_slice(reader->arena, setting->path, section_length(setting->path));
    int row;
    const struct field *field = field_find(above, &row);
    if (!field)
        return false;
    if (!told_before(reader, index, above))
        fault(reader->diags, setting->at, "%s is one value, not several; write %s", above,
              field_wanted(reader->arena, field));
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
static bool is_wrong_band(const struct settings_reader *reader, size_t index)
{
    const struct setting *setting = &reader->list->items[index];
    const char *rest, *row = setting->path + sizeof bands_path;
    bool below = is_below(setting->path, bands_path);
    if ((!below && strcmp(setting->path, bands_path) != 0) ||
        field_band_row(setting->path, &rest))
        return false;
    for (size_t i = 0; below && i < index; i++)
        if (is_below(reader->list->items[i].path, bands_path) &&
            !field_band_row(reader->list->items[i].path, &rest))
            return true;
    if (below && row[strspn(row, "0123456789")] == '\0')
        fault(reader->diags, setting->at,
              "row %s of %s has no keys; write it as in '- {from: 0 r/min, to: 500 r/min, low: "
              "0.6 N.m, high: 0.9 N.m}'",
              row, bands_path);
    else if (below && row[0] >= '1' && row[0] <= '9' && strchr(row, '.'))
        fault(reader->diags, setting->at, "%s has more than %d rows; a manual has a few",
              bands_path, MOST_BANDS);
    else
        fault(reader->diags, setting->at,
              "%s is a list with a row for each speed band; begin each row with '- '",
              bands_path);
    return true;
}

/* What may stand where a wrong name was written: all of it, as "lathe, limits and paper", and
 * what of it is like that name. */
struct known_names {
    const char *list, *near;
    size_t distance;
};

static void add_known(const struct settings_reader *reader, struct known_names *known,
                      const char *name, const char *written)
{
    size_t length = strcspn(written, "."), distance;
    distance = name_distance(name, strlen(name), written, length);
    known->list = known->list ? arena_format(reader->arena, "%s, %s", known->list, name) : name;
    if (name_is_near(distance, length) && (!known->near || distance < known->distance)) {
        known->near = name;
        known->distance = distance;
    }
}

/* The keys of the section that the path names; none where there is no such section. */
static struct known_names known_keys(const struct settings_reader *reader, const char *path)
{
    struct known_names known = {0};
    const char *written = strrchr(path, '.'), *rest;
    const char *section = field_band_row(path, &rest) ? "limits.bands.#" : path;
    size_t length = section == path ? section_length(path) : strlen(section);
    for (size_t i = 0; written && i < settings_field_count; i++) {
        const char *key = settings_fields[i].path;
        if (section_length(key) == length && strncmp(key, section, length) == 0)
            add_known(reader, &known, key + length + 1, written + 1);
    }
    return known;
}

static struct known_names known_sections(const struct settings_reader *reader, const char *path)
{
    struct known_names known = {0};
    const char *last = "";
    for (size_t i = 0; i < settings_field_count; i++) {
        const char *key = settings_fields[i].path;
        if (*last && is_below(key, last))
            continue;
        last = arena_slice(reader->arena, key, strcspn(key, "."));
        add_known(reader, &known, last, path);
    }
    return known;
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
static void tell_unknown(const struct settings_reader *reader, size_t index)
{
    const struct setting *setting = &reader->list->items[index];
    if (divides_a_value(reader, index) || is_wrong_band(reader, index))
        return;
    struct known_names known = known_keys(reader, setting->path);
    bool key = known.list != NULL;
    if (is_rest_of_number(setting)) {
        fault(reader->diags, setting->at,
              "'%s' looks like the rest of a number with a comma; the decimal sign is a point",
              setting->path);
    } else if (is_section(setting->path)) {
        fault(reader->diags, setting->at,
              "'%s' is a section; write its keys on lines of their own below it",
              setting->path);
    } else {
        known = key ? known : known_sections(reader, setting->path);
        fault(reader->diags, setting->at, "there is no setting '%s'; %s%s%sthe %s are %s",
              setting->path, known.near ? "write " : "", known.near ? known.near : "",
              known.near ? " if that is meant; " : "",
              key ? "keys in that section" : "sections", known.list);
    }
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
static bool is_row_without_keys(const struct settings_reader *reader, const char *path)
{
    const char *rest;
    return field_band_row(path, &rest) &&
           setting_list_find(reader->list,
                             arena_slice(reader->arena, path, section_length(path)));
}

/* Tells of a required field that the list lacks; path: the field's, with its row. */
static void require(const struct settings_reader *reader, const struct field *field,
                    const char *path)
{
    if (setting_list_find(reader->list, path) ||
        told_before(reader, reader->list->count, path) || is_row_without_keys(reader, path))
        return;
    fault(reader->diags, place_of_section(reader->list, path),
          "%s (%s) is missing; add a line '%s:' with %s", path, field->meaning,
          path + section_length(path) + 1, field_wanted(reader->arena, field));
}

/* Half a limit beside "there is none" would be one or the other by guess. All bands are
 * one fault. */
static void forbid_limits(const struct settings_reader *reader)
{
    bool band_seen = false;
    for (size_t i = 0; i < reader->list->count; i++) {
        const struct setting *setting = &reader->list->items[i];
        const char *rest;
        bool is_band = field_band_row(setting->path, &rest) != 0;
        if (is_limit(setting->path) && !(is_band && band_seen))
            fault(
                reader->diags, setting->at,
                "%s stands beside limits.on-file: none; delete %s, or delete on-file if there "
                "is a limit",
                is_band ? "a speed band" : setting->path, is_band ? "all bands" : "it");
        band_seen = band_seen || is_band;
    }
}

static void require_all(const struct settings_reader *reader)
{
    bool without_limits = !shop_has_limits(reader->shop);
    if (without_limits)
        forbid_limits(reader);
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        if (!field->required || (without_limits && is_limit(field->path)))
            continue;
        for (size_t row = 1; row <= field_rows(field, reader->shop); row++)
            require(reader, field, field_path(reader->arena, field, row));
    }
}

/* Gives the keys their names of today. */
static void migrate(const struct settings_reader *reader)
{
    struct shop *shop = reader->shop;
    for (size_t i = 0; i < reader->list->count; i++) {
        struct setting *setting = &reader->list->items[i];
        const char *old = setting->path, *now = name_now(old);
        if (now && setting_list_find(reader->list, now))
            fault(reader->diags, setting->at,
                  "%s is the old name of %s, which stands there too; delete one of the two",
                  old, now);
        if (!now)
            continue;
        setting->path = now;
        *ARENA_PUSH(reader->arena, shop->read_as, shop->read_as_count) = (struct read_as){
            setting->at, arena_format(reader->arena, "%s is called %s now", old, now)};
    }
}

static void read_all(const struct settings_reader *reader)
{
    migrate(reader);
    bands_make(reader);
    for (size_t i = 0; i < reader->list->count; i++) {
        const struct setting *setting = &reader->list->items[i];
        int row;
        const struct field *field = field_find(setting->path, &row);
        if (field)
            field_read(reader, field, row, setting);
        else
            tell_unknown(reader, i);
    }
    require_all(reader);
    fields_fill(reader->arena, reader->shop);
}

/* ---- the file ---- */

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

static void replace(const struct settings_reader *reader, struct setting_list *list,
                    const char *const *replacements, size_t count)
{
    static const struct place at = {.file = "--set"};
    for (size_t i = 0; i < count; i++)
        if (utf8_valid(replacements[i], strlen(replacements[i])) != strlen(replacements[i]))
            fault(reader->diags, at, "'%s' is not UTF-8; write it in plain text",
                  replacements[i]);
        else if (!setting_list_replace(reader->arena, list, replacements[i]))
            fault(reader->diags, at,
                  "'%s' is not a key, '=' and a value; write it as in drum.diameter=60mm",
                  replacements[i]);
        else if (replaced_before(replacements, i))
            fault(reader->diags, at, "%.*s is replaced twice; give it one value",
                  (int)strcspn(replacements[i], "="), replacements[i]);
}

/* ---- registers ---- */

const struct settings_register settings_registers[] = {{"limits", "limits.yaml"},
                                                       {"drum", "drums.yaml"},
                                                       {"cord", "cords.yaml"},
                                                       {"gauge", "gauges.yaml"},
                                                       {NULL, NULL}};

/* Beside the settings, or where none is there in the folder above, which lathes share. */
static const char *register_file(struct arena *arena, const char *settings, const char *name)
{
    const char *slash = strrchr(settings, '/');
    const char *folder = slash ? arena_slice(arena, settings, (size_t)(slash - settings)) : ".";
    const char *beside = arena_format(arena, "%s/%s", folder, name);
    if (file_is_there(beside))
        return beside;
    const char *above = arena_format(arena, "%s/../%s", folder, name);
    return file_is_there(above) ? above : beside;
}

static void take_entry(const struct settings_reader *reader, struct setting_list *list,
                       const char *section, const struct setting *entry, const char *rest)
{
    struct setting taken = *entry;
    taken.path = arena_format(reader->arena, "%s.%s", section, rest);
    const struct setting *typed = setting_list_find(list, taken.path);
    if (!typed)
        *ARENA_PUSH(reader->arena, list->items, list->count) = taken;
    else if (typed->at.line) /* and no replacement of this run */
        *ARENA_PUSH(reader->arena, reader->shop->read_as, reader->shop->read_as_count) =
            (struct read_as){typed->at,
                             arena_format(reader->arena,
                                          "%s stands in %s too, line %d; what is typed here "
                                          "counts",
                                          typed->path, entry->at.file, entry->at.line)};
}

/* What the registers have under an id stands in for what the settings leave out. */
static void take_from_register(const struct settings_reader *reader, struct setting_list *list,
                               const struct settings_register *from)
{
    struct file_text text;
    struct setting_list all = {0};
    size_t before = diags_count(reader->diags), taken = 0;
    const struct setting *id =
        setting_list_find(list, arena_format(reader->arena, "%s.id", from->section));
    if (!id || !id->value[0])
        return;
    struct place at = id->at;
    const char *name = id->value, *ids = "", *last = "";
    if (file_read_text(reader->arena, reader->diags,
                       register_file(reader->arena, reader->shop->file, from->file), &text))
        setting_list_read(reader->arena, reader->diags, &text, &all);
    for (size_t i = 0; i < all.count; i++) {
        const struct setting *entry = &all.items[i];
        size_t length = strcspn(entry->path, ".");
        if (strncmp(entry->path, last, length) != 0 || last[length])
            ids = arena_format(reader->arena, "%s%s%.*s", ids, *ids ? ", " : "", (int)length,
                               entry->path);
        last = arena_slice(reader->arena, entry->path, length);
        if (strcmp(last, name) != 0 || !entry->path[length])
            continue;
        taken++;
        take_entry(reader, list, from->section, entry, entry->path + length + 1);
    }
    if (!taken && diags_count(reader->diags) == before)
        fault(reader->diags, at, "%s has no entry '%.40s' with keys under it; it has %s",
              text.name, name, *ids ? ids : "none");
}

/* The settings alone, into a shop that has nothing yet; whether they can be looked at. */
static bool read_file(const struct settings_reader *reader, struct setting_list *list,
                      const char *const *replacements, size_t count)
{
    struct file_text text;
    size_t before = diags_count(reader->diags);
    if (file_read_text(reader->arena, reader->diags, reader->shop->file, &text))
        setting_list_read(reader->arena, reader->diags, &text, list);
    bool readable = diags_count(reader->diags) == before;
    replace(reader, list, replacements, count);
    for (const struct settings_register *from = settings_registers; from->section; from++)
        take_from_register(reader, list, from);
    readable = readable && diags_count(reader->diags) == before;
    if (readable)
        read_all(reader);
    return readable;
}

/* As it is filed: without its logs, which no earlier settings have. */
static struct shop *read_filed(struct arena *arena, struct diags *diags, const char *file)
{
    struct shop *shop = arena_get(arena, sizeof *shop);
    struct setting_list list = {0};
    struct settings_reader reader = {arena, diags, &list, shop, false};
    *shop = (struct shop){.file = file};
    if (read_file(&reader, &list, NULL, 0))
        shop_check(shop, diags);
    return shop;
}

const char **settings_earlier(struct arena *arena, const char *file)
{
    const char *slash = strrchr(file, '/'), *name = slash ? slash + 1 : file;
    if (!file_ends_in(name, ".yaml"))
        return NULL;
    const char *folder = arena_slice(arena, file, (size_t)(name - file));
    const char *start = arena_format(arena, "%.*s" EARLIER_SETTINGS,
                                     (int)(strlen(name) - strlen(".yaml")), name);
    const char **names = file_list_from(arena, slash ? folder : ".", start, ".yaml");
    for (size_t i = 0; names && names[i]; i++)
        names[i] = arena_format(arena, "%s%s", folder, names[i]);
    return names;
}

/* Settings of a name that ends in the day on which they were replaced. */
static void read_earlier(struct arena *arena, struct diags *diags, const char *path,
                         struct shop *shop)
{
    const char *day = path + strlen(shop->file) - strlen(".yaml") + strlen(EARLIER_SETTINGS);
    day = arena_slice(arena, day, strlen(day) - strlen(".yaml"));
    if (!date_is_good(day)) {
        fault(diags, (struct place){.file = path},
              "'%.40s' is no day on which these settings were replaced; name the file as in "
              "settings-before-2026-03-09.yaml",
              day);
        return;
    }
    const struct shop *earlier = read_filed(arena, diags, path);
    *ARENA_PUSH(arena, shop->earlier, shop->earlier_count) =
        (struct earlier){date_days(day), earlier};
    for (size_t i = 0; i < earlier->text_count; i++) /* a record of that day prints them */
        *ARENA_PUSH(arena, shop->texts, shop->text_count) = earlier->texts[i];
}

/* What this run replaces is of today alone: without that, if the settings stand without it. */
static void find_filed(struct arena *arena, struct shop *shop)
{
    struct diags *unheard = diags_new(arena);
    const struct shop *filed = read_filed(arena, unheard, shop->file);
    shop->filed = diags_count(unheard) ? NULL : filed;
}

/* The logs are read whatever the settings' faults are: all are told of in one run. */
void settings_read(struct arena *arena, struct diags *diags, const char *file,
                   const char *const *replacements, size_t count, struct shop *shop)
{
    struct file_text check;
    struct setting_list list = {0};
    *shop = (struct shop){.file = arena_text(arena, file)};
    struct settings_reader reader = {arena, diags, &list, shop, false};
    size_t before = diags_count(diags);
    bool readable = read_file(&reader, &list, replacements, count);
    for (const char **name = settings_earlier(arena, file); name && *name; name++)
        read_earlier(arena, diags, *name, shop);
    if (count)
        find_filed(arena, shop);
    gauge_log_read(arena, diags, settings_log(arena, file, GAUGE_LOG_NAME), &check, shop);
    stored_read(arena, diags, settings_log(arena, file, RECORDS_NAME), shop);
    for (size_t i = 0; i < shop->stored_count; i++)
        if (shop->stored[i].shop) /* the weights hung whatever the settings are */
            shop->stored[i].shop->weighings = shop->weighings;
    pull_log_read(arena, diags, settings_log(arena, file, PULL_LOG_NAME), shop);
    if (readable)
        shop_check(shop, diags);
    if (diags_count(diags) == before)
        setting_list_fingerprint(&list, &check, shop->fingerprint, FINGERPRINT_TEXT);
}

bool settings_take(struct arena *arena, struct setting_list *list, struct shop *shop)
{
    struct diags *diags = diags_new(arena);
    struct settings_reader reader = {arena, diags, list, shop, false};
    *shop = (struct shop){.file = list->file};
    read_all(&reader);
    shop_check(shop, diags);
    return diags_count(diags) == 0;
}

/* ---- writing ---- */

/* What is said of a whole section. */
static const struct {
    const char *section, *words;
} section_words[] = {
    {"limits", "From the lathe's manual, in its own units. Never make one up."},
    {"site", "Where the workshop lies, for the pull of known weights: see the page \"Check the "
             "gauge\". Without it standard gravity is taken."},
    {"run-in", "Running in, from the lathe's manual, which comes first. What you leave out is "
               "filled with common practice and rules of ours."},
    {"spindle", "The spindle's two bearings, for the tables of the page \"Warm\", which say "
                "what they lack."},
    {"oil", "The oil in the bearings, from its can or its data sheet."},
};

static const char file_words[] =
    "# Settings for one lathe, one drum, one cord and one gauge.\n"
    "#\n"
    "# Every number in the booklet, on the card and in the tables comes from this file.\n"
    "#\n"
    "# How to write a value: the number and its unit, in one word or two: 62mm, 62 mm,\n"
    "# 2.5 in, 2 9/16 in. Metric and inch values may stand side by side. No unit is ever\n"
    "# guessed: a number without its unit is a fault.\n";

static const char line_words[] =
    "#\n"
    "# Blanks at the start of a line count: keep them as they are. What follows a \"#\" is\n"
    "# a remark and is not read: take the \"#\" away where you write a value of your own,\n"
    "# and before the name of its section. \"May be left out\" means: delete the line.\n";

enum { REMARK_END = 84 }; /* columns */

/* Words in lines that begin alike. */
static void print_remark(struct buffer *out, const char *start, const char *words)
{
    size_t used = 0;
    for (size_t length; *words; words += length + (words[length] == ' ')) {
        length = strcspn(words, " ");
        size_t width = utf8_count(words, length);
        if (!used || used + 1 + width > REMARK_END) {
            buffer_print(out, "%s%s", used ? "\n" : "", start);
            used = strlen(start);
        }
        used += 1 + width;
        buffer_print(out, " %.*s", (int)length, words);
    }
    buffer_text(out, "\n");
}

/* "Units: length mm cm m; force N kgf.", of the kinds that settings have. */
static const char *units_words(struct arena *arena)
{
    const char *words = "";
    for (enum kind kind = 0; kind < KIND_COUNT; kind++) {
        bool asked = false;
        for (size_t i = 0; i < settings_field_count; i++)
            asked = asked || settings_fields[i].kind == kind;
        if (!asked)
            continue;
        words = arena_format(arena, "%s%s %s", words, *words ? ";" : "Units:", kind_name(kind));
        for (size_t i = 0; unit_at(i); i++)
            if (unit_at(i)->kind == kind)
                words = arena_format(arena, "%s %s", words, unit_at(i)->symbol);
    }
    return arena_format(arena, "%s.", words);
}

/* "Diameter where the cord runs. The mean of three. 2 mm to 2 m. May be left out: 5 mm." */
static const char *field_words(struct arena *arena, const struct field *field)
{
    const char *left_out = field->required ? "" : " May be left out.", *range = "";
    if (field->needed)
        left_out = arena_format(arena, " Needed %s.", field->needed);
    else if (field->fallback)
        left_out = arena_format(arena, " May be left out: %s.", field->fallback);
    else if (!field->required && field->type == FIELD_CHOICE)
        left_out = arena_format(arena, " May be left out: %s.", field->choices[0]);
    if (field->type != FIELD_TEXT)
        range = arena_format(arena, " %s%s.", field->type == FIELD_CHOICE ? "Write " : "",
                             field_range(arena, field));
    char *words = arena_format(arena, "%s.%s%s%s%s", field->meaning, field->hint ? " " : "",
                               field->hint ? field->hint : "", range, left_out);
    if (words[0] >= 'a' && words[0] <= 'z')
        words[0] += 'A' - 'a';
    return words;
}

/* As it is written in the file; NULL where the shop has none of its own. */
static const char *value_text(struct arena *arena, const struct field *field,
                              const struct shop *shop, size_t row)
{
    const char *text = shop ? field_text(arena, field, shop, row) : NULL;
    bool unsaid = field->type == FIELD_CHOICE && !field->required && text == field->choices[0];
    bool limit = shop && is_limit(field->path) && !shop_has_limits(shop);
    if (!text || unsaid || limit)
        return NULL;
    return field->type == FIELD_TEXT ? text_quoted(arena, text) : text;
}

/* Whether the key must be there, with a value or without. */
static bool must_stand(const struct field *field, const struct shop *shop)
{
    return field->required && !(shop && is_limit(field->path) && !shop_has_limits(shop));
}

/* All keys of a band, from the first one on; a row for each. */
static void print_bands(struct arena *arena, struct buffer *out, const struct field *first,
                        const struct shop *shop)
{
    size_t rows = shop ? shop->limits.band_count : 0;
    const struct field *end = first;
    for (; end < settings_fields + settings_field_count && strchr(end->path, '#'); end++)
        print_remark(out, "  #  ",
                     arena_format(arena, "%s: %s", strrchr(end->path, '.') + 1,
                                  field_words(arena, end)));
    buffer_print(out, "  %sbands:\n", must_stand(first, shop) ? "" : "# ");
    for (size_t row = 1; row <= rows || row == 1; row++) {
        buffer_print(out, "  %s  - {", must_stand(first, shop) ? "" : "# ");
        for (const struct field *field = first; field < end; field++) {
            const char *text = rows ? value_text(arena, field, shop, row) : NULL;
            if (text || field->required)
                buffer_print(out, "%s%s: %s", field == first ? "" : ", ",
                             strrchr(field->path, '.') + 1, text ? text : "");
        }
        buffer_text(out, "}\n");
    }
}

static void print_field(struct arena *arena, struct buffer *out, const struct field *field,
                        const struct shop *shop)
{
    const char *text = value_text(arena, field, shop, 1);
    bool choice = field->type == FIELD_CHOICE && !field->required;
    const char *standing = choice ? field->choices[0] : field->fallback;
    const char *shown = text ? text : standing ? standing : "";
    print_remark(out, "  #", field_words(arena, field));
    buffer_print(out, "  %s%s:%s%s\n", text || must_stand(field, shop) ? "" : "# ",
                 strchr(field->path, '.') + 1, *shown ? " " : "", shown);
}

static void print_section(struct arena *arena, struct buffer *out, const char *section,
                          const struct shop *shop)
{
    bool stands = false;
    for (size_t i = 0; i < settings_field_count; i++)
        if (is_below(settings_fields[i].path, section))
            stands = stands || must_stand(&settings_fields[i], shop) ||
                     (!strchr(settings_fields[i].path, '#') &&
                      value_text(arena, &settings_fields[i], shop, 1));
    buffer_text(out, "\n");
    for (size_t i = 0; i < sizeof section_words / sizeof section_words[0]; i++)
        if (strcmp(section_words[i].section, section) == 0)
            print_remark(out, "#", section_words[i].words);
    buffer_print(out, "%s%s:\n", stands ? "" : "# ", section);
}

void settings_print(struct arena *arena, struct buffer *out, const struct shop *shop)
{
    const char *section = "";
    buffer_text(out, file_words);
    print_remark(out, "#", units_words(arena));
    buffer_text(out, line_words);
    if (shop && shop->lathe.notice)
        buffer_print(out, "#\n# %s\n", shop->lathe.notice);
    for (size_t i = 0; i < settings_field_count; i++) {
        const struct field *field = &settings_fields[i];
        bool begins = !*section || !is_below(field->path, section);
        if (begins) {
            section = arena_slice(arena, field->path, strcspn(field->path, "."));
            print_section(arena, out, section, shop);
        }
        bool band = strchr(field->path, '#');
        if (band && strchr(field[-1].path, '#'))
            continue; /* stands in the row of the first */
        buffer_text(out, begins ? "" : "\n");
        if (band)
            print_bands(arena, out, field, shop);
        else
            print_field(arena, out, field, shop);
    }
}
