/* The inner loops of the rasteriser: what is done for every edge, every sub-scanline and every px.

In: buffers of numbers and whole px. Out: buffers again, made anew, or one that the caller gave, changed in place. What
each function takes and gives stands in loops.py; numpy_loops.py does the same in numpy, byte for byte, where these
files were not compiled. Sums that decide about a px are in whole numbers, so that none depends on its order; all other
calculations stand in the same order in both, and a compiler must not fuse them (see pyproject.toml).

Begin reading with loops.h, what all have in common; then outlines.c (outlines and strokes as straight edges),
coverage.c (how much of a px they cover), masks.c (masks over one another) and canvases.c (masks on a canvas). This file
is the module as Python sees it.

No function trusts its caller: sizes are checked before anything is read or written, and while a list is read no code
is run that could change it. */

#include "loops.h"

static PyMethodDef functions[] = {
    {"flatten", flatten, METH_VARARGS, NULL},
    {"fill_lines", fill_lines, METH_VARARGS, NULL},
    {"stroke_lines", stroke_lines, METH_VARARGS, NULL},
    {"set_letters", set_letters, METH_VARARGS, NULL},
    {"cover", cover, METH_VARARGS, NULL},
    {"strew", strew, METH_VARARGS, NULL},
    {"fade", fade, METH_VARARGS, NULL},
    {"lay_indexed", lay_indexed, METH_VARARGS, NULL},
    {"lay_full", lay_full, METH_VARARGS, NULL},
    {"packed", packed, METH_VARARGS, NULL},
    {"fill", fill, METH_VARARGS, NULL},
    {"overlap", overlap, METH_VARARGS, NULL},
    {NULL, NULL, 0, NULL},
};

static struct PyModuleDef definition = {
    PyModuleDef_HEAD_INIT, "_loops", "The inner loops of the rasteriser.", 0, functions, NULL, NULL, NULL, NULL,
};

PyMODINIT_FUNC PyInit__loops(void) {
    fill_alpha_of();
    return PyModule_Create(&definition);
}
