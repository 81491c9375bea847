/* Dates as the logs write them. */
#ifndef SHOP_DATE_H
#define SHOP_DATE_H

#include <stdbool.h>

/* Whether a text is a date, year, month and day as in "2026-03-09", of the years 1900 to 2199.
 */
bool date_is_good(const char *text);

/* Days from 1900-01-01 to a date that was read and found good, as "2026-03-09".
 * Source: the Gregorian calendar. */
long date_days(const char *date);

/* Days from 1900-01-01 to the first of January of a year, 1900 and later. */
long date_year_days(int year);

int date_year(const char *date);

enum { DATE_TEXT = 11 };

/* The same day a year later, DATE_TEXT bytes; the 29th of February becomes the 28th, so
 * that a year is not exceeded. */
void date_year_later(const char *date, char *later);

#endif
