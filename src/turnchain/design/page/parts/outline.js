// The outline of a piece as points: at each height in the direction of work, how wide it is.
import { html } from '../html.js';
import { pointAdded } from '../changes.js';
import { say } from '../words.js';
import { Field } from './fields.js';

export function Outline({ own, number, units, edit, problems }) {
  const path = ['piece', number, 'outline'];
  const points = own.outline;
  const changed = (at) => (typed) => [{ path: at, value: typed ?? 0 }];
  return html`<details class="outline-points"><summary>${say('outline')}</summary>
    <p class="soft">${say('outline.told')}</p>
    ${points.map((point, nth) => html`<div class="line">
      ${['height', 'width'].map((key, side) => html`<${Field} key=${`${nth}-${side}`} label=${say(`outline.${key}`)} unit=${units} path=${[...path, nth, side]}
        value=${point[side]} edit=${edit} change=${changed([...path, nth, side])} problems=${problems} />`)}
      ${points.length > 2 && html`<button type="button" class="quiet" aria-label=${say('outline.remove', { n: nth + 1 })}
        onClick=${() => edit([{ path: [...path, nth], value: null }], say('outline.undo'))}>×</button>`}
    </div>`)}
    <button type="button" onClick=${() => edit([(data) => pointAdded(data, number)], say('outline.undo'))}>${say('outline.add')}</button>
  </details>`;
}
