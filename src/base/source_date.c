#include "base/source_date.h"

#include "base/fatal.h"

#include <ctype.h>
#include <stdlib.h>

static const long long LAST_SECOND = 253402300799; /* of the year 9999 */

bool source_date(struct tm *utc)
{
    const char *text = getenv("SOURCE_DATE_EPOCH");
    if (!text)
        return false;
    char *end = NULL;
    long long seconds = strtoll(text, &end, 10);
    if (!isdigit((unsigned char)text[0]) || *end || seconds > LAST_SECOND)
        fatal("SOURCE_DATE_EPOCH is \"%s\"; it has to be a whole number of seconds since 1970",
              text);
    time_t moment = (time_t)seconds;
    gmtime_r(&moment, utc);
    return true;
}
