#include "shop/date.h"

#include <stdlib.h>
#include <string.h>

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
