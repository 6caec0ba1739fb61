// The pieces of the pattern: choose one, name it, say how often it is made; add, copy and remove.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { added, copied, freeName, mirrorOf, newPiece, pieceNames, removed, renamed } from '../changes.js';
import { say } from '../words.js';
import { Dialog } from './dialog.js';
import { Choice, Field, Tick } from './fields.js';

const KINDS = [['panel', 'panel'], ['neck', 'front'], ['armholes', 'front'], ['sleeve', 'sleeve'], ['triangle', 'shawl'], ['half_triangle', 'shawl']]; // a kind and what it is called at first

/** The name of a piece's mirror image: "right front" of "left front" in the page's language. */
function otherHand(name) {
  const [left, right] = [say('name.left'), say('name.right')];
  const [from, to] = name.startsWith(`${right} `) ? [right, left] : [left, right];
  return name.startsWith(`${from} `) ? `${to}${name.slice(from.length)}` : say('name.mirrored', { name });
}

function Add({ data, own, put, close }) {
  const add = (kind, name) => put((now) => added(now, newPiece(now, kind, name)), freeName(pieceNames(data), name), 'piece.add.undo');
  const mirrored = own.name && otherHand(own.name);
  return html`<${Dialog} title=${say('add.what')} close=${close} done=${say('cancel')}>
    ${KINDS.map(([kind, name]) => html`<p><button type="button" onClick=${() => add(kind, say(`name.${name}`))}>${say(`add.${kind}`)}</button>
      <span class="soft">${say(`add.${kind}.told`)}</span></p>`)}
    ${own.name && html`<p><button type="button" onClick=${() => put((now) => copied(now, pieceNames(now).indexOf(own.name)),
      freeName(pieceNames(data), own.name.replace(/ \d+$/, '')), 'piece.copy.undo')}>${say('add.copy', { name: own.name })}</button></p>`}
    ${own.name && !own.mirror && !own.mirrored && html`<p><button type="button" onClick=${() => put((now) => mirrorOf(now, pieceNames(now).indexOf(own.name), mirrored),
      freeName(pieceNames(data), mirrored), 'piece.add.undo')}>${say('add.mirror', { name: own.name })}</button> <span class="soft">${say('add.mirror.told')}</span></p>`}
  <//>`;
}

const times = (shown, { count, mirrored }) => (count > 1 && !mirrored ? say('piece.times', { name: shown.name, n: count }) : shown.name);

export function Pieces({ data, own, number, pieces, piece, choose, edit, problems }) {
  const [adding, setAdding] = useState(false);
  const names = pieceNames(data);
  const others = names.filter((one) => one !== own.name);
  const put = (make, name, undo) => {
    setAdding(false);
    edit([make], say(undo, { name }));
    choose(name);
  };
  const rename = (typed) => {
    const name = String(typed ?? '').trim();
    if (!name || names.includes(name)) return [{ path: ['piece', number, 'name'], value: name || own.name }];
    choose(name);
    return [(now) => renamed(now, pieceNames(now).indexOf(own.name), name)];
  };
  const away = () => {
    edit([(now) => removed(now, pieceNames(now).indexOf(own.name))], say('piece.remove.undo', { name: own.name }));
    choose(others[Math.max(0, number - 1)] || '');
  };
  return html`<div class="pieces">
    <div class="line" role="group" aria-label=${say('pieces')}>
      ${pieces.map((one) => html`<button type="button" aria-pressed=${one.name === piece} onClick=${() => choose(one.name)}>${times(one, data.piece[one.number])}</button>`)}
      <button type="button" onClick=${() => setAdding(true)}>${say('piece.add')}</button>
    </div>
    ${own.name !== undefined && html`<div class="line">
      <${Field} key=${`name-${number}`} label=${say('piece.name')} text path=${['piece', number, 'name']} value=${own.name} edit=${edit} change=${rename} problems=${problems} />
      <${Field} key=${`count-${number}`} label=${say('piece.count')} path=${['piece', number, 'count']} value=${own.count ?? 1} edit=${edit} problems=${problems} />
      ${(own.count === 2 || own.mirrored) && !own.mirror && html`<${Tick} label=${say('piece.mirrored')} path=${['piece', number, 'mirrored']} value=${own.mirrored} edit=${edit} />`}
      ${others.length > 0 && own.width !== undefined && html`<${Choice} label=${say('piece.faces')} hide=${false} path=${['piece', number, 'faces']}
        value=${own.faces || ''} edit=${edit} options=${[['', say('piece.faces.none')], ...others.map((name) => [name, say('piece.faces.one', { name })])]} />`}
      ${names.length > 1 && html`<button type="button" class="quiet" aria-label=${say('remove', { what: own.name })} onClick=${away}>${say('piece.remove')}</button>`}
    </div>`}
    ${adding && html`<${Add} data=${data} own=${own} put=${put} close=${() => setAdding(false)} />`}
  </div>`;
}
