/* Masks over one another.

In: masks of one ink. Out: one mask that shows the same. */

#include "loops.h"

/* ``value`` x ``of_255`` / 255, rounded. */
static unsigned char share(unsigned value, unsigned of_255) {
    unsigned product = value * of_255 + 128;
    return (unsigned char)((product + (product >> 8)) >> 8);
}

static int inside(const Sheet *sheet, const Sheet *mask, Py_ssize_t x, Py_ssize_t y) {
    return (x >= 0 && y >= 0 && x <= sheet->width - mask->width && y <= sheet->height - mask->height)
        || refuse("a mask reaches out of its frame");
}

static void join(const Sheet *sheet, const Sheet *mask, Py_ssize_t x, Py_ssize_t y) {
    for (Py_ssize_t row = 0; row < mask->height; row++) {
        const unsigned char *from = mask->at + row * mask->width;
        unsigned char *to = sheet->at + (y + row) * sheet->width + x;
        for (Py_ssize_t px = 0; px < mask->width; px++)
            if (from[px]) to[px] = (unsigned char)(share(to[px], 255 - from[px]) + from[px]);
    }
}

typedef struct {
    Py_ssize_t x, y;
} Place;

static int by_row(const void *one, const void *other) {
    const Place *a = one, *b = other;
    return a->y != b->y ? (a->y > b->y) - (a->y < b->y) : (a->x > b->x) - (a->x < b->x);
}

/* The least n for which every n-th of the sorted places is clear of the next in a row of masks ``width`` px wide; where
they do not lie in one row, so many that each is by itself. */
static Py_ssize_t clear_of_next(const Place *places, Py_ssize_t count, Py_ssize_t width) {
    if (places[0].y != places[count - 1].y) return count;
    for (Py_ssize_t n = 1; n < count; n++) {
        Py_ssize_t i = n;
        while (i < count && places[i].x - places[i - n].x >= width) i++;
        if (i == count) return n;
    }
    return count;
}

static int read_place(PyObject *pair, Place *place) {
    if (!PyTuple_Check(pair) || PyTuple_Size(pair) != 2) return refuse("a place is no x and y that fit");
    place->x = PyLong_AsSsize_t(PyTuple_GetItem(pair, 0));
    if (place->x == -1 && PyErr_Occurred()) return 0;
    place->y = PyLong_AsSsize_t(PyTuple_GetItem(pair, 1));
    return !(place->y == -1 && PyErr_Occurred());
}

static Place *places_of(PyObject *list, Py_ssize_t count, const Sheet *sheet, const Sheet *mask) {
    Place *places = malloc((size_t)(count + 1) * sizeof *places);
    if (!places) return PyErr_NoMemory(), NULL;
    for (Py_ssize_t i = 0; i < count; i++)
        if (!read_place(PyList_GetItem(list, i), places + i) || !inside(sheet, mask, places[i].x, places[i].y)) {
            free(places);
            return NULL;
        }
    return places;
}

PyObject *strew(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer alpha, masked;
    Py_ssize_t width, mask_width;
    PyObject *list;
    int in_rows;
    if (!PyArg_ParseTuple(args, "w*ny*nO!p", &alpha, &width, &masked, &mask_width, &PyList_Type, &list, &in_rows))
        return NULL;
    Sheet sheet, mask;
    Py_ssize_t count = PyList_Size(list), every = 1;
    Place *places = sheet_of(&alpha, width, &sheet) && sheet_of(&masked, mask_width, &mask)
        ? places_of(list, count, &sheet, &mask) : NULL;
    if (places && in_rows && count > 1) {
        qsort(places, (size_t)count, sizeof *places, by_row);
        every = clear_of_next(places, count, mask.width);
    }
    for (Py_ssize_t first = 0; places && first < every; first++)
        for (Py_ssize_t i = first; i < count; i += every) join(&sheet, &mask, places[i].x, places[i].y);
    PyBuffer_Release(&alpha), PyBuffer_Release(&masked);
    if (!places) return NULL;
    free(places);
    Py_RETURN_NONE;
}

PyObject *fade(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer alpha, above;
    double opacity;
    if (!PyArg_ParseTuple(args, "y*y*d", &alpha, &above, &opacity)) return NULL;
    PyObject *bytes = alpha.len == above.len || refuse("two masks do not fit")
        ? PyBytes_FromStringAndSize(NULL, alpha.len) : NULL;
    unsigned char *to = bytes ? (unsigned char *)PyBytes_AsString(bytes) : NULL;
    for (Py_ssize_t i = 0; bytes && i < alpha.len; i++) {
        double own = ((unsigned char *)alpha.buf)[i] / 255.0, over = ((unsigned char *)above.buf)[i] / 255.0;
        double seen = opacity * own * (1 - over) / larger(1 - opacity * over, 1e-9);
        to[i] = (unsigned char)rint(smaller(larger(seen, 0), 1) * 255);
    }
    PyBuffer_Release(&alpha), PyBuffer_Release(&above);
    return bytes;
}
