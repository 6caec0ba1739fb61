// The outline of a piece as points: at each height in the direction of work, how wide it is.
import { html } from '../html.js';
import { say } from '../words.js';
import { Field } from './fields.js';

export function Outline({ own, number, units, edit, problems }) {
  const path = ['piece', number, 'outline'];
  const points = own.outline;
  const put = (value) => edit([{ path, value }], say('outline.undo'));
  const changed = (nth, side) => (typed) => {
    const value = points.map((one, at) => (at === nth ? one.map((old, which) => (which === side ? typed ?? 0 : old)) : one));
    return [{ path, value }];
  };
  const add = () => {
    const [last, before] = [points[points.length - 1], points[points.length - 2] || [0, 0]];
    const between = [0, 1].map((side) => (Number(last[side]) + Number(before[side])) / 2 || 0);
    put([...points.slice(0, -1), between, last]);
  };
  return html`<details class="outline-points"><summary>${say('outline')}</summary>
    <p class="soft">${say('outline.told')}</p>
    ${points.map((point, nth) => html`<div class="line">
      ${['height', 'width'].map((key, side) => html`<${Field} key=${`${nth}-${side}`} label=${say(`outline.${key}`)} unit=${units} path=${[...path, nth, side]}
        value=${point[side]} edit=${edit} change=${changed(nth, side)} problems=${problems} />`)}
      ${points.length > 2 && html`<button type="button" class="quiet" aria-label=${say('outline.remove', { n: nth + 1 })}
        onClick=${() => put(points.filter((_, at) => at !== nth))}>×</button>`}
    </div>`)}
    <button type="button" onClick=${add}>${say('outline.add')}</button>
  </details>`;
}
