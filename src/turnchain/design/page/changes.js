// Changes of a pattern as edits: paths with values, made of its tables as they are written. Nothing here is shown.

import { figures, inEachSize, ofSize } from './brackets.js';

const inches = (data) => data.units === 'in';

/** A length in cm as the file's unit has it, in short numbers. */
function inUnits(data, cm) {
  return inches(data) ? Math.round(cm / 2.54) : cm;
}

export function pieceNames(data) {
  return (data.piece || []).map((one) => one.name);
}

/** `name`, or `name 2`, `name 3` ... where it is taken. */
export function freeName(names, name) {
  let made = name;
  for (let nth = 2; names.includes(made); nth += 1) made = `${name} ${nth}`;
  return made;
}

/** Parts as they are put in first, lengths in cm. */
const FIRST = {
  armhole: { depth: 20, width: 5 }, front: { side: 'left' }, taper: { width: 40 }, slit: 6, cap: {}, neck: { shoulder: 13, depth: 8, shape: 'slant' },
};

/** A part of a piece as it is put in first, lengths in the file's unit; a cap goes into the pieces that have an armhole. */
export function newPart(data, part) {
  const first = FIRST[part];
  if (part === 'cap') return { into: (data.piece || []).filter((one) => one.armhole).map((one) => one.name) };
  if (typeof first === 'number') return inUnits(data, first);
  return Object.fromEntries(Object.entries(first).map(([key, one]) => [key, typeof one === 'number' ? inUnits(data, one) : one]));
}

/** A new piece of a kind: "panel", "neck", "armholes", "sleeve", "triangle" or "half_triangle", as large as the first piece of the
    pattern where that fits. */
export function newPiece(data, kind, name) {
  const first = (data.piece || []).find((one) => one.width !== undefined) || {};
  const own = { name: freeName(pieceNames(data), name) };
  if (kind === 'sleeve') {
    own.count = 2;
    own.outline = [[0, inUnits(data, 28)], [inUnits(data, 38), inUnits(data, 40)]];
    return own;
  }
  if (kind === 'triangle' || kind === 'half_triangle') return { ...own, [kind]: { width: inUnits(data, 120), height: inUnits(data, 60) } };
  own.width = first.width ?? inUnits(data, 50);
  own.length = first.length ?? inUnits(data, 52);
  if (first.worked !== undefined) own.worked = first.worked;
  if (kind === 'neck' || kind === 'armholes') own.neck = newPart(data, 'neck');
  if (kind === 'armholes') Object.assign(own, { worked: 'upwards', armhole: newPart(data, 'armhole'), neck: { ...own.neck, shoulder: inUnits(data, 10) } });
  return own;
}

export function added(data, piece) {
  return [{ path: ['piece', (data.piece || []).length], value: piece }];
}

/** The mirror image of a piece. */
export function mirrorOf(data, number, name) {
  return added(data, { name: freeName(pieceNames(data), name), mirror: data.piece[number].name });
}

export function copied(data, number) {
  const one = data.piece[number];
  return added(data, { ...one, name: freeName(pieceNames(data), one.name.replace(/ \d+$/, '')) });
}

/** Half way between two lengths as they are written; the first where they stand in units of their own. */
function between([one, other]) {
  const [from, to] = [one, other].map((length) => String(length).match(/^\s*([0-9.]+)\s*([a-z]*)\s*$/));
  if (!from || !to || from[2] !== to[2]) return one;
  const half = (Number(from[1]) + Number(to[1])) / 2;
  return from[2] ? `${half} ${from[2]}` : half;
}

/** A point more in an outline of a piece, half way between the last two. */
export function pointAdded(data, number, line = 'outline') {
  const points = data.piece[number][line];
  const [before, last] = points.slice(-2);
  const made = [0, 1].map((side) => inEachSize([last[side], before[side]], between));
  return [{ path: ['piece', number, line], value: [...points.slice(0, -1), made, last] }];
}

