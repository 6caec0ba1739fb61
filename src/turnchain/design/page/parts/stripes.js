// Card 4: the rule of the stripes, their order, what the rule can be told, and a ribbon of all rows.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { KINDS_OF_ROW, drawnAnew, higher, listed, rowsOf, stripesOfKind } from '../changes.js';
import { say } from '../words.js';
import { Choice, Slider, Tick } from './fields.js';
import { Orders } from './orders.js';
import { BARE } from './thumb.js';

const KINDS = ['list', 'mirrored', 'between', 'numbers', 'gradual', 'random', 'stash'];
/** What each kind can be told by a slider: the least and the most of it, and what it is where the file has nothing. */
const SLIDERS = {
  between_rows: [1, 6, 1], every: [1, 4, 1], block: [2, 24, 8], least: [1, 12, null], most: [1, 16, null], apart: [1, 6, 1], carry: [0, 12, 4],
};
const USUAL = { least: { random: 1, stash: 2 }, most: { numbers: 8, random: 4, stash: 4 } };

function Ribbon({ piece, colours }) {
  const rows = piece.rows.filter((row, at, all) => at === 0 || row.number !== all[at - 1].number);
  return html`<svg class="ribbon" viewBox=${`0 0 ${rows.length} 10`} preserveAspectRatio="none" role="img"
    aria-label=${say('stripes.ribbon', { n: rows.length })}>
    ${rows.map((row, at) => html`<rect x=${at} width="1.02" height="10" fill=${colours[row.yarn] || BARE} />`)}
  </svg>`;
}

/** The yarn of all rows of one kind, where there are several. */
function OfKinds({ data, own, yarns, edit }) {
  const { rows = [], base = [], last = [], foundation = '' } = data.fabric || {};
  const there = new Set(['cluster', ...rows, ...base, ...last, foundation]);
  const kinds = KINDS_OF_ROW.filter((kind) => own[kind] !== undefined || (there.size > 1 && there.has(kind)));
  const shown = kinds.length > 1 || kinds.some((kind) => own[kind] !== undefined);
  return shown && html`<div class="line">${kinds.map((kind) => html`<${Choice} key=${kind} label=${say('stripes.of', { kind: say(`stitch.${kind}`) })} hide=${false}
    path=${['stripes', kind]} value=${own[kind] || ''} edit=${edit} options=${[['', say('stripes.turn')], ...yarns.map((one) => [one.name, one.name])]} />`)}</div>`;
}

function Rule({ own, kind, yarns, kindsOf, edit }) {
  const has = (key) => !kindsOf[key] || kindsOf[key].includes(kind);
  const path = (key) => ['stripes', key];
  const drawn = () => edit([drawnAnew], say('stripes.draw.undo'));
  return html`<div class="rule">
    ${has('begin') && html`<${Choice} label=${say('begin')} path=${path('begin')} value=${own.begin || 'edge'} edit=${edit}
      options=${['edge', 'middle'].map((one) => [one, say(`begin.${one}`)])} />`}
    ${has('run') && html`<${Choice} label=${say('run')} path=${path('run')} value=${own.run || 'rising'} edit=${edit}
      options=${['rising', 'falling', 'crossing', 'there and back'].map((one) => [one, say(`run.${one}`)])} />`}
    ${has('between') && html`<${Choice} label=${say('stripes.between')} hide=${false} path=${path('between')} value=${own.between} edit=${edit}
      options=${yarns.map((one) => [one.name, one.name])} />`}
    ${Object.entries(SLIDERS).filter(([key]) => has(key)).map(([key, [least, most, usual]]) => html`<${Slider} key=${`${kind}-${key}`} label=${say(`slide.${key}`)}
      path=${path(key)} value=${own[key] ?? usual ?? USUAL[key][kind]} least=${least} most=${most} edit=${edit} />`)}
    ${has('even') && html`<${Tick} label=${say('stripes.even')} path=${path('even')} value=${own.even} edit=${edit} />`}
    ${has('seed') && html`<button type="button" onClick=${drawn}>${say('stripes.draw')}</button>`}
  </div>`;
}

