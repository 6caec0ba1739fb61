// How the fabric is built. It stands below the swatch that it was counted on; a fabric that can be chosen is chosen here.
import { useEffect, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { say } from '../words.js';
import { Dialog } from './dialog.js';
import { Choice, Field, Wrong } from './fields.js';
import { RowKinds } from './rowkinds.js';
import { Sample } from './sample.js';

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

/** Another fabric; what was said of clusters is left out, since each has its own. */
const taken = (name) => [{ path: ['fabric', 'kind'], value: name },
  ...['cluster', 'gap', 'stitch'].map((key) => ({ path: ['fabric', key], value: null }))];

function Kind({ kind, names, edit }) {
  const all = names.includes(kind) ? names : [kind, ...names];
  return html`<${Choice} label=${say('fabric.kind')} hide=${false} path=${['fabric', 'kind']} value=${kind} edit=${edit}
    change=${taken} options=${all.map((one) => [one, one])} />`;
}

const SMALL = 'title = "fabrics"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[[piece]]\nname = "piece"\nwidth = 20\nlength = 10\n';

/** A fabric of the maker's own: its file is read here where this browser keeps the pattern; else it lies beside that. */
function OwnFabric({ kind, fabricFile, edit, problems, close }) {
  const file = kind.endsWith('.toml') ? kind : '';
  const chosen = async (event) => {
    const [one] = event.target.files;
    if (!one) return;
    const name = one.name.endsWith('.toml') ? one.name : `${one.name}.toml`;
    fabricFile.add(name, await one.text());
    close();
    edit(taken(name), `${say('fabric.kind')} ${name}`);
  };
  return html`<h3>${say('fabric.own')}</h3><p class="soft">${say(fabricFile.given ? 'fabric.own.beside' : 'fabric.own.here')}</p>
    ${fabricFile.given ? html`<${Field} label=${say('fabric.own.name')} text path=${['fabric', 'kind']} value=${file} edit=${edit} change=${(name) => (name ? taken(name) : [])} problems=${problems} />`
    : html`<p><label class="file">${say('fabric.own.file')} <input type="file" accept=".toml" onChange=${chosen} /></label></p>`}`;
}

const WAYS = ['staggered', 'stacked', 'whole'];

/** Every fabric as a small picture, by where its stitches go. */
function Chooser({ kind, language, edit, close, ...own }) {
  const [samples, setSamples] = useState(null);
  useEffect(() => {
    let wanted = true;
    ask({ id: 0, text: SMALL, want: ['samples'], language }).then((found) => wanted && setSamples(found.samples || []), () => wanted && setSamples([]));
    return () => { wanted = false; };
  }, []);
  const take = (name) => {
    close();
    edit(taken(name), `${say('fabric.kind')} ${name}`);
  };
  const group = (way) => html`<h3>${say(`fabric.${way}`)}</h3><div class="sheet fabrics">
    ${samples.filter((one) => (WAYS.includes(one.edges) ? one.edges : WAYS[0]) === way).map((one) => html`<button type="button" aria-pressed=${one.name === kind} onClick=${() => take(one.name)}>
      <${Sample} scene=${one.scene} /><strong>${one.name}</strong><span class="soft">${one.words}</span></button>`)}</div>`;
  return html`<${Dialog} title=${say('fabric.choose')} close=${close} wide>
    ${samples === null ? html`<p class="waiting" role="status">${say('waiting')}</p>` : WAYS.map(group)}
    <${OwnFabric} kind=${kind} edit=${edit} close=${close} ...${own} />
  <//>`;
}

export function Fabric({ data, reply, edit, problems, fabricFile }) {
  const [choosing, setChoosing] = useState(false);
  const own = data.fabric || {};
  const fabrics = reply.fabrics || PLAIN;
  const kind = String(own.kind ?? '');
  const clusters = fabrics[kind]; // what the kind has where it is made of clusters
  return html`<div class="line" role="group" aria-label=${say('fabric')}>
    ${clusters ? html`<${Clusters} cluster=${own.cluster ?? clusters.cluster} gap=${own.gap ?? clusters.gap} edit=${edit} />`
    : html`<${Kind} kind=${kind} names=${Object.keys(fabrics).filter((one) => one)} edit=${edit} />`}
    <button type="button" onClick=${() => setChoosing(true)}>${say('fabric.choose')}</button>
    <${Wrong} problems=${problems} path=${['fabric', 'kind']} />
    ${choosing && html`<${Chooser} kind=${kind} language=${data.language || data.terms || 'US'} edit=${edit} problems=${problems} fabricFile=${fabricFile} close=${() => setChoosing(false)} />`}
  </div>
  <${RowKinds} own=${own} rows=${reply.rows || {}} edit=${edit} problems=${problems} />`;
}