/** A stripe's rows more or fewer, in the size number `nth`; rows alone hold for all sizes. */
export function higher(rows, by, nth) {
  if (!figures(rows)) return Math.max(1, rows + by);
  return inEachSize([rows], ([one], at) => (at === nth ? Math.max(1, one + by) : one));
}

/** Another draw of stripes that follow chance. */
export function drawnAnew(data) {
  return [{ path: ['stripes', 'seed'], value: inEachSize([(data.stripes || {}).seed ?? 1], ([seed]) => seed + 1) }];
}

/** The rows of a stripe as the size number `nth` has them. */
export const rowsOf = (rows, nth) => ofSize(rows, nth);

/** Every edge "piece.edge" of the seams that `test` holds for, as [path, edge]. */
function joins(data, name) {
  return (data.seam || []).flatMap((seam, nth) => (seam.join || [])
    .map((edge, side) => [['seam', nth, 'join', side], String(edge)])
    .filter(([, edge]) => edge.slice(0, edge.lastIndexOf('.')) === name));
}

/** The edges of edgings, changed by `change`, which gives what an edge is then called, or nothing where it goes. */
function edged(data, change) {
  return (data.edging || []).flatMap(({ edges = [] }, nth) => {
    const made = edges.map(change).filter((edge) => edge !== undefined);
    if (made.every((edge, at) => edge === edges[at]) && made.length === edges.length) return [];
    return [made.length ? { path: ['edging', nth, 'edges'], value: made } : { path: ['edging', nth], value: null }];
  }).reverse();
}

/** The yarn of edgings that are worked in `name`, another or none. */
const edgedIn = (data, name, other) => (data.edging || []).flatMap((one, nth) => (one.yarn === name ? [{ path: ['edging', nth, 'yarn'], value: other }] : []));
const isOf = (edge, name) => edge.slice(0, edge.lastIndexOf('.')) === name;

/** Every table of a key as [path, table], where a file may have one of them or several. */
const entries = (data, key) => [].concat(data[key] || []).map((one, nth) => [Array.isArray(data[key]) ? [key, nth] : [key], one]);

const references = (data, name) => ['piece.faces', 'piece.mirror', 'progress.piece', 'photo.place'].flatMap((place) => {
  const [key, last] = place.split('.');
  return entries(data, key).filter(([, one]) => one[last] === name).map(([path]) => [...path, last]);
});

/** The pieces that are begun on the first row of a piece. */
const begun = (data, name) => entries(data, 'piece').filter(([, one]) => one.begin_on === `${name}.first`).map(([path]) => [...path, 'begin_on']);

/** The caps that go into a piece, changed. */
function caps(data, name, change) {
  return (data.piece || []).flatMap((one, nth) => {
    const { into = [] } = one.cap || {};
    if (!into.includes(name)) return [];
    const made = change(into);
    return [made.length ? { path: ['piece', nth, 'cap', 'into'], value: made } : { path: ['piece', nth, 'cap'], value: null }];
  });
}

/** Renames a piece, and whatever names it. */
export function renamed(data, number, name) {
  const old = data.piece[number].name;
  return [
    { path: ['piece', number, 'name'], value: name },
    ...references(data, old).map((path) => ({ path, value: name })),
    ...begun(data, old).map((path) => ({ path, value: `${name}.first` })),
    ...caps(data, old, (into) => into.map((one) => (one === old ? name : one))),
    ...joins(data, old).map(([path, edge]) => ({ path, value: name + edge.slice(edge.lastIndexOf('.')) })),
    ...edged(data, (edge) => (isOf(edge, old) ? name + edge.slice(edge.lastIndexOf('.')) : edge)),
  ];
}

