// Card 6: borders along open edges, with their rows, buttonholes, ties and yarn, and what they come to.
import { html } from '../html.js';
import { say } from '../words.js';
import { Choice, Field, Wrong } from './fields.js';

const OPENINGS = ['all', 'neck', 'front edge', 'armhole', 'upper edge', 'lower edge', 'cuff'];
const STITCHES = ['sc', 'hdc', 'dc'];
const words = (key) => say(`open.${key.replace(' ', '_')}`);

/** Along which edges: one of the openings; what else the file names stays until one is chosen. */
function Along({ one, path, edit }) {
  const now = (one.edges || ['all']).join(', ');
  const options = [...OPENINGS.map((key) => [key, words(key)]), ...(OPENINGS.includes(now) ? [] : [[now, now]])];
  const change = (key) => [{ path: [...path, 'edges'], value: key === now ? one.edges : key === 'all' ? null : key }];
  return html`<${Choice} label=${say('edging.edges')} hide=${false} path=${[...path, 'edges']} value=${now} options=${options} edit=${edit} change=${change} />`;
}

/** How many stitches its rows have, and how long it is, band by band. */
function Comes({ bands }) {
  return bands.map(({ stitches, length, times }) => html`<p class="soft">${say('edging.comes', { n: stitches.join(', '), length })}${times > 1 && ` × ${times}`}</p>`);
}

function Edging({ one, nth, data, reply, units, edit, problems }) {
  const path = ['edging', nth];
  const numbers = { edit, problems };
  const yarns = [['', say('edging.yarn.usual')], ...(data.yarn || []).map(({ name }) => [name, name])];
  const bands = (reply.edgings || []).filter(({ number }) => number === nth);
  return html`<fieldset><legend>${say('edging.one', { n: nth + 1 })}</legend><div class="line">
    <${Along} one=${one} path=${path} edit=${edit} />
    <${Field} label=${say('edging.rows')} path=${[...path, 'rows']} value=${one.rows ?? 1} ...${numbers} />
    <${Choice} label=${say('edging.stitch')} hide=${false} path=${[...path, 'stitch']} value=${one.stitch || 'sc'} edit=${edit} options=${STITCHES.map((key) => [key, say(`stitch.${key}`)])} />
    <${Choice} label=${say('yarn')} hide=${false} path=${[...path, 'yarn']} value=${one.yarn || ''} edit=${edit} options=${yarns} />
    <${Field} label=${say('edging.buttonholes')} path=${[...path, 'buttonholes']} value=${one.buttonholes} ...${numbers} />
    ${one.strap === undefined && html`<${Field} label=${say('edging.tie')} unit=${units} path=${[...path, 'tie']} value=${one.tie} ...${numbers} />`}
    ${one.tie === undefined && html`<${Field} label=${say('edging.strap')} unit=${units} path=${[...path, 'strap']} value=${one.strap} ...${numbers} />`}
    <button type="button" class="quiet" aria-label=${say('remove', { what: say('edging.one', { n: nth + 1 }) })}
      onClick=${() => edit([{ path, value: null }], say('remove', { what: say('edging.one', { n: nth + 1 }) }))}>${say('piece.remove')}</button></div>
    <${Comes} bands=${bands} /><${Wrong} problems=${problems} path=${path} />
  </fieldset>`;
}

export function Edgings({ data, reply, edit, problems }) {
  const all = data.edging || [];
  const units = data.units === 'in' ? 'in' : 'cm';
  const add = () => edit([(now) => [{ path: ['edging', (now.edging || []).length], value: { rows: 3 } }]], say('edging.add'));
  return html`<section class="card edgings" aria-labelledby="card-edging">
    <h2 id="card-edging"><b>6</b> ${say('edging')}</h2>
    ${all.length === 0 && html`<p class="soft">${say('edging.told')}</p>`}
    ${all.map((one, nth) => html`<${Edging} key=${nth} one=${one} nth=${nth} data=${data} reply=${reply} units=${units} edit=${edit} problems=${problems} />`)}
    <button type="button" onClick=${add}>+ ${say('edging.add')}</button>
  </section>`;
}
