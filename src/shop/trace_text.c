/* Remarks and heads first, then readings, a line each. What parts the cells is told from the
 * first of them. */
#include "shop/trace_text.h"

#include "base/memory.h"
#include "base/utf8.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- what is said beside ---- */

static const char *const fact_names[] = {"interval", "speed", "unit"};

/* "40 mm/s": the way of the cord in a second or a minute. */
static bool cord_speed_read(const char *text, struct quantity *speed)
{
    struct quantity_fault ignored;
    const char *slash = strrchr(text, '/');
    char length[QUANTITY_TEXT];
    if (!slash || (size_t)(slash - text) >= sizeof length)
        return false;
    memcpy(length, text, (size_t)(slash - text));
    length[slash - text] = '\0';
    bool minute = strcmp(slash, "/min") == 0;
    if (!(minute || strcmp(slash, "/s") == 0) ||
        !quantity_parse(length, KIND_LENGTH, speed, &ignored))
        return false;
    speed->base /= minute ? 60 : 1;
    return true;
}

static bool above_nothing(const struct quantity *quantity, struct quantity_fault *wrong)
{
    return quantity->base > 0 || quantity_wrong(wrong, 0, "this must be more than 0");
}

bool trace_fact_read(enum trace_fact fact, const char *text, struct trace_facts *facts,
                     struct quantity_fault *wrong)
{
    struct quantity speed;
    text += strspn(text, " ");
    if (fact == TRACE_INTERVAL)
        return quantity_parse(text, KIND_TIME, &facts->interval, wrong) &&
               above_nothing(&facts->interval, wrong);
    if (fact == TRACE_UNIT) {
        facts->unit = unit_of_kind(text, strcspn(text, " "), KIND_FORCE);
        return facts->unit ||
               quantity_wrong(wrong, 0,
                              "'%.*s' is no unit of a force; write N, kgf, lbf or "
                              "another",
                              QUOTED, text);
    }
    if (cord_speed_read(text, &speed)) {
        facts->cord_speed = speed;
        return above_nothing(&speed, wrong);
    }
    if (!quantity_parse(text, KIND_SPEED, &facts->speed, wrong)) {
        quantity_wrong_too(wrong,
                           ": the spindle's as in 12 r/min, or the cord's as in 40 mm/s");
        return false;
    }
    return above_nothing(&facts->speed, wrong);
}

/* ---- a line ---- */

struct reader {
    struct arena *arena;
    struct diags *diags;
    const struct file_text *text;
    const struct trace_facts *said;
    struct trace_text *trace;
    double to_seconds, to_newtons;
    char parting;     /* between cells: ',', ';', '\t' or ' '; 0: not known yet */
    bool comma;       /* it stands for the decimal point here, one number shows */
    const char *line; /* the one that is read, and its number */
    int number;
    struct place doubtful; /* of the first number whose comma might part thousands */
    size_t room;
};

static struct place place_of(const struct reader *r, const char *at)
{
    return (struct place){r->text->name, r->number,
                          1 + (int)utf8_count(r->line, (size_t)(at - r->line))};
}

static const char *skip_blanks(const char *at, const char *end)
{
    while (at < end && *at == ' ')
        at++;
    return at;
}

/* A remark that says something of the trace; others are passed over. */
static bool read_remark(struct reader *r, const char *at, const char *end)
{
    at = skip_blanks(at + 1, end);
    for (enum trace_fact fact = TRACE_INTERVAL; fact <= TRACE_UNIT; fact++) {
        size_t length = strlen(fact_names[fact]);
        struct quantity_fault wrong;
        if ((size_t)(end - at) <= length || strncmp(at, fact_names[fact], length) != 0 ||
            (at[length] != ':' && at[length] != ' '))
            continue;
        const char *value = skip_blanks(at + length + 1, end);
        while (end > value && end[-1] == ' ')
            end--;
        const char *text = arena_slice(r->arena, value, (size_t)(end - value));
        struct trace_facts facts = r->trace->facts;
        if (!trace_fact_read(fact, text, &facts, &wrong))
            return fault(r->diags, place_of(r, value), "%s", wrong.message);
        /* what was said at the terminal counts */
        if (fact == TRACE_INTERVAL ? !r->said->interval.unit
            : fact == TRACE_UNIT   ? !r->said->unit
                                   : !r->said->speed.unit && !r->said->cord_speed.unit)
            r->trace->facts = facts;
        return true;
    }
    return true;
}

