// The row pointed at: its words, and a close-up of its shaped edge.
import { html } from '../html.js';
import { Picture } from './picture.js';

export function RowBar({ reply, row, point, most, closeUp, toggle }) {
  const said = reply.row;
  const planned = (reply.pieces || []).find((one) => one.name === reply.piece);
  const colours = Object.fromEntries((reply.yarn || []).map((one) => [one.name, one]));
  const own = planned && planned.rows.find((one) => one.number === row);
  const yarn = own && colours[own.yarn];
  return html`<section class="card rowbar" aria-label=${`Row ${row}`}>
    <div class="line">
      <button type="button" aria-label="Previous row" onClick=${() => point(Math.max(1, row - 1))}>↓</button>
      <strong>Row ${row}</strong>
      <button type="button" aria-label="Next row" onClick=${() => point(Math.min(most, row + 1))}>↑</button>
      ${yarn && html`<span class="chip" style=${{ background: yarn.colour, color: yarn.ink }}>${yarn.letter} ${yarn.name}</span>`}
      <button type="button" class="quiet" aria-expanded=${closeUp} onClick=${toggle}>${closeUp ? 'Hide close-up' : 'Close-up'}</button>
    </div>
    <div aria-live="polite">${said && said.number === row && said.words.map((one) => html`<p>${one}</p>`)}</div>
    ${closeUp && reply['close-up'] && html`<div class="closeup"><${Picture} scene=${reply['close-up']} label=${`Close-up of row ${row}`} /></div>`}
  </section>`;
}
