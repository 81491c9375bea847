/* What is held of the gauge's error at a pull, and what that rests on. */
#ifndef VERDICT_GAUGE_SOURCE_H
#define VERDICT_GAUGE_SOURCE_H

#include "shop/shop.h"

/* Known weights, where they reach; else the error that was checked with some, or the data
 * sheet, and with these the line of known weights carried on, where there is one. */
enum gauge_source {
    GAUGE_WEIGHED,
    GAUGE_CHECKED,
    GAUGE_DATA_SHEET,
    GAUGE_CHECKED_OR_CARRIED,
    GAUGE_SHEET_OR_CARRIED
};

enum gauge_source gauge_source_at(const struct shop *shop, double pull);
const char *gauge_source_words(enum gauge_source source);

/* What the settings state of the gauge's error at a pull (N), either way: the checked error;
 * without one what the data sheet allows, the share of full scale and the share of the
 * reading added up. */
double gauge_stated_error(const struct shop *shop, double pull);

/* How far (N) a reading may be off the pull, either way. Where known weights reach: the error
 * that they found (readings are not corrected by it: U is wider by it), and how well it is
 * known. Past them the larger of that, carried on, and what is stated; without them this. */
double gauge_within_at(const struct shop *shop, double pull);

/* Whether known weights were hung, and do not reach all pulls (N) from low to high; then where
 * they do, and what U takes elsewhere. */
enum { REACH_TEXT = 600 };
bool gauge_reach_ends(const struct shop *shop, double low, double high, char text[REACH_TEXT]);

#endif
