/* Text and its measures.
 *
 * A text comes as bits of one look each; bits that join without a place for a line end are a
 * word. Lines are broken over the whole paragraph at once, ragged right and as even as can
 * be: the cheapest way to each word is found from the cheapest ways to those before it. */
#include "layout/text.h"

#include "base/memory.h"
#include "base/utf8.h"
#include "number/unit.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- marks and measures ---- */

struct piece text_piece(const struct fonts *fonts, double x, double y, enum align align,
                        const struct text_style *style, int tag, const char *text)
{
    static const double shares[] = {[ALIGN_LEFT] = 0, [ALIGN_MIDDLE] = 0.5, [ALIGN_RIGHT] = 1};
    double width = fonts_width(fonts, style->face, style->size, text);
    return (struct piece){.kind = PIECE_TEXT,
                          .tag = tag,
                          .x = x - shares[align] * width,
                          .y = y,
                          .width = width,
                          .height = style->size,
                          .grey = style->grey,
                          .face = style->face,
                          .size = style->size,
                          .text = text};
}

size_t text_fitting(const struct fonts *fonts, enum face face, double size, const char *text,
                    size_t length, double measure)
{
    const char *at = text, *fits = text;
    long width = 0; /* in thousandths of the size */
    while (at < text + length) {
        width += fonts_advance(fonts, face, utf8_next(&at));
        if (fits > text && (double)width * size / 1000 > measure)
            break;
        fits = at;
    }
    return (size_t)(fits - text);
}

/* ---- bits and how they join ---- */

void phrase_begin(struct phrase *phrase, const struct text_style *style)
{
    phrase->size = style->size;
    phrase->narrow = style->narrow;
    phrase->count = 0;
    phrase->next = JOIN_WORD;
}

void phrase_free(struct phrase *phrase)
{
    free(phrase->bits);
    phrase->bits = NULL;
    phrase->count = phrase->room = 0;
}

double phrase_size(enum face face, double size)
{
    static const double mono = 0.9;
    return face == FACE_MONO ? mono * size : size;
}

static double width_of(const struct phrase *phrase, enum face face, const char *text,
                       size_t length)
{
    return fonts_width_of(phrase->fonts, face, phrase_size(face, phrase->size), text, length);
}

bool pen_same(const struct pen *a, const struct pen *b)
{
    return a->face == b->face && a->link == b->link && a->number == b->number &&
           a->tag == b->tag;
}

/* A blank between two looks goes with the plainer of them. */
static void give_blank(struct phrase *phrase, struct bit *bit)
{
    if (bit->join != JOIN_BLANK)
        return;
    const struct pen *before = &bit[-1].pen;
    bool special = before->face == FACE_MONO || before->link >= 0;
    bit->blank_is_mine = special && !pen_same(before, &bit->pen);
    enum face face = bit->blank_is_mine ? bit->pen.face : before->face;
    bit->blank = width_of(phrase, face, " ", 1);
}

static void add_bit(struct phrase *phrase, const char *text, size_t length, struct pen pen)
{
    if (phrase->count == phrase->room) {
        phrase->room = phrase->room ? 2 * phrase->room : 64;
        phrase->bits = heap_resize(phrase->bits, phrase->room, sizeof *phrase->bits);
    }
    struct bit *bit = &phrase->bits[phrase->count];
    *bit = (struct bit){.text = text, .length = length, .pen = pen};
    bit->join = phrase->count ? phrase->next : JOIN_WORD;
    bit->width = width_of(phrase, pen.face, text, length);
    give_blank(phrase, bit);
    phrase->count++;
    phrase->next = JOIN_WORD;
}

static bool is_among(const char *const *words, size_t count, const char *text, size_t length)
{
    for (size_t i = 0; i < count; i++)
        if (strlen(words[i]) == length && memcmp(words[i], text, length) == 0)
            return true;
    return false;
}

enum { SHORT_UNIT = 3 }; /* signs */

/* "12 mm": a figure, a blank, a unit of measure, or a word that stays with its number as units
 * do; a long one makes columns wide. `blank` points at the blank. */
static bool blank_before_unit(const struct phrase *phrase, const char *start, const char *blank)
{
    static const char *const words[] = {"pt", "turns", "minutes", "degrees", "years"};
    if (blank == start || !isdigit((unsigned char)blank[-1]))
        return false;
    size_t length = strcspn(blank + 1, " .,;:)");
    if (phrase->narrow && utf8_count(blank + 1, length) > SHORT_UNIT)
        return false;
    return unit_find(blank + 1, length) ||
           is_among(words, sizeof words / sizeof *words, blank + 1, length);
}

/* "▲ high": a shape alone (U+25A0 to U+25FF), which belongs to the word behind it. */
static bool blank_behind_shape(const char *start, const char *blank)
{
    return blank - start == 3 && memcmp(start, "\u25a0", 3) >= 0 &&
           memcmp(start, "\u25ff", 3) <= 0;
}

