/* The inner loops of the rasteriser: what is done for every edge, every sub-scanline and every px.

In: buffers of numbers and whole px. Out: buffers again, made anew, or one that the caller gave, changed in place. What
each function takes and gives stands in loops.py; numpy_loops.py does the same in numpy, byte for byte, where this file
was not compiled. Sums that decide about a px are in whole numbers, so that none depends on its order; all other
calculations stand in the same order in both files, and a compiler must not fuse them (see pyproject.toml).

No function trusts its caller: sizes are checked before anything is read or written, and while a list is read no code
is run that could change it. */

#define PY_SSIZE_T_CLEAN
#define Py_LIMITED_API 0x030B0000
#include <Python.h>
#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* The old floating-point unit of 32-bit x86 keeps more digits than numbers have: there numpy draws. */
#if FLT_EVAL_METHOD < 0 || FLT_EVAL_METHOD == 2
#error "sums would be rounded otherwise than in numpy"
#endif
#ifdef _MSC_VER
#pragma fp_contract(off)
#endif

/* A px has so many sub-scanlines, each so many parts long; a curve is cut into so many pieces at most; a disc is not
drawn again where one of so many before stands. */
enum { SUBLINES = 15, BITS = 8, SUBPIXELS = 1 << BITS, WHOLE = SUBLINES * SUBPIXELS };
enum { MOST_PIECES = 512, LOOK_BACK = 64 };

static int refuse(const char *why) {
    PyErr_SetString(PyExc_ValueError, why);
    return 0;
}

/* ---- buffers of numbers ---- */

/* Whether a buffer holds float64, so many in each group. */
static int holds_numbers(const Py_buffer *buffer, Py_ssize_t group) {
    return (buffer->len % (group * (Py_ssize_t)sizeof(double)) == 0 && (uintptr_t)buffer->buf % sizeof(double) == 0)
        || refuse("a buffer does not hold float64 in groups that fit");
}

typedef struct {
    double *at;
    Py_ssize_t count, room;
} Numbers;

static int reserve(Numbers *numbers, Py_ssize_t more) {
    if (more <= numbers->room - numbers->count) return 1;
    if (more > PY_SSIZE_T_MAX / 64 - numbers->count) return PyErr_NoMemory(), 0;
    Py_ssize_t room = 2 * (numbers->count + more) + 64;
    double *at = realloc(numbers->at, (size_t)room * sizeof(double));
    if (!at) return PyErr_NoMemory(), 0;
    numbers->at = at, numbers->room = room;
    return 1;
}

static PyObject *given_back(Numbers *numbers, int sound) {
    PyObject *bytes = sound
        ? PyBytes_FromStringAndSize((char *)numbers->at, numbers->count * (Py_ssize_t)sizeof(double)) : NULL;
    free(numbers->at);
    return bytes;
}

static int add_point(Numbers *points, double x, double y) {
    if (!reserve(points, 2)) return 0;
    points->at[points->count++] = x, points->at[points->count++] = y;
    return 1;
}

/* The edges of a polygon of ``corners`` corners, x and y of each. */
static int add_polygon(Numbers *edges, const double *corners, Py_ssize_t count) {
    if (!reserve(edges, 4 * count)) return 0;
    for (Py_ssize_t i = 0; i < count; i++) {
        const double *here = corners + 2 * i, *next = corners + 2 * (i + 1 < count ? i + 1 : 0);
        double *edge = edges->at + edges->count;
        edge[0] = here[0], edge[1] = here[1], edge[2] = next[0], edge[3] = next[1];
        edges->count += 4;
    }
    return 1;
}

/* ---- outlines as polylines ---- */

