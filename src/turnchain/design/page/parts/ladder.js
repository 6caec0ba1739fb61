// Rows to choose and to paint: the stripes are then written row by row.
import { useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { rowByRow } from '../changes.js';
import { say } from '../words.js';

export function Ladder({ reply, data, piece, edit, row, point }) {
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const [chosen, setChosen] = useState([]);
  const [upTo, setUpTo] = useState(false);
  const last = useRef(null);
  const list = useRef(null);
  if (!planned) return html`<p class="waiting">${say('ladder.waiting')}</p>`;
  const yarns = reply.yarn || [];
  const colours = Object.fromEntries(yarns.map((one) => [one.name, one]));
  const rows = planned.rows.filter((one, at, all) => all.findIndex((other) => other.number === one.number) === at);
  const choose = (number, more) => {
    const from = more && last.current ? Math.min(last.current, number) : number;
    const to = more && last.current ? Math.max(last.current, number) : number;
    if (!more) last.current = number;
    setUpTo(false);
    setChosen(Array.from({ length: to - from + 1 }, (_, at) => from + at));
    point(number);
  };
  const paint = (name) => {
    const all = rows.map((one) => (chosen.includes(one.number) ? name : one.yarn));
    edit([(now) => rowByRow(now, all, reply.kindsOf)], say('ladder.undo', { name }));
  };
  const key = (event) => {
    const letter = yarns.find((one) => one.letter.toLowerCase() === event.key.toLowerCase());
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (letter && chosen.length && !event.ctrlKey && !event.metaKey) paint(letter.name);
    if (!by) return;
    event.preventDefault();
    const here = Number(event.target.dataset.row) || row;
    const to = Math.min(rows.length, Math.max(1, here + by));
    choose(to, event.shiftKey);
    list.current.querySelector(`[data-row="${to}"]`).focus();
  };
  return html`<div class="ladder">
    <p class="soft">${say('ladder.how')}</p>
    <div class="line">${yarns.map((one) => html`<button type="button" class="chip" disabled=${!chosen.length} style=${{ background: one.colour, color: one.ink }}
        onClick=${() => paint(one.name)}>${one.letter} ${one.name}</button>`)}
      <button type="button" aria-pressed=${upTo} disabled=${!chosen.length} onClick=${() => setUpTo(!upTo)}>${say('ladder.upto')}</button></div>
    <ol reversed ref=${list} onKeyDown=${key}>${[...rows].reverse().map((one) => {
      const { colour, ink, letter = '' } = colours[one.yarn] || {};
      return html`<li value=${one.number}><button type="button" data-row=${one.number} aria-pressed=${chosen.includes(one.number)} class=${one.number === row ? 'here' : ''}
        style=${{ background: colour, color: ink }} onClick=${(event) => choose(one.number, event.shiftKey || upTo)}>${one.number} ${letter}</button></li>`;
    })}</ol>
  </div>`;
}
