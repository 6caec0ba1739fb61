/* Outlines and strokes as straight edges.

In: steps of paths. Out: x and y of points, and edges: x and y of the start, x and y of the end of each. */

#include "loops.h"

/* A curve is cut into so many pieces at most; a disc is not drawn again where one of so many before stands. */
enum { MOST_PIECES = 512, LOOK_BACK = 64 };

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

PyObject *flatten(PyObject *Py_UNUSED(module), PyObject *args) {
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

PyObject *fill_lines(PyObject *Py_UNUSED(module), PyObject *args) {
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

PyObject *stroke_lines(PyObject *Py_UNUSED(module), PyObject *args) {
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

PyObject *set_letters(PyObject *Py_UNUSED(module), PyObject *args) {
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