/* "no. 1", "page 41": a word that is nothing without the number behind it. */
static bool blank_before_number(const struct phrase *phrase, const char *start,
                                const char *blank)
{
    static const char *const words[] = {"no.",      "page",   "section", "(source",
                                        "(sources", "source", "step",    "ISO"};
    return !phrase->narrow && isdigit((unsigned char)blank[1]) &&
           is_among(words, sizeof words / sizeof *words, start, (size_t)(blank - start));
}

static bool is_letter(char c)
{
    return isalpha((unsigned char)c) || (c & 0x80);
}

/* May a line end behind the sign that ends just before `at`? Not in an option: --lock-added. */
static bool soft_end(const char *start, const char *at)
{
    if (strncmp(start, "--", 2) == 0)
        return false;
    if (at - start >= 3 && memcmp(at - 3, "\u2014", 3) == 0)
        return *at && *at != ' ';
    return at - start >= 3 && at[-1] == '-' && is_letter(at[-2]) && is_letter(at[-3]) &&
           is_letter(at[0]) && is_letter(at[1]);
}

/* Length of what no line end divides, from text on. */
static size_t bit_length(const struct phrase *phrase, const char *text)
{
    const char *at = text;
    while (*at && (*at != ' ' || blank_before_unit(phrase, text, at) ||
                   blank_behind_shape(text, at) || blank_before_number(phrase, text, at))) {
        at++;
        if (soft_end(text, at))
            break;
    }
    return (size_t)(at - text);
}

void phrase_blank(struct phrase *phrase)
{
    if (phrase->count && phrase->next != JOIN_BREAK)
        phrase->next = JOIN_BLANK;
}

void phrase_line_end(struct phrase *phrase)
{
    if (phrase->count)
        phrase->next = JOIN_BREAK;
}

enum { SHORT_CODE = 16 }; /* signs */

/* What is typed has line ends at blanks only, and none in a short piece. */
void phrase_add(struct phrase *phrase, const char *text, struct pen pen)
{
    bool typed = pen.face == FACE_MONO;
    size_t all = strlen(text);
    bool whole = typed && utf8_count(text, all) <= SHORT_CODE;
    while (*text) {
        if (*text == ' ' && !whole) {
            phrase_blank(phrase);
            text++;
            continue;
        }
        size_t length = whole ? all : typed ? strcspn(text, " ") : bit_length(phrase, text);
        add_bit(phrase, text, length, pen);
        text += length;
        if (!typed && *text && *text != ' ')
            phrase->next = JOIN_SOFT;
    }
}

double phrase_least(const struct phrase *phrase)
{
    double least = 0, word = 0;
    for (size_t i = 0; i < phrase->count; i++) {
        word = phrase->bits[i].width + (phrase->bits[i].join == JOIN_WORD ? word : 0);
        if (word > least)
            least = word;
    }
    return least;
}

double phrase_width(const struct phrase *phrase, size_t first, size_t end)
{
    double width = 0;
    for (size_t i = first; i < end; i++)
        width += phrase->bits[i].width + (i > first ? phrase->bits[i].blank : 0);
    return width;
}

double phrase_most(const struct phrase *phrase)
{
    double most = 0;
    for (size_t first = 0, end; first < phrase->count; first = end) {
        for (end = first + 1; end < phrase->count; end++)
            if (phrase->bits[end].join == JOIN_BREAK)
                break;
        double width = phrase_width(phrase, first, end);
        most = width > most ? width : most;
    }
    return most;
}

const char *phrase_text(const struct phrase *phrase, size_t first, size_t end,
                        bool blank_before, bool blank_after, struct arena *arena)
{
    const struct bit *bits = phrase->bits;
    size_t length = 3;
    for (size_t i = first; i < end; i++)
        length += bits[i].length + 1;
    char *text = arena_get(arena, length), *at = text;
    if (blank_before)
        *at++ = ' ';
    for (size_t i = first; i < end; i++) {
        if (i > first && bits[i].join == JOIN_BLANK)
            *at++ = ' ';
        memcpy(at, bits[i].text, bits[i].length);
        at += bits[i].length;
    }
    if (blank_after)
        *at = ' ';
    return text;
}

/* Cuts what does not fit off the bit at `at` and puts it behind, as a bit. */
static void cut_bit(struct phrase *phrase, size_t at, double measure)
{
    struct bit rest = phrase->bits[at];
    size_t length =
        text_fitting(phrase->fonts, rest.pen.face, phrase_size(rest.pen.face, phrase->size),
                     rest.text, rest.length, measure);
    if (length == rest.length)
        return;
    add_bit(phrase, "", 0, rest.pen);
    struct bit *bit = &phrase->bits[at];
    memmove(bit + 2, bit + 1, (phrase->count - at - 2) * sizeof *bit);
    bit->length = length;
    bit->width = width_of(phrase, bit->pen.face, bit->text, length);
    rest.text += length;
    rest.length -= length;
    rest.width -= bit->width;
    rest.blank = 0;
    rest.join = JOIN_SOFT;
    bit[1] = rest;
}

