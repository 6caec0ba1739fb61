// A garment to begin with: every measure is worked out from a size table or the wearer's own measures.
import { useEffect, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { measureName } from './sizes.js';
import { meant } from './fields.js';
import { say, sayOr } from '../words.js';

function Select({ id, label, value, options, change }) {
  return html`<span class="field"><label for=${id}>${label}</label><select id=${id} value=${value} onChange=${(event) => change(event.target.value)}>
    ${options.map(([key, words]) => html`<option value=${key} selected=${key === value}>${words}</option>`)}</select></span>`;
}

function Typed({ id, label, unit, value, change }) {
  return html`<span class="field"><label for=${id}>${label} <small>${unit}</small></label>
    <input id=${id} inputmode="decimal" autocomplete="off" value=${value} onInput=${(event) => change(event.target.value)} /></span>`;
}

/** The message that asks for the pattern file of a garment. */
function wish({ name, body }, table, size, own, units) {
  const typed = Object.entries(own).filter(([measure, one]) => body.includes(measure) && one.trim()).map(([measure, one]) => [measure, meant(one)]);
  return { garment: name, units, own: Object.fromEntries(typed), ...(table ? { table, sizes: size === 'all' ? [] : [size] } : {}) };
}

export function Garments({ open }) {
  const [all, setAll] = useState([]);
  const [name, setName] = useState('');
  const [table, setTable] = useState('');
  const [size, setSize] = useState('');
  const [units, setUnits] = useState('cm');
  const [own, setOwn] = useState({});
  const [wrong, setWrong] = useState('');
  useEffect(() => { ask({ id: 0, begin: {} }).then((found) => setAll(found.garments || []), () => {}); }, []);
  const one = all.find((garment) => garment.name === name);
  const tables = one ? Object.keys(one.tables) : [];
  const chosenTable = tables.includes(table) ? table : '';
  const sizes = chosenTable ? one.tables[chosenTable] : [];
  const chosenSize = sizes.includes(size) || (size === 'all' && sizes.length) ? size : sizes[Math.floor((sizes.length - 1) / 3)];
  const begin = async () => {
    const message = wish(one, chosenTable, chosenSize, own, units);
    if (chosenSize === 'all') message.sizes = sizes;
    const found = await ask({ id: 0, begin: message }).catch((error) => ({ problems: [{ words: error.message }] }));
    if (found.text) open(found.text); else setWrong(found.problems.map((problem) => problem.words.replace(/; $/, '')).join(' '));
  };
  return html`<div class="line"><${Select} id="garment" label=${say('garment')} value=${name} change=${(key) => { setName(key); setWrong(''); }}
      options=${[['', say('garment.choose')], ...all.map((garment) => [garment.name, sayOr(`garment.${garment.name}`, garment.name)])]} />
    ${one && tables.length > 0 && html`<${Select} id="garment-table" label=${say('sizes.table')} value=${chosenTable} change=${setTable}
      options=${[['', say('sizes.own')], ...tables.map((key) => [key, say(`sizes.${key}`)])]} />`}
    ${chosenTable && html`<${Select} id="garment-size" label=${say('sizes.size')} value=${chosenSize} change=${setSize}
      options=${[...sizes.map((key) => [key, key]), ['all', say('garment.all')]]} />`}
    ${one && html`<${Select} id="garment-units" label=${say('begin.units')} value=${units} change=${setUnits} options=${[['cm', 'cm'], ['in', 'in']]} />`}
  </div>
  ${one && html`<p class="soft" lang="en">${one.about}</p>
    ${!chosenTable && one.body.length > 0 && html`<div class="line" role="group" aria-label=${say('sizes.own')}>${one.body.map((measure) => html`
      <${Typed} key=${measure} id=${`body-${measure}`} label=${sayOr(`body.${measure}`, measureName(measure))} unit=${units} value=${own[measure] || ''} change=${(typed) => setOwn((now) => ({ ...now, [measure]: typed }))} />`)}</div>`}
    <p><button type="button" class="strong" onClick=${begin}>${say('garment.begin')}</button></p>`}
  ${wrong && html`<p class="problem" role="alert" lang="en">${wrong}</p>`}`;
}
