#include "base/source_date.h"

#include <ctype.h>
#include <stdlib.h>

static const char variable[] = "SOURCE_DATE_EPOCH";
static const long long LAST_SECOND = 253402300799; /* of the year 9999 */

/* Seconds since 1970; -1 where the text is no moment. */
static long long seconds_of(const char *text)
{
    char *end = NULL;
    long long seconds = strtoll(text, &end, 10); /* of too many digits: its greatest */
    return isdigit((unsigned char)text[0]) && !*end && seconds <= LAST_SECOND ? seconds : -1;
}

void source_date_check(struct diags *diags)
{
    const char *text = getenv(variable);
    if (text && seconds_of(text) < 0)
        fault(diags, (struct place){.file = variable},
              "'%.40s' is no date; set it to a whole number of seconds since 1970, up to %lld "
              "(the year 9999), or unset it",
              text, LAST_SECOND);
}

bool source_date(struct tm *utc)
{
    const char *text = getenv(variable);
    time_t moment = text ? (time_t)seconds_of(text) : -1;
    return moment >= 0 && gmtime_r(&moment, utc);
}

const char *source_date_day(struct arena *arena)
{
    struct tm utc;
    if (!source_date(&utc))
        return NULL;
    return arena_format(arena, "%04d-%02d-%02d", utc.tm_year + 1900, utc.tm_mon + 1,
                        utc.tm_mday);
}
