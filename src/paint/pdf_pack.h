/* Packing (PDF 1.7, section 7.4.4: FlateDecode). The file pdf_pack.c alone includes
 * zlib.h. */
#ifndef PAINT_PDF_PACK_H
#define PAINT_PDF_PACK_H

#include "base/buffer.h"

struct packer;

/* One packs any number of streams, one behind the other. */
struct packer *packer_new(void);
void packer_free(struct packer *packer);

/* Appends the bytes, packed. The same bytes give the same, always. */
void packer_add(struct packer *packer, struct buffer *out, const void *bytes, size_t length);

#endif
