/* A print built by hand, painted into a folder of the test's own, and what outside
 * programs say of the file. */
#ifndef TESTS_PDF_SAMPLE_H
#define TESTS_PDF_SAMPLE_H

#include "doc/canvas.h"
#include "pdf/pdf.h"
#include "test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const double A5_WIDTH = 148 * MM, A5_HEIGHT = 210 * MM;

static struct arena *arena;
static struct fonts *fonts;
static char folder[] = "/tmp/test_pdf.XXXXXX";

/* A print under construction: pieces go on the last sheet, under the last tag. */
static struct print print;
static int tag;

static inline struct sheet *add_sheet(double width, double height, const char *label)
{
    struct sheet *sheet = ARENA_PUSH(arena, print.sheets, print.sheet_count);
    *sheet = (struct sheet){.width = width, .height = height, .label = label};
    return sheet;
}

static inline struct sheet *last_sheet(void)
{
    return &print.sheets[print.sheet_count - 1];
}

static inline int add_tag(enum tag_kind kind, int parent)
{
    *ARENA_PUSH(arena, print.tags, print.tag_count) =
        (struct tag){.kind = kind, .parent = parent};
    return tag = (int)print.tag_count - 1;
}

static inline struct piece *add_piece(struct piece piece)
{
    struct sheet *sheet = last_sheet();
    struct piece *added = ARENA_PUSH(arena, sheet->pieces, sheet->piece_count);
    *added = piece;
    return added;
}

static inline struct piece *add_text(double x, double y, const char *text)
{
    return add_piece((struct piece){.kind = PIECE_TEXT,
                                    .tag = tag,
                                    .x = x,
                                    .y = y,
                                    .size = 10,
                                    .height = 10,
                                    .width = fonts_width(fonts, FACE_REGULAR, 10, text),
                                    .text = text});
}

static inline void add_decoration(enum piece_kind kind, double x, double y, double width,
                                  double height)
{
    add_piece((struct piece){.kind = kind,
                             .tag = -1,
                             .x = x,
                             .y = y,
                             .width = width,
                             .height = height,
                             .line = kind == PIECE_LINE ? 0.5 : 0,
                             .filled = kind == PIECE_BOX,
                             .grey = kind == PIECE_BOX ? 0.85 : 0});
}

static inline void add_area(struct hot_area area)
{
    struct sheet *sheet = last_sheet();
    area.tag = tag;
    *ARENA_PUSH(arena, sheet->areas, sheet->area_count) = area;
}

static inline void add_outline(const char *title, int level, size_t sheet, double y)
{
    *ARENA_PUSH(arena, print.outline, print.outline_count) =
        (struct outline_entry){.title = title, .level = level, .sheet = sheet, .y = y};
}

static inline int setup(void **state)
{
    (void)state;
    arena = arena_new();
    fonts = fonts_load(arena, diags_new(arena), "/usr/share/fonts/truetype/dejavu");
    return fonts && mkdtemp(folder) ? 0 : -1;
}

static inline int teardown(void **state)
{
    (void)state;
    char command[64];
    snprintf(command, sizeof command, "rm -r %s", folder);
    fonts_free(fonts);
    arena_free(arena);
    return system(command);
}

static inline int new_print(void **state)
{
    (void)state;
    print = (struct print){.title = "Root ½ µ – a spindle (its preload)"};
    tag = -1;
    unsetenv("SOURCE_DATE_EPOCH");
    return 0;
}

/* Runs a command in the folder of the test; its output and its complaints, both. */
static inline char *run(const char *command)
{
    char whole[512];
    snprintf(whole, sizeof whole, "cd %s && { %s; } 2>&1", folder, command);
    FILE *pipe = popen(whole, "r");
    assert_non_null(pipe);
    struct buffer out = {0};
    char part[4096];
    for (size_t length; (length = fread(part, 1, sizeof part, pipe)) > 0;)
        buffer_add(&out, part, length);
    int status = pclose(pipe);
    char *text = arena_text(arena, out.bytes ? out.bytes : "");
    buffer_free(&out);
    if (status != 0)
        fail_msg("\"%s\" ended with %d: %s", command, status, text);
    return text;
}

static inline void keep(const char *name, const struct buffer *pdf)
{
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(pdf->bytes, 1, pdf->length, file), pdf->length);
    assert_int_equal(fclose(file), 0);
}

/* In reading order. */
static inline void paint(const char *name)
{
    struct buffer pdf = {0};
    struct sink sink = sink_of_buffer(&pdf);
    pdf_paint(&print, fonts, &sink, NULL);
    keep(name, &pdf);
    buffer_free(&pdf);
}

static inline void paint_folded(const char *name)
{
    struct buffer pdf = {0};
    struct sink sink = sink_of_buffer(&pdf);
    pdf_paint(&print, fonts, NULL, &sink);
    keep(name, &pdf);
    buffer_free(&pdf);
}

static inline void assert_has(const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("\"%s\" is not in:\n%s", part, text);
}

static inline void assert_has_not(const char *text, const char *part)
{
    if (strstr(text, part))
        fail_msg("\"%s\" is in:\n%s", part, text);
}

#endif