/* The numbers of a step behind its letter; how many there are, or -1. */
static Py_ssize_t read_step(PyObject *step, Py_UCS4 *letter, double numbers[6]) {
    if (!PyTuple_Check(step)) return refuse("a step is no tuple"), -1;
    Py_ssize_t count = PyTuple_Size(step) - 1;
    PyObject *name = count >= 0 ? PyTuple_GetItem(step, 0) : NULL;
    if (!name || !PyUnicode_Check(name) || PyUnicode_GetLength(name) != 1 || (count != 0 && count != 2 && count != 6))
        return refuse("a step is a letter with no, two or six numbers"), -1;
    *letter = PyUnicode_ReadChar(name, 0);
    for (Py_ssize_t i = 0; i < count; i++) {
        numbers[i] = PyFloat_AsDouble(PyTuple_GetItem(step, i + 1));
        if (numbers[i] == -1 && PyErr_Occurred()) return -1;
        if (!isfinite(numbers[i])) return refuse("an outline runs to a place that is no number"), -1;
    }
    return count;
}

static double bend(double a, double b, double c) { return fabs((c - b) - (b - a)); }

static double larger(double a, double b) { return a > b ? a : b; }
static double smaller(double a, double b) { return a < b ? a : b; }

static int add_curve(Numbers *points, const double from[2], const double to[6], double tolerance) {
    double bent = larger(
        larger(bend(from[0], to[0], to[2]), bend(from[1], to[1], to[3])),
        larger(bend(to[0], to[2], to[4]), bend(to[1], to[3], to[5])));
    double pieces = smaller(larger(ceil(sqrt(bent * (0.75 / tolerance))), 1), MOST_PIECES);
    for (int piece = 1; piece <= (int)pieces; piece++) {
        double t = piece / pieces, s = 1 - t, at[2];
        for (int axis = 0; axis < 2; axis++)
            at[axis] = s * s * s * from[axis] + 3 * (s * s) * t * to[axis] + 3 * s * (t * t) * to[2 + axis]
                + t * t * t * to[4 + axis];
        if (!add_point(points, at[0], at[1])) return 0;
    }
    return 1;
}

static int add_number(PyObject *list, PyObject *number) {
    int sound = number && PyList_Append(list, number) == 0;
    Py_XDECREF(number);
    return sound;
}

static int follow(PyObject *steps, double tolerance, Numbers *points, PyObject *starts, PyObject *closed) {
    double here[2] = {0, 0}, start[2] = {0, 0}, to[6];
    int begins = 1;
    for (Py_ssize_t i = 0; i < PyTuple_Size(steps); i++) {
        Py_UCS4 letter;
        Py_ssize_t count = read_step(PyTuple_GetItem(steps, i), &letter, to);
        if (count < 0) return 0;
        if (count == 0) {
            if (!PyList_Size(closed)) return refuse("an outline is closed before it begins");
            if (PyList_SetItem(closed, PyList_Size(closed) - 1, PyBool_FromLong(1))) return 0;
            begins = 1;
            memcpy(here, start, sizeof here);
            continue;
        }
        if (begins || letter == 'M') {
            memcpy(start, letter == 'M' ? to + count - 2 : here, sizeof start);
            if (!add_number(starts, PyLong_FromSsize_t(points->count / 2)) || !add_number(closed, PyBool_FromLong(0))
                || !add_point(points, start[0], start[1]))
                return 0;
            begins = 0;
        }
        if (letter != 'M'
            && !(count == 6 ? add_curve(points, here, to, tolerance) : add_point(points, to[0], to[1])))
            return 0;
        memcpy(here, to + count - 2, sizeof here);
    }
    return 1;
}

static PyObject *flatten(PyObject *Py_UNUSED(module), PyObject *args) {
    PyObject *steps;
    double tolerance;
    if (!PyArg_ParseTuple(args, "O!d", &PyTuple_Type, &steps, &tolerance)) return NULL;
    Numbers points = {0};
    PyObject *starts = PyList_New(0), *closed = PyList_New(0);
    int sound = starts && closed && follow(steps, tolerance, &points, starts, closed);
    PyObject *bytes = given_back(&points, sound);
    PyObject *lines = bytes ? Py_BuildValue("OOO", bytes, starts, closed) : NULL;
    Py_XDECREF(bytes), Py_XDECREF(starts), Py_XDECREF(closed);
    return lines;
}

/* ---- polylines as edges ---- */

typedef struct {
    Py_buffer points;
    PyObject *starts, *closed;
    Py_ssize_t count, lines; /* of points, of polylines */
} Lines;

