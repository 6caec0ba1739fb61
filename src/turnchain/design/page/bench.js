// The bench: what the maker sees. Cards in the order of the work, the piece and its chart, the row pointed at.
import { useEffect, useState } from './vendor/hooks.js';
import { html } from './html.js';
import { lookAt } from './asking.js';
import { inkOn } from './colours.js';
import { editing } from './line.js';
import { usePattern } from './pattern.js';
import { piecesShown } from './tables.js';
import { Begin } from './parts/begin.js';
import { Doubts } from './parts/doubts.js';
import { Edgings } from './parts/edgings.js';
import { Looks } from './parts/looks.js';
import { RowBar } from './parts/rowbar.js';
import { Seams, sewn } from './parts/seams.js';
import { Sizes } from './parts/sizes.js';
import { Stripes } from './parts/stripes.js';
import { Swatch } from './parts/swatch.js';
import { Table } from './parts/table.js';
import { Take } from './parts/take.js';
import { Yarns } from './parts/yarns.js';
import { say, speak } from './words.js';

/** The cards, in the order of the work; a phone shows one at a time. A new card gets its place here and in the styles. */
const CARDS = [['swatch', Swatch], ['sizes', Sizes], ['yarn', Yarns], ['stripes', Stripes], ['edging', Edgings], ['seams', Seams], ['warnings', Doubts]];
const BELOW = ['warnings', 'edging', 'seams']; // beside and under the picture, in this order
const PARTS_OF_LOOKS = ['chart', 'short', 'preview', 'figure', 'schematic', 'words', 'report'];

/** Ctrl Z, Ctrl Shift Z, Ctrl S. */
function useKeys({ undo, redo, save }) {
  useEffect(() => {
    const key = (event) => {
      if (!(event.ctrlKey || event.metaKey)) return;
      const typing = event.target.tagName === 'TEXTAREA';
      if (event.key.toLowerCase() === 'z' && !typing) { event.preventDefault(); (event.shiftKey ? redo : undo)(); }
      if (event.key.toLowerCase() === 's') { event.preventDefault(); save(); }
    };
    window.addEventListener('keydown', key);
    return () => window.removeEventListener('keydown', key);
  });
}

/** Whether the page is as narrow as a phone's: one card then stands below the picture. */
function usePhone() {
  const [narrow] = useState(() => window.matchMedia('(max-width: 720px)'));
  const [phone, setPhone] = useState(narrow.matches);
  useEffect(() => {
    const changed = () => setPhone(narrow.matches);
    narrow.addEventListener('change', changed);
    return () => narrow.removeEventListener('change', changed);
  }, []);
  return phone;
}

/** Which size of a pattern in several is shown, and changed by what is pulled or typed. */
function SizeChoice({ reply, choose }) {
  if (!reply.sizes || !reply.sizes.length) return null;
  return html`<span class="size"><label for="size">${say('size')}</label><select id="size" onChange=${(event) => choose(event.target.value)}>
    ${reply.sizes.map((one) => html`<option value=${one} selected=${one === reply.size}>${one}</option>`)}</select></span>`;
}

function Header({ title, pattern, phone, open, reply, choose }) {
  const { past, future, undo, redo, saved, text } = pattern;
  const last = past.length ? past[past.length - 1].name : '';
  const name = last ? say('undo.what', { what: last }) : say('undo');
  return html`<header>
    <h1>${title}</h1><span class="soft" role="status">${saved}</span><span class="grow"></span>
    <${SizeChoice} reply=${reply} choose=${choose} />
    <button type="button" onClick=${() => open('begin')}>${say('patterns')}</button>
    <button type="button" class="undo" onClick=${undo} disabled=${!past.length} aria-label=${phone ? name : null} title=${name}>${phone ? '↶' : name}</button>
    <button type="button" class="undo" onClick=${redo} disabled=${!future.length} aria-label=${say('redo')}>↷</button>
    <button type="button" class="strong" onClick=${() => open('take')} disabled=${!text}>${say('download')}</button>
  </header>`;
}

function Bars({ pattern, problems, shown }) {
  const { failure, conflict, settle } = pattern;
  const key = problems.length === 1 ? 'pale.one' : 'pale.many';
  return html`${failure && html`<p class="bar problem" role="alert">${failure}</p>`}
    ${conflict && html`<p class="bar" role="alert">${say('elsewhere')}
      <button type="button" onClick=${() => settle(true)}>${say('elsewhere.theirs')}</button>
      <button type="button" onClick=${() => settle(false)}>${say('elsewhere.mine')}</button></p>`}
    ${problems.length > 0 && shown && html`<p class="bar problem">${say(key, { n: problems.length, card: say('warnings') })}</p>`}`;
}

/** On a phone: which card stands below the picture. */
function Stations({ cards, station, move, warned }) {
  return html`<nav class="stations" aria-label=${say('stations')}>${cards.map(([key]) => html`<button type="button" aria-current=${station === key ? 'true' : null}
    onClick=${() => move(key)}>${say(key)}${key === 'warnings' && warned > 0 ? ` ${warned}` : ''}</button>`)}</nav>`;
}