/** Takes a piece away, with the seams, the progress and the mirror images that name it. The last entries go first: numbers stay right. */
export function removed(data, number) {
  const { name } = data.piece[number];
  const gone = (key, test) => entries(data, key).filter(([, one]) => test(one)).map(([path]) => ({ path, value: null })).reverse();
  return [
    ...(data.piece || []).flatMap((one, nth) => (one.faces === name ? [{ path: ['piece', nth, 'faces'], value: null }] : [])),
    ...begun(data, name).map((path) => ({ path, value: null })),
    ...gone('seam', (seam) => (seam.join || []).some((edge) => String(edge).startsWith(`${name}.`))),
    ...edged(data, (edge) => (isOf(edge, name) ? undefined : edge)),
    ...gone('progress', (one) => one.piece === name),
    ...gone('photo', (one) => one.place === name).map(({ path }) => ({ path: [...path, 'place'], value: 'top' })),
    ...caps(data, name, (into) => into.filter((one) => one !== name)),
    ...[number, ...data.piece.flatMap((one, nth) => (one.mirror === name ? [nth] : []))].sort((one, other) => other - one).map((nth) => ({ path: ['piece', nth], value: null })),
  ];
}

/** Where stripes name yarns: the pattern's own and those of pieces. */
function stripesOf(data) {
  const own = data.stripes ? [[['stripes'], data.stripes]] : [];
  return [...own, ...(data.piece || []).flatMap((one, nth) => (one.stripes ? [[['piece', nth, 'stripes'], one.stripes]] : []))];
}

/** Kinds of row, as files name them. */
export const KINDS_OF_ROW = ['cluster', 'sc', 'hdc', 'dc', 'tr'];

/** The kinds of row that stripes give to a yarn. */
const ofKinds = (own, name) => KINDS_OF_ROW.filter((kind) => own[kind] === name);

/** Renames a yarn, and whatever names it. */
export function yarnRenamed(data, number, name) {
  const old = data.yarn[number].name;
  const swap = (list) => list.map((one) => (one === old ? name : one));
  return [
    { path: ['yarn', number, 'name'], value: name },
    ...edgedIn(data, old, name),
    ...stripesOf(data).flatMap(([path, own]) => [
      ...['order', 'use_up'].filter((key) => (own[key] || []).includes(old)).map((key) => ({ path: [...path, key], value: swap(own[key]) })),
      ...ofKinds(own, old).map((kind) => ({ path: [...path, kind], value: name })),
      ...(own.between === old ? [{ path: [...path, 'between'], value: name }] : []),
    ]),
  ];
}

/** A yarn more, at the end of the stripes' order. */
export function yarnAdded(data, name, colour) {
  const yarns = data.yarn || [];
  const names = yarns.map((one) => one.name);
  const own = freeName(names, name);
  const edits = [{ path: ['yarn', yarns.length], value: { name: own, colour } }];
  const { order } = data.stripes || {};
  if (order) edits.push({ path: ['stripes', 'order'], value: [...order, own] });
  else if (yarns.length) edits.push({ path: ['stripes', 'order'], value: [...names, own] });
  return edits;
}

/** A list without a name; null where nothing is left. */
function without(list, name) {
  const left = list.filter((one) => one !== name);
  return left.length ? left : null;
}

function withoutInOrder(path, own, gone, others) {
  if (!(own.order || []).some((one) => gone.includes(one))) return [];
  const left = own.order.map((one, nth) => [one, nth]).filter(([one]) => !gone.includes(one));
  const order = left.length ? left.map(([one]) => one) : others.slice(0, 1);
  const edits = [{ path: [...path, 'order'], value: order }];
  if (Array.isArray(own.rows) && own.rows.length === own.order.length && left.length) {
    edits.push({ path: [...path, 'rows'], value: left.map(([, nth]) => own.rows[nth]) });
  }
  return edits;
}