static int sound_lines(const Lines *lines) {
    return holds_numbers(&lines->points, 2)
        && (PyList_Size(lines->closed) == lines->lines || refuse("points and lines do not fit"));
}

/* Where polyline ``line`` begins and ends; 0 where that is outside the points. */
static int ends_of(const Lines *lines, Py_ssize_t line, Py_ssize_t *first, Py_ssize_t *after) {
    *first = PyLong_AsSsize_t(PyList_GetItem(lines->starts, line));
    *after = line + 1 < lines->lines ? PyLong_AsSsize_t(PyList_GetItem(lines->starts, line + 1)) : lines->count;
    if (PyErr_Occurred()) return 0;
    return (*first >= 0 && *first <= *after && *after <= lines->count) || refuse("a line begins outside its points");
}

static PyObject *fill_lines(PyObject *Py_UNUSED(module), PyObject *args) {
    Lines lines;
    if (!PyArg_ParseTuple(args, "y*O!O!", &lines.points, &PyList_Type, &lines.starts, &PyList_Type, &lines.closed))
        return NULL;
    lines.count = lines.points.len / 2 / (Py_ssize_t)sizeof(double), lines.lines = PyList_Size(lines.starts);
    Numbers edges = {0};
    int sound = sound_lines(&lines);
    for (Py_ssize_t line = 0; sound && line < lines.lines; line++) {
        Py_ssize_t first, after;
        sound = ends_of(&lines, line, &first, &after)
            && add_polygon(&edges, (double *)lines.points.buf + 2 * first, after - first);
    }
    PyBuffer_Release(&lines.points);
    return given_back(&edges, sound);
}

typedef struct {
    double radius, tolerance;
    int flat; /* ends without a disc */
    const double *disc;
    Py_ssize_t corners;
    Numbers centres; /* of the discs drawn so far */
} Pen;

static int add_slab(Numbers *edges, const double *from, const double along[2], const double half[2]) {
    double beside[2] = {-half[1], half[0]}, to[2] = {from[0] + along[0], from[1] + along[1]};
    double corners[8] = {
        from[0] - beside[0], from[1] - beside[1], to[0] - beside[0], to[1] - beside[1],
        to[0] + beside[0], to[1] + beside[1], from[0] + beside[0], from[1] + beside[1],
    };
    return add_polygon(edges, corners, 4);
}

/* The triangle outside the turn between two slabs, given half the width along both. */
static int add_wedge(Numbers *edges, const double *at, const double in[2], const double out[2]) {
    int clockwise = in[0] * -out[1] + in[1] * out[0] < 0;
    double first[2] = {in[1], -in[0]}, second[2] = {out[1], -out[0]};
    double corners[6] = {
        at[0], at[1],
        at[0] + (clockwise ? first[0] : -second[0]), at[1] + (clockwise ? first[1] : -second[1]),
        at[0] + (clockwise ? second[0] : -first[0]), at[1] + (clockwise ? second[1] : -first[1]),
    };
    return add_polygon(edges, corners, 3);
}

/* A disc, unless one of the last ones is at the same place. */
static int add_disc(Numbers *edges, Pen *pen, const double *at) {
    if (pen->radius <= 0) return 1;
    Numbers *drawn = &pen->centres;
    for (Py_ssize_t i = drawn->count - 2; i >= 0 && i >= drawn->count - 2 * LOOK_BACK; i -= 2)
        if (drawn->at[i] == at[0] && drawn->at[i + 1] == at[1]) return 1;
    if (!add_point(drawn, at[0], at[1]) || !reserve(edges, 4 * pen->corners)) return 0;
    for (Py_ssize_t i = 0; i < pen->corners; i++) {
        const double *here = pen->disc + 2 * i, *next = pen->disc + 2 * (i + 1 < pen->corners ? i + 1 : 0);
        double *edge = edges->at + edges->count;
        edge[0] = at[0] + here[0], edge[1] = at[1] + here[1], edge[2] = at[0] + next[0], edge[3] = at[1] + next[1];
        edges->count += 4;
    }
    return 1;
}

