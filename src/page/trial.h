/* One sheet to find out how the printer turns paper, before the booklet is printed. */
#ifndef PAGE_TRIAL_H
#define PAGE_TRIAL_H

#include "page/compose.h"
#include "page/fold.h"

/* Four pages, to be painted as a sheet for folding; they say what is done with the sheets of
 * the booklet, which are so many. */
struct print *compose_trial(struct arena *arena, const struct imprint *imprint,
                            const struct fonts *fonts, enum paper_size booklet,
                            const struct fold *fold);

#endif
