// The piece on the table: its rows in colour, and pins at its measures that can be pulled from place to place.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { say } from '../words.js';
import { measureName } from './sizes.js';
import { Slip } from './slip.js';
import { BARE, boxOf, corners } from './thumb.js';

const PULLED = ['width', 'length', 'shoulder', 'neck depth'];
const [HIT, HEAD] = [22.5, 8.5]; // px: what can be touched of a pin, and what is seen
const ACROSS = new Set(['width', 'shoulder']);

function pinOf({ name, one, other }) {
  if (name === 'width') return [other[0], (one[1] + other[1]) / 2];
  if (name === 'length') return [(one[0] + other[0]) / 2, Math.min(one[1], other[1])];
  return name === 'shoulder' ? other : one;
}

/** Pins that lie on each other are moved apart. */
function apart(pins, least) {
  const made = [];
  pins.forEach((pin) => {
    let [x, y] = pin.at;
    while (made.some((one) => Math.hypot(one.at[0] - x, one.at[1] - y) < least)) {
      if (pin.name === 'width') y += least; else x += least;
    }
    made.push({ ...pin, at: [x, y] });
  });
  return made;
}

function Ghosts({ pull, top }) {
  return html`${pull.places.map((place, nth) => nth !== pull.at && html`<polygon class=${`ghost${place.opening && place.opening.passes === false ? ' tight' : ''}`}
    points=${corners(place.outline, top)} />`)}<polygon class="pulled" points=${corners(pull.places[pull.at].outline, top)} />`;
}

