// Values for every size, "48 (52, 57) cm", as the page shows and changes them: read as the program reads them. Which
// values of a pattern stand in brackets the program says, with its reply.

const BRACKETED = /^\s*([^()]+?)\s*((?:\([^()]*\)\s*)+)([^()0-9]*?)\s*$/;
const DASHES = ['-', '–', '—'];

/** The figures of a value in brackets in the order of the sizes, each with its unit; null for any other value. */
export function figures(value) {
  const found = typeof value === 'string' ? value.match(BRACKETED) : null;
  if (!found) return null;
  const [, first, rest, unit] = found;
  const mark = rest.includes(';') ? ';' : ',';
  const groups = [...rest.matchAll(/\(([^()]*)\)/g)].flatMap(([, group]) => group.split(mark).map((one) => one.trim()));
  return [first, ...groups].map((one) => (DASHES.includes(one) ? one : `${one} ${unit}`.trim()));
}

/** A figure as a file without sizes has it: a number, or a length in words; undefined for a dash. */
export function plainly(figure) {
  if (DASHES.includes(figure)) return undefined;
  return /^[0-9]{1,30}(\.[0-9]{1,30})?$/.test(figure) ? Number(figure) : figure;
}

/** The value of the size number `nth`; one without brackets holds for all. */
export function ofSize(value, nth) {
  const found = figures(value);
  return found ? plainly(found[nth]) : value;
}

/** Values of all sizes as they are written; one alone where they are all alike. */
export function inBrackets(values) {
  const all = values.map((one) => (one === undefined ? '-' : String(one)));
  if (all.every((one) => one === all[0])) return values[0];
  const mark = all.some((one) => one.includes(',')) ? '; ' : ', ';
  return `${all[0]} (${all.slice(1).join(mark)})`;
}

/** What `change` makes of each size's value of some `values`, of which each may stand in brackets. */
export function inEachSize(values, change) {
  const count = Math.max(1, ...values.map((one) => (figures(one) || ['']).length));
  return inBrackets(Array.from({ length: count }, (_, nth) => change(values.map((one) => ofSize(one, nth)), nth)));
}

/** The tables of a pattern as they are for its size number `nth`: `paths` lead to what stands in brackets. */
export function tablesOfSize(data, paths, nth) {
  const copies = new Map();
  const copied = (one) => {
    if (!copies.has(one)) copies.set(one, Array.isArray(one) ? [...one] : { ...one });
    return copies.get(one);
  };
  const made = copied(data);
  (paths || []).forEach((path) => {
    let [here, last] = [made, path[path.length - 1]];
    path.slice(0, -1).forEach((key) => { here[key] = copied(here[key]); copies.set(here[key], here[key]); here = here[key]; });
    const value = ofSize(here[last], nth);
    if (value !== undefined) here[last] = value;
    else if (!Array.isArray(here)) delete here[last];
  });
  return made;
}
