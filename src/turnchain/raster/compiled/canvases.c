/* Masks and rectangles on a canvas, and canvases as files want them.

In: px as numbers of colours, a byte each, or as colours of four bytes. Out: the same, painted on. */

#include "loops.h"

/* A part of a mask, and where on the canvas it lies; all in px. */
typedef struct {
    Py_ssize_t x, y, width, height, from_x, from_y;
} Part;

static int fits(const Part *part, Py_ssize_t width, Py_ssize_t height, const Sheet *mask) {
    return (part->x >= 0 && part->y >= 0 && part->from_x >= 0 && part->from_y >= 0 && part->width >= 0
            && part->height >= 0 && part->width <= width && part->x <= width - part->width && part->height <= height
            && part->y <= height - part->height && part->width <= mask->width
            && part->from_x <= mask->width - part->width && part->height <= mask->height
            && part->from_y <= mask->height - part->height)
        || refuse("a mask reaches out of its canvas");
}

static int nothing_in(const unsigned char *eight) {
    uint64_t all;
    memcpy(&all, eight, sizeof all);
    return !all;
}

enum { FINE = 64 }; /* parts of a level that are told apart: four squared differences still fit 32 bits */

static int32_t fine(double level) { return (int32_t)rint(smaller(larger(level, 0), 255) * FINE); }

/* By channel, the shades of a palette. */
typedef int32_t Shades[4][256];

/* The nearest of ``shades`` to each step from ``ground`` to ``ink``; of two the first. */
static void nearest(Shades shades, int count, const double ground[4], const double ink[4], int steps,
                    unsigned char *row) {
    for (int step = 0; step < steps; step++) {
        double part = (double)step / (steps - 1);
        int32_t wanted[4], apart[256];
        for (int channel = 0; channel < 4; channel++)
            wanted[channel] = fine(ground[channel] * (1 - part) + ink[channel] * part);
        for (int number = 0; number < count; number++) {
            int32_t red = wanted[0] - shades[0][number], green = wanted[1] - shades[1][number];
            int32_t blue = wanted[2] - shades[2][number], opacity = wanted[3] - shades[3][number];
            apart[number] = red * red + green * green + blue * blue + opacity * opacity;
        }
        int found = 0;
        for (int number = 1; number < count; number++)
            if (apart[number] < apart[found]) found = number;
        row[step] = (unsigned char)found;
    }
}

/* What numbers become under one ink: a row of ``table`` for each of 256 numbers, as far as it is known. ``lines``: the
numbers that its steps follow. */
typedef struct {
    Py_buffer table, known, shades, lines;
    double ink[4];
} Blends;

static int sound_blends(const Blends *blends) {
    return holds_numbers(&blends->shades, 4)
        && ((blends->known.len == 256 && blends->lines.len == 256 && blends->table.len % 256 == 0
             && blends->table.len >= 512 && blends->table.len <= 256 * 256
             && blends->shades.len <= 256 * 4 * (Py_ssize_t)sizeof(double))
            || refuse("a table has a row for each of 256 numbers"));
}

static void learn(Blends *blends, int number) {
    int steps = (int)(blends->table.len / 256), count = (int)(blends->shades.len / 4 / (Py_ssize_t)sizeof(double));
    const double *shades = blends->shades.buf;
    unsigned char *row = (unsigned char *)blends->table.buf + number * steps;
    Shades whole;
    ((unsigned char *)blends->known.buf)[number] = 1;
    for (int step = 0; step < steps; step++) row[step] = (unsigned char)(number + step);
    if (((unsigned char *)blends->lines.buf)[number] || number >= count) return;
    for (int i = 0; i < 4 * count; i++) whole[i % 4][i / 4] = fine(shades[i]);
    nearest(whole, count, shades + 4 * number, blends->ink, steps, row);
    row[0] = (unsigned char)number;
}

static void lay_numbers(const Sheet *canvas, const Sheet *mask, const Part *part, Blends *blends) {
    const unsigned char *table = blends->table.buf, *known = blends->known.buf;
    int steps = (int)(blends->table.len / 256);
    for (Py_ssize_t row = 0; row < part->height; row++) {
        const unsigned char *from = mask->at + (part->from_y + row) * mask->width + part->from_x;
        unsigned char *on = canvas->at + (part->y + row) * canvas->width + part->x;
        for (Py_ssize_t px = 0; px < part->width; px++) {
            if (px + 8 <= part->width && nothing_in(from + px)) {
                px += 7;
                continue;
            }
            if (!from[px] || from[px] >= steps) continue;
            if (!known[on[px]]) learn(blends, on[px]);
            on[px] = table[on[px] * steps + from[px]];
        }
    }
}

