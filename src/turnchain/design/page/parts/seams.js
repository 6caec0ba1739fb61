// Card 7: what is sewn to what, whether stripes should meet there, and which edges stay open.
import { html } from '../html.js';
import { wished } from '../changes.js';
import { say } from '../words.js';
import { Choice, Wrong } from './fields.js';

const WISHES = ['', 'meet', 'differ'];
const words = (key) => say(`open.${key.replace(' ', '_')}`);

function Seam({ one, write, edit }) {
  const { letter, told, joins, stripes } = one;
  return html`<li><strong>${letter}</strong>
    <div lang="en">${told.map((line) => html`<p>${line}</p>`)}</div>
    ${joins.length > 0 && html`<${Choice} label=${say('seams.stripes', { letter })} hide=${false} path=${['seams', letter]} value=${stripes} edit=${edit}
      options=${WISHES.map((key) => [key, say(`seams.${key || 'none'}`)])} change=${(key) => [(now) => wished(now, joins, write, key || null)]} />`}
  </li>`;
}

/** One that stays open: "neck, 62 cm", "armhole, 40 cm × 2". */
function Open({ kind, piece, length, times }) {
  return html`<li>${piece && html`<span>${piece}: </span>`}${words(kind)}, ${length}${times > 1 && ` × ${times}`}</li>`;
}

/** Whether there is anything to tell: of one piece that is sewn to nothing there is not. */
export const sewn = (reply) => Boolean(reply.seams);

export function Seams({ reply, edit, problems }) {
  if (!sewn(reply)) return null;
  const { sewn: all, write, notes, open } = reply.seams;
  return html`<section class="card seams" aria-labelledby="card-seams">
    <h2 id="card-seams"><b>7</b> ${say('seams')}</h2>
    ${all.length === 0 && html`<p class="soft">${say('seams.nothing')}</p>`}
    ${all.length > 0 && html`<ol>${all.map((one) => html`<${Seam} key=${one.letter} one=${one} write=${write} edit=${edit} />`)}</ol>`}
    ${notes.map((one) => html`<p class="soft" lang="en">${one}</p>`)}
    ${write.length > 0 && all.some((one) => one.joins.length) && html`<p class="soft">${say('seams.written')}</p>`}
    <${Wrong} problems=${problems} path=${['seam']} />
    ${open.length > 0 && html`<h3 id="seams-open">${say('seams.open')}</h3><ul aria-labelledby="seams-open">${open.map((one) => html`<${Open} ...${one} />`)}</ul>`}
  </section>`;
}