/** One stripes' table without a yarn; the yarn that then stands between the others is not one of them. */
function withoutYarn(path, own, name, others) {
  const isBetween = own.between === name;
  const between = isBetween ? others.find((one) => !(own.order || []).includes(one)) ?? others[0] ?? null : null;
  return [
    ...withoutInOrder(path, own, [name, between], others.filter((one) => one !== between)),
    ...((own.use_up || []).includes(name) ? [{ path: [...path, 'use_up'], value: without(own.use_up, name) }] : []),
    ...ofKinds(own, name).map((kind) => ({ path: [...path, kind], value: null })),
    ...(isBetween ? [{ path: [...path, 'between'], value: between }] : []),
  ];
}

/** Takes a yarn away, out of all stripes too; stripes left without a yarn take the first that is left. */
export function yarnRemoved(data, number) {
  const { name } = data.yarn[number];
  const others = data.yarn.filter((_, nth) => nth !== number).map((one) => one.name);
  return [
    ...stripesOf(data).flatMap(([path, own]) => withoutYarn(path, own, name, others)),
    ...edgedIn(data, name, null),
    { path: ['yarn', number], value: null },
  ];
}

/** Stripes of another kind: what that kind has not is left out, what it needs is put in. */
export function stripesOfKind(data, kind, kindsOf) {
  const own = data.stripes || {};
  const names = (data.yarn || []).map((one) => one.name);
  const edits = Object.entries(kindsOf || {})
    .filter(([key, kinds]) => own[key] !== undefined && !kinds.includes(kind))
    .map(([key]) => ({ path: ['stripes', key], value: null }));
  edits.push({ path: ['stripes', 'kind'], value: kind === 'list' ? null : kind });
  const order = kind === 'list' || kind === 'mirrored' ? own.order || names : [...new Set(own.order || names)];
  if (kind === 'between' && own.between === undefined) {
    const between = order[order.length - 1];
    const others = order.filter((one) => one !== between);
    edits.push({ path: ['stripes', 'between'], value: between }, { path: ['stripes', 'order'], value: others.length ? others : [between] });
  } else if (order.length) edits.push({ path: ['stripes', 'order'], value: order });
  if (['numbers', 'gradual', 'random', 'stash'].includes(kind) || kind === 'between') return edits;
  return own.rows === undefined ? [...edits, { path: ['stripes', 'rows'], value: 2 }] : edits;
}

/** Stripes listed one after the other: `rows` of each yarn of `order`, in every size. */
export function listed(order, rows) {
  const alike = rows.every((one) => one === rows[0]);
  const value = alike ? rows[0] || 1 : rows;
  return [{ path: ['stripes', 'order'], value: order, sizes: 'all' }, { path: ['stripes', 'rows'], value, sizes: 'all' }];
}

/** Stripes row by row: the yarn of every row. */
export function rowByRow(data, yarns, kindsOf) {
  const order = [];
  const rows = [];
  yarns.forEach((one) => {
    if (order[order.length - 1] === one) rows[rows.length - 1] += 1;
    else { order.push(one); rows.push(1); }
  });
  const other = Object.entries(kindsOf || {}).filter(([key, kinds]) => (data.stripes || {})[key] !== undefined && !kinds.includes('list'));
  return [...other.map(([key]) => ({ path: ['stripes', key], value: null })), { path: ['stripes', 'kind'], value: null }, ...listed(order, rows)];
}

/** What stripes should do at the seams of `joins` (null: no wish). Where the file has no seams, all those of `write` are
    put into it first, since then no others are assumed. */
export function wished(data, joins, write, stripes) {
  const there = (data.seam || []).length ? data.seam.map((one) => one.join || []) : write;
  const alike = (join, other) => [...join].sort().join() === [...other].sort().join();
  const fresh = (data.seam || []).length ? [] : write.map((join, nth) => ({ path: ['seam', nth], value: { join } }));
  const wishes = there.flatMap((join, nth) => (joins.some((one) => alike(one, join)) ? [{ path: ['seam', nth, 'stripes'], value: stripes }] : []));
  return [...fresh, ...wishes];
}
