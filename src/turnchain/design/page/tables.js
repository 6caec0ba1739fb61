// The tables of a pattern as the page can show them, whatever was written: what is of another kind than it should be is
// left out here, and told by the program as a problem.

import { figures } from './brackets.js';

const isTable = (value) => Boolean(value) && typeof value === 'object' && !Array.isArray(value);
const table = (value) => (isTable(value) ? value : undefined);
const tables = (value) => (Array.isArray(value) ? value.map((one) => (isTable(one) ? one : {})) : undefined);
const words = (value) => (Array.isArray(value) && value.every((one) => typeof one === 'string') ? value : undefined);
const isLength = (value) => typeof value === 'number' || typeof value === 'string';
const points = (value) => (Array.isArray(value) && value.length > 1
  && value.every((one) => Array.isArray(one) && one.length === 2 && one.every(isLength)) ? value : undefined);
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
const piece = (value) => named(kept(value, { neck: table, outline: points, left_outline: points, right_outline: points, stripes }));
const swatch = (value) => (Array.isArray(value) && value.length ? tables(value).map((one) => kept(one, { weighed: (two) => two })) : table(value));

/** `data` with what the page can show. */
export function shaped(data) {
  const seam = (tables(data.seam) || []).map((one) => ({ ...one, join: words(one.join) || [] }));
  return {
    ...kept(data, {
      piece: tables, yarn: tables, stripes, fabric: table, wearer: table, swatch, progress: (one) => tables(one) || table(one), photo: tables, seam: tables, allowance: table,
    }),
    piece: tables(data.piece) && tables(data.piece).map(piece),
    yarn: tables(data.yarn) && tables(data.yarn).map((one) => named(kept(one, {}))),
    seam,
  };
}
