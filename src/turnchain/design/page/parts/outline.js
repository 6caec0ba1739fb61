// The outline of a piece as points: at each height in the direction of work, how wide it is, or how far each edge reaches.
import { html } from '../html.js';
import { pointAdded } from '../changes.js';
import { say } from '../words.js';
import { Choice, Field } from './fields.js';

const LINES = ['outline', 'left_outline', 'right_outline'];

function Points({ line, points, number, units, edit, problems }) {
  const path = ['piece', number, line];
  const changed = (at) => (typed) => [{ path: at, value: typed ?? 0 }];
  return html`<p class="soft">${say(`${line}.told`)}</p>
    ${points.map((point, nth) => html`<div class="line">
      ${['height', 'width'].map((key, side) => html`<${Field} key=${`${nth}-${side}`} label=${say(line === 'outline' ? `outline.${key}` : `outline.${key}.edge`)} unit=${units}
        path=${[...path, nth, side]} value=${point[side]} edit=${edit} change=${changed([...path, nth, side])} problems=${problems} />`)}
      ${point[2] !== undefined && html`<${Field} label=${say('outline.name')} text path=${[...path, nth, 2]} value=${point[2]} edit=${edit} problems=${problems} />`}
      ${points.length > 2 && html`<button type="button" class="quiet" aria-label=${say('outline.remove', { n: nth + 1 })}
        onClick=${() => edit([{ path: [...path, nth], value: null }], say('outline.undo'))}>×</button>`}
    </div>`)}
    <button type="button" onClick=${() => edit([(data) => pointAdded(data, number, line)], say('outline.undo'))}>${say('outline.add')}</button>`;
}

export function Outline({ own, number, units, edit, problems }) {
  const lines = LINES.filter((line) => Array.isArray(own[line]));
  return html`<details class="outline-points"><summary>${say('outline')}</summary>
    ${lines.map((line) => html`<${Points} key=${line} line=${line} points=${own[line]} number=${number} units=${units} edit=${edit} problems=${problems} />`)}
    ${own.outline && html`<p><${Choice} label=${say('outline.align')} hide=${false} path=${['piece', number, 'align']} value=${own.align || 'centre'} edit=${edit}
      options=${['centre', 'left', 'right'].map((one) => [one, say(`align.${one}`)])} /></p>`}
  </details>`;
}
