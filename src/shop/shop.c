/* What a workshop answers by itself: bands, drums, series that compare, what stands in for what
 * was left out, dates, and what was typed as it is printed. */
#include "shop/shop.h"

#include "base/utf8.h"
#include "shop/stored.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Of two bands that share a speed, does the first leave less room above? */
static bool stricter(const struct band *a, const struct band *b)
{
    int high = decimal_compare(&a->high.q.exact, &b->high.q.exact);
    return high ? high < 0 : decimal_compare(&a->low.q.exact, &b->low.q.exact) > 0;
}

const struct band *shop_band_at(const struct shop *shop, double speed)
{
    const struct band *found = NULL;
    for (size_t i = 0; i < shop->limits.band_count; i++) {
        const struct band *band = &shop->limits.bands[i];
        bool within = band->from.q.base <= speed && speed <= band->to.q.base;
        if (within && (!found || stricter(band, found)))
            found = band;
    }
    return found;
}

const struct band *shop_own_band(const struct shop *shop)
{
    return shop_band_at(shop, shop->lathe.top_speed.q.base);
}

bool shop_drum_fitted(const struct shop *shop, const struct quantity *drum)
{
    return decimal_compare(&drum->exact, &shop->drum.diameter.q.exact) == 0;
}

size_t shop_drums(const struct shop *shop, const struct quantity *drums[MOST_DRUMS])
{
    const struct quantity *own = &shop->drum.diameter.q;
    size_t count = 0;
    bool placed = false;
    for (size_t i = 0; i < shop->drum_sizes.count; i++) {
        const struct quantity *size = &shop->drum_sizes.items[i].q;
        int order = decimal_compare(&size->exact, &own->exact);
        if (order > 0 && !placed)
            drums[count++] = own;
        placed = placed || order >= 0;
        drums[count++] = size;
    }
    if (!placed)
        drums[count++] = own;
    return count;
}

bool series_alike_but_lock(const struct pull_series *a, const struct pull_series *b)
{
    return a->warm == b->warm && a->other_way == b->other_way &&
           decimal_compare(&a->drum.exact, &b->drum.exact) == 0 &&
           decimal_compare(&a->cord.exact, &b->cord.exact) == 0;
}

bool series_alike(const struct pull_series *a, const struct pull_series *b)
{
    return a->lock == b->lock && series_alike_but_lock(a, b);
}

bool series_nut_moved(const struct pull_series *a, const struct pull_series *b)
{
    if ((a->lock == LOCK_UNLOADED) != (b->lock == LOCK_UNLOADED))
        return true;
    return a->nut.unit && b->nut.unit && decimal_compare(&a->nut.exact, &b->nut.exact) != 0;
}

const struct stored_record *shop_record(const struct shop *shop, const char *job)
{
    size_t low = 0, high = shop->stored_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(shop->stored[middle].job, job) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < shop->stored_count && strcmp(shop->stored[low].job, job) == 0;
    return found ? &shop->stored[low] : NULL;
}

const struct shop *shop_of_record(const struct shop *shop, const char *job)
{
    const struct stored_record *stored = shop_record(shop, job);
    return stored ? stored->shop : NULL;
}

const struct shop *shop_in_force(const struct shop *shop, const struct pull_series *row)
{
    const struct shop *stored = row->job ? shop_of_record(shop, row->job) : NULL;
    return stored ? stored : shop_on_day(shop, row->date ? date_days(row->date) : LONG_MAX);
}

bool series_same_job(const struct pull_series *row, const struct pull_series *next)
{
    if (row->job && next->job)
        return strcmp(row->job, next->job) == 0;
    return !row->job && !next->job &&
           date_days(next->date) - date_days(row->date) < CLOSING_REST_DAYS;
}

/* Where the nut has been, row by row. */
struct course {
    const struct pull_series *place;        /* the last row that says where it stands */
    const struct pull_series *top, *in_job; /* furthest on since it was unloaded */
    const struct pull_series *from;         /* turned back from there to where it stands */
    bool unloaded;                          /* it stands so */
};

static const struct pull_series *further_on(const struct pull_series *top,
                                            const struct pull_series *at)
{
    return top && top->nut.base > at->nut.base ? top : at;
}

static void follow(struct course *course, const struct pull_series *at)
{
    if (at->lock == LOCK_UNLOADED) {
        *course = (struct course){.place = at->nut.unit ? at : NULL, .unloaded = true};
        return;
    }
    if (!at->nut.unit)
        return;
    if (!course->place || series_nut_moved(course->place, at)) {
        const struct pull_series *top = course->top, *in_job = course->in_job;
        course->place = at;
        course->from = NULL;
        course->unloaded = top && top->nut.base - at->nut.base >= NUT_QUARTER_TURN;
        if (course->unloaded)
            course->top = course->in_job = at;
        else if (in_job && in_job->nut.base > at->nut.base)
            course->from = in_job;
    }
    course->top = further_on(course->top, at);
    course->in_job = further_on(course->in_job, at);
}

void pull_log_follow_nut(const struct pull_series_log *log)
{
    struct course course = {0};
    for (size_t i = 0; i < log->count; i++) {
        struct pull_series *at = &log->items[i];
        if (i > 0 && !series_same_job(&at[-1], at))
            course.in_job = NULL;
        follow(&course, at);
        at->unloaded = course.unloaded;
        at->backed_off = course.from;
    }
}

const struct shop *shop_on_day(const struct shop *shop, long day)
{
    for (size_t i = 0; i < shop->earlier_count; i++)
        if (day < shop->earlier[i].day)
            return shop->earlier[i].shop;
    return shop->filed ? shop->filed : shop;
}

