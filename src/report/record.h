/* The record of a setting: what was found and left in one closed job, and all that it rests on.
 * Made once, stored, and from then on said as it was stored. */
#ifndef REPORT_RECORD_H
#define REPORT_RECORD_H

#include "judge/results.h"
#include "report/rows.h"
#include "shop/stored.h"

/* The last job of that name with pulls; NULL: there is none. */
const struct job *record_job(const struct results *results, const char *name);

/* The entries of a closed job's record as this version makes them: its settings, the check of
 * its gauge, its rows and results. issued: the day that its sheet is to bear, as typed; NULL:
 * none. */
struct setting_list record_of(struct arena *arena, const struct results *results,
                              const struct job *job, const char *issued);

/* What a record says, as it was stored: which job, when, by which program, and the results. */
void report_record(struct rows *rows, const struct results *results,
                   const struct stored_record *stored);

/* A note for each thing that this version, and the logs as they are now, say otherwise. */
void report_record_differences(struct rows *rows, const struct results *results,
                               const struct stored_record *stored);

/* Closed jobs without a record; records that were changed, or that are said otherwise now. */
void remark_on_records(struct rows *rows, const struct results *results);

#endif
