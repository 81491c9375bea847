#include "pdf/draw.h"

#include "pdf/fonts.h"
#include "pdf/text.h"

enum { NOTHING_OPEN = -2 }; /* -1 is decoration */

/* What the page's graphics state is now, so that only changes are written. */
struct pen {
    struct buffer *out;
    struct pdf_tags *tags;
    double height;
    bool in_text;
    int open;  /* tag of the open run of marks */
    long x, y; /* where the last text began, in thousandths of a point */
    int face;
    double size;
    double fill, stroke, line;
    enum dash dash;
    double dash_scale;
};

static void close_run(struct pen *pen)
{
    if (pen->open != NOTHING_OPEN)
        buffer_text(pen->out, "EMC\n");
    pen->open = NOTHING_OPEN;
}

static void set_mode(struct pen *pen, bool text)
{
    if (pen->in_text == text)
        return;
    close_run(pen); /* runs and text objects nest */
    buffer_text(pen->out, text ? "BT\n" : "ET\n");
    pen->in_text = text;
    pen->x = pen->y = 0;
}

static void set_run(struct pen *pen, int tag)
{
    if (!pen->tags || pen->open == tag)
        return;
    close_run(pen);
    pdf_tags_open(pen->tags, pen->out, tag);
    pen->open = tag;
}

static void set_number(struct pen *pen, double *now, double wanted, const char *operation)
{
    if (*now == wanted)
        return;
    pdf_print(pen->out, "%f%s", wanted, operation);
    *now = wanted;
}

static void set_font(struct pen *pen, const struct piece *piece)
{
    if (pen->face == (int)piece->face && pen->size == piece->size)
        return;
    pdf_print(pen->out, "/%s %f Tf\n", pdf_face_names[piece->face], piece->size);
    pen->face = (int)piece->face;
    pen->size = piece->size;
}

static void draw_text(struct pen *pen, const struct piece *piece)
{
    if (!piece->text[0])
        return;
    set_mode(pen, true);
    set_run(pen, piece->tag);
    set_number(pen, &pen->fill, piece->grey, " g\n");
    set_font(pen, piece);
    /* By whole thousandths: the differences add up without error. */
    long x = pdf_thousandths(piece->x), y = pdf_thousandths(pen->height - piece->y);
    pdf_print(pen->out, "%f %f Td", (double)(x - pen->x) / 1000, (double)(y - pen->y) / 1000);
    pen->x = x;
    pen->y = y;
    /* A reader that listens joins the lines as they come, words and all. */
    pdf_codes(pen->out, piece->text, piece->blank_after);
    buffer_text(pen->out, "Tj\n");
}

static void set_stroke(struct pen *pen, const struct piece *piece)
{
    enum dash wanted = piece->path ? piece->path->dash : DASH_SOLID;
    double lengths[MOST_DASHES];
    size_t count = figure_dashes(wanted, lengths);
    if (pen->dash != wanted || (count && pen->dash_scale != piece->scale)) {
        buffer_text(pen->out, "[");
        for (size_t i = 0; i < count; i++)
            pdf_print(pen->out, "%f ", piece->scale * lengths[i]);
        buffer_text(pen->out, "] 0 d\n");
        pen->dash = wanted;
        pen->dash_scale = piece->scale;
    }
    set_number(pen, &pen->stroke, piece->grey, " G\n");
    set_number(pen, &pen->line, piece->line, " w\n");
}

static void begin_shape(struct pen *pen, const struct piece *piece)
{
    set_mode(pen, false);
    set_run(pen, piece->tag);
    if (piece->filled)
        set_number(pen, &pen->fill, piece->grey, " g\n");
    else
        set_stroke(pen, piece);
}

static void draw_line(struct pen *pen, const struct piece *piece)
{
    if (piece->line == 0)
        return; /* to PDF a width of 0 is the thinnest line, not none */
    begin_shape(pen, piece);
    pdf_print(pen->out, "%f %f m %f %f l S\n", piece->x, pen->height - piece->y,
              piece->x + piece->width, pen->height - (piece->y + piece->height));
}

static void draw_box(struct pen *pen, const struct piece *piece)
{
    if (!piece->filled && piece->line == 0)
        return;
    begin_shape(pen, piece);
    pdf_print(pen->out, "%f %f %f %f re %s\n", piece->x,
              pen->height - (piece->y + piece->height), piece->width, piece->height,
              piece->filled ? "f" : "S");
}

static void put_step(struct pen *pen, const struct piece *piece, const struct path_step *step)
{
    static const char *const operators[] = {"m ", "l ", "c ", "h "};
    const double points[] = {step->x1, step->y1, step->x2, step->y2, step->x, step->y};
    size_t from = step->kind == STEP_CURVE ? 0 : step->kind == STEP_CLOSE ? 6 : 4;
    for (size_t i = from; i < 6; i += 2)
        pdf_print(pen->out, "%f %f ", piece->x + piece->scale * points[i],
                  pen->height - (piece->y + piece->scale * points[i + 1]));
    buffer_text(pen->out, operators[step->kind]);
}

static void draw_path(struct pen *pen, const struct piece *piece)
{
    begin_shape(pen, piece);
    for (size_t i = 0; i < piece->path->step_count; i++)
        put_step(pen, piece, &piece->path->steps[i]);
    buffer_text(pen->out, piece->filled ? "f\n" : "S\n");
}

void pdf_draw_sheet(struct buffer *out, const struct sheet *sheet, struct pdf_tags *tags)
{
    /* The rest is what a page, or the state after q, begins with. */
    struct pen pen = {.out = out,
                      .tags = tags,
                      .height = sheet->height,
                      .open = NOTHING_OPEN,
                      .face = -1,
                      .line = 1};
    for (size_t i = 0; i < sheet->piece_count; i++) {
        const struct piece *piece = &sheet->pieces[i];
        if (piece->kind == PIECE_TEXT)
            draw_text(&pen, piece);
        else if (piece->kind == PIECE_LINE)
            draw_line(&pen, piece);
        else if (piece->kind == PIECE_PATH)
            draw_path(&pen, piece);
        else
            draw_box(&pen, piece);
    }
    set_mode(&pen, false);
    close_run(&pen);
}
