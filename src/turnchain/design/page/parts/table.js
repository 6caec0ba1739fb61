// The piece on the table: its rows in colour, and pins at its measures that can be pulled from place to place.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../engine.js';

const ACROSS = new Set(['width', 'shoulder']);
const NAMES = { width: 'Width', length: 'Length', shoulder: 'Shoulder', 'neck depth': 'Neck depth' };

function points(list, high) {
  return list.map(([x, y]) => `${x.toFixed(3)},${(high - y).toFixed(3)}`).join(' ');
}

function pinOf(dimension) {
  const { name, one, other } = dimension;
  if (name === 'width') return [other[0], (one[1] + other[1]) / 2 + 4];
  if (name === 'length') return [(one[0] + other[0]) / 2 + 5, one[1]];
  return name === 'shoulder' ? other : one;
}

export function Table({ text, reply, piece, edit, pale, row, point }) {
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const [pull, setPull] = useState(null); // {measure, places, now, at, start}
  const drag = useRef(null);
  const frame = useRef(null);

  useEffect(() => setPull(null), [text, piece]);
  if (!planned) return html`<p class="waiting">The piece appears here when it can be planned.</p>`;

  const colours = Object.fromEntries((reply.yarn || []).map((one) => [one.name, one.colour]));
  const xs = planned.outline.map((one) => one[0]);
  const ys = planned.outline.map((one) => one[1]);
  const high = Math.max(...ys);
  const wide = Math.max(...xs) - Math.min(...xs);
  const air = 0.12 * Math.max(wide, high);
  const view = [Math.min(...xs) - air, -air, wide + 2 * air, high - Math.min(...ys) + 2 * air];

  const take = async (measure) => {
    if (pull && pull.measure === measure) return pull;
    const answer = await ask({ id: 0, text, piece, want: ['reach'], measure });
    if (!answer.reach) return null;
    const found = { ...answer.reach, at: answer.reach.now };
    setPull(found);
    return found;
  };
  const settle = (found) => {
    setPull(null);
    drag.current = null;
    const place = found && found.places[found.at];
    const fit = planned.fit.find((one) => found && one.measure === found.measure);
    if (place && found.at !== found.now && fit) edit([{ path: fit.path, value: place.wish }], `${found.measure} ${place.wish}`);
  };
  const key = (measure) => async (event) => {
    const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, Home: -99, End: 99 };
    if (event.key === 'Escape') setPull(null);
    else if (event.key === 'Enter' && pull) settle(pull);
    else if (steps[event.key]) {
      event.preventDefault();
      const found = await take(measure);
      if (found) setPull({ ...found, at: Math.min(found.places.length - 1, Math.max(0, found.at + steps[event.key])) });
    }
  };
  const down = (measure) => async (event) => {
    event.target.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY };
    await take(measure);
  };
  const move = (event) => {
    if (!drag.current || !pull) return;
    const scale = view[2] / frame.current.clientWidth;
    const scaled = Math.max(scale, view[3] / frame.current.clientHeight);
    const by = ACROSS.has(pull.measure) ? (event.clientX - drag.current.x) * scaled : (event.clientY - drag.current.y) * scaled;
    const goal = pull.places[pull.now].worked + by;
    let at = 0;
    pull.places.forEach((one, nth) => { if (Math.abs(one.worked - goal) < Math.abs(pull.places[at].worked - goal)) at = nth; });
    if (at !== pull.at) setPull({ ...pull, at });
  };

  return html`<div class=${`table${pale ? ' pale' : ''}`}><div class="stage" ref=${frame}>
    <svg viewBox=${view.join(' ')} role="img" aria-label=${`${piece} as worn, ${planned.fit.map((one) => `${one.measure} ${one.said.worked}`).join(', ')}`}>
      ${planned.rows.map((one) => html`<polygon points=${points(one.band, high)} fill=${colours[one.yarn] || '#f4efe6'}
        class=${one.number === row ? 'here' : ''} onClick=${() => point(one.number)} />`)}
      <polygon class="outline" points=${points(planned.outline, high)} />
      ${pull && pull.places.map((place, nth) => nth !== pull.at && html`<polygon class="ghost" points=${points(place.outline, high)} />`)}
      ${pull && html`<polygon class="pulled" points=${points(pull.places[pull.at].outline, high)} />`}
    </svg>
    ${planned.dimensions.filter((one) => NAMES[one.name] && planned.fit.find((fit) => fit.measure === one.name && fit.path)).map((one) => {
      const [x, y] = pinOf(one);
      return html`<${Pin} name=${NAMES[one.name]} now=${planned.fit.find((fit) => fit.measure === one.name).said.worked}
        view=${view} x=${x} y=${high - y} down=${down(one.name)} move=${move} up=${() => settle(pull)} press=${key(one.name)} />`;
    })}
    </div>${pull && html`<${Slip} pull=${pull} choose=${(at) => settle({ ...pull, at })} leave=${() => setPull(null)} />`}
  </div>`;
}

function Pin({ name, now, view, x, y, down, move, up, press }) {
  return html`<svg class="pins" viewBox=${view.join(' ')}><g class="pin" role="slider" tabindex="0" aria-label=${`${name}: drag, or use the arrow keys`}
    aria-valuetext=${now} aria-valuenow=${parseFloat(now)} aria-valuemin="0" onPointerDown=${down} onPointerMove=${move} onPointerUp=${up} onKeyDown=${press}>
    <circle class="hit" cx=${x} cy=${y} r=${view[2] / 18} /><circle class="head" cx=${x} cy=${y} r=${view[2] / 44} /></g></svg>`;
}

function Slip({ pull, choose, leave }) {
  const shown = pull.places[pull.at];
  const fit = (place, measure) => (place.fit.find((one) => one.measure === measure) || { said: {} }).said.worked || '';
  return html`<div class="slip" role="dialog" aria-label=${`Choices for the ${pull.measure}`}>
    <p><strong>${NAMES[pull.measure]} ${fit(shown, pull.measure)}</strong> <button type="button" class="quiet" onClick=${leave}>Cancel</button></p>
    <table><thead><tr><th>${pull.measure}</th><th>rows</th><th>neck width</th></tr></thead><tbody>
      ${pull.places.map((place, at) => html`<tr class=${at === pull.at ? 'chosen' : ''}>
        <td><button type="button" aria-pressed=${at === pull.at} onClick=${() => choose(at)}>${fit(place, pull.measure)}</button></td><td>${place.rows}</td><td>${fit(place, 'neck width')}</td></tr>`)}
    </tbody></table>
    <p class="soft">Arrows: next place. Enter: choose it. Esc: cancel.</p>
  </div>`;
}
