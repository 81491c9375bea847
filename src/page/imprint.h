/* What sheets say of themselves, as strips. */
#ifndef PAGE_IMPRINT_H
#define PAGE_IMPRINT_H

#include "page/flow.h"

/* The notice in a box that is not overlooked; nothing without a notice. */
void imprint_notice_put(struct flow *flow, const struct imprint *imprint, int tag);

/* Inputs and fingerprint, at the foot of the sheet where the strips end; the notice
 * over them where it is asked for. */
void imprint_foot_put(struct flow *flow, const struct imprint *imprint, double size,
                      bool with_notice, int tag);

/* Signs that the fonts lack are faults, as in compose_check(). */
void imprint_check(const struct imprint *imprint, const struct fonts *fonts, struct place at,
                   struct diags *diags);

#endif