/* Whether a line hardly turns here, as all along a curve, so that only a wedge is missing between two slabs. */
static int gentle(const Pen *pen, const double in[2], const double out[2]) {
    double cosine = in[0] * out[0] + in[1] * out[1];
    return cosine > 0.5 && pen->radius * (1 - sqrt((1 + larger(cosine, -1)) / 2)) < pen->tolerance;
}

/* The course to the next point of a polyline and its direction, of length 1 or 0. */
static void course(const double *points, Py_ssize_t count, int closed, Py_ssize_t i, double along[2], double out[2]) {
    const double *here = points + 2 * i, *next = points + 2 * (i + 1 < count ? i + 1 : 0);
    int last = !closed && i + 1 == count;
    along[0] = last ? 0 : next[0] - here[0], along[1] = last ? 0 : next[1] - here[1];
    double length = hypot(along[0], along[1]);
    out[0] = length > 0 ? along[0] / length : 0, out[1] = length > 0 ? along[1] / length : 0;
}

static int stroke_line(Numbers *edges, Pen *pen, const double *points, Py_ssize_t count, int closed) {
    double along[2], in[2], out[2];
    if (!count) return 1;
    course(points, count, closed, count - 1, along, in);
    for (Py_ssize_t i = 0; i < count; i++) {
        const double *here = points + 2 * i;
        course(points, count, closed, i, along, out);
        double half[2] = {pen->radius * out[0], pen->radius * out[1]};
        double before[2] = {pen->radius * in[0], pen->radius * in[1]};
        /* a place without a stroke (a lone M) is not drawn, as in SVG */
        int joint = closed || !(count == 1 || (pen->flat && (i == 0 || i + 1 == count)));
        if ((out[0] != 0 || out[1] != 0) && !add_slab(edges, here, along, half)) return 0;
        if (joint && !(gentle(pen, in, out) ? add_wedge(edges, here, before, half) : add_disc(edges, pen, here)))
            return 0;
        in[0] = out[0], in[1] = out[1];
    }
    return 1;
}

static PyObject *stroke_lines(PyObject *Py_UNUSED(module), PyObject *args) {
    Lines lines;
    Pen pen = {0};
    Py_buffer disc;
    if (!PyArg_ParseTuple(args, "y*O!O!dpy*d", &lines.points, &PyList_Type, &lines.starts, &PyList_Type, &lines.closed,
                          &pen.radius, &pen.flat, &disc, &pen.tolerance))
        return NULL;
    lines.count = lines.points.len / 2 / (Py_ssize_t)sizeof(double), lines.lines = PyList_Size(lines.starts);
    pen.disc = disc.buf, pen.corners = disc.len / 2 / (Py_ssize_t)sizeof(double);
    Numbers edges = {0};
    int sound = sound_lines(&lines) && holds_numbers(&disc, 2);
    for (Py_ssize_t line = 0; sound && line < lines.lines; line++) {
        Py_ssize_t first, after;
        sound = ends_of(&lines, line, &first, &after)
            && stroke_line(&edges, &pen, (double *)lines.points.buf + 2 * first, after - first,
                           PyList_GetItem(lines.closed, line) == Py_True);
    }
    free(pen.centres.at);
    PyBuffer_Release(&lines.points), PyBuffer_Release(&disc);
    return given_back(&edges, sound);
}

/* From ems along a line of words to px: an em along the line, and where the line begins. */
typedef struct {
    double cosine, sine, right, down;
} Setting;

/* The edges of a letter, so many ems along its line. */
static int set_letter(Numbers *edges, PyObject *letter, PyObject *place, const Setting *setting) {
    char *bytes;
    Py_ssize_t size;
    if (!PyFloat_Check(place)) return refuse("a letter's place is no float that fits");
    if (PyBytes_AsStringAndSize(letter, &bytes, &size)) return 0;
    Py_ssize_t count = size / (Py_ssize_t)sizeof(double);
    if (size % (4 * (Py_ssize_t)sizeof(double))) return refuse("an edge has four numbers");
    if (!reserve(edges, count)) return 0;
    const double *from = (const double *)bytes;
    double along = PyFloat_AsDouble(place), *to = edges->at + edges->count;
    /* one axis after the other: gcc 12 for processors of today would fuse a difference beside a sum, told not to */
    for (Py_ssize_t i = 0; i < count; i += 2)
        to[i] = (from[i] + along) * setting->cosine - from[i + 1] * setting->sine + setting->right;
    for (Py_ssize_t i = 0; i < count; i += 2)
        to[i + 1] = (from[i] + along) * setting->sine + from[i + 1] * setting->cosine + setting->down;
    edges->count += count;
    return 1;
}

