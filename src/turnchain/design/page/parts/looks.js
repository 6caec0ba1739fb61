// The same pattern otherwise: chart, cloth, ladder of rows, words, report, text.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { say } from '../words.js';
import { Ladder } from './ladder.js';
import { Picture } from './picture.js';

const LOOKS = ['chart', 'short', 'preview', 'figure', 'schematic', 'ladder', 'words', 'report', 'text'];

function Reading({ words }) {
  return html`<pre class="reading" tabindex="0">${words || ''}</pre>`;
}

function Shown({ view, worn, reply, data, piece, text, setText, edit, row, point, pale, colours }) {
  if (view === 'worn') return worn;
  if (view === 'ladder') return html`<${Ladder} reply=${reply} data=${data} piece=${piece} edit=${edit} row=${row} point=${point} />`;
  if (view === 'text') return html`<${Text} text=${text} setText=${setText} problems=${reply.problems || []} />`;
  if (view === 'words' || view === 'report') return html`<${Reading} words=${reply[view]} />`;
  if (view === 'figure' && reply.figure === null) return html`<p class="soft">${say('look.figure.none')}</p>`;
  return html`<${Picture} scene=${reply[view]} colours=${colours} label=${say(`look.${view}.of`, { piece })} pale=${pale} />`;
}

export function Looks({ view, setView, waiting, halt, ...shown }) {
  const tabs = useRef(null);
  const looks = shown.worn ? ['worn', ...LOOKS] : LOOKS; // where the page is narrow, the piece is one look more
  const key = (event) => {
    const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (!by) return;
    event.preventDefault();
    const to = looks[(looks.indexOf(view) + by + looks.length) % looks.length];
    setView(to);
    tabs.current.querySelector(`[data-look="${to}"]`).focus();
  };
  return html`<section class="card looks" aria-label=${say('looks.label')}>
    <div class="line"><div class="tabs" role="tablist" aria-label=${say('looks')} ref=${tabs} onKeyDown=${key}>
      ${looks.map((one) => html`<button type="button" role="tab" data-look=${one} tabindex=${view === one ? 0 : -1} aria-selected=${view === one}
        onClick=${() => setView(one)}>${say(one === 'worn' ? 'worn' : `look.${one}`)}</button>`)}</div>
      ${waiting && html`<span class="soft" role="status">${say('waiting')}</span><button type="button" onClick=${halt}>${say('stop')}</button>`}
    </div>
    <${Shown} view=${view} ...${shown} />
  </section>`;
}

function Text({ text, setText, problems }) {
  const [now, setNow] = useState(text);
  const timer = useRef(null);
  const latest = useRef(null); // what was typed and not yet sent
  const sent = useRef(setText);
  sent.current = setText;
  useEffect(() => { if (latest.current === null) setNow(text); }, [text]);
  const send = () => {
    clearTimeout(timer.current);
    const words = latest.current;
    latest.current = null;
    if (words !== null) sent.current(words);
  };
  useEffect(() => send, []); // what was typed is kept where the look is left
  const typed = (event) => {
    latest.current = event.target.value;
    setNow(latest.current);
    clearTimeout(timer.current);
    timer.current = setTimeout(send, 500);
  };
  return html`<div class="text"><label for="text" class="unseen">${say('text.label')}</label>
    <textarea id="text" spellcheck="false" value=${now} onInput=${typed} onBlur=${send}></textarea>
    ${problems.map((one) => html`<p class="problem" lang="en">${one.line ? `${say('text.line', { n: one.line })} ` : ''}${one.words}</p>`)}</div>`;
}
