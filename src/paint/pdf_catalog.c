#include "paint/pdf_catalog.h"

#include "base/source_date.h"
#include "page/print.h"
#include "paint/pdf_text.h"

#include <stdlib.h>
#include <string.h>

static void put_date(struct buffer *out)
{
    struct tm utc;
    if (!source_date(&utc))
        return;
    buffer_print(out, "/CreationDate(D:%04d%02d%02d%02d%02d%02dZ)", utc.tm_year + 1900,
                 utc.tm_mon + 1, utc.tm_mday, utc.tm_hour, utc.tm_min, utc.tm_sec);
}

void pdf_catalog_describe(struct pdf_file *file, const char *title, enum pdf_flip flip)
{
    struct buffer text = {0};
    file->doing = "writing the title";
    buffer_text(&text, "/Title");
    pdf_string(&text, title);
    put_date(&text);
    pdf_object_set(file, file->doc->info, &text);
    buffer_free(&text);
    buffer_text(&file->catalog, "/Lang(en)/ViewerPreferences<</DisplayDocTitle true"
                                "/PrintScaling/None/Duplex/");
    buffer_text(&file->catalog,
                flip == PDF_FLIP_SHORT_EDGE ? "DuplexFlipShortEdge>>" : "DuplexFlipLongEdge>>");
}

enum label_kind { LABEL_NONE, LABEL_ARABIC, LABEL_ROMAN, LABEL_OTHER };

struct label {
    enum label_kind kind;
    long number;
};

static struct label read_label(const char *text)
{
    if (!text[0])
        return (struct label){LABEL_NONE, 0};
    char *end = NULL;
    long number = strtol(text, &end, 10);
    if (*end == '\0' && text[0] >= '1' && text[0] <= '9')
        return (struct label){LABEL_ARABIC, number};
    if ((number = roman_read(text)) > 0)
        return (struct label){LABEL_ROMAN, number};
    return (struct label){LABEL_OTHER, 0};
}

static bool label_follows(struct label before, struct label now)
{
    if (before.kind != now.kind || now.kind == LABEL_OTHER)
        return false;
    return now.kind == LABEL_NONE || now.number == before.number + 1;
}

static void put_label(struct buffer *out, size_t sheet, struct label label, const char *text)
{
    pdf_integer(out, (long)sheet);
    buffer_text(out, "<<");
    if (label.kind == LABEL_OTHER) {
        buffer_text(out, "/P");
        pdf_string(out, text);
    } else if (label.kind != LABEL_NONE) {
        buffer_print(out, "/S/%s/St %ld", label.kind == LABEL_ROMAN ? "r" : "D", label.number);
    }
    buffer_text(out, ">>");
}

void pdf_catalog_labels(struct pdf_file *file, const struct print *print)
{
    struct buffer *text = &file->catalog;
    struct label before = {LABEL_OTHER, 0};
    buffer_text(text, "/PageLabels<</Nums[");
    for (size_t i = 0; i < print->sheet_count; i++) {
        const char *shown = print->sheets[i].label ? print->sheets[i].label : "";
        struct label now = read_label(shown);
        if (!label_follows(before, now))
            put_label(text, i, now, shown);
        before = now;
    }
    buffer_text(text, "]>>");
}
