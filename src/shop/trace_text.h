/* A trace as a gauge, a serial line or a spreadsheet writes it: a line a reading, with its time
 * and its force, or with its force alone at a stated interval. */
#ifndef SHOP_TRACE_TEXT_H
#define SHOP_TRACE_TEXT_H

#include "base/diag.h"
#include "base/file.h"
#include "number/quantity.h"

enum { TRACE_LARGEST = 64 * 1024 * 1024 }; /* bytes */

/* What is said beside the readings, at the terminal or in lines of the file that begin with #:
 * "# speed: 12 r/min". What was not said has no unit. */
struct trace_facts {
    struct quantity interval;   /* between readings */
    struct quantity speed;      /* of the spindle while it was pulled; or */
    struct quantity cord_speed; /* length that runs off in a second */
    const struct unit *unit;    /* of the readings; NULL: not said */
};

enum trace_fact { TRACE_INTERVAL, TRACE_SPEED, TRACE_UNIT };

/* Takes "0.05 s"; "12 r/min" or "40 mm/s"; "N". False after *wrong was filled. */
bool trace_fact_read(enum trace_fact fact, const char *text, struct trace_facts *facts,
                     struct quantity_fault *wrong);

struct trace_text {
    double *times, *forces; /* s, N; from the heap: trace_text_free() */
    unsigned *starts;       /* byte of the text at which each reading's line begins */
    size_t count;
    struct trace_facts facts;
    bool unit_said; /* else it is the one that was given for that */
};

/* Reads the text; what the file says of itself stands before what `said` does not say. unit:
 * of readings for which none is said. False after a fault; free it in any case. */
bool trace_text_read(struct arena *arena, struct diags *diags, const struct file_text *text,
                     const struct trace_facts *said, const struct unit *unit,
                     struct trace_text *trace);

/* Where the line of a reading begins. */
struct place trace_text_place(const struct file_text *text, const struct trace_text *trace,
                              size_t reading);

void trace_text_free(struct trace_text *trace);

#endif