/** Colours as they are picked: the page shows them at once, the reply follows. */
function usePaint(data, edit) {
  const [paint, setPaint] = useState({});
  useEffect(() => {
    const left = !editing() ? [] : Object.entries(paint).filter(([name, colour]) => (data.yarn || []).some((one) => one.name === name && one.colour !== colour));
    if (left.length < Object.keys(paint).length) setPaint(Object.fromEntries(left));
  }, [data]);
  const recolour = (at, colour) => {
    const { name } = data.yarn[at];
    setPaint((one) => ({ ...one, [name]: colour }));
    edit([{ path: ['yarn', at, 'colour'], value: colour }], say('yarn.colour.undo', { name }), true);
  };
  const yarn = data.yarn && data.yarn.map((one) => (paint[one.name] ? { ...one, colour: paint[one.name] } : one));
  return { data: yarn ? { ...data, yarn } : data, recolour, paint };
}

/** A reply with the colours that are picked just now. */
function painted(reply, paint) {
  if (!reply.yarn || !Object.keys(paint).length) return reply;
  return { ...reply, yarn: reply.yarn.map((one) => (paint[one.name] ? { ...one, colour: paint[one.name], ink: inkOn(paint[one.name]) } : one)) };
}

export function Bench() {
  const [piece, setPiece] = useState('');
  const [size, setSize] = useState('');
  lookAt(size);
  const [row, setRow] = useState(1);
  const phone = usePhone();
  const [asked, setView] = useState(phone ? 'worn' : 'chart');
  const view = asked === 'worn' && !phone ? 'chart' : asked;
  const [closeUp, setCloseUp] = useState(false);
  const [dialog, setDialog] = useState('');
  const [moved, setStation] = useState('swatch');
  const [, setTongue] = useState('');
  const wants = () => ({ piece, row, want: [...PARTS_OF_LOOKS.filter((one) => one === view), 'row', ...(closeUp ? ['close-up'] : [])] });
  const pattern = usePattern(wants, () => setDialog('begin'));
  const { reply, good, text, edit, ready } = pattern;
  useKeys(pattern);
  useEffect(() => { if (ready && text) pattern.send(); }, [piece, size, row, view, closeUp]);

  const problems = reply.problems || [];
  const last = reply.pieces ? reply : { ...good, problems };
  const { data, recolour, paint } = usePaint(reply.shown || good.shown || {}, edit);
  const shown = painted(last, paint);
  const pieces = piecesShown(data, shown.pieces || []);
  const named = (name) => pieces.find((one) => one.name === name) || pieces.find((one) => data.piece[one.number].name === name);
  const current = (named(piece) || named(shown.piece) || pieces[0] || { name: '' }).name;
  const planned = (shown.pieces || []).find((one) => one.name === current);
  const most = planned ? Math.max(...planned.rows.map((one) => one.number)) : 1;
  const colours = Object.fromEntries((data.yarn || []).map((one) => [one.name, one.colour]));
  const pale = problems.length > 0;
  const written = reply.data || good.data || {};
  const fabricFile = { given: Boolean(pattern.file.name), add: pattern.add };
  const parts = { data, written, reply: { ...shown, problems }, piece: current, pieces, fabricFile, text, edit, recolour, problems, colours, choose: setPiece };
  const begin = (fresh, files) => { setDialog(''); setPiece(''); setRow(1); pattern.open(fresh, files); };

  const there = CARDS.filter(([key]) => key !== 'seams' || sewn(shown));
  const station = there.some(([key]) => key === moved) ? moved : 'swatch';
  const cards = there.filter(([key]) => !phone || key === station).map(([key, Card]) => [key, html`<${Card} key=${key} ...${parts} />`]);
  const table = html`<${Table} key="table" colours=${colours} text=${text} reply=${shown} piece=${current} edit=${edit} pale=${pale} row=${row} point=${setRow} />`;
  const looks = html`<${Looks} key="looks" view=${view} setView=${setView} ...${parts} setText=${pattern.setText} row=${row} point=${setRow} pale=${pale}
    waiting=${pattern.waiting} halt=${pattern.halt} worn=${phone && table} />`;
  const bar = html`<${RowBar} key="row" reply=${shown} row=${Math.min(row, most)} point=${setRow} most=${most} closeUp=${closeUp} toggle=${() => setCloseUp(!closeUp)} colours=${colours} />`;
  const cloth = html`<section key="cloth" class="card cloth" aria-label=${say('worn.label')}>
    <div class="line"><strong>${say('worn')}</strong> <span class="soft">${say('worn.pull')}</span></div>${table}</section>`;
  const before = cards.filter(([key]) => !BELOW.includes(key)).map(([, card]) => card);
  const after = BELOW.flatMap((below) => cards.filter(([key]) => key === below).map(([, card]) => card));

  return html`<div class="bench">
    <${Header} title=${shown.title || data.title || say('new.title')} pattern=${pattern} phone=${phone} open=${setDialog} reply=${shown} choose=${setSize} />
    <main><${Bars} pattern=${pattern} problems=${problems} shown=${Boolean(good.pieces)} />${phone ? [looks, view === 'worn' ? null : bar, ...before, ...after] : [...before, cloth, looks, ...after, bar]}</main>
    ${phone && html`<${Stations} cards=${there} station=${station} move=${setStation} warned=${problems.length + (shown.doubts || []).length} />`}
    ${dialog === 'take' && html`<${Take} text=${text} beside=${pattern.beside} name=${pattern.file.name || `${slug(shown.title)}.toml`} close=${() => setDialog('')} />`}
    ${dialog === 'begin' && html`<${Begin} data=${data} text=${text} edit=${edit} problems=${problems} open=${begin} tongue=${(code) => speak(code).then(() => setTongue(code))}
      close=${() => setDialog('')} />`}
  </div>`;
}

function slug(title) {
  return (title || 'pattern').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'pattern';
}