PyObject *lay_indexed(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer canvas, masked;
    Py_ssize_t width, mask_width;
    Part part;
    Blends blends;
    double *ink = blends.ink;
    if (!PyArg_ParseTuple(args, "w*ny*n(nnnnnn)w*w*y*(dddd)y*", &canvas, &width, &masked, &mask_width, &part.x, &part.y,
                          &part.width, &part.height, &part.from_x, &part.from_y, &blends.table, &blends.known,
                          &blends.shades, ink, ink + 1, ink + 2, ink + 3, &blends.lines))
        return NULL;
    Sheet sheet, mask;
    int sound = sheet_of(&canvas, width, &sheet) && sheet_of(&masked, mask_width, &mask)
        && fits(&part, sheet.width, sheet.height, &mask) && sound_blends(&blends);
    if (sound) lay_numbers(&sheet, &mask, &part, &blends);
    PyBuffer_Release(&canvas), PyBuffer_Release(&masked), PyBuffer_Release(&blends.table);
    PyBuffer_Release(&blends.known), PyBuffer_Release(&blends.shades), PyBuffer_Release(&blends.lines);
    if (!sound) return NULL;
    Py_RETURN_NONE;
}

/* Two channels at a time, each a byte with one free above it: (ground x rest + over x share) / 255, rounded. */
static uint32_t mixed(uint32_t ground, uint32_t over, uint32_t share_of_255) {
    uint32_t pair = ground * (255 - share_of_255) + over * share_of_255 + 0x800080;
    return pair + (pair >> 8 & 0xFF00FF);
}

static uint32_t blended(uint32_t ground, uint32_t over, uint32_t share_of_255) {
    uint32_t low = mixed(ground & 0xFF00FF, over & 0xFF00FF, share_of_255);
    uint32_t high = mixed(ground >> 8 & 0xFF00FF, over >> 8 & 0xFF00FF, share_of_255);
    return (low >> 8 & 0xFF00FF) | (high & 0xFF00FF00);
}

PyObject *lay_full(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer canvas, masked, ink;
    Py_ssize_t width, mask_width;
    Part part;
    if (!PyArg_ParseTuple(args, "w*ny*n(nnnnnn)y*", &canvas, &width, &masked, &mask_width, &part.x, &part.y,
                          &part.width, &part.height, &part.from_x, &part.from_y, &ink))
        return NULL;
    Sheet mask;
    int sound = sheet_of(&masked, mask_width, &mask)
        && ((width > 0 && canvas.len % 4 == 0 && canvas.len / 4 % width == 0 && ink.len == 4
             && (uintptr_t)canvas.buf % sizeof(uint32_t) == 0)
            || refuse("colours and width do not fit"))
        && fits(&part, width, canvas.len / 4 / width, &mask);
    uint32_t over = 0;
    if (sound) memcpy(&over, ink.buf, sizeof over);
    for (Py_ssize_t row = 0; sound && row < part.height; row++) {
        const unsigned char *from = mask.at + (part.from_y + row) * mask.width + part.from_x;
        uint32_t *on = (uint32_t *)canvas.buf + (part.y + row) * width + part.x;
        for (Py_ssize_t px = 0; px < part.width; px++) {
            if (px + 8 <= part.width && nothing_in(from + px))
                px += 7;
            else if (from[px])
                on[px] = blended(on[px], over, from[px]);
        }
    }
    PyBuffer_Release(&canvas), PyBuffer_Release(&masked), PyBuffer_Release(&ink);
    if (!sound) return NULL;
    Py_RETURN_NONE;
}

static void straighten(unsigned char *one) {
    unsigned opacity = one[3];
    if (opacity == 0 || opacity == 255) return;
    for (int channel = 0; channel < 3; channel++) {
        unsigned value = (one[channel] * 255u + opacity / 2) / opacity;
        one[channel] = (unsigned char)(value < 255 ? value : 255);
    }
}