static bool begins_number(const char *at, const char *end)
{
    size_t sign = at < end && (*at == '+' || *at == '-') ? 1 : quantity_minus(at);
    at += sign;
    if (at < end && (*at == '.' || *at == ','))
        at++;
    return at < end && *at >= '0' && *at <= '9';
}

/* What parts the cells of a line: what a decimal comma could not be comes first. */
static char parting_of(const struct reader *r, const char *at, const char *end)
{
    size_t length = (size_t)(end - at);
    if (memchr(at, ';', length))
        return ';';
    if (memchr(at, '\t', length))
        return '\t';
    const char *comma = memchr(at, ',', length);
    if (!comma)
        return ' ';
    bool one_column = r->trace->facts.interval.unit && !memchr(at, '.', length);
    const char *blank = memchr(at, ' ', length);
    /* "0,05 12,34": each of two words has one */
    if (blank && blank > comma && begins_number(skip_blanks(blank, end), end) &&
        comma[1] != ' ')
        return ' ';
    return one_column ? ' ' : ',';
}

static const double tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                              1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                              1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* The digits of an exponent, "e-3"; as it is without any. */
static const char *read_exponent(const char *at, const char *end, double *value)
{
    if (at >= end || (*at != 'e' && *at != 'E'))
        return at;
    const char *digit = at + 1;
    bool down = digit < end && *digit == '-';
    digit += digit < end && (*digit == '-' || *digit == '+');
    if (digit >= end || *digit < '0' || *digit > '9')
        return at;
    int exponent = 0;
    for (; digit < end && *digit >= '0' && *digit <= '9'; digit++)
        exponent = exponent < 1000 ? exponent * 10 + (*digit - '0') : exponent;
    *value = exponent <= 22 ? (down ? *value / tens[exponent] : *value * tens[exponent])
                            : *value * pow(10, down ? -exponent : exponent);
    return digit;
}

/* A number; NULL where there is none, with a fault. Eighteen digits and less are exact before
 * they are divided. */
static const char *read_number(struct reader *r, const char *at, const char *end, double *value)
{
    const char *start = at;
    bool negative = *at == '-' || quantity_minus(at);
    int64_t digits = 0;
    int count = 0, places = 0;
    char point = 0;
    at += *at == '+' ? 1 : quantity_minus(at);
    for (; at < end; at++) {
        if (*at >= '0' && *at <= '9') {
            if (count < 18) {
                digits = digits * 10 + (*at - '0');
                count += digits > 0;
                places += point != 0;
            } else if (!point) {
                return NULL;
            }
        } else if (!point && (*at == '.' || (*at == ',' && r->parting != ','))) {
            point = *at;
        } else {
            break;
        }
    }
    if (point == ',') { /* three places, and it might part the thousands, but not behind a 0 */
        bool plain = places != 3 || digits < 1000;
        r->comma = r->comma || plain;
        if (!plain && !r->doubtful.line)
            r->doubtful = place_of(r, start);
    }
    *value = places < (int)(sizeof tens / sizeof tens[0]) ? (double)digits / tens[places]
                                                          : (double)digits * pow(10, -places);
    if (negative)
        *value = -*value;
    return read_exponent(at, end, value);
}

