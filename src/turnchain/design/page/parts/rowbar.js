// The row pointed at: its words, and a close-up of its shaped edge.
import { html } from '../html.js';
import { say } from '../words.js';
import { Picture } from './picture.js';

export function RowBar({ reply, row, point, most, closeUp, toggle, colours }) {
  const said = reply.row;
  const yarns = Object.fromEntries((reply.yarn || []).map((one) => [one.name, one]));
  const planned = (reply.pieces || []).find((one) => one.name === reply.piece);
  const own = planned && planned.rows.find((one) => one.number === row);
  const yarn = own && yarns[own.yarn];
  return html`<section class="card rowbar" aria-label=${say('row', { n: row })}>
    <div class="line">
      <button type="button" aria-label=${say('row.previous')} onClick=${() => point(Math.max(1, row - 1))}>↓</button>
      <strong>${say('row', { n: row })}</strong>
      <button type="button" aria-label=${say('row.next')} onClick=${() => point(Math.min(most, row + 1))}>↑</button>
      ${yarn && html`<span class="chip" style=${{ background: colours[yarn.name], color: yarn.ink }}>${yarn.letter} ${yarn.name}</span>`}
      <button type="button" class="quiet" aria-expanded=${closeUp} onClick=${toggle}>${say(closeUp ? 'row.near.hide' : 'row.near')}</button>
    </div>
    <div aria-live="polite">${said && said.number === row && said.words.map((one) => html`<p>${one}</p>`)}</div>
    ${closeUp && reply['close-up'] && html`<div class="closeup"><${Picture} scene=${reply['close-up']} colours=${colours} label=${say('row.near.of', { n: row })} /></div>`}
  </section>`;
}
