/* Lengths are in metres. */
#ifndef DRAG_INCH_H
#define DRAG_INCH_H

/* An inch of them, exactly: agreement of 1959. */
#define INCH 0.0254

#endif
