/* A series as the limits of most test shops ask: locked, cold, turned the usual way. */
#ifndef TESTS_TAKEN_H
#define TESTS_TAKEN_H

#include "verdict/taken.h"

static const struct taken as_limits = {LOCK_AFTER, SAID_COLD, false};

#endif
