/* The budget of a judged series, source by source: JCGM 100, 7.2.7 and the tables of H.1. */
#ifndef JUDGE_BUDGET_H
#define JUDGE_BUDGET_H

#include "judge/series.h"

/* In what a source is told: forces as read, shares of the drag, lengths. */
enum budget_measure { BUDGET_READING, BUDGET_SHARE, BUDGET_LENGTH };

struct budget_line {
    enum budget_row source;
    bool stated; /* of BUDGET_GAUGE: what is stated of the gauge, and not the check's line */
    bool sample; /* Student's distribution; else every value of a range is as likely */
    enum budget_measure measure;
    double u;           /* of the source: N, %, m */
    double sensitivity; /* N.m of drag for one of these */
    struct doubt doubt; /* of the drag, N.m */
    double share;       /* of the variance, % */
};

/* Those of its sources that count; returns how many. */
size_t budget_lines(const struct judgement *judgement, struct budget_line lines[BUDGET_ROWS]);

#endif
