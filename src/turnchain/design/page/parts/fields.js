// Plain fields: a number or a line of words, a choice, a slider; each with its problem under it. A field sends its edit
// when it has rested.
import { useEffect, useLayoutEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { editing, withdrawn } from '../line.js';

const REST = 350; // ms after the last key

/** The problem of a path, as reply.problems has them. */
export function problemAt(problems, path) {
  return problems.find((one) => one.path.join('.') === path.join('.'));
}

/** The problems of a path, and of what stands within it, in words. */
export function Wrong({ problems, path }) {
  const within = problems.filter((one) => path.every((key, nth) => one.path[nth] === key));
  return html`<span role="status">${within.map((one) => html`<span class="problem" lang="en">${one.found}; ${one.allowed}</span>`)}</span>`;
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

/** Keeps what is selected in a field whose value is changed by others: all of it, else the same places. */
function useSelection(input) {
  const kept = useRef(null);
  useLayoutEffect(() => {
    if (kept.current) input.current.setSelectionRange(...kept.current);
    kept.current = null;
  });
  return (next) => {
    const node = input.current;
    if (!node || node !== document.activeElement) return;
    const { selectionStart: start, selectionEnd: end, value } = node;
    kept.current = start === 0 && end === value.length ? [0, next.length] : [start, end];
  };
}

/** `change(value)` gives the edits for what was typed (null: the field is empty); without it the value goes to `path`. */
export function Field({ label, path, value, edit, change, problems, text = false, unit = '', hide = false, wide = false, row = false }) {
  const [, redraw] = useState(0);
  const timer = useRef(null);
  const input = useRef(null);
  const keep = useSelection(input);
  const seen = useRef(written(value)); // what the pattern has
  const own = useRef(written(value)); // what was sent, or what the pattern has
  const latest = useRef(written(value)); // what stands in the field
  const awaited = useRef([]); // what was sent and has not come back, as the pattern will have it
  const backs = useRef(0); // how many steps of the page were withdrawn when it was sent
  const name = path.join('-');
  const problem = problemAt(problems, path);

  const means = (words) => written(words.trim() === '' ? null : meant(words, text)) === seen.current;
  const put = (words) => {
    if (words !== latest.current) keep(words);
    latest.current = words;
    own.current = words;
  };
  if (written(value) !== seen.current) { // at once, not after the page is drawn: what is typed meanwhile stays
    seen.current = written(value);
    const back = awaited.current.indexOf(seen.current);
    awaited.current.splice(0, back + 1);
    const others = back === -1; // they have changed it, not what was sent from here
    const typing = latest.current !== own.current;
    const stays = !others && (awaited.current.length || (input.current === document.activeElement && means(latest.current)));
    if (!typing && !stays) put(seen.current);
    else if (others) own.current = seen.current;
  }

  if (awaited.current.length && !editing()) {
    awaited.current = []; // nothing comes back any more: it was withdrawn, or could not be made
    if (backs.current !== withdrawn() && latest.current === own.current) put(seen.current);
  }

  const send = () => {
    clearTimeout(timer.current);
    const now = latest.current;
    if (now === own.current) return;
    own.current = now;
    const typed = now.trim() === '' ? null : meant(now, text);
    awaited.current.push(written(typed));
    backs.current = withdrawn();
    edit(change ? change(typed) : [{ path, value: typed }], `${label.toLowerCase()} ${now}`.trim());
  };
  const left = () => {
    send();
    if (!awaited.current.length && means(latest.current)) put(seen.current); // 12.0 is then shown as the file has it: 12
    redraw((count) => count + 1);
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
    <input id=${name} ref=${input} value=${latest.current} inputmode=${text ? 'text' : 'decimal'} autocomplete="off"
      aria-invalid=${problem ? 'true' : null} aria-describedby=${problem ? `${name}-problem` : null}
      onInput=${typed} onBlur=${left} onKeyDown=${(event) => event.key === 'Enter' && send()} />
    ${problem && html`<span class="problem" id=${`${name}-problem`} role="alert" lang="en">${problem.found}; ${problem.allowed}</span>`}
  </span>`;
}

/** What is chosen is shown at once, and until the pattern has it, whatever replies come meanwhile: [shown, choose]. `held`
    says that it is not sent yet. */
function useChosen(value, held = () => false) {
  const [, redraw] = useState(0);
  const chosen = useRef(null); // [what]
  if (chosen.current && !held() && !editing()) chosen.current = null;
  const choose = (one) => {
    chosen.current = [one];
    redraw((count) => count + 1);
  };
  return [chosen.current ? chosen.current[0] : value, choose];
}

/** A choice of [key, words]; `change(key)` gives the edits, without it the key goes to `path`. */
export function Choice({ label, path, value, options, edit, change, hide = true }) {
  const name = path.join('-');
  const [shown, choose] = useChosen(written(value));
  const chosen = (event) => {
    const key = event.target.value;
    const [, words] = options.find(([one]) => String(one) === key) || [key, key];
    edit(change ? change(key) : [{ path, value: key || null }], `${label.toLowerCase()}: ${words}`);
    choose(key);
  };
  return html`<span class="field">
    <label for=${name} class=${hide ? 'unseen' : ''}>${label}</label>
    <select id=${name} value=${shown} onChange=${chosen}>
      ${options.map(([key, words]) => html`<option value=${key} selected=${written(key) === shown}>${words}</option>`)}
    </select>
  </span>`;
}

/** A number on a slider, shown beside it; it is sent when the slider rests. */
export function Slider({ label, path, value, least, most, edit }) {
  const timer = useRef(null);
  const [now, choose] = useChosen(value, () => timer.current !== null);
  const send = (number) => {
    timer.current = null;
    edit([{ path, value: number }], `${label} ${number}`);
  };
  const slid = (event) => {
    const number = Number(event.target.value);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => send(number), REST / 2);
    choose(number);
  };
  return html`<label class="slider"><span>${label}</span><b aria-hidden="true">${now}</b>
    <input type="range" min=${least} max=${Math.max(most, value)} value=${now} aria-valuetext=${`${now}`} onInput=${slid} /></label>`;
}

/** A box to tick: true in the file, or left out. */
export function Tick({ label, path, value, edit }) {
  const [now, choose] = useChosen(Boolean(value));
  const ticked = (event) => {
    edit([{ path, value: event.target.checked || null }], label);
    choose(event.target.checked);
  };
  return html`<label class="tick"><input type="checkbox" checked=${now} onChange=${ticked} /> ${label}</label>`;
}
