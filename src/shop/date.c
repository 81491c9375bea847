#include "shop/date.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int date_year(const char *date)
{
    return atoi(date); /* NOLINT: the readers have seen that these are digits */
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
    int year = date_year(date);
    int month = atoi(date + 5), day = atoi(date + 8); /* NOLINT: as above */
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
