// Rows of more than one kind, what the first row is worked into, and how the work is turned.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { say } from '../words.js';
import { Choice, Field, Wrong } from './fields.js';

const STITCHES = ['sc', 'hdc', 'dc', 'tr'];
const KEYS = ['rows', 'base', 'last', 'then', 'foundation', 'start', 'turning_chain', 'turning_chain_counts'];
const MOST = 12;

const named = (kinds) => kinds.map((one) => [one, say(`stitch.${one}`)]);

/** A list of kinds of row under one key, each to be changed or taken away. Where rows go round they begin with clusters. */
function List({ name, own, edit, problems }) {
  const round = name === 'rows';
  const list = own[name] || [];
  const label = say(`rows.${name}`);
  const change = (make) => (now) => {
    const made = make((now.fabric || {})[name] || []);
    const plain = round ? made.every((one) => one === 'cluster') : !made.length; // as if nothing were said
    const foundation = name === 'base' && STITCHES.includes((now.fabric || {}).foundation);
    return [{ path: ['fabric', name], value: plain ? null : made }, ...(foundation ? [{ path: ['fabric', 'foundation'], value: null }] : [])];
  };
  const more = (now) => (round && !now.length ? ['cluster', 'sc'] : [...now, 'sc']);
  return html`<div class="line row-list" role="group" aria-label=${label}><span class="soft">${label}</span>
    ${list.map((kind, nth) => (round && nth === 0 ? html`<span>${say('stitch.cluster')}</span>` : html`
      <${Choice} key=${nth} label=${say('rows.nth', { list: label, n: nth + 1 })} path=${['fabric', name, nth]} value=${kind} edit=${edit}
        change=${(value) => [change((now) => now.map((one, at) => (at === nth ? value : one)))]} options=${named(round ? ['cluster', ...STITCHES] : STITCHES)} />
      <button type="button" class="quiet" aria-label=${say('rows.remove', { list: label, n: nth + 1 })}
        onClick=${() => edit([change((now) => now.filter((_, at) => at !== nth))], label)}>×</button>`))}
    ${list.length < MOST && html`<button type="button" onClick=${() => edit([change(more)], label)} aria-label=${say('rows.add.to', { list: label })}>${say('rows.add')}</button>`}
    <${Wrong} problems=${problems} path=${['fabric', name]} />
  </div>`;
}

export function RowKinds({ own, rows, edit, problems }) {
  const [open] = useState(KEYS.some((key) => own[key] !== undefined));
  const parts = { own, edit, problems };
  const mixed = rows.mixed || ['rows', 'base', 'last'].some((key) => own[key] !== undefined);
  const solid = ['rows', 'base', 'last'].some((key) => own[key] !== undefined) || STITCHES.includes(own.foundation);
  const onto = (key) => [{ path: ['fabric', 'foundation'], value: key === 'chain' ? null : key },
    ...(STITCHES.includes(key) ? [{ path: ['fabric', 'base'], value: null }] : [])];
  const counts = (key) => [{ path: ['fabric', 'turning_chain_counts'], value: key === '' ? null : key === 'true' }];
  return html`<details open=${open}><summary>${say('rows')}</summary>
    ${mixed && html`<p class="soft">${say('rows.told')}</p>${['base', 'rows', 'last'].map((name) => html`<${List} key=${name} name=${name} ...${parts} />`)}`}
    ${mixed && solid && html`<${Choice} label=${say('rows.then')} hide=${false} path=${['fabric', 'then']} value=${own.then || ''} edit=${edit}
      options=${[['', say('rows.usual')], ...['staggered', 'stacked'].filter((one) => own.then === one || (rows.then || []).includes(one)).map((one) => [one, say(`then.${one}`)])]} />`}
    <div class="line">
      <${Choice} label=${say('rows.foundation')} hide=${false} path=${['fabric', 'foundation']} value=${own.foundation || 'chain'} edit=${edit} change=${onto}
        options=${['chain', ...(mixed || own.foundation === 'grouped' ? ['grouped'] : []), ...(mixed ? STITCHES : [])].map((one) => [one, say(STITCHES.includes(one) ? `stitch.${one}` : `foundation.${one}`)])} />
      <${Choice} label=${say('rows.start')} hide=${false} path=${['fabric', 'start']} value=${own.start || ''} edit=${edit}
        options=${['', 'flush', 'spaced'].map((one) => [one, say(one ? `start.${one}` : 'rows.nearest')])} />
      <${Field} label=${say('rows.turning')} path=${['fabric', 'turning_chain']} value=${own.turning_chain} edit=${edit} problems=${problems} />
      <${Choice} label=${say('rows.counts')} hide=${false} path=${['fabric', 'turning_chain_counts']} value=${String(own.turning_chain_counts ?? '')} edit=${edit}
        change=${counts} options=${['', 'true', 'false'].map((one) => [one, say(one ? `counts.${one}` : 'rows.usual')])} />
    </div>
    ${['then', 'foundation', 'start', 'turning_chain_counts'].map((key) => html`<${Wrong} problems=${problems} path=${['fabric', key]} />`)}
  </details>`;
}