export function Table({ colours, text, reply, piece, edit, pale, row, point }) {
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const [pull, setPull] = useState(null); // {measure, places, now, at}
  const held = useRef(null); // what is pulled just now, for what is awaited meanwhile
  const drag = useRef(null);
  const latest = useRef(text);
  latest.current = text;
  const frame = useRef(null);
  const put = (found) => { held.current = found; setPull(found); };
  const [size, setSize] = useState([1, 1]);
  const [problem, setProblem] = useState(''); // why nothing can be pulled
  useEffect(() => { put(null); setProblem(''); }, [text, piece]);
  useEffect(() => {
    if (!frame.current) return undefined;
    const watch = new ResizeObserver(() => frame.current && setSize([frame.current.clientWidth, frame.current.clientHeight]));
    watch.observe(frame.current);
    return () => watch.disconnect();
  }, [Boolean(planned)]);
  if (!planned) return html`<p class="waiting">${say('worn.waiting')}</p>`;

  const { left, low, wide, high, top } = boxOf(planned.outline);
  const air = 0.12 * Math.max(wide, high);
  const view = [left - air, -air, wide + 2 * air, high + 2 * air];
  const px = Math.max(view[2] / size[0], view[3] / size[1]); // cm
  const fitOf = (measure) => planned.fit.find((one) => one.measure === measure);

  const take = async (measure) => {
    if (held.current && held.current.measure === measure) return held.current;
    const answer = await ask({ id: 0, text, piece, want: ['reach'], measure })
      .catch((error) => ({ problems: [{ words: error.message }] }));
    if (latest.current !== text) return null; // the pattern has changed meanwhile
    setProblem(answer.reach ? '' : answer.problems.map((one) => one.words).join('; '));
    if (!answer.reach) return null;
    const found = { ...answer.reach, at: answer.reach.now };
    put(found);
    return found;
  };
  const settle = (found) => {
    drag.current = null;
    const place = found && found.places[found.at];
    put(null);
    if (place && found.at !== found.now) {
      edit([{ path: fitOf(found.measure).path, value: place.wish }], `${measureName(found.measure).toLowerCase()} ${place.wish}`);
    }
  };
  const step = (by) => { const now = held.current; put({ ...now, at: Math.min(now.places.length - 1, Math.max(0, now.at + by)) }); };
  const key = (measure) => async (event) => {
    const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 5, PageDown: -5, Home: -99, End: 99 };
    if (event.key === 'Escape') put(null);
    else if (event.key === 'Enter' && held.current) settle(held.current);
    else if (steps[event.key]) {
      event.preventDefault();
      if (await take(measure)) step(steps[event.key]);
    }
  };
  const down = (measure) => async (event) => {
    event.target.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, moved: false };
    await take(measure);
  };
  const move = (event) => {
    const now = held.current;
    if (!drag.current || !now) return;
    const by = px * (ACROSS.has(now.measure) ? event.clientX - drag.current.x : event.clientY - drag.current.y);
    if (Math.abs(by) > 2 * px) drag.current.moved = true;
    const goal = now.places[now.now].worked + by * (now.measure === 'width' ? 2 : 1);
    const off = (one) => Math.abs(one.worked - goal);
    const at = now.places.reduce((best, one, nth) => (off(one) < off(now.places[best]) ? nth : best), 0);
    if (at !== now.at) put({ ...now, at });
  };
  const up = () => {
    const moved = drag.current && drag.current.moved;
    drag.current = null;
    if (moved) settle(held.current); // a touch alone shows the places, to be taken from the slip
  };

  const pins = apart(PULLED.flatMap((name) => {
    const dimension = planned.dimensions.find((one) => one.name === name);
    const fit = fitOf(name);
    return dimension && fit && fit.path ? [{ name, fit, at: pinOf(dimension) }] : [];
  }), 46 * px);
  return html`<div class=${`table${pale ? ' pale' : ''}`}><div class="stage" ref=${frame}>
    <svg viewBox=${view.join(' ')} preserveAspectRatio="xMidYMin meet" role="img" aria-label=${`${piece}, ${say('worn')}, ${planned.fit.map((one) => `${measureName(one.measure)} ${one.said.worked}`).join(', ')}`}>
      ${planned.rows.map((one) => html`<polygon points=${corners(one.band, top)} fill=${colours[one.yarn] || BARE}
        class=${one.number === row ? 'here' : ''} onClick=${() => point(one.number)} />`)}
      <polygon class="outline" points=${corners(planned.outline, top)} />
      ${pull && html`<${Ghosts} pull=${pull} top=${top} />`}
    </svg>
    ${pins.map(({ name, fit, at: [x, y] }) => html`<${Pin} name=${measureName(name)} now=${fit.said.worked} view=${view} px=${px} x=${x} y=${top - y} at=${fit.worked}
      pull=${pull && pull.measure === name ? pull : null} down=${down(name)} move=${move} up=${up} press=${key(name)} />`)}
    </div>${problem && html`<p class="problem" role="alert" lang="en">${problem}</p>`}${pull && html`<${Slip} pull=${pull} step=${step} choose=${(at) => settle({ ...pull, at })} take=${() => settle(pull)} leave=${() => put(null)} />`}
  </div>`;
}

function Pin({ name, now, view, px, x, y, at, pull, down, move, up, press }) {
  const place = pull && pull.places[pull.at];
  const said = place ? place.fit.find((one) => one.measure === pull.measure).said.worked : now;
  const tight = place && place.opening && place.opening.short ? `, ${say('slip.small', place.opening)}` : '';
  return html`<svg class="pins" viewBox=${view.join(' ')} preserveAspectRatio="xMidYMin meet"><g class="pin" role="slider" tabindex="0" aria-label=${say('pin', { measure: name })}
    aria-valuetext=${said + tight} aria-valuenow=${(place ? place.worked : at).toFixed(2)} aria-valuemin="0"
    onPointerDown=${down} onPointerMove=${move} onPointerUp=${up} onPointerCancel=${up} onKeyDown=${press}>
    <circle class="hit" cx=${x} cy=${y} r=${HIT * px} /><circle class="head" cx=${x} cy=${y} r=${HEAD * px} /></g></svg>`;
}
