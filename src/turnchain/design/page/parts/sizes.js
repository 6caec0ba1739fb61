// Card 2: whom it is for, the pieces, and each measure: wanted, what it comes to, how far off.
import { html } from '../html.js';
import { say, sayOr } from '../words.js';
import { Choice, Field } from './fields.js';
import { Outline } from './outline.js';
import { Pieces } from './pieces.js';
import { Shaping, Triangle } from './shaping.js';

const SHAPES = ['slant', 'round', 'vee', 'square'];

function wantedAt(data, path) {
  return path.reduce((here, key) => (here === undefined ? undefined : here[key]), data);
}

export function measureName(measure) {
  return sayOr(`measure.${measure}`, measure);
}

function Wearer({ data, reply, edit, problems, units }) {
  const own = data.wearer || {};
  const table = own.table || '';
  const sizes = ((reply.tables || {})[table] || []).map((one) => [one, one]);
  const chosen = (key) => [{ path: ['wearer', 'table'], value: key || null }, { path: ['wearer', 'size'], value: null, sizes: 'all' }];
  return html`<div class="line">
    <${Choice} label=${say('sizes.table')} path=${['wearer', 'table']} value=${table} edit=${edit} change=${chosen}
      options=${[['', say('sizes.own')], ['woman', say('sizes.woman')], ['child', say('sizes.child')]]} />
    ${table && html`<${Choice} label=${say('sizes.size')} path=${['wearer', 'size']} value=${own.size} edit=${edit}
      change=${(key) => [{ path: ['wearer', 'size'], value: key || null, sizes: 'one' }]} options=${[['', say('sizes.which')], ...sizes]} />`}
    <${Field} label=${say('sizes.head')} unit=${units} path=${['wearer', 'head']} value=${own.head} edit=${edit} problems=${problems} />
  </div>`;
}

const WANTED = [['width'], ['length'], ['neck', 'shoulder'], ['neck', 'depth']];

/** What is wanted of a piece and stands in no line of its table, as where its parts make an outline of it. */
function Wanted({ planned, own, number, units, edit, problems }) {
  const told = new Set(((planned && planned.fit) || []).filter((fit) => fit.path).map((fit) => fit.path.join('-')));
  const left = WANTED.map((keys) => ['piece', number, ...keys]).filter((path) => !told.has(path.join('-')) && wantedAt({ piece: { [number]: own } }, path) !== undefined);
  const name = (path) => measureName(path.slice(2).join(' ') === 'neck depth' ? 'neck depth' : path[path.length - 1]);
  return left.length > 0 && html`<div class="line">${left.map((path) => html`<${Field} key=${path.join('-')} label=${name(path)} unit=${units} path=${path}
    value=${wantedAt({ piece: { [number]: own } }, path)} edit=${edit} problems=${problems} />`)}</div>`;
}

function Measures({ planned, data, units, edit, problems }) {
  return planned && html`<table class="fit">
    <thead><tr><th>${planned.name}</th><th>${say('sizes.want', { unit: units })}</th><th>${say('sizes.worked')}</th><th>${say('sizes.off')}</th></tr></thead>
    <tbody>${planned.fit.map((fit) => html`<tr>
      <th>${measureName(fit.measure)}</th>
      <td>${fit.path && wantedAt(data, fit.path) !== undefined
        ? html`<${Field} key=${fit.path.join('-')} label=${say('sizes.wanted', { measure: measureName(fit.measure) })} hide path=${fit.path}
            value=${wantedAt(data, fit.path)} edit=${edit} problems=${problems} />`
        : fit.said.wanted}</td>
      <td><strong>${fit.said.worked}</strong></td><td class="soft">${fit.said.off || say('sizes.exact')}</td>
    </tr>`)}</tbody>
  </table>`;
}

/** Of a piece that follows another: that it does, and the way to the other. */
function Follows({ name, other, choose }) {
  return html`<p>${say('piece.follows', { name, other })} <button type="button" onClick=${() => choose(other)}>${say('piece.goto', { name: other })}</button></p>`;
}

function Shape({ own, number, data, edit }) {
  const path = ['piece', number, 'neck'];
  const inch = data.units === 'in';
  const neck = own.neck ? null : { shoulder: inch ? 5 : 13, depth: inch ? 3 : 8, shape: 'slant' };
  return html`<div class="line">
    ${own.neck && html`<${Choice} label=${say('neck.shape')} path=${[...path, 'shape']} value=${own.neck.shape || 'slant'}
      options=${SHAPES.map((one) => [one, say(`neck.${one}`)])} edit=${edit} />`}
    <${Choice} label=${say('piece.worked')} path=${['piece', number, 'worked']} value=${own.worked || 'upwards'} edit=${edit}
      options=${[['upwards', say('piece.upwards')], ['sideways', say('piece.sideways')]]} />
    <button type="button" class="quiet" onClick=${() => edit([{ path, value: neck }], say(own.neck ? 'neck.remove.undo' : 'neck.add.undo'))}>
      ${say(own.neck ? 'neck.remove' : 'neck.add')}</button>
  </div>`;
}

function Form({ planned, ...parts }) {
  const { own, data } = parts;
  const panel = own.width !== undefined;
  return html`<${Wanted} ...${parts} planned=${planned} />
    <${Triangle} ...${parts} />
    <${Measures} ...${parts} planned=${planned} />
    ${panel && html`<${Shape} ...${parts} />`}
    ${panel && data.piece && html`<${Shaping} ...${parts} />`}
    ${(own.outline || own.left_outline || own.right_outline) && html`<${Outline} ...${parts} />`}`;
}

export function Sizes({ data, reply, piece, pieces, choose, edit, problems }) {
  const shown = pieces.find((one) => one.name === piece) || { number: 0, follows: null };
  const { number, follows } = shown;
  const own = (data.piece || [])[number] || {};
  const units = data.units === 'in' ? 'in' : 'cm';
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const parts = { data, edit, problems, units, number, own };
  return html`<section class="card sizes" aria-labelledby="card-sizes">
    <h2 id="card-sizes"><b>2</b> ${say('sizes')}</h2>
    <${Wearer} ...${parts} reply=${reply} />
    <${Pieces} ...${parts} pieces=${pieces} piece=${piece} choose=${choose} />
    ${follows ? html`<${Follows} name=${piece} other=${follows} choose=${choose} />` : html`<${Form} ...${parts} planned=${planned} />`}
  </section>`;
}
