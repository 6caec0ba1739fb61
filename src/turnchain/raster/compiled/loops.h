/* What the loops in C have in common: Python, buffers of numbers, and sheets of px. */

#ifndef TURNCHAIN_LOOPS_H
#define TURNCHAIN_LOOPS_H

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

static inline int refuse(const char *why) {
    PyErr_SetString(PyExc_ValueError, why);
    return 0;
}

/* Whether a buffer holds float64, so many in each group. */
static inline int holds_numbers(const Py_buffer *buffer, Py_ssize_t group) {
    return (buffer->len % (group * (Py_ssize_t)sizeof(double)) == 0 && (uintptr_t)buffer->buf % sizeof(double) == 0)
        || refuse("a buffer does not hold float64 in groups that fit");
}

typedef struct {
    double *at;
    Py_ssize_t count, room;
} Numbers;

static inline int reserve(Numbers *numbers, Py_ssize_t more) {
    if (more <= numbers->room - numbers->count) return 1;
    if (more > PY_SSIZE_T_MAX / 64 - numbers->count) return PyErr_NoMemory(), 0;
    Py_ssize_t room = 2 * (numbers->count + more) + 64;
    double *at = realloc(numbers->at, (size_t)room * sizeof(double));
    if (!at) return PyErr_NoMemory(), 0;
    numbers->at = at, numbers->room = room;
    return 1;
}

static inline PyObject *given_back(Numbers *numbers, int sound) {
    PyObject *bytes = sound
        ? PyBytes_FromStringAndSize((char *)numbers->at, numbers->count * (Py_ssize_t)sizeof(double)) : NULL;
    free(numbers->at);
    return bytes;
}

static inline double larger(double a, double b) { return a > b ? a : b; }
static inline double smaller(double a, double b) { return a < b ? a : b; }

/* A buffer of px, row behind row. */
typedef struct {
    unsigned char *at;
    Py_ssize_t width, height;
} Sheet;

static inline int sheet_of(const Py_buffer *buffer, Py_ssize_t width, Sheet *sheet) {
    if (width < 1 || buffer->len % width) return refuse("px and width do not fit");
    *sheet = (Sheet){buffer->buf, width, buffer->len / width};
    return 1;
}

/* The loops, as loops.py tells of them. */
PyObject *flatten(PyObject *module, PyObject *args);
PyObject *fill_lines(PyObject *module, PyObject *args);
PyObject *stroke_lines(PyObject *module, PyObject *args);
PyObject *set_letters(PyObject *module, PyObject *args);
PyObject *cover(PyObject *module, PyObject *args);
PyObject *strew(PyObject *module, PyObject *args);
PyObject *fade(PyObject *module, PyObject *args);
PyObject *lay_indexed(PyObject *module, PyObject *args);
PyObject *lay_full(PyObject *module, PyObject *args);
PyObject *packed(PyObject *module, PyObject *args);
PyObject *fill(PyObject *module, PyObject *args);
PyObject *overlap(PyObject *module, PyObject *args);

/* What ``cover`` looks up; called once, before it. */
void fill_alpha_of(void);

#endif
