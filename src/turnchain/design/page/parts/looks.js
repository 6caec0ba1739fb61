// The same pattern otherwise: chart, cloth, ladder of rows, words, report, text.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { Picture } from './picture.js';

export const LOOKS = [
  ['chart', 'Chart'], ['short', 'Short chart'], ['preview', 'Fabric'], ['schematic', 'Schematic'], ['ladder', 'Row by row'],
  ['words', 'In words'], ['report', 'Report'], ['text', 'Pattern file'],
];

const LABELS = {
  chart: (piece) => `Chart of ${piece}`, short: (piece) => `Short chart of ${piece}`, preview: () => 'The fabric as worn', schematic: () => 'Schematic',
};

export function Looks({ view, setView, text, reply, data, piece, edit, setText, row, point, pale, waiting }) {
  return html`<section class="card looks" aria-label="Chart, fabric, words and report">
    <div class="line" role="tablist" aria-label="What to show">
      ${LOOKS.map(([key, words]) => html`<button type="button" role="tab" aria-selected=${view === key} onClick=${() => setView(key)}>${words}</button>`)}
      ${waiting && html`<span class="soft">Planning …</span>`}
    </div>
    ${view === 'ladder' ? html`<${Ladder} reply=${reply} data=${data} piece=${piece} edit=${edit} row=${row} point=${point} />`
      : view === 'text' ? html`<${Text} text=${text} setText=${setText} problems=${reply.problems || []} />`
        : view === 'words' || view === 'report' ? html`<pre class="reading" tabindex="0">${reply[view] || ''}</pre>`
          : html`<${Picture} scene=${reply[view]} label=${LABELS[view](piece)} pale=${pale} />`}
  </section>`;
}

/** Rows to choose and paint: the stripes are then written row by row. */
function Ladder({ reply, data, piece, edit, row, point }) {
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const [chosen, setChosen] = useState([]);
  const last = useRef(null);
  if (!planned) return html`<p class="waiting">The rows appear here when they can be planned.</p>`;
  const yarns = reply.yarn || [];
  const colours = Object.fromEntries(yarns.map((one) => [one.name, one]));
  const rows = planned.rows.filter((one, at, all) => all.findIndex((other) => other.number === one.number) === at);
  const choose = (number, more) => {
    const from = more && last.current ? Math.min(last.current, number) : number;
    const to = more && last.current ? Math.max(last.current, number) : number;
    if (!more) last.current = number;
    setChosen(Array.from({ length: to - from + 1 }, (_, at) => from + at));
    point(number);
  };
  const paint = (name) => {
    const all = rows.map((one) => (chosen.includes(one.number) ? name : one.yarn));
    const order = [];
    const counts = [];
    all.forEach((one) => {
      if (order[order.length - 1] === one) counts[counts.length - 1] += 1;
      else { order.push(one); counts.push(1); }
    });
    edit([{ path: ['stripes', 'kind'], value: null }, { path: ['stripes', 'order'], value: order },
      { path: ['stripes', 'rows'], value: counts }], `rows in ${name}`);
  };
  return html`<div class="ladder">
    <p class="soft">Choose rows (Shift for several), then a yarn. The stripes are then listed row by row.</p>
    <div class="line">${yarns.map((one) => html`<button type="button" class="chip" disabled=${!chosen.length} style=${{ background: one.colour, color: one.ink }} onClick=${() => paint(one.name)}>${one.letter} ${one.name}</button>`)}</div>
    <ol reversed>${[...rows].reverse().map((one) => html`<li value=${one.number}><button type="button" aria-pressed=${chosen.includes(one.number)}
      class=${one.number === row ? 'here' : ''} style=${{ background: (colours[one.yarn] || {}).colour, color: (colours[one.yarn] || {}).ink }}
      onClick=${(event) => choose(one.number, event.shiftKey)}>${one.number} ${(colours[one.yarn] || {}).letter || ''}</button></li>`)}</ol>
  </div>`;
}

function Text({ text, setText, problems }) {
  const [now, setNow] = useState(text);
  const timer = useRef(null);
  useEffect(() => setNow(text), [text]);
  const typed = (event) => {
    const words = event.target.value;
    setNow(words);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => setText(words), 500);
  };
  return html`<div class="text"><label for="text" class="unseen">The pattern file</label>
    <textarea id="text" spellcheck="false" value=${now} onInput=${typed}></textarea>
    ${problems.map((one) => html`<p class="problem">${one.line ? `Line ${one.line}: ` : ''}${one.words}</p>`)}</div>`;
}
