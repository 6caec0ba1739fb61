// Card 2: whom it is for, and each measure: wanted, what it comes to, how far off.
import { html } from '../html.js';
import { Choice, Field } from './fields.js';

const NAMES = { width: 'Width', length: 'Length', shoulder: 'Shoulder', 'neck depth': 'Neck depth', 'neck width': 'Neck width' };
const SHAPES = [['slant', 'slanting neck'], ['round', 'round neck'], ['vee', 'V neck'], ['square', 'square neck']];

function wantedAt(data, path) {
  return path.reduce((here, key) => (here === undefined ? undefined : here[key]), data);
}

export function Sizes({ data, reply, piece, choose, edit, problems }) {
  const pieces = data.piece || [];
  const number = Math.max(0, pieces.findIndex((one) => one.name === piece));
  const own = pieces[number] || {};
  const units = data.units === 'in' ? 'in' : 'cm';
  const planned = (reply.pieces || [])[number];
  const table = (data.wearer || {}).table || '';
  const sizes = ((reply.tables || {})[table] || []).map((one) => [one, one]);
  const neck = own.neck
    ? [{ path: ['piece', number, 'neck'], value: null }]
    : [{ path: ['piece', number, 'neck'], value: { shoulder: 12, depth: 8, shape: 'slant' } }];
  const rows = planned ? planned.fit : [];
  return html`<section class="card" aria-labelledby="card-sizes">
    <h2 id="card-sizes"><b>2</b> Wearer and sizes</h2>
    <div class="line">
      <${Choice} label="Table of sizes" path=${['wearer', 'table']} value=${table} edit=${edit}
        options=${[['', 'own measures'], ['woman', 'woman'], ['child', 'child']]} />
      ${table && html`<${Choice} label="Size" path=${['wearer', 'size']} value=${(data.wearer || {}).size} edit=${edit}
        options=${[['', 'which size?'], ...sizes]} />`}
      <span class="field"><label for="piece" class="unseen">Piece</label>
        <select id="piece" value=${piece} onChange=${(event) => choose(event.target.value)}>
          ${pieces.map((one) => html`<option value=${one.name} selected=${one.name === piece}>${one.name}${one.count > 1 ? `, make ${one.count}` : ''}</option>`)}
        </select></span>
    </div>
    <table class="fit">
      <thead><tr><th>${piece}</th><th>you want, ${units}</th><th>worked</th><th>off</th></tr></thead>
      <tbody>${rows.map((fit) => html`<tr>
        <th>${NAMES[fit.measure] || fit.measure}</th>
        <td>${fit.path && wantedAt(data, fit.path) !== undefined
          ? html`<${Field} label=${`${NAMES[fit.measure]} wanted`} hide path=${fit.path} value=${wantedAt(data, fit.path)}
              edit=${edit} problems=${problems} />`
          : fit.said.wanted}</td>
        <td><strong>${fit.said.worked}</strong></td><td class="soft">${fit.said.off || 'exact'}</td>
      </tr>`)}</tbody>
    </table>
    ${!planned && ['width', 'length'].map((key) => own[key] !== undefined && html`<${Field} label=${NAMES[key]} unit=${units}
      path=${['piece', number, key]} value=${own[key]} edit=${edit} problems=${problems} />`)}
    ${own.width !== undefined && html`<div class="line">
      ${own.neck && html`<${Choice} label="Shape of the neck" path=${['piece', number, 'neck', 'shape']}
        value=${own.neck.shape || 'slant'} options=${SHAPES} edit=${edit} />`}
      <button type="button" class="quiet" onClick=${() => edit(neck, own.neck ? 'no neck' : 'a neck')}>${own.neck ? 'Remove the neck' : 'Add a neck'}</button>
      <${Choice} label="Worked" path=${['piece', number, 'worked']} value=${own.worked || 'upwards'} edit=${edit}
        options=${[['upwards', 'worked upwards'], ['sideways', 'worked sideways']]} />
    </div>`}
  </section>`;
}
