/* The verb that begins a lathe: asks for the settings one at a time, and makes its folder. */
#ifndef CLI_BEGIN_H
#define CLI_BEGIN_H

#include "base/fatal.h"
#include "book/book.h"

/* Asks on standard output for what the card needs, reads the answers from standard input, and
 * writes settings and empty logs into the folder of paths->content, which it makes. From then
 * on nothing else can be opened but what the card is made from (book_confine()). After each
 * answer the settings stand in the folder as far as they go: a later call goes on from there.
 * DONE once all is answered; FAULTS where the answers end before, or the folder has settings of
 * another hand. */
enum status begin_lathe(const struct book_paths *paths);

#endif