static PyObject *set_letters(PyObject *Py_UNUSED(module), PyObject *args) {
    PyObject *letters, *places;
    Setting setting;
    if (!PyArg_ParseTuple(args, "O!O!dddd", &PyList_Type, &letters, &PyList_Type, &places, &setting.cosine,
                          &setting.sine, &setting.right, &setting.down))
        return NULL;
    Numbers edges = {0};
    Py_ssize_t count = PyList_Size(letters);
    int sound = count == PyList_Size(places) || refuse("letters and places do not fit");
    for (Py_ssize_t i = 0; sound && i < count; i++)
        sound = set_letter(&edges, PyList_GetItem(letters, i), PyList_GetItem(places, i), &setting);
    return given_back(&edges, sound);
}

/* ---- coverage ---- */

typedef struct {
    double left, top, right, bottom;
} Area;

typedef struct {
    Py_ssize_t left, top, right, bottom;
} Window;

/* The part of ``window`` that ``area`` meets; 0 where that is no px. */
static int met(const Area *area, const Window *window, Window *frame) {
    double left = larger(floor(area->left), (double)window->left), top = larger(floor(area->top), (double)window->top);
    double right = smaller(ceil(area->right), (double)window->right);
    double bottom = smaller(ceil(area->bottom), (double)window->bottom);
    if (!(left < right && top < bottom)) return 0;
    *frame = (Window){(Py_ssize_t)left, (Py_ssize_t)top, (Py_ssize_t)right, (Py_ssize_t)bottom};
    return 1;
}

static PyObject *new_mask(const Window *frame, unsigned char **alpha) {
    Py_ssize_t width = frame->right - frame->left, height = frame->bottom - frame->top;
    if (height > PY_SSIZE_T_MAX / width) return PyErr_NoMemory();
    PyObject *bytes = PyBytes_FromStringAndSize(NULL, width * height);
    if (bytes) *alpha = (unsigned char *)PyBytes_AsString(bytes);
    return bytes;
}

static PyObject *placed(const Window *frame, PyObject *bytes) {
    if (!bytes) return NULL;
    Py_ssize_t width = frame->right - frame->left, height = frame->bottom - frame->top;
    return Py_BuildValue("nnnnN", frame->left, frame->top, width, height, bytes);
}

/* Whether four edges go round an upright rectangle: rules, boxes and stripes are nothing else. */
static int upright(const double edges[16], Area *area) {
    double xs[2] = {edges[0], edges[0]}, ys[2] = {edges[1], edges[1]};
    int corners = 0;
    for (int i = 0; i < 4; i++) {
        const double *edge = edges + 4 * i;
        if (edge[0] != edge[2] && edge[1] != edge[3]) return 0;
        if (edge[0] != xs[0]) {
            if (xs[1] != xs[0] && xs[1] != edge[0]) return 0;
            xs[1] = edge[0];
        }
        if (edge[1] != ys[0]) {
            if (ys[1] != ys[0] && ys[1] != edge[1]) return 0;
            ys[1] = edge[1];
        }
        corners |= 1 << (2 * (edge[0] != xs[0]) + (edge[1] != ys[0]));
    }
    if (corners != 15) return 0;
    *area = (Area){smaller(xs[0], xs[1]), smaller(ys[0], ys[1]), larger(xs[0], xs[1]), larger(ys[0], ys[1])};
    return 1;
}

/* How much of px ``px`` lies between ``start`` and ``stop``. */
static double share_of(double px, double start, double stop) {
    return smaller(larger(smaller(px + 1, stop) - larger(px, start), 0), 1);
}

