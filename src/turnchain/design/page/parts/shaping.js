// The parts of a piece: armhole, taper (upwards), slit, open front, cap; and triangles.
import { html } from '../html.js';
import { newPart } from '../changes.js';
import { say } from '../words.js';
import { Choice, Field, Wrong } from './fields.js';

/** What each part is told: lengths, and choices of which the first is usual. */
const PARTS = {
  armhole: { lengths: ['depth', 'width'], choices: { shape: ['square', 'curved'], edge: ['both', 'left', 'right'] } },
  front: { lengths: ['overlap'], choices: { side: ['left', 'right'] } },
  taper: { lengths: ['width', 'start', 'end'], choices: {} },
  cap: { lengths: ['top'], choices: {} },
};
const TRIANGLES = { triangle: {}, half_triangle: { straight: ['left', 'right'] } };

function Lengths({ keys, part, path, one, units, edit, problems }) {
  return keys.map((key) => html`<${Field} key=${key} label=${say(`part.${part}.${key}`)} unit=${units} path=${[...path, key]} value=${one[key]} edit=${edit} problems=${problems} />`);
}

function Choices({ choices, without = [], part, path, one, edit }) {
  return Object.entries(choices).filter(([key]) => one[key] !== undefined || !without.includes(key)).map(([key, ways]) => html`<${Choice} key=${key} label=${say(`part.${part}.${key}`)} hide=${false} path=${[...path, key]}
    value=${one[key] || ways[0]} edit=${edit} options=${ways.map((way) => [way, say(`way.${way}`)])} />`);
}

/** The pieces whose armhole a cap fits, each to be ticked. */
function Into({ data, one, path, edit }) {
  const into = one.into || [];
  const names = data.piece.filter((other) => other.armhole || into.includes(other.name)).map((other) => other.name);
  const ticked = (name) => (event) => edit([{ path: [...path, 'into'], value: event.target.checked ? [...into, name] : into.filter((other) => other !== name) }], say('part.cap'));
  return html`<span role="group" aria-label=${say('part.cap.into')}><span class="soft">${say('part.cap.into')}</span>
    ${names.map((name) => html`<label class="tick"><input type="checkbox" checked=${into.includes(name)} onChange=${ticked(name)} /> ${name}</label>`)}</span>`;
}

function Part({ part, path, one, data, units, edit, problems, away }) {
  const { lengths, choices } = PARTS[part];
  const parts = { part, path, one, units, edit, problems };
  return html`<fieldset><legend>${say(`part.${part}`)}</legend><div class="line">
    <${Choices} choices=${choices} without=${data.piece[path[1]].front ? ['edge'] : []} ...${parts} /><${Lengths} keys=${lengths} ...${parts} />
    ${part === 'cap' && html`<${Into} data=${data} ...${parts} />`}
    <button type="button" class="quiet" aria-label=${say('remove', { what: say(`part.${part}`) })} onClick=${away}>${say('piece.remove')}</button></div>
    <${Wrong} problems=${problems} path=${path} />
  </fieldset>`;
}

/** Every part that a piece has as [part, path, table]; tapers may be several. */
function partsOf(own, number) {
  return Object.keys(PARTS).filter((part) => own[part] !== undefined).flatMap((part) => {
    const path = ['piece', number, part];
    return Array.isArray(own[part]) ? own[part].map((one, nth) => [part, [...path, nth], one]) : [[part, path, own[part]]];
  });
}

/** Another taper after those there are, or the first of a part. */
function put(data, number, part) {
  const own = data.piece[number];
  const path = ['piece', number, part];
  if (part === 'taper' && own.taper !== undefined) return [{ path, value: [...[].concat(own.taper), newPart(data, part)] }];
  return [{ path, value: newPart(data, part) }];
}

export function Shaping({ data, own, number, units, edit, problems }) {
  const there = partsOf(own, number);
  const cap = data.piece.some((one) => one.armhole);
  const left = [...Object.keys(PARTS), 'slit'].filter((part) => (part === 'taper' || own[part] === undefined) && (part !== 'cap' || cap) && (part !== 'taper' || own.worked !== 'sideways'));
  const gone = (path, part) => () => {
    const several = typeof path[path.length - 1] === 'number' && own[part].length === 1;
    edit([{ path: several ? path.slice(0, -1) : path, value: null }], say('remove', { what: say(`part.${part}`) }));
  };
  return html`<details class="shaping" open=${there.length > 0 || own.slit !== undefined}><summary>${say('parts')}</summary>
    ${there.map(([part, path, one]) => html`<${Part} key=${path.join('-')} part=${part} path=${path} one=${one} data=${data} units=${units} edit=${edit} problems=${problems} away=${gone(path, part)} />`)}
    ${own.slit !== undefined && html`<div class="line"><${Field} label=${say('part.slit')} unit=${units} path=${['piece', number, 'slit']} value=${own.slit} edit=${edit} problems=${problems} /></div>`}
    <div class="line" role="group" aria-label=${say('parts.add')}>${left.map((part) => html`<button type="button" onClick=${() => edit([(now) => put(now, number, part)], say(`part.${part}`))}>+ ${say(`part.${part}`)}</button>`)}</div>
  </details>`;
}

/** The measures of a piece that is a triangle. */
export function Triangle({ own, number, units, edit, problems }) {
  return Object.entries(TRIANGLES).filter(([kind]) => own[kind]).map(([kind, choices]) => {
    const parts = { part: 'triangle', path: ['piece', number, kind], one: own[kind], units, edit, problems };
    return html`<div class="line" key=${kind}><${Lengths} keys=${['width', 'height']} ...${parts} /><${Choices} choices=${choices} ...${parts} /></div>`;
  });
}
