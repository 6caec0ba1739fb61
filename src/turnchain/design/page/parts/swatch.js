// Card 1: what was counted on the swatch, what it comes to, and whether the proportion is usual.
import { html } from '../html.js';
import { Field } from './fields.js';

function readings(data) {
  const found = data.swatch;
  if (Array.isArray(found)) return found.map((one, at) => [['swatch', at], one]);
  return [[['swatch'], found || {}]];
}

function Scale({ gauge }) {
  const [low, high] = gauge.usual;
  const end = Math.max(high * 1.5, gauge.proportion * 1.1);
  const share = (value) => `${((value / end) * 100).toFixed(1)}%`;
  const words = `A cluster is ${gauge.proportion.toFixed(2)} rows wide; ${low.toFixed(1)} to ${high.toFixed(1)} is usual.`;
  return html`<div>
    <svg class="scale" role="img" aria-label=${words} preserveAspectRatio="none">
      <rect class="all" width="100%" height="10" y="3" rx="5" />
      <rect class="usual" x=${share(low)} width=${share(high - low)} height="10" y="3" />
      <rect class="here" x=${share(gauge.proportion)} width="3" height="16" />
    </svg>
    <p class="soft">${words}</p>
  </div>`;
}

export function Swatch({ data, reply, edit, problems }) {
  const units = data.units === 'in' ? 'in' : 'cm';
  const all = readings(data);
  const again = () => {
    const copy = Object.fromEntries(['clusters', 'width', 'rows', 'height'].map((key) => [key, all[0][1][key] ?? 10]));
    if (Array.isArray(data.swatch)) edit([{ path: ['swatch', all.length], value: copy }], 'another count');
    else edit([{ path: ['swatch'], value: [data.swatch || copy, copy] }], 'another count');
  };
  return html`<section class="card" aria-labelledby="card-swatch">
    <h2 id="card-swatch"><b>1</b> Swatch</h2>
    ${all.map(([path, one], at) => html`<div class="counts">
      ${[['clusters', ''], ['width', units], ['rows', ''], ['height', units]].map(([key, unit]) => html`
        <${Field} label=${key === 'width' || key === 'height' ? 'in' : key} unit=${unit} path=${[...path, key]} value=${one[key]}
          edit=${edit} problems=${problems} />`)}
      ${all.length > 1 && html`<button type="button" class="quiet" onClick=${() => edit([{ path, value: null }], 'a count removed')}
        aria-label=${`Remove count ${at + 1}`}>×</button>`}
    </div>`)}
    ${reply.gauge && html`<p>A cluster is <strong>${reply.gauge.said.cluster}</strong> wide, a row
      <strong> ${reply.gauge.said.row}</strong> high.</p><${Scale} gauge=${reply.gauge} />`}
    <button type="button" onClick=${again}>Count again</button>
  </section>`;
}