static PyObject *cover_rectangle(const Area *area, const Window *window) {
    Window frame;
    unsigned char *alpha = NULL;
    if (!met(area, window, &frame)) Py_RETURN_NONE;
    PyObject *bytes = new_mask(&frame, &alpha);
    for (Py_ssize_t y = frame.top; bytes && y < frame.bottom; y++) {
        double down = share_of((double)y, area->top, area->bottom);
        for (Py_ssize_t x = frame.left; x < frame.right; x++)
            *alpha++ = (unsigned char)(down * share_of((double)x, area->left, area->right) * 255 + 0.5);
    }
    return placed(&frame, bytes);
}

/* The whole number nearest to ``x``, which is 0 or more; of two the even one. Compilers make a call of rint. */
static int64_t rounded(double x) {
    int64_t below = (int64_t)x;
    double rest = x - (double)below;
    return below + ((rest > 0.5) | ((rest == 0.5) & (int)(below & 1)));
}

/* ``x`` rounded up. */
static Py_ssize_t rounded_up(double x) {
    Py_ssize_t whole = (Py_ssize_t)x;
    return whole + ((double)whole < x);
}

/* The sub-scanlines that an edge crosses: the first of them, and how many (k lies at (k + 1/2) / 15 px). */
typedef struct {
    Py_ssize_t first, count;
} Crossed;

static Crossed crossed(const double edge[4], const Window *frame) {
    double start = edge[1] * SUBLINES - 0.5, stop = edge[3] * SUBLINES - 0.5;
    double top = (double)(frame->top * SUBLINES), bottom = (double)(frame->bottom * SUBLINES);
    Py_ssize_t first = rounded_up(smaller(larger(smaller(start, stop), top), bottom));
    return (Crossed){first, rounded_up(smaller(larger(larger(start, stop), top), bottom)) - first};
}

static int by_place(const void *one, const void *other) {
    int64_t a = *(const int64_t *)one, b = *(const int64_t *)other;
    return (a > b) - (a < b);
}

/* Sorts the crossings of one sub-scanline: mostly few, or nearly in order. */
static void sort(int64_t *crossings, Py_ssize_t count) {
    Py_ssize_t moves = 0;
    for (Py_ssize_t i = 1; i < count; i++) {
        int64_t one = crossings[i];
        Py_ssize_t at = i;
        for (; at > 0 && crossings[at - 1] > one; at--) crossings[at] = crossings[at - 1];
        crossings[at] = one;
        moves += i - at;
        if (moves > 32 * count) {
            qsort(crossings, (size_t)count, sizeof *crossings, by_place);
            return;
        }
    }
}

/* Adds what the sorted crossings of one sub-scanline cover to a row of px: to each px what is covered in it from there
on, in ``part``, and to all px behind it the whole, in ``whole``. */
static void add_subline(const int64_t *crossings, Py_ssize_t count, int32_t *whole, int32_t *part) {
    Py_ssize_t winding = 0;
    for (Py_ssize_t i = 0; i < count; i++) {
        Py_ssize_t before = winding;
        winding += crossings[i] & 1 ? 1 : -1;
        if ((before == 0) == (winding == 0)) continue;
        int sign = before == 0 ? 1 : -1;
        int64_t place = crossings[i] >> 1;
        whole[place >> BITS] += sign;
        part[place >> BITS] -= sign * (int32_t)(place & (SUBPIXELS - 1));
    }
}

/* The coverage from 0 to 255 of so many units of a px. */
static unsigned char alpha_of[WHOLE + 1];

static void fill_alpha_of(void) {
    for (int units = 0; units <= WHOLE; units++) alpha_of[units] = (unsigned char)(units * (255.0 / WHOLE) + 0.5);
}

static void finish_row(unsigned char *alpha, Py_ssize_t width, int32_t *whole, int32_t *part) {
    int64_t covered = 0;
    for (Py_ssize_t x = 0; x < width; x++) {
        covered += whole[x];
        int64_t units = covered * SUBPIXELS + part[x];
        alpha[x] = alpha_of[units < 0 ? 0 : units > WHOLE ? WHOLE : units];
    }
    memset(whole, 0, (size_t)(width + 2) * sizeof *whole), memset(part, 0, (size_t)(width + 2) * sizeof *part);
}

