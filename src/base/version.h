/* The program's version, as it stands on every sheet and in every answer for programs; and the
 * day on which it was raised. Both are raised by hand, so that the same source always gives the
 * same bytes. */
#ifndef BASE_VERSION_H
#define BASE_VERSION_H

#define VERSION     "0.9"
#define VERSION_DAY "December 1, 2026"

#endif