/* Cuts overlong words, so that every word fits the measure. */
static void cut_long_words(struct phrase *phrase, double measure)
{
    double word = 0;
    for (size_t i = 0; i < phrase->count; i++) {
        struct bit *bit = &phrase->bits[i];
        if (bit->join != JOIN_WORD)
            word = 0;
        if (bit->width > measure)
            cut_bit(phrase, i, measure);
        bit = &phrase->bits[i];
        if (word > 0 && word + bit->width > measure) {
            bit->join = JOIN_SOFT;
            word = 0;
        }
        word += bit->width;
    }
}

/* ---- where lines end ---- */

/* Sums of widths carry a little noise; a word that fits exactly must fit. */
static const double NOISE = 1e-6;

/* A last line shorter than this share of the measure looks like a mistake: two short
 * words, say. One word alone is worse than any ragged line before it. */
static const double SHORT_LINE = 0.2, SHORT_LINE_COST = 0.75, LONE_WORD_COST = 2;

/* And one a little longer is still better the longer it is, up to this share. */
static const double FAIR_LINE = 0.34, FAIR_LINE_COST = 0.6;

static void make_room(struct lines *lines, size_t count)
{
    if (lines->room >= count)
        return;
    lines->room = 2 * count;
    lines->words = heap_resize(lines->words, lines->room, sizeof *lines->words);
    lines->word_bits = heap_resize(lines->word_bits, lines->room, sizeof *lines->word_bits);
    lines->starts = heap_resize(lines->starts, lines->room, sizeof *lines->starts);
    lines->from = heap_resize(lines->from, lines->room, sizeof *lines->from);
    lines->cost = heap_resize(lines->cost, lines->room, sizeof *lines->cost);
}

static double last_line_cost(size_t words, double width, double measure)
{
    if (words == 1)
        return LONE_WORD_COST;
    double share = width / measure;
    double want = share < FAIR_LINE ? 1 - share / FAIR_LINE : 0;
    return FAIR_LINE_COST * want * want + (share < SHORT_LINE ? SHORT_LINE_COST : 0);
}

/* What a line of this width costs; the words from first to before end. */
static double line_cost(const struct word *words, size_t count, size_t first, size_t end,
                        double width, double measure)
{
    bool ends = end == count || words[end].breaks;
    bool begins = first == 0 || words[first].breaks;
    if (ends)
        return begins ? 0 : last_line_cost(end - first, width, measure);
    double slack = width < measure ? (measure - width) / measure : 0;
    return slack * slack;
}

/* Finds the cheapest first word for the line that ends before `end`. */
static void find_line(struct lines *lines, const struct word *words, size_t count, size_t end,
                      double measure)
{
    double width = 0, best = -1;
    for (size_t first = end; first-- > 0;) {
        width += words[first].width;
        if (width > measure + NOISE && first + 1 < end)
            break;
        double cost = lines->cost[first] + line_cost(words, count, first, end, width, measure);
        if (best < 0 || cost < best) {
            best = cost;
            lines->from[end] = first;
        }
        if (words[first].breaks)
            break;
        width += words[first].blank;
    }
    lines->cost[end] = best;
}

size_t break_lines(struct lines *lines, const struct word *words, size_t count, double measure,
                   size_t *starts)
{
    make_room(lines, count + 1);
    lines->cost[0] = 0;
    for (size_t end = 1; end <= count; end++)
        find_line(lines, words, count, end, measure);
    size_t found = 0;
    for (size_t end = count; end > 0; end = lines->from[end])
        found++;
    size_t line = found;
    for (size_t end = count; end > 0; end = lines->from[end])
        starts[--line] = lines->from[end];
    return found;
}

bool lines_suffice(const struct word *words, size_t count, double measure, size_t lines)
{
    double width = INFINITY; /* no line is begun yet */
    for (size_t i = 0; i < count; i++) {
        width += words[i].blank + words[i].width;
        if (width <= measure + NOISE && !words[i].breaks)
            continue;
        if (lines-- == 0)
            return false;
        width = words[i].width;
    }
    return true;
}

static void gather_words(const struct phrase *phrase, struct lines *lines)
{
    size_t count = 0;
    make_room(lines, phrase->count + 1);
    for (size_t i = 0; i < phrase->count; i++) {
        const struct bit *bit = &phrase->bits[i];
        if (i && bit->join == JOIN_WORD) {
            lines->words[count - 1].width += bit->width;
            continue;
        }
        lines->words[count] = (struct word){
            .width = bit->width, .blank = bit->blank, .breaks = i && bit->join == JOIN_BREAK};
        lines->word_bits[count++] = i;
    }
    lines->word_count = count;
}

void phrase_break(struct phrase *phrase, double measure, struct lines *lines)
{
    cut_long_words(phrase, measure);
    gather_words(phrase, lines);
    lines->count = break_lines(lines, lines->words, lines->word_count, measure, lines->starts);
    for (size_t i = 0; i < lines->count; i++)
        lines->starts[i] = lines->word_bits[lines->starts[i]];
    lines->starts[lines->count] = phrase->count;
}

void lines_free(struct lines *lines)
{
    free(lines->words);
    free(lines->word_bits);
    free(lines->starts);
    free(lines->from);
    free(lines->cost);
    *lines = (struct lines){0};
}
