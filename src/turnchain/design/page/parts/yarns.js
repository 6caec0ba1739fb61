// Card 3: the yarns as balls of their colour, what they take and what is left.
import { html } from '../html.js';
import { useState } from '../vendor/hooks.js';
import { Field, problemAt } from './fields.js';
import { Photo } from './photo.js';

function Bar({ yarn }) {
  if (yarn.stock === null || yarn.stock === undefined || yarn.takes === null) return null;
  const share = Math.min(100, Math.max(0, ((yarn.stock - yarn.takes) / yarn.stock) * 100));
  return html`<svg class="bar" role="img" aria-label=${`${Math.round(Math.max(0, yarn.stock - yarn.takes))} g of ${Math.round(yarn.stock)} g left`}>
    <rect class="all" width="100%" height="6" rx="3" />
    <rect width=${`${share.toFixed(1)}%`} height="6" rx="3" fill=${yarn.colour} /></svg>`;
}

export function Yarns({ data, reply, edit, problems }) {
  const yarns = data.yarn || [];
  const [photo, setPhoto] = useState(false);
  const taken = (name) => (reply.yarn || []).find((one) => one.name === name) || {};
  const add = () => {
    const number = yarns.length;
    const edits = [{ path: ['yarn', number], value: { name: `Yarn ${number + 1}`, colour: '#8fa58a' } }];
    const order = (data.stripes || {}).order;
    if (order) edits.push({ path: ['stripes', 'order'], value: [...order, `Yarn ${number + 1}`] });
    else if (number) edits.push({ path: ['stripes', 'order'], value: [...yarns.map((one) => one.name), `Yarn ${number + 1}`] });
    edit(edits, 'a new yarn');
  };
  const away = (at, name) => {
    const edits = [{ path: ['yarn', at], value: null }];
    const order = (data.stripes || {}).order;
    if (order) edits.push({ path: ['stripes', 'order'], value: order.filter((one) => one !== name) });
    edit(edits, `${name} removed`);
  };
  return html`<section class="card" aria-labelledby="card-yarn">
    <h2 id="card-yarn"><b>3</b> Yarn</h2>
    ${yarns.map((yarn, at) => {
      const use = taken(yarn.name);
      const wrong = problemAt(problems, ['yarn', at, 'colour']);
      return html`<div class="yarn">
        <label class="ball"><span class="unseen">Colour of ${yarn.name}</span>
          <input type="color" value=${yarn.colour} onInput=${(event) => edit([{ path: ['yarn', at, 'colour'], value: event.target.value }], `colour of ${yarn.name}`)} />
        </label>
        <div class="grow"><strong>${use.letter || ''} ${yarn.name}</strong><${Bar} yarn=${use} />
          ${wrong && html`<span class="problem">${wrong.found}; ${wrong.allowed}</span>`}</div>
        <${Field} label="have" unit="g" path=${['yarn', at, 'stock']} value=${yarn.stock} edit=${edit} problems=${problems} />
        <span class="soft takes">${use.takes === null || use.takes === undefined ? '' : `takes ${Math.ceil(use.takes)} g`}</span>
        ${yarns.length > 1 && html`<button type="button" class="quiet" onClick=${() => away(at, yarn.name)} aria-label=${`Remove ${yarn.name}`}>×</button>`}
      </div>`;
    })}
    <div class="line"><button type="button" onClick=${add}>Add a yarn</button>
      ${yarns.length > 0 && html`<button type="button" onClick=${() => setPhoto(true)}>From a photo</button>`}</div>
    ${photo && html`<${Photo} yarns=${yarns} edit=${edit} close=${() => setPhoto(false)} />`}
  </section>`;
}
