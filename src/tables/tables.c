#include "tables/common.h"

#include <assert.h>
#include <string.h>

static const struct table_kind kinds[] = {
    {"pull-windows", "{pull} pull on the {drum} with {cord} cord", .make = make_pull_windows,
     .without_limits = "Drag, trend only", .needs_limits = true, .option = "show"},
    {"sure-windows", "Mean pulls that would be called good, {drum}", .make = make_sure_windows,
     .without_limits = "The good part of the pull windows", .needs_limits = true},
    {"reading-to-drag", "From the gauge's {reading} to the drag, {band}",
     .make = make_reading_to_drag, .option = "speed"},
    {"drum-windows", "Pull windows on common drums with {cord} cord", .make = make_drum_windows,
     .without_limits = "Pull windows on common drums", .needs_limits = true},
    {"drum-choice", "How sure each drum is at the aim, {band}", .make = make_drum_choice,
     .without_limits = "How sure each drum is at the aim", .needs_limits = true,
     .option = "speed"},
    {"drum-loads", "What each drum asks of gauge and cord, {band}", .make = make_drum_loads,
     .without_limits = "What each drum asks of gauge and cord", .needs_limits = true,
     .option = "speed"},
    {"drum-making", "A drum to make, for a cord of {cord}", .make = make_drum_making},
    {"arm-equivalents", "Pulls at other arms against the {drum}, {band}",
     .make = make_arm_equivalents, .option = "speed"},
    {"cord-errors", "What the cord can do to the drag, {cord} cord", .make = make_cord_errors},
    {"gauge-check", "Known weights on the gauge", .make = make_gauge_check},
    {"gauge-correction", "The gauge at the pulls of {band}", .make = make_gauge_correction,
     .without_limits = "The gauge along its capacity"},
    {"pull-log", "The log of pulls, judged for {band}", .make = make_pull_log,
     .without_limits = "The log of pulls, " NO_LIMIT_ON_FILE},
    {"record", "What was found and what was left", .make = make_record,
     .without_limits = "What was found and what was left, " NO_LIMIT_ON_FILE},
    {"record-facts", "What the record rests on", .make = make_record_facts},
    {"record-pulls", "The pulls that it rests on", .make = make_record_pulls},
    {"record-steps", "What was done in the job", .make = make_record_steps},
    {"budget", "How sure the closing series is", .make = make_budget},
    {"history", "The closing checks, judged for {band}", .make = make_history,
     .without_limits = "The closing checks, " NO_LIMIT_ON_FILE},
    {"lift-test", "Lift test: the needle at F and at 2F", .make = make_lift_test},
    {"nut-map", "Places of the nut and the drag found there", .make = make_nut_map},
    {"nut-travel", "What a turn of the nut does", .make = make_nut_travel},
    {"run-in", "Stages of running in", .make = make_run_in},
    {"temperatures", "Temperatures of the cap while running", .make = make_temperatures},
    {"pull-speed", "How fast the cord runs, {drum}", .make = make_pull_speed},
    {"chuck-left-on", "Extra pull needed to speed up what was left on the spindle",
     .make = make_chuck_left_on},
    {"oil-warmth", "What warmth does to the oil", .make = make_oil_warmth},
    {"spindle-growth", "What a spindle warmer than its headstock does to the end play",
     .make = make_spindle_growth},
    {"drag-estimate", "Estimate, not a limit: drag against preload",
     .make = make_drag_estimate},
    {"torque-units", "Units of torque", .make = make_torque_units},
    {"force-units", "Units of force", .make = make_force_units},
    {"length-units", "Fractions of an inch, decimals and millimetres",
     .make = make_length_units},
    {"trusted-values", "Values from outside against ours, worked out just now",
     .make = make_trusted_values},
};

enum { KIND_TOTAL = sizeof kinds / sizeof kinds[0] };

const struct table_kind *tables_at(size_t index)
{
    return index < KIND_TOTAL ? &kinds[index] : NULL;
}

/* ---- options ---- */

static bool options_known(const struct table_kind *kind, const struct table_ask *ask)
{
    bool known = true;
    for (size_t i = 0; i < ask->option_count; i++) {
        if (kind->option && strcmp(kind->option, ask->options[i].key) == 0)
            continue;
        known = false;
        fault(ask->diags, ask->options[i].at, "the table %s has no option '%s'; it takes %s",
              kind->name, ask->options[i].key, kind->option ? kind->option : "none");
    }
    return known;
}

