// Card 4: the rule of the stripes, their order, and a ribbon of all rows.
import { html } from '../html.js';
import { Choice } from './fields.js';

const KINDS = [
  ['list', 'over and over'], ['mirrored', 'mirrored'], ['random', 'by chance'], ['gradual', 'from yarn to yarn'],
  ['numbers', 'in growing numbers'], ['stash', 'what the stock allows'],
];

export function Ribbon({ piece, colours }) {
  const rows = piece.rows.filter((row, at, all) => at === 0 || row.number !== all[at - 1].number);
  return html`<svg class="ribbon" viewBox=${`0 0 ${rows.length} 10`} preserveAspectRatio="none" role="img"
    aria-label=${`The stripes of ${rows.length} rows`}>
    ${rows.map((row, at) => html`<rect x=${at} width="1.02" height="10" fill=${colours[row.yarn] || '#f4efe6'} />`)}
  </svg>`;
}

export function Stripes({ data, reply, piece, edit }) {
  const own = data.stripes || {};
  const yarns = data.yarn || [];
  const colours = Object.fromEntries(yarns.map((one) => [one.name, one.colour]));
  const letters = Object.fromEntries((reply.yarn || []).map((one) => [one.name, one]));
  const order = own.order || yarns.slice(0, 1).map((one) => one.name);
  const rows = own.rows === undefined ? 1 : own.rows;
  const each = (at) => (Array.isArray(rows) ? rows[at % rows.length] : rows);
  const heights = order.map((_, at) => each(at));
  const put = (names, counts, said) => edit([
    { path: ['stripes', 'order'], value: names },
    { path: ['stripes', 'rows'], value: counts.every((one) => one === counts[0]) ? counts[0] || 1 : counts },
  ], said);
  const changed = (at, by) => put(order, heights.map((one, nth) => (nth === at ? Math.max(1, one + by) : one)), 'stripe');
  const moved = (at, by) => {
    const to = at + by;
    if (to < 0 || to >= order.length) return;
    const names = [...order];
    const counts = [...heights];
    [names[at], names[to]] = [names[to], names[at]];
    [counts[at], counts[to]] = [counts[to], counts[at]];
    put(names, counts, 'order of stripes');
  };
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  return html`<section class="card" aria-labelledby="card-stripes">
    <h2 id="card-stripes"><b>4</b> Stripes ${planned && html`<small class="soft">${planned.ends} ends to weave in</small>`}</h2>
    <${Choice} label="How the stripes follow each other" path=${['stripes', 'kind']} value=${own.kind || 'list'} options=${KINDS} edit=${edit} />
    <ol class="order">${order.map((name, at) => html`<li>
      <span class="chip" style=${{ background: colours[name], color: (letters[name] || {}).ink }}>${(letters[name] || {}).letter || '?'} ${heights[at]}</span>
      <button type="button" aria-label=${`${name}: one row fewer`} onClick=${() => changed(at, -1)}>−</button>
      <button type="button" aria-label=${`${name}: one row more`} onClick=${() => changed(at, 1)}>+</button>
      <button type="button" aria-label=${`${name}: earlier`} onClick=${() => moved(at, -1)}>↑</button>
      <button type="button" aria-label=${`${name}: later`} onClick=${() => moved(at, 1)}>↓</button>
      ${order.length > 1 && html`<button type="button" aria-label=${`${name}: remove`} onClick=${() => put(order.filter((_, nth) => nth !== at), heights.filter((_, nth) => nth !== at), 'a stripe removed')}>×</button>`}
    </li>`)}</ol>
    <div class="line">${yarns.map((yarn) => html`<button type="button" class="chip" style=${{ background: yarn.colour, color: (letters[yarn.name] || {}).ink }}
      aria-label=${`+ ${(letters[yarn.name] || {}).letter || ''}: another stripe of ${yarn.name}`} onClick=${() => put([...order, yarn.name], [...heights, each(0)], `a stripe of ${yarn.name}`)}>+ ${(letters[yarn.name] || {}).letter || ''}</button>`)}</div>
    ${planned && html`<${Ribbon} piece=${planned} colours=${colours} />`}
  </section>`;
}