/* Where the edges cross the sub-scanlines of ``frame``, line behind line: twice the place in 256ths, and 1 more where
the edge runs down. Places beside the frame count as on its rim, so that the winding of every line still ends at 0.
``ends``: where each line's begin, and in the end where they end. */
static void collect(const double *edges, const Crossed *lines, Py_ssize_t count, const Window *frame,
                    int64_t *crossings, Py_ssize_t *ends) {
    double left = (double)frame->left, right = (double)(frame->right - frame->left) * SUBPIXELS;
    for (Py_ssize_t i = 0; i < count; i++) {
        const double *edge = edges + 4 * i;
        double start = edge[1] * SUBLINES - 0.5, slope = (edge[2] - edge[0]) / (edge[3] * SUBLINES - 0.5 - start);
        int64_t down = edge[3] > edge[1];
        Py_ssize_t *end = ends + (lines[i].first - frame->top * SUBLINES);
        for (Py_ssize_t line = lines[i].first; line < lines[i].first + lines[i].count; line++, end++) {
            double x = (((double)line - start) * slope + edge[0] - left) * SUBPIXELS;
            crossings[(*end)++] = rounded(smaller(larger(x, 0), right)) * 2 + down;
        }
    }
}

/* What ``cover_crossed`` needs room for. */
typedef struct {
    Crossed *lines;
    Py_ssize_t *ends;
    int32_t *sums;
    int64_t *crossings;
} Room;

/* Finds the lines that each edge crosses, and makes room for all crossings. */
static int prepared(Room *room, const double *edges, Py_ssize_t count, const Window *frame) {
    Py_ssize_t width = frame->right - frame->left, height = frame->bottom - frame->top, total = 0;
    room->lines = malloc((size_t)count * sizeof *room->lines);
    room->ends = calloc((size_t)height * SUBLINES + 1, sizeof *room->ends);
    room->sums = calloc(2 * (size_t)(width + 2), sizeof *room->sums);
    if (!room->lines || !room->ends || !room->sums) return 0;
    for (Py_ssize_t i = 0; i < count; i++) {
        Crossed own = room->lines[i] = crossed(edges + 4 * i, frame);
        Py_ssize_t *end = room->ends + (own.first - frame->top * SUBLINES);
        for (Py_ssize_t line = 0; line < own.count; line++) end[line]++;
    }
    for (Py_ssize_t line = 0; line < height * SUBLINES; line++) {
        Py_ssize_t own = room->ends[line];
        if (own > PY_SSIZE_T_MAX / 16 - total) return 0;
        room->ends[line] = total, total += own;
    }
    return (room->crossings = malloc(((size_t)total + 1) * sizeof *room->crossings)) != NULL;
}

static PyObject *cover_crossed(const double *edges, Py_ssize_t count, const Window *frame) {
    Py_ssize_t width = frame->right - frame->left, height = frame->bottom - frame->top, begin = 0;
    unsigned char *alpha = NULL;
    Room room = {0};
    PyObject *bytes = new_mask(frame, &alpha);
    if (bytes && !prepared(&room, edges, count, frame)) {
        Py_DECREF(bytes);
        bytes = PyErr_NoMemory();
    }
    if (bytes) collect(edges, room.lines, count, frame, room.crossings, room.ends);
    for (Py_ssize_t line = 0; bytes && line < height * SUBLINES; line++) {
        int64_t *own = room.crossings + begin;
        sort(own, room.ends[line] - begin);
        add_subline(own, room.ends[line] - begin, room.sums, room.sums + width + 2);
        begin = room.ends[line];
        if (line % SUBLINES == SUBLINES - 1)
            finish_row(alpha + line / SUBLINES * width, width, room.sums, room.sums + width + 2);
    }
    free(room.lines), free(room.ends), free(room.sums), free(room.crossings);
    return placed(frame, bytes);
}