static bool read_speed(struct builder *b, const struct table_option *option,
                       struct diags *diags)
{
    struct quantity speed;
    struct quantity_fault wrong;
    if (!quantity_parse(option->value, KIND_SPEED, &speed, &wrong))
        return fault(diags, option->at, "speed: %s", wrong.message);
    b->band = shop_band_at(b->shop, speed.base);
    if (b->band || !shop_has_limits(b->shop))
        return true;
    return fault(diags, option->at,
                 "the speed %s lies in no speed band; give one that the limits cover",
                 option->value);
}

/* A table has one option, and the first that is given holds. */
static bool read_option(struct builder *b, const struct table_option *option,
                        struct diags *diags)
{
    if (strcmp(option->key, "speed") == 0)
        return read_speed(b, option, diags);
    b->card = strcmp(option->value, "card") == 0;
    if (!b->card)
        fault(diags, option->at,
              "show cannot be '%s'; write 'show: card', or leave the line out", option->value);
    return b->card;
}

/* What tables were called once: pages of their users still name them so. */
static const struct {
    const char *old, *now;
} renamed[] = {{"certificate", "record"}, {"certificate-facts", "record-facts"}};

const struct table_kind *tables_find(const char *name, const struct table_ask *ask)
{
    struct buffer names = {0};
    for (size_t i = 0; i < sizeof renamed / sizeof renamed[0]; i++)
        name = strcmp(renamed[i].old, name) == 0 ? renamed[i].now : name;
    for (size_t i = 0; i < KIND_TOTAL; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return options_known(&kinds[i], ask) ? &kinds[i] : NULL;
    for (size_t i = 0; i < KIND_TOTAL; i++)
        buffer_print(&names, "%s%s", i ? ", " : "", kinds[i].name);
    fault(ask->diags, ask->at, "there is no table '%s'; the tables are %s", name, names.bytes);
    buffer_free(&names);
    return NULL;
}

/* ---- making ---- */

/* The caption with what it names in braces. */
static const char *caption_filled(const struct builder *b, const char *caption)
{
    const struct shop *shop = b->shop;
    bool starting = shop_reads_starting(shop);
    const struct {
        const char *name, *text;
    } words[] = {{"{band}", b->band ? band_text(b->arena, b->band) : NO_LIMIT_ON_FILE},
                 {"{drum}", drum_text(b->arena, &shop->drum.diameter.q)},
                 {"{cord}", quantity_text(b->arena, &shop->cord.diameter.q)},
                 {"{reading}", starting ? "highest reading at the start" : "steady reading"},
                 {"{pull}", starting ? "Starting" : "Steady"}};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        const char *at = strstr(caption, words[i].name);
        if (at)
            caption = arena_format(b->arena, "%.*s%s%s", (int)(at - caption), caption,
                                   words[i].text, at + strlen(words[i].name));
    }
    return caption;
}

/* In a shop without limits: the words for it where the numbers would stand. */
static void say_without_limits(struct builder *b)
{
    next_row(b);
    put_text(b, "limits", NO_LIMIT_ON_FILE);
    table_note(b->table, "No limit is made up here. See the page \"The manual is lost\".");
    note_inputs(b, true);
}

struct table *tables_make(const char *name, const struct table_ask *ask)
{
    const struct table_kind *kind = tables_find(name, ask);
    if (!kind)
        return NULL;
    const struct results *results = ask->results;
    bool limits = shop_has_limits(results->shop);
    struct builder b = {
        .arena = ask->arena, .results = results, .shop = results->shop, .band = results->band};
    bool made = limits || !kind->needs_limits;
    if (made && ask->option_count && !read_option(&b, &ask->options[0], ask->diags))
        return NULL;
    const char *caption =
        limits || !kind->without_limits ? kind->caption : kind->without_limits;
    b.table = table_new(ask->arena, kind->name, caption_filled(&b, caption));
    b.table->at = ask->at;
    b.table->computed = true;
    if (made && !ask->unseen)
        kind->make(&b);
    else if (!ask->unseen)
        say_without_limits(&b);
    assert(b.column == b.table->column_count); /* the last row is whole */
    return b.table;
}
