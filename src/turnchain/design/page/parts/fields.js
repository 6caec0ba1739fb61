// Plain fields: a number or a line of words, with its problem under it. A field sends its edit when it has rested.
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
function meant(words, text) {
  const number = Number(words.replace(',', '.'));
  return text || words.trim() === '' || Number.isNaN(number) ? words.trim() : number;
}

export function Field({ label, path, value, edit, problems, text = false, unit = '', hide = false, wide = false }) {
  const [words, setWords] = useState(written(value));
  const timer = useRef(null);
  const own = useRef(written(value));
  const name = path.join('-');
  const problem = problemAt(problems, path);

  useEffect(() => {
    if (written(value) !== own.current) {
      own.current = written(value);
      setWords(written(value));
    }
  }, [value]);

  const send = (now) => {
    clearTimeout(timer.current);
    if (now === own.current) return;
    own.current = now;
    edit([{ path, value: now.trim() === '' ? null : meant(now, text) }], `${label.toLowerCase()} ${now}`.trim());
  };
  const typed = (event) => {
    const now = event.target.value;
    setWords(now);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => send(now), REST);
  };

  return html`<span class=${`field${wide ? ' wide' : ''}`}>
    <label for=${name} class=${hide ? 'unseen' : ''}>${label}${unit && html` <small>${unit}</small>`}</label>
    <input id=${name} value=${words} inputmode=${text ? 'text' : 'decimal'} autocomplete="off"
      aria-invalid=${problem ? 'true' : null} aria-describedby=${problem ? `${name}-problem` : null}
      onInput=${typed} onBlur=${() => send(words)} onKeyDown=${(event) => event.key === 'Enter' && send(words)} />
    ${problem && html`<span class="problem" id=${`${name}-problem`}>${problem.found}; ${problem.allowed}</span>`}
  </span>`;
}

export function Choice({ label, path, value, options, edit, hide = true }) {
  const name = path.join('-');
  const chosen = (event) => edit([{ path, value: event.target.value || null }], `${label.toLowerCase()} ${event.target.value}`);
  return html`<span class="field">
    <label for=${name} class=${hide ? 'unseen' : ''}>${label}</label>
    <select id=${name} value=${written(value)} onChange=${chosen}>
      ${options.map(([key, words]) => html`<option value=${key} selected=${key === written(value)}>${words}</option>`)}
    </select>
  </span>`;
}
