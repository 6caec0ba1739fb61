// Plain fields: a number or a line of words, a choice, a slider; each with its problem under it. A field sends its edit
// when it has rested.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';

const REST = 350; // ms after the last key

/** The problem of a path, as reply.problems has them. */
export function problemAt(problems, path) {
  return problems.find((one) => one.path.join('.') === path.join('.'));
}

/** A value written as a field shows it: lengths in quotes stay as they are written. */
function written(value) {
  return value === undefined || value === null ? '' : String(value);
}

/** What was typed as a value of the file: a number where it is one, else the words. */
export function meant(words, text) {
  const number = Number(words.replace(',', '.'));
  return text || words.trim() === '' || !Number.isFinite(number) ? words.trim() : number;
}

/** `change(value)` gives the edits for what was typed (null: the field is empty); without it the value goes to `path`. */
export function Field({ label, path, value, edit, change, problems, text = false, unit = '', hide = false, wide = false, row = false }) {
  const [, redraw] = useState(0);
  const timer = useRef(null);
  const seen = useRef(written(value)); // what the pattern has
  const own = useRef(written(value)); // what was sent, or what the pattern has
  const latest = useRef(written(value)); // what stands in the field
  const name = path.join('-');
  const problem = problemAt(problems, path);

  if (written(value) !== seen.current) { // at once, not after the page is drawn: what is typed meanwhile stays
    seen.current = written(value);
    if (latest.current === own.current) latest.current = seen.current;
    own.current = seen.current;
  }

  const send = () => {
    clearTimeout(timer.current);
    const now = latest.current;
    if (now === own.current) return;
    own.current = now;
    const typed = now.trim() === '' ? null : meant(now, text);
    edit(change ? change(typed) : [{ path, value: typed }], `${label.toLowerCase()} ${now}`.trim());
  };
  const sending = useRef(send);
  sending.current = send;
  useEffect(() => () => sending.current(), []); // what was typed is kept where the field goes away
  const typed = (event) => {
    latest.current = event.target.value;
    redraw((count) => count + 1);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => sending.current(), REST);
  };

  return html`<span class=${`field${wide ? ' wide' : ''}${row ? ' have' : ''}`}>
    <label for=${name} class=${hide ? 'unseen' : ''}>${label}${unit && html` <small>${unit}</small>`}</label>
    <input id=${name} value=${latest.current} inputmode=${text ? 'text' : 'decimal'} autocomplete="off"
      aria-invalid=${problem ? 'true' : null} aria-describedby=${problem ? `${name}-problem` : null}
      onInput=${typed} onBlur=${send} onKeyDown=${(event) => event.key === 'Enter' && send()} />
    ${problem && html`<span class="problem" id=${`${name}-problem`} role="alert" lang="en">${problem.found}; ${problem.allowed}</span>`}
  </span>`;
}

/** A choice of [key, words]; `change(key)` gives the edits, without it the key goes to `path`. */
export function Choice({ label, path, value, options, edit, change, hide = true }) {
  const name = path.join('-');
  const chosen = (event) => {
    const key = event.target.value;
    const [, words] = options.find(([one]) => String(one) === key) || [key, key];
    edit(change ? change(key) : [{ path, value: key || null }], `${label.toLowerCase()}: ${words}`);
  };
  return html`<span class="field">
    <label for=${name} class=${hide ? 'unseen' : ''}>${label}</label>
    <select id=${name} value=${written(value)} onChange=${chosen}>
      ${options.map(([key, words]) => html`<option value=${key} selected=${written(key) === written(value)}>${words}</option>`)}
    </select>
  </span>`;
}

/** A number on a slider, shown beside it; it is sent when the slider rests. */
export function Slider({ label, path, value, least, most, edit }) {
  const [now, setNow] = useState(value);
  const timer = useRef(null);
  useEffect(() => setNow(value), [value]);
  const slid = (event) => {
    const number = Number(event.target.value);
    setNow(number);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => edit([{ path, value: number }], `${label} ${number}`), REST / 2);
  };
  return html`<label class="slider"><span>${label}</span><b aria-hidden="true">${now}</b>
    <input type="range" min=${least} max=${Math.max(most, value)} value=${now} aria-valuetext=${`${now}`} onInput=${slid} /></label>`;
}

/** A box to tick: true in the file, or left out. */
export function Tick({ label, path, value, edit }) {
  const [now, setNow] = useState(Boolean(value));
  useEffect(() => setNow(Boolean(value)), [value]);
  const ticked = (event) => {
    setNow(event.target.checked);
    edit([{ path, value: event.target.checked || null }], label);
  };
  return html`<label class="tick"><input type="checkbox" checked=${now} onChange=${ticked} /> ${label}</label>`;
}
