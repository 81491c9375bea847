#include "terminal/answer.h"

#include "base/utf8.h"

#include <string.h>

void answer_add(struct answer *answer, const char *name, const char *label, const char *value,
                const char *unit)
{
    struct answer_row *row = ARENA_PUSH(answer->arena, answer->rows, answer->count);
    *row = (struct answer_row){.name = arena_text(answer->arena, name),
                               .label = arena_text(answer->arena, label),
                               .value = arena_text(answer->arena, value),
                               .unit = arena_text(answer->arena, unit)};
}

static size_t widest_label(const struct answer *answer)
{
    size_t widest = 0;
    for (size_t i = 0; i < answer->count; i++) {
        size_t width = utf8_count(answer->rows[i].label, strlen(answer->rows[i].label));
        widest = width > widest ? width : widest;
    }
    return widest;
}

/* Text for programs: plain signs for the printed ones. */
static void print_plain(const char *text, FILE *out)
{
    while (*text) {
        if (strncmp(text, "\xE2\x88\x92", 3) == 0) {
            fputc('-', out);
            text += 3;
        } else if (strncmp(text, "\xC2\xB7", 2) == 0) {
            fputc('.', out);
            text += 2;
        } else {
            fputc(*text++, out);
        }
    }
}

static void print_for_programs(const struct answer_row *row, FILE *out)
{
    fprintf(out, "%s\t", row->name);
    print_plain(row->value, out);
    fputc('\t', out);
    print_plain(row->unit, out);
    fputc('\n', out);
}

void answer_print(const struct answer *answer, bool lines, FILE *out)
{
    size_t widest = widest_label(answer);
    for (size_t i = 0; i < answer->count; i++) {
        const struct answer_row *row = &answer->rows[i];
        size_t width = utf8_count(row->label, strlen(row->label));
        if (lines)
            print_for_programs(row, out);
        else
            fprintf(out, "%s%*s  %s%s%s\n", row->label, (int)(widest - width), "", row->value,
                    row->unit[0] ? " " : "", row->unit);
    }
}
