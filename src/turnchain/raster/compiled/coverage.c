/* How much of each px edges cover: the scan converter.

In: edges and a window. Out: a mask, 0 to 255 for each px. */

#include "loops.h"

/* A px has so many sub-scanlines, each so many parts long. */
enum { SUBLINES = 15, BITS = 8, SUBPIXELS = 1 << BITS, WHOLE = SUBLINES * SUBPIXELS };

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

/* The whole number nearest to ``x``, which is from 0 to 2^50; of two the even one. So far up there are no numbers
between whole ones, and it is several times as quick as a call of rint. */
static int64_t rounded(double x) {
    const double far_up = 6755399441055744.0; /* 3 x 2^51 */
    return (int64_t)((x + far_up) - far_up);
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

void fill_alpha_of(void) {
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
        Py_ssize_t *first = room->ends + (own.first - frame->top * SUBLINES);
        first[0]++, first[own.count]--; /* so many edges more, and less, than on the line before */
    }
    for (Py_ssize_t line = 0, here = 0; line < height * SUBLINES; line++) {
        here += room->ends[line];
        if (here > PY_SSIZE_T_MAX / 16 - total) return 0;
        room->ends[line] = total, total += here;
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

PyObject *cover(PyObject *Py_UNUSED(module), PyObject *args) {
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