/* Behind a number its unit may stand. NULL after a fault. */
static const char *read_unit(struct reader *r, const char *at, const char *end, enum kind kind)
{
    const char *start = at = skip_blanks(at, end);
    while (at < end && *at != r->parting && *at != ' ' && *at != '\t')
        at++;
    if (at == start || (kind == KIND_TIME && r->parting == ' '))
        return start;
    const struct unit *unit = unit_of_kind(start, (size_t)(at - start), kind);
    if (!unit) {
        fault(r->diags, place_of(r, start), "'%.*s' is no unit of a %s; write one as in %s",
              (int)(at - start < 40 ? at - start : 40), start, kind_name(kind),
              kind_example(kind));
        return NULL;
    }
    if (kind == KIND_FORCE) {
        if (r->trace->count == 0 && !r->said->unit)
            r->trace->facts.unit = unit;
        else if (r->trace->facts.unit != unit && !r->said->unit) {
            fault(r->diags, place_of(r, start), "this reading has another unit than the first");
            return NULL;
        }
        r->to_newtons = unit_to_base(1, unit);
    } else {
        r->to_seconds = unit_to_base(1, unit);
    }
    return skip_blanks(at, end);
}

static bool over(struct reader *r, const char *at, const char *end)
{
    while (at < end && (*at == ' ' || *at == '\t' || *at == r->parting))
        at++;
    return at == end || fault(r->diags, place_of(r, at),
                              "'%.*s' stands behind the reading; a line holds a time and a "
                              "force, or with an interval a force alone",
                              (int)(end - at < 40 ? end - at : 40), at);
}

static void make_room(struct reader *r)
{
    struct trace_text *t = r->trace;
    if (t->count < r->room)
        return;
    r->room = r->room ? 2 * r->room : 1024;
    t->times = heap_resize(t->times, r->room, sizeof *t->times);
    t->forces = heap_resize(t->forces, r->room, sizeof *t->forces);
    t->starts = heap_resize(t->starts, r->room, sizeof *t->starts);
}

/* The next cell's number with its unit, and what parts it from the one behind. */
static const char *read_cell(struct reader *r, const char *at, const char *end, enum kind kind,
                             double *value)
{
    at = skip_blanks(at, end);
    const char *start = at;
    if (begins_number(at, end))
        at = read_number(r, at, end, value);
    else
        at = NULL;
    if (!at) {
        fault(r->diags, place_of(r, start), "a %s belongs here, as a number; not '%.*s'",
              kind == KIND_TIME ? "time" : "force", (int)(end - start < 40 ? end - start : 40),
              start);
        return NULL;
    }
    return read_unit(r, at, end, kind);
}

/* As far as a log's pulls go, either way; and no pull takes longer. */
static const double MOST_FORCE = 10000, LONGEST = 24 * 3600; /* N, s */

static bool read_reading(struct reader *r, const char *at, const char *end)
{
    struct trace_text *t = r->trace;
    const char *start = at;
    double time = 0, force = 0;
    make_room(r);
    t->starts[t->count] = (unsigned)(at - r->text->bytes);
    if (t->facts.interval.unit) {
        time = (double)t->count * t->facts.interval.base;
    } else {
        at = read_cell(r, at, end, KIND_TIME, &time);
        if (!at)
            return false;
        if (at == end)
            return fault(r->diags, place_of(r, at),
                         "there is one number and no force behind the time; where all are "
                         "forces, say the interval: --interval 0.05s, or in the file "
                         "# interval: 0.05 s");
        time *= r->to_seconds;
        at += *at == r->parting;
    }
    at = read_cell(r, at, end, KIND_FORCE, &force);
    if (!at)
        return false;
    /* a third cell may hold the unit */
    if (at < end && *at == r->parting && !begins_number(skip_blanks(at + 1, end), end))
        at = read_unit(r, at + 1, end, KIND_FORCE);
    if (!at || !over(r, at, end))
        return false;
    force *= r->to_newtons;
    if (!(fabs(force) <= MOST_FORCE))
        return fault(r->diags, place_of(r, start),
                     "a force must lie between -10000 N and 10000 N, with its unit");
    if (!(fabs(time - (t->count ? t->times[0] : time)) <= LONGEST))
        return fault(r->diags, place_of(r, start),
                     "this reading is more than a day away from the first; keep one pull in a "
                     "file, with the times in s or their unit");
    t->times[t->count] = time;
    t->forces[t->count++] = force;
    return true;
}

