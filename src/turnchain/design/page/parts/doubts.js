// Card 5: problems, warnings, and other plans that came close.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';

export function Doubts({ reply, piece, edit }) {
  const [looked, setLooked] = useState([]);
  const problems = reply.problems || [];
  const doubts = (reply.doubts || []).filter((one) => !looked.includes(one));
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  return html`<section class="card doubts" aria-labelledby="card-doubts">
    <h2 id="card-doubts"><b>5</b> Warnings</h2>
    <div role="status">${problems.map((one) => html`<p class="problem">${one.words}</p>`)}
    ${doubts.map((one) => html`<div class="doubt"><p>${one}</p><button type="button" class="quiet" onClick=${() => setLooked([...looked, one])}>Hide</button></div>`)}
    ${!problems.length && !doubts.length && html`<p class="soft">None.</p>`}</div>
    ${planned && planned.also.length > 0 && html`<h3>Also possible</h3>
      ${planned.also.map((other) => html`<button type="button" class="also" onClick=${() => edit(other.edits, `${other.rows} rows`)}>
        <strong>${other.rows} rows, ${other.rowPlan}</strong>
        ${other.fit.map((fit) => html`<span>${fit.measure} ${fit.said.worked} <small class="soft">${fit.said.off}</small></span>`)}
      </button>`)}`}
  </section>`;
}
