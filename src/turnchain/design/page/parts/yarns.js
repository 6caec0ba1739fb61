// Card 3: the yarns as balls of their colour, what they take and what is left.
import { html } from '../html.js';
import { useState } from '../vendor/hooks.js';
import { yarnAdded, yarnRemoved, yarnRenamed } from '../changes.js';
import { say } from '../words.js';
import { Field, problemAt } from './fields.js';
import { Photo } from './photo.js';

const COLOURS = ['#b5533c', '#e3d5b8', '#48676b', '#c99a3d', '#6d7f4f', '#8c6a86', '#d98c73', '#3d4658']; // of new yarns, in turn

export function newColour(data) {
  return COLOURS[(data.yarn || []).length % COLOURS.length];
}

export function addYarn(colour) {
  return (data) => yarnAdded(data, say('yarn.new', { n: (data.yarn || []).length + 1 }), colour || newColour(data));
}

function Bar({ yarn }) {
  if (yarn.stock === null || yarn.stock === undefined || yarn.takes === null) return null;
  const left = yarn.stock - yarn.takes;
  const share = Math.min(100, Math.max(0, (left / yarn.stock) * 100));
  const words = left < 0 ? say('yarn.out', { n: Math.ceil(-left) }) : say('yarn.left', { left: Math.floor(left), stock: Math.round(yarn.stock) });
  return html`<svg class="bar" role="img" aria-label=${words}>
    <rect class="all" width="100%" height="6" rx="3" />
    <rect width=${`${share.toFixed(1)}%`} height="6" rx="3" fill=${yarn.colour} /></svg>`;
}

function Takes({ yarn }) {
  if (yarn.takes === null || yarn.takes === undefined) return null;
  const left = yarn.stock === null || yarn.stock === undefined ? null : yarn.stock - yarn.takes;
  return html`<span class="takes">${left !== null && html`<strong class=${left < 0 ? 'problem' : ''}>${left < 0
    ? say('yarn.out', { n: Math.ceil(-left) }) : say('yarn.left.short', { n: Math.floor(left) })}</strong>`}
    <span class="soft">${say('yarn.takes', { n: Math.ceil(yarn.takes) })}</span></span>`;
}

export function Yarns({ data, reply, edit, recolour, problems }) {
  const yarns = data.yarn || [];
  const [photo, setPhoto] = useState(false);
  const taken = (name) => (reply.yarn || []).find((one) => one.name === name) || {};
  const rename = (at) => (typed) => {
    const name = String(typed ?? '').trim();
    if (!name || yarns.some((one) => one.name === name)) return [{ path: ['yarn', at, 'name'], value: name || yarns[at].name }];
    return [(now) => yarnRenamed(now, at, name)];
  };
  return html`<section class="card yarns" aria-labelledby="card-yarn">
    <h2 id="card-yarn"><b>3</b> ${say('yarn')}</h2>
    ${yarns.map((yarn, at) => {
      const use = taken(yarn.name);
      const wrong = problemAt(problems, ['yarn', at, 'colour']);
      return html`<div class="yarn">
        <label class="ball"><span class="unseen">${say('yarn.colour', { name: yarn.name })}</span>
          <input type="color" value=${yarn.colour} onInput=${(event) => recolour(at, event.target.value)} />
        </label>
        <span class="name"><b>${use.letter || ''}</b><${Field} key=${`name-${at}`} hide text label=${say('yarn.name', { letter: use.letter || at + 1 })}
          path=${['yarn', at, 'name']} value=${yarn.name} edit=${edit} change=${rename(at)} problems=${problems} /></span>
        <${Field} key=${`stock-${at}`} row label=${say('yarn.have')} unit="g" path=${['yarn', at, 'stock']} value=${yarn.stock} edit=${edit} problems=${problems} />
        ${yarns.length > 1 ? html`<button type="button" class="quiet" aria-label=${say('remove', { what: yarn.name })}
          onClick=${() => edit([(now) => yarnRemoved(now, at)], say('yarn.removed', { name: yarn.name }))}>×</button>` : html`<span></span>`}
        <div class="stand"><${Bar} yarn=${use} /><${Takes} yarn=${use} />
          ${wrong && html`<span class="problem" lang="en">${wrong.found}; ${wrong.allowed}</span>`}</div>
      </div>`;
    })}
    <div class="line"><button type="button" onClick=${() => edit([addYarn()], say('yarn.add.undo'))}>${say('yarn.add')}</button>
      <button type="button" onClick=${() => setPhoto(true)}>${say('yarn.photo')}</button></div>
    ${photo && html`<${Photo} yarns=${yarns} edit=${edit} recolour=${recolour} close=${() => setPhoto(false)} />`}
  </section>`;
}