/* ---- heads ---- */

/* The units among the words of the heads, "time / s; force [N]": each once. What is no unit is
 * a name. */
static bool read_heads(struct reader *r, const char *at, const char *end)
{
    static const char between[] = " \t,;/[]()\"";
    while (at < end) {
        size_t length = strcspn(at, between);
        if (length > (size_t)(end - at))
            length = (size_t)(end - at);
        bool stands_apart = at > r->text->bytes && strchr("/[(", at[-1]);
        if (length > 0) {
            const struct unit *time = unit_of_kind(at, length, KIND_TIME);
            const struct unit *force = unit_of_kind(at, length, KIND_FORCE);
            if (time)
                r->to_seconds = unit_to_base(1, time);
            else if (force && !r->said->unit)
                r->trace->facts.unit = force;
            else if (stands_apart && !force)
                return fault(r->diags, place_of(r, at),
                             "'%.*s' is no unit that is known here; times may be in s, min or "
                             "h, forces as in 12 N",
                             (int)(length < 40 ? length : 40), at);
        }
        at += length + (at + length < end);
    }
    return true;
}

/* ---- the whole ---- */

static bool read_lines(struct reader *r)
{
    const char *at = r->text->bytes, *all = at + r->text->length;
    bool heads = false;
    for (r->number = 1; at < all; r->number++) {
        const char *end = r->line = at;
        while (end < all && *end != '\n' && *end != '\r')
            end++;
        const char *first = skip_blanks(at, end), *last = end;
        while (last > first && strchr(" \t", last[-1]))
            last--;
        bool good = true;
        if (first < last && *first == '#') {
            good = read_remark(r, first, last);
        } else if (first < last && r->trace->count == 0 && !heads &&
                   !begins_number(first, last)) {
            heads = true;
            good = read_heads(r, first, last);
        } else if (first < last) {
            if (!r->parting) {
                r->parting = parting_of(r, first, last);
                if (r->trace->facts.unit)
                    r->to_newtons = unit_to_base(1, r->trace->facts.unit);
            }
            good = read_reading(r, first, last);
        }
        if (!good)
            return false;
        at = end + (end + 1 < all && end[0] == '\r' && end[1] == '\n') + (end < all);
    }
    return true;
}

bool trace_text_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                     const struct trace_facts *said, const struct unit *unit,
                     struct trace_text *trace)
{
    *trace = (struct trace_text){.facts = *said};
    struct reader r = {.arena = arena,
                       .diags = diags,
                       .text = text,
                       .said = said,
                       .trace = trace,
                       .to_seconds = 1,
                       .to_newtons = unit_to_base(1, unit)};
    if (!read_lines(&r))
        return false;
    if (r.doubtful.line && !r.comma)
        return fault(diags, r.doubtful,
                     "a comma with three digits behind it may part the thousands, and no other "
                     "number shows which it is; write a point");
    trace->unit_said = trace->facts.unit != NULL;
    if (!trace->unit_said)
        trace->facts.unit = unit;
    return trace->count > 0 || fault(diags, (struct place){.file = text->name},
                                     "there are no readings; a line holds a time and a force");
}

struct place trace_text_place(const struct file_text *text, const struct trace_text *trace,
                              size_t reading)
{
    struct place at = {text->name, 1, 1};
    for (unsigned i = 0; i < trace->starts[reading]; i++)
        at.line +=
            text->bytes[i] == '\n' || (text->bytes[i] == '\r' && text->bytes[i + 1] != '\n');
    return at;
}

void trace_text_free(struct trace_text *trace)
{
    free(trace->times);
    free(trace->forces);
    free(trace->starts);
}
