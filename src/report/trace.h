/* What is said of a trace. */
#ifndef REPORT_TRACE_H
#define REPORT_TRACE_H

#include "judge/trace.h"
#include "report/rows.h"

struct results;

/* Why it cannot be read, and what to do: a sentence. */
const char *trace_fault_words(struct arena *arena, const struct shop *shop,
                              const struct trace *trace);

/* Whether one reading is to blame, trace->at. */
bool trace_fault_has_place(enum trace_fault fault);

/* The reading that stands for the pull, how sure it is, and what else the trace shows. It was
 * read: trace->fault is TRACE_READ. */
void report_trace(struct rows *rows, const struct results *results,
                  const struct trace_text *text, const struct trace *trace);

#endif