bool shop_has_limits(const struct shop *shop)
{
    return shop->limits.on_file == ON_FILE_YES;
}

bool shop_reads_starting(const struct shop *shop)
{
    return shop_has_limits(shop) && shop->limits.torque == TORQUE_STARTING;
}

const struct unit *shop_drag_unit(const struct shop *shop)
{
    const struct band *own = shop_own_band(shop);
    if (own)
        return own->high.q.unit;
    bool imperial = shop->gauge.step.q.unit->system == SYSTEM_IMPERIAL;
    return imperial ? unit_find("lbf.in", 6) : unit_find("N.m", 3);
}

const struct weighing *shop_last_weighing(const struct shop *shop)
{
    const struct weighing *last = NULL, *items = shop->weighings.items;
    for (size_t i = 0; i < shop->weighings.count; i++)
        if (!last || strcmp(items[i].date, last->date) >= 0)
            last = &items[i];
    return last;
}

bool shop_in_fahrenheit(const struct shop *shop)
{
    const struct measure *room = &shop->run_in.room;
    return given(room) && room->q.unit->system == SYSTEM_IMPERIAL;
}

enum { LONGEST_TEXT = 300 };

static bool has_control(const char *text)
{
    for (; *text; text++)
        if ((unsigned char)*text < 0x20 || *text == 0x7F)
            return true;
    return false;
}

bool shop_keep_text(struct shop *shop, struct arena *arena, struct diags *diags,
                    const char *name, struct typed_text typed)
{
    bool control = has_control(typed.text);
    bool fits = utf8_count(typed.text, strlen(typed.text)) <= LONGEST_TEXT;
    if (control)
        fault(diags, typed.at,
              "%s holds a line end or another control character; write it on one line", name);
    else if (!fits)
        fault(diags, typed.at, "%s is longer than %d characters; shorten it", name,
              LONGEST_TEXT);
    else
        *ARENA_PUSH(arena, shop->texts, shop->text_count) = typed;
    return fits && !control;
}

struct place shop_place_of_text(const struct shop *shop, const char *text)
{
    for (size_t i = 0; i < shop->text_count; i++)
        if (shop->texts[i].text == text)
            return shop->texts[i].at;
    return (struct place){.file = shop->file};
}

void shop_note_quantity(struct shop *shop, struct arena *arena, struct place at,
                        const char *name, const struct quantity *quantity)
{
    if (quantity->reworded)
        *ARENA_PUSH(arena, shop->read_as, shop->read_as_count) = (struct read_as){
            at, arena_format(arena, "%s is read as %s", name, quantity_typed(arena, quantity))};
}

/* Dates as the logs write them. */

static int date_month(const char *date)
{
    return atoi(date + 5); /* NOLINT: as in date_year() */
}

static int date_day(const char *date)
{
    return atoi(date + 8); /* NOLINT: as in date_year() */
}

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* "dddd-dd-dd" */
static bool has_form(const char *text)
{
    static const char pattern[] = "dddd-dd-dd";
    if (strlen(text) != strlen(pattern))
        return false;
    for (size_t i = 0; pattern[i]; i++)
        if (pattern[i] == 'd' ? text[i] < '0' || text[i] > '9' : text[i] != pattern[i])
            return false;
    return true;
}

bool date_is_good(const char *text)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (!has_form(text))
        return false;
    int year = date_year(text), month = date_month(text), day = date_day(text);
    return year >= 1900 && year < 2200 && month >= 1 && month <= 12 && day >= 1 &&
           day <= days[month - 1] + (month == 2 && is_leap(year));
}

int date_year(const char *date)
{
    return atoi(date); /* NOLINT: these are digits: date_is_good() */
}

long date_year_days(int year)
{
    long before = year - 1, base = 1899;
    return 365 * (before - base) + (before / 4 - before / 100 + before / 400) -
           (base / 4 - base / 100 + base / 400);
}

long date_days(const char *date)
{
    static const int days[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    int year = date_year(date), month = date_month(date), day = date_day(date);
    return date_year_days(year) + days[month - 1] + (month > 2 && is_leap(year)) + day - 1;
}

void date_year_later(const char *date, char *later)
{
    memcpy(later, date, DATE_TEXT);
    for (int i = 3; i >= 0 && later[i]++ == '9'; i--)
        later[i] = '0';
    if (strcmp(later + 4, "-02-29") == 0) /* no leap year follows another */
        later[9] = '8';
}

/* The grades of oil that the settings may name. */

const char *const oil_grade_words[] = {"not-known", "vg-10",  "vg-15", "vg-22",
                                       "vg-32",     "vg-46",  "vg-68", "vg-100",
                                       "vg-150",    "vg-220", NULL};

double oil_grade_viscosity(int grade)
{
    return grade ? strtod(oil_grade_words[grade] + strlen("vg-"), NULL) : 0;
}

const char *quantity_text(struct arena *arena, const struct quantity *quantity)
{
    char text[QUANTITY_TEXT];
    quantity_show(quantity, text);
    return arena_text(arena, text);
}

const char *quantity_typed(struct arena *arena, const struct quantity *quantity)
{
    return arena_format(arena, "%s %s", quantity->digits, quantity->unit->symbol);
}

const char *band_text(struct arena *arena, const struct band *band)
{
    return arena_format(arena, "%s–%s\u00a0%s", band->from.q.digits, band->to.q.digits,
                        band->to.q.unit->shown);
}