/* The rows of a canvas of colours as files want them, each behind ``lead`` zeros: three channels where all is opaque;
else four, no longer multiplied with their opacity. */
PyObject *packed(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer px;
    Py_ssize_t width, lead;
    int opaque;
    if (!PyArg_ParseTuple(args, "y*npn", &px, &width, &opaque, &lead)) return NULL;
    Py_ssize_t count = px.len / 4, channels = opaque ? 3 : 4;
    PyObject *bytes = NULL;
    if (width < 1 || width > count || lead < 0 || lead > 1 || px.len % 4 || count % width)
        refuse("colours and width do not fit");
    else
        bytes = PyBytes_FromStringAndSize(NULL, count / width * (lead + channels * width));
    unsigned char *to = bytes ? (unsigned char *)PyBytes_AsString(bytes) : NULL;
    const unsigned char *from = px.buf;
    for (Py_ssize_t i = 0; bytes && i < count; i++, from += 4, to += channels) {
        unsigned char colour[4] = {from[0], from[1], from[2], from[3]};
        if (i % width == 0 && lead) *to++ = 0;
        if (!opaque) straighten(colour);
        memcpy(to, colour, (size_t)channels);
    }
    PyBuffer_Release(&px);
    return bytes;
}

/* Fills rows of ``count`` times ``px``, the first at ``start`` and each ``stride`` behind the one before. */
PyObject *fill(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer canvas, px;
    Py_ssize_t start, stride, count, rows;
    if (!PyArg_ParseTuple(args, "w*nnnny*", &canvas, &start, &stride, &count, &rows, &px)) return NULL;
    Py_ssize_t most = canvas.len;
    int sound = (px.len >= 1 && start >= 0 && count >= 1 && rows >= 1 && stride >= 1 && start < most
                 && count <= (most - start) / px.len && rows - 1 <= (most - start - count * px.len) / stride)
        || refuse("a rectangle reaches out of its canvas");
    unsigned char *first = sound ? (unsigned char *)canvas.buf + start : NULL;
    for (Py_ssize_t i = 0; sound && i < count; i++) memmove(first + i * px.len, px.buf, (size_t)px.len);
    for (Py_ssize_t row = 1; sound && row < rows; row++)
        memmove(first + row * stride, first, (size_t)(count * px.len));
    PyBuffer_Release(&canvas), PyBuffer_Release(&px);
    if (!sound) return NULL;
    Py_RETURN_NONE;
}

/* ---- rectangles over one another ---- */

/* A rectangle, and its place in the order of painting. */
enum { LEFT, TOP, RIGHT, BOTTOM, ORDER, SIDES };

/* What two rectangles share, in 256ths of a px, if ``other`` was painted with ``one`` or later. */
static uint64_t shared(const double *one, const double *other) {
    const double most = 1e15; /* no picture has so many */
    double across = smaller(one[RIGHT], other[RIGHT]) - larger(one[LEFT], other[LEFT]);
    double down = smaller(one[BOTTOM], other[BOTTOM]) - larger(one[TOP], other[TOP]);
    if (!(across > 0 && down > 0 && other[ORDER] >= one[ORDER])) return 0;
    return (uint64_t)rint(smaller(across * down * 256, most));
}

/* For each of the rectangles, from the top down, how far down those up to it reach; NULL without memory. */
static double *reaches(const double *rectangles, Py_ssize_t count) {
    double *reach = malloc(((size_t)count + 1) * sizeof *reach);
    for (Py_ssize_t i = 0; reach && i < count; i++) {
        double bottom = rectangles[SIDES * i + BOTTOM];
        reach[i] = i ? larger(bottom, reach[i - 1]) : bottom;
    }
    return reach;
}

/* What the ``above`` share with the ``below`` that were painted before or with them, both from the top down. */
static uint64_t all_shared(const double *below, Py_ssize_t count, const double *above, Py_ssize_t others,
                           const double *reach) {
    uint64_t total = 0;
    Py_ssize_t first = 0;
    for (const double *one = below; one < below + SIDES * count; one += SIDES) {
        while (first < others && reach[first] <= one[TOP]) first++;
        for (Py_ssize_t i = first; i < others && above[SIDES * i + TOP] < one[BOTTOM]; i++)
            total += shared(one, above + SIDES * i);
    }
    return total;
}

PyObject *overlap(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer below, above;
    if (!PyArg_ParseTuple(args, "y*y*", &below, &above)) return NULL;
    const Py_ssize_t size = SIDES * (Py_ssize_t)sizeof(double);
    int sound = holds_numbers(&below, SIDES) && holds_numbers(&above, SIDES);
    double *reach = sound ? reaches(above.buf, above.len / size) : NULL;
    uint64_t total = reach ? all_shared(below.buf, below.len / size, above.buf, above.len / size, reach) : 0;
    PyBuffer_Release(&below), PyBuffer_Release(&above);
    if (!reach) return sound ? PyErr_NoMemory() : NULL;
    free(reach);
    return PyLong_FromUnsignedLongLong(total);
}
