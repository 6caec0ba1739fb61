// How the fabric is built. It stands below the swatch that it was counted on; a fabric that can be chosen is chosen here.
import { html } from '../html.js';
import { say } from '../words.js';
import { Choice } from './fields.js';

const PLAIN = { '': { cluster: 3, gap: 1 } }; // until the program has told of the others

/** The numbers from `least` to `most`, and the one that is written. */
function numbers(least, most, value) {
  const all = Array.from({ length: most - least + 1 }, (_, nth) => least + nth);
  return (all.includes(value) || typeof value !== 'number' ? all : [value, ...all]).map((one) => [one, one]);
}

function Clusters({ cluster, gap, edit }) {
  const number = (key) => (value) => [{ path: ['fabric', key], value: Number(value) }];
  return html`<${Choice} label=${say('fabric.cluster')} hide=${false} path=${['fabric', 'cluster']} value=${cluster} edit=${edit}
      change=${number('cluster')} options=${numbers(gap === 0 ? 2 : 1, 5, cluster)} />
    <${Choice} label=${say('fabric.gap')} hide=${false} path=${['fabric', 'gap']} value=${gap} edit=${edit}
      change=${number('gap')} options=${numbers(cluster === 1 ? 1 : 0, 3, gap)} />`;
}

/** A fabric by its name; what was said of clusters is left out, since each has its own. */
function Kind({ kind, names, edit }) {
  const change = (name) => [{ path: ['fabric', 'kind'], value: name },
    ...['cluster', 'gap', 'stitch'].map((key) => ({ path: ['fabric', key], value: null }))];
  const all = names.includes(kind) ? names : [kind, ...names];
  return html`<${Choice} label=${say('fabric.kind')} hide=${false} path=${['fabric', 'kind']} value=${kind} edit=${edit}
    change=${change} options=${all.map((one) => [one, one])} />`;
}

export function Fabric({ data, reply, edit }) {
  const own = data.fabric || {};
  const fabrics = reply.fabrics || PLAIN;
  const kind = String(own.kind ?? '');
  const clusters = fabrics[kind]; // what the kind has where it is made of clusters
  return html`<div class="line" role="group" aria-label=${say('fabric')}>
    ${clusters ? html`<${Clusters} cluster=${own.cluster ?? clusters.cluster} gap=${own.gap ?? clusters.gap} edit=${edit} />`
    : html`<${Kind} kind=${kind} names=${Object.keys(fabrics).filter((one) => one)} edit=${edit} />`}
  </div>`;
}