/* The edges moved by (x, y), less those above and below ``window``: of a long slanted line, a low window meets only a
short piece. ``area``: their bounds. */
static Py_ssize_t moved(const double *edges, Py_ssize_t count, double x, double y, const Window *window, double *into,
                        Area *area) {
    *area = (Area){INFINITY, INFINITY, -INFINITY, -INFINITY};
    double *next = into;
    for (Py_ssize_t i = 0; i < count; i++) {
        const double *edge = edges + 4 * i;
        next[0] = edge[0] + x, next[1] = edge[1] + y, next[2] = edge[2] + x, next[3] = edge[3] + y;
        if (!(smaller(next[1], next[3]) < (double)window->bottom && larger(next[1], next[3]) > (double)window->top))
            continue;
        area->left = smaller(area->left, smaller(next[0], next[2]));
        area->right = larger(area->right, larger(next[0], next[2]));
        area->top = smaller(area->top, smaller(next[1], next[3]));
        area->bottom = larger(area->bottom, larger(next[1], next[3]));
        next += 4;
    }
    return (next - into) / 4;
}

static PyObject *cover_moved(const double *edges, Py_ssize_t count, double x, double y, const Window *window) {
    Area area;
    Window frame;
    if (count == 4) {
        double all[16];
        for (int i = 0; i < 16; i++) all[i] = edges[i] + (i % 2 ? y : x);
        if (upright(all, &area)) return cover_rectangle(&area, window);
    }
    double *own = malloc(((size_t)count * 4 + 1) * sizeof *own);
    if (!own) return PyErr_NoMemory();
    count = moved(edges, count, x, y, window, own, &area);
    PyObject *mask = NULL;
    if (count && met(&area, window, &frame))
        mask = cover_crossed(own, count, &frame);
    else
        mask = Py_NewRef(Py_None);
    free(own);
    return mask;
}

static PyObject *cover(PyObject *Py_UNUSED(module), PyObject *args) {
    Py_buffer edges;
    double x, y;
    Window window;
    if (!PyArg_ParseTuple(args, "y*dd(nnnn)", &edges, &x, &y, &window.left, &window.top, &window.right, &window.bottom))
        return NULL;
    PyObject *mask = NULL;
    /* no picture is wider, and its sub-scanlines can be counted */
    const Py_ssize_t most = PY_SSIZE_T_MAX / 32 < 1 << 30 ? PY_SSIZE_T_MAX / 32 : 1 << 30;
    int sound = holds_numbers(&edges, 4)
        && ((window.left >= -most && window.top >= -most && window.right <= most && window.bottom <= most)
            || refuse("a window lies outside every picture"));
    if (sound)
        mask = cover_moved(edges.buf, edges.len / 4 / (Py_ssize_t)sizeof(double), x, y, &window);
    PyBuffer_Release(&edges);
    return mask;
}

/* ---- masks over one another ---- */

/* ``value`` x ``of_255`` / 255, rounded. */
static unsigned char share(unsigned value, unsigned of_255) {
    unsigned product = value * of_255 + 128;
    return (unsigned char)((product + (product >> 8)) >> 8);
}

typedef struct {
    unsigned char *at;
    Py_ssize_t width, height;
} Sheet;

static int sheet_of(const Py_buffer *buffer, Py_ssize_t width, Sheet *sheet) {
    if (width < 1 || buffer->len % width) return refuse("px and width do not fit");
    *sheet = (Sheet){buffer->buf, width, buffer->len / width};
    return 1;
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

static PyObject *strew(PyObject *Py_UNUSED(module), PyObject *args) {
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

static PyObject *fade(PyObject *Py_UNUSED(module), PyObject *args) {
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

/* ---- masks on a canvas ---- */

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

static PyObject *lay_indexed(PyObject *Py_UNUSED(module), PyObject *args) {
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

static PyObject *lay_full(PyObject *Py_UNUSED(module), PyObject *args) {
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
static PyObject *packed(PyObject *Py_UNUSED(module), PyObject *args) {
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
static PyObject *fill(PyObject *Py_UNUSED(module), PyObject *args) {
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

static PyObject *overlap(PyObject *Py_UNUSED(module), PyObject *args) {
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

/* ---- the module ---- */

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
