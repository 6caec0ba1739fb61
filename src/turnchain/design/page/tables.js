// The tables of a pattern as the page can show them, whatever was written: what is of another kind than it should be is
// left out here, and told by the program as a problem.

import { figures } from './brackets.js';

const isTable = (value) => Boolean(value) && typeof value === 'object' && !Array.isArray(value);
const table = (value) => (isTable(value) ? value : undefined);
const tables = (value) => (Array.isArray(value) ? value.map((one) => (isTable(one) ? one : {})) : undefined);
const words = (value) => (Array.isArray(value) && value.every((one) => typeof one === 'string') ? value : undefined);
const isLength = (value) => typeof value === 'number' || typeof value === 'string';
const points = (value) => (Array.isArray(value) && value.length > 1
  && value.every((one) => Array.isArray(one) && [2, 3].includes(one.length) && one.slice(0, 2).every(isLength) && (one.length < 3 || typeof one[2] === 'string')) ? value : undefined);
const plain = (value) => (isLength(value) || typeof value === 'boolean' ? value : undefined);

function rows(value) {
  const whole = (one) => (Number.isInteger(one) && one > 0) || figures(one) !== null;
  return whole(value) || (Array.isArray(value) && value.length && value.every(whole)) ? value : undefined;
}

function kept(value, keys) {
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, (keys[key] || plain)(one)]).filter(([, one]) => one !== undefined));
}

const stripes = (value) => (isTable(value) ? kept(value, { order: words, use_up: words, numbers: (one) => one, rows }) : undefined);
const named = (value) => ({ ...value, name: typeof value.name === 'string' ? value.name : undefined });
const flat = (value) => (isTable(value) ? kept(value, {}) : undefined);
const several = (value) => (Array.isArray(value) ? value.filter(isTable).map(flat) : flat(value)); // one table, or a list of them
const cap = (value) => (isTable(value) ? kept(value, { into: words }) : undefined);
const piece = (value) => named(kept(value, {
  neck: table, outline: points, left_outline: points, right_outline: points, stripes, armhole: flat, front: flat, taper: several, cap, triangle: flat, half_triangle: flat,
}));
const fabric = (value) => (isTable(value) ? kept(value, { rows: words, base: words, last: words }) : undefined);
const swatch = (value) => (Array.isArray(value) && value.length ? tables(value).map((one) => kept(one, { weighed: (two) => two })) : table(value));

/** `data` with what the page can show. */
export function shaped(data) {
  const seam = (tables(data.seam) || []).map((one) => ({ ...one, join: words(one.join) || [] }));
  const edging = (tables(data.edging) || []).map((one) => kept(one, { edges: (edges) => [].concat(edges).map(String) }));
  return {
    ...kept(data, {
      piece: tables, yarn: tables, stripes, fabric, wearer: table, swatch, progress: (one) => tables(one) || table(one), photo: tables, seam: tables, edging: tables, allowance: table,
    }),
    piece: tables(data.piece) && tables(data.piece).map(piece),
    yarn: tables(data.yarn) && tables(data.yarn).map((one) => named(kept(one, {}))),
    seam,
    edging,
  };
}

/** The pieces to choose from as {name, number}, with the number in the file: one that is made as a mirrored pair is two.
    `follows` names the piece whose mirror image one is. `planned` are the pieces of a reply. */
export function piecesShown(data, planned) {
  const all = data.piece || [];
  return all.flatMap((one, number) => {
    const first = one.mirrored && planned.find((made) => made.number === number && made.name.endsWith(` ${one.name}`));
    const second = first && planned.find((made) => made.number >= all.length && made.follows === first.name);
    if (!second) return [{ name: one.name, number, follows: typeof one.mirror === 'string' ? one.mirror : null }];
    return [{ name: first.name, number, follows: null }, { name: second.name, number, follows: first.name }];
  });
}