/** The stripes of the order, each with its rows where the kind has them, to be moved, made higher and taken away. */
function Order({ written, kind, yarns, colours, letters, nth: size, edit }) {
  const order = written.order || yarns.map((one) => one.name);
  const high = ['list', 'mirrored', 'between'].includes(kind);
  const rows = written.rows === undefined ? 1 : written.rows;
  const heights = order.map((_, at) => (Array.isArray(rows) ? rows[at % rows.length] : rows));
  const put = (names, counts, said) => edit(high ? listed(names, counts) : [{ path: ['stripes', 'order'], value: names }], said);
  const changed = (at, by) => put(order, heights.map((one, nth) => (nth === at ? higher(one, by, size) : one)), say('stripe.undo', { name: order[at] }));
  const moved = (at, to) => {
    if (to < 0 || to >= order.length) return;
    const names = [...order];
    const counts = [...heights];
    [names[at], names[to]] = [names[to], names[at]];
    [counts[at], counts[to]] = [counts[to], counts[at]];
    put(names, counts, say('stripe.order.undo'));
  };
  const away = (at) => put(order.filter((_, nth) => nth !== at), heights.filter((_, nth) => nth !== at), say('stripe.order.undo'));
  const button = (sign, key, name, act) => html`<button type="button" aria-label=${say(key, { name })} onClick=${act}>${sign}</button>`;
  return html`<ol class="order" tabindex="0" aria-label=${say('stripes')}>${order.map((name, at) => html`<li>
      <span class="chip" style=${{ background: colours[name], color: (letters[name] || {}).ink }}>${(letters[name] || {}).letter || '?'}${high ? ` ${rowsOf(heights[at], size)}` : ''}</span>
      ${high && button('−', 'stripe.fewer', name, () => changed(at, -1))}${high && button('+', 'stripe.more', name, () => changed(at, 1))}
      ${button('↑', 'stripe.earlier', name, () => moved(at, at - 1))}${button('↓', 'stripe.later', name, () => moved(at, at + 1))}
      ${order.length > 1 && button('×', 'stripe.remove', name, () => away(at))}
    </li>`)}</ol>
    <div class="line">${yarns.filter((yarn) => high || !order.includes(yarn.name)).map((yarn) => {
      const { letter = '', ink } = letters[yarn.name] || {};
      return html`<button type="button" class="chip" style=${{ background: yarn.colour, color: ink }} aria-label=${`+ ${letter}: ${say('stripe.add', { name: yarn.name })}`}
        onClick=${() => put([...order, yarn.name], [...heights, heights[0] || 1], say('stripe.undo', { name: yarn.name }))}>+ ${letter}</button>`;
    })}</div>`;
}

export function Stripes({ data, written, reply, piece, text, edit }) {
  const [laid, setLaid] = useState(false);
  const own = data.stripes || {};
  const kind = own.kind || 'list';
  const yarns = data.yarn || [];
  const kindsOf = reply.kindsOf || {};
  const colours = Object.fromEntries(yarns.map((one) => [one.name, one.colour]));
  const letters = Object.fromEntries((reply.yarn || []).map((one) => [one.name, one]));
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const nth = Math.max(0, (reply.sizes || []).indexOf(reply.size));
  const parts = { own, written: written.stripes || {}, nth, kind, yarns, kindsOf, colours, letters, edit };
  const ends = (reply.pieces || []).reduce((sum, one) => sum + one.ends * one.count, 0);
  return html`<section class="card stripes" aria-labelledby="card-stripes">
    <h2 id="card-stripes"><b>4</b> ${say('stripes')} ${ends > 0 && html`<small class="soft">${say('stripes.ends', { n: ends })}</small>`}</h2>
    ${yarns.length > 0 && html`<div class="line"><${Choice} label=${say('stripes.kind')} path=${['stripes', 'kind']} value=${kind} edit=${edit}
        change=${(to) => [(now) => stripesOfKind(now, to, kindsOf)]} options=${KINDS.map((one) => [one, say(`kind.${one}`)])} />
      ${yarns.length > 1 && html`<button type="button" onClick=${() => setLaid(true)}>${say('orders')}</button>`}</div>
      <${Order} ...${parts} />
      <${Rule} ...${parts} />
      <${OfKinds} data=${data} ...${parts} />`}
    ${planned && html`<${Ribbon} piece=${planned} colours=${colours} />`}
    ${laid && html`<${Orders} text=${text} reply=${reply} piece=${piece} colours=${colours} edit=${edit} close=${() => setLaid(false)} />`}
  </section>`;
}
