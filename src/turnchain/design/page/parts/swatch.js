// Card 1: what was counted on the swatch, what it comes to, and whether the proportion is usual.
import { html } from '../html.js';
import { say } from '../words.js';
import { Fabric } from './fabric.js';
import { Field } from './fields.js';

const KEYS = ['clusters', 'width', 'rows', 'height'];

function readings(data) {
  const found = data.swatch;
  if (Array.isArray(found)) return found.map((one, at) => [['swatch', at], one]);
  return [[['swatch'], found || {}]];
}

function another(data) {
  const [[, first]] = readings(data);
  const copy = Object.fromEntries(KEYS.map((key) => [key, first[key] ?? 10]));
  if (Array.isArray(data.swatch)) return [{ path: ['swatch', data.swatch.length], value: copy }];
  return [{ path: ['swatch'], value: [data.swatch || copy, copy] }];
}

function Scale({ gauge }) {
  const [low, high] = gauge.usual;
  const end = Math.max(high * 1.5, gauge.proportion * 1.1);
  const share = (value) => `${((value / end) * 100).toFixed(1)}%`;
  const words = say('swatch.usual', { n: gauge.proportion.toFixed(2), low: low.toFixed(1), high: high.toFixed(1) });
  return html`<div>
    <svg class="scale" role="img" aria-label=${words} preserveAspectRatio="none">
      <rect class="all" width="100%" height="10" y="3" rx="5" />
      <rect class="usual" x=${share(low)} width=${share(high - low)} height="10" y="3" />
      <rect class="here" x=${share(gauge.proportion)} width="3" height="16" />
    </svg>
    <p class="soft">${words}</p>
    ${(gauge.proportion < low || gauge.proportion > high) && html`<p class="doubt">${say('swatch.odd')}</p>`}
  </div>`;
}

export function Swatch({ data, reply, edit, problems, fabricFile }) {
  const units = data.units === 'in' ? 'in' : 'cm';
  const all = readings(data);
  const labels = { clusters: say('swatch.clusters'), rows: say('swatch.rows'), width: say('swatch.in'), height: say('swatch.in') };
  const [path, first] = all[0];
  return html`<section class="card swatch" aria-labelledby="card-swatch">
    <h2 id="card-swatch"><b>1</b> ${say('swatch')}</h2>
    ${all.map(([at, one], nth) => html`<div class="counts">
      ${KEYS.map((key) => html`<${Field} label=${labels[key]} unit=${key === 'width' || key === 'height' ? units : ''} path=${[...at, key]}
        value=${one[key]} edit=${edit} problems=${problems} />`)}
      ${all.length > 1 && html`<button type="button" class="quiet" onClick=${() => edit([{ path: at, value: null }], say('swatch.remove.undo'))}
        aria-label=${say('swatch.remove', { n: nth + 1 })}>×</button>`}
    </div>`)}
    ${reply.gauge && html`<p>${say('swatch.comes', reply.gauge.said)}</p><${Scale} gauge=${reply.gauge} />`}
    <div class="line"><button type="button" onClick=${() => edit([another], say('swatch.again.undo'))}>${say('swatch.again')}</button>
      <${Field} label=${say('swatch.weigh')} unit="g" path=${[...path, 'weight']} value=${first.weight} edit=${edit} problems=${problems} /></div>
    <${Fabric} data=${data} reply=${reply} edit=${edit} problems=${problems} fabricFile=${fabricFile} />
  </section>`;
}
