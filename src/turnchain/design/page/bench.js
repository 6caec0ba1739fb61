// The bench: what the maker sees, kept in step with the program, with the file and with what was done before.
import { useEffect, useRef, useState } from './vendor/hooks.js';
import { html } from './html.js';
import { openFile, saveFile, watchFile } from './engine.js';
import { Line } from './line.js';
import { forget, keep, kept } from './store.js';
import { Swatch } from './parts/swatch.js';
import { Sizes } from './parts/sizes.js';
import { Yarns } from './parts/yarns.js';
import { Stripes } from './parts/stripes.js';
import { Table } from './parts/table.js';
import { Looks } from './parts/looks.js';
import { Doubts } from './parts/doubts.js';
import { RowBar } from './parts/rowbar.js';
import { Take } from './parts/take.js';

const MOST_UNDO = 200;

export function Bench() {
  const [state, setState] = useState({ text: '', past: [], future: [], reply: {}, good: {}, ready: false });
  const [piece, setPiece] = useState('');
  const [row, setRow] = useState(1);
  const [view, setView] = useState('chart');
  const [closeUp, setCloseUp] = useState(false);
  const [waiting, setWaiting] = useState(false);
  const [saved, setSaved] = useState('');
  const [conflict, setConflict] = useState(null);
  const [dialog, setDialog] = useState('');
  const [failure, setFailure] = useState('');
  const now = useRef(state);
  now.current = state;
  const file = useRef({ name: null, digest: '' });
  const wanted = useRef({});
  wanted.current = { piece, row, want: [...(view === 'ladder' || view === 'text' ? [] : [view]), 'row', ...(closeUp ? ['close-up'] : [])] };

  const line = useRef(null);
  if (!line.current) {
    const answered = (reply) => {
      setWaiting(false);
      setFailure('');
      setState((one) => {
        const text = reply.text === undefined ? one.text : reply.text;
        const good = reply.pieces ? reply : one.good;
        return { ...one, text, reply, good, ready: true };
      });
      if (reply.piece) setPiece((one) => one || reply.piece);
      if (reply.text !== undefined) save(reply.text);
    };
    line.current = new Line(answered, (error) => { setWaiting(false); setFailure(error.message); });
  }

  const send = (edits = []) => {
    const timer = setTimeout(() => line.current.busy && setWaiting(true), 400);
    line.current.send((all) => ({ text: now.current.text, edits: all, ...wanted.current }), edits);
    return timer;
  };

  /** A change by fields: the program writes it into the text, so that remarks and order stay. */
  const edit = (edits, name) => {
    setState((one) => ({ ...one, past: [...one.past, { text: one.text, name }].slice(-MOST_UNDO), future: [] }));
    send(edits);
  };
  /** The whole text anew: typed, undone, opened. */
  const setText = (text, past, future) => {
    setState((one) => ({
      ...one, text, past: past || [...one.past, { text: one.text, name: 'the text' }].slice(-MOST_UNDO), future: future || [],
    }));
    now.current = { ...now.current, text };
    send();
    save(text);
  };
  const undo = () => {
    const { past, future, text } = now.current;
    if (past.length) setText(past[past.length - 1].text, past.slice(0, -1), [{ text, name: past[past.length - 1].name }, ...future]);
  };
  const redo = () => {
    const { past, future, text } = now.current;
    if (future.length) setText(future[0].text, [...past, { text, name: future[0].name }], future.slice(1));
  };

  const saving = useRef({ busy: false, next: null });
  async function save(text) {
    const kind = file.current.name;
    if (text === file.current.text) return;
    if (!keep(kind || 'pattern', text)) setFailure('This browser stores nothing. Download the pattern file to keep it.');
    else if (!kind) setSaved(`Kept in this browser, ${clock()}`);
    if (!kind) return;
    saving.current.next = text;
    if (saving.current.busy) return;
    saving.current.busy = true;
    while (saving.current.next !== null) {
      const one = saving.current.next;
      saving.current.next = null;
      try {
        const found = await saveFile(one, file.current.digest);
        if (found.conflict) { setConflict(found.conflict); break; }
        Object.assign(file.current, { digest: found.digest, text: one });
        setSaved(`Saved, ${clock()}`);
      } catch (error) { setFailure(error.message); }
    }
    saving.current.busy = false;
  }

  useEffect(() => {
    let stop = () => {};
    (async () => {
      try {
        const found = await openFile();
        file.current = { ...found };
        const last = kept()[0];
        const shared = await sharedText();
        const text = shared || (found.name ? found.text : (last && last.text) || '');
        setState((one) => ({ ...one, text, ready: true }));
        now.current = { ...now.current, text };
        if (text) send(); else setDialog('begin');
        stop = watchFile(async () => {
          const fresh = await openFile();
          if (fresh.digest === file.current.digest || saving.current.busy) return;
          if (now.current.text === file.current.text) {
            Object.assign(file.current, fresh);
            setText(fresh.text); // nothing of the page's own is lost: the file's new text is one step that can be undone
          } else setConflict(fresh);
        });
      } catch (error) { setFailure(error.message); }
    })();
    return () => stop();
  }, []);

  useEffect(() => { if (state.ready && state.text) send(); }, [piece, row, view, closeUp]);
  useEffect(() => {
    const key = (event) => {
      if (!(event.ctrlKey || event.metaKey)) return;
      const typing = event.target.tagName === 'TEXTAREA';
      if (event.key.toLowerCase() === 'z' && !typing) { event.preventDefault(); (event.shiftKey ? redo : undo)(); }
      if (event.key.toLowerCase() === 's') { event.preventDefault(); save(now.current.text); }
    };
    window.addEventListener('keydown', key);
    return () => window.removeEventListener('keydown', key);
  }, []);

  const { reply, good } = state;
  const problems = reply.problems || [];
  const shown = reply.pieces ? reply : { ...good, problems };
  const data = reply.data || good.data || {};
  const planned = (shown.pieces || []).find((one) => one.name === piece);
  const most = planned ? Math.max(...planned.rows.map((one) => one.number)) : 1;
  const pale = problems.length > 0;
  const undoName = state.past.length ? state.past[state.past.length - 1].name : '';
  const parts = { data, reply: shown, piece, edit, problems };

  return html`<div class="bench">
    <header>
      <h1>${shown.title || data.title || 'A new pattern'}</h1>
      <span class="soft" role="status">${saved}</span>
      <span class="grow"></span>
      <button type="button" onClick=${() => setDialog('begin')}>My patterns</button>
      <button type="button" onClick=${undo} disabled=${!state.past.length}>Undo${undoName ? `: ${undoName}` : ''}</button>
      <button type="button" onClick=${redo} disabled=${!state.future.length} aria-label="Redo">↷</button>
      <button type="button" class="strong" onClick=${() => setDialog('take')} disabled=${!state.text}>Download</button>
    </header>
    ${failure && html`<p class="bar problem" role="alert">${failure}</p>`}
    ${conflict && html`<p class="bar" role="alert">The file was changed elsewhere.
      <button type="button" onClick=${() => { Object.assign(file.current, conflict); setConflict(null); setText(conflict.text); }}>Use the file's version</button>
      <button type="button" onClick=${() => { Object.assign(file.current, conflict); setConflict(null); save(now.current.text); }}>Keep what is here</button></p>`}
    ${pale && good.pieces && html`<p class="bar problem">${problems.length === 1 ? 'There is a problem' : `There are ${problems.length} problems`}, told in card 5. What you see is the last version that could be made.</p>`}
    <main>
      <${Swatch} ...${parts} />
      <${Sizes} ...${parts} choose=${setPiece} />
      <${Yarns} ...${parts} />
      <${Stripes} ...${parts} />
      <section class="card cloth" aria-label="The piece as worn">
        <div class="line"><strong>As worn</strong> <span class="soft">Drag a pin to change a measure</span></div>
        <${Table} text=${state.text} reply=${shown} piece=${piece} edit=${edit} pale=${pale} row=${row} point=${setRow} />
      </section>
      <${Looks} view=${view} setView=${setView} text=${state.text} reply=${shown} data=${data} piece=${piece} edit=${edit}
        setText=${setText} row=${row} point=${setRow} pale=${pale} waiting=${waiting} />
      <${Doubts} reply=${{ ...shown, problems }} piece=${piece} edit=${edit} />
      <${RowBar} reply=${shown} row=${Math.min(row, most)} point=${setRow} most=${most} closeUp=${closeUp} toggle=${() => setCloseUp(!closeUp)} />
    </main>
    ${dialog === 'take' && html`<${Take} text=${state.text} name=${file.current.name || `${slug(shown.title)}.toml`} close=${() => setDialog('')} />`}
    ${dialog === 'begin' && html`<${Begin} reply=${shown} open=${(text) => { setDialog(''); setPiece(''); setText(text); }} close=${() => setDialog('')} />`}
  </div>`;
}

function slug(title) {
  return (title || 'pattern').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'pattern';
}

function clock() {
  return new Date().toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
}

/** The pattern in the address's fragment, if it was shared so. */
async function sharedText() {
  const found = window.location.hash.match(/^#pattern=([\w-]+)$/);
  if (!found || typeof DecompressionStream === 'undefined') return '';
  try {
    const raw = Uint8Array.from(atob(found[1].replace(/-/g, '+').replace(/_/g, '/')), (one) => one.charCodeAt(0));
    const stream = new Blob([raw]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
    return await new Response(stream).text();
  } catch (error) { return ''; }
}

function Begin({ open, close }) {
  const [start, setStart] = useState('');
  const [list, setList] = useState(kept());
  useEffect(() => { fetch('starter').then((found) => found.text()).then(setStart); }, []);
  const opened = async (event) => { const [one] = event.target.files; if (one) open(await one.text()); };
  return html`<div class="shade"><div class="card take" role="dialog" aria-modal="true" aria-labelledby="begin" onKeyDown=${(event) => event.key === 'Escape' && close()}>
    <h2 id="begin">My patterns</h2>
    <p><button type="button" autofocus disabled=${!start} onClick=${() => open(start)}>Start from an example</button> with a remark on every line</p>
    <p><label class="file">Open a pattern file <input type="file" accept=".toml" onChange=${opened} /></label></p>
    ${list.length > 0 && html`<h3>Kept in this browser</h3>`}
    ${list.map((one) => html`<p><button type="button" onClick=${() => open(one.text)}>${one.name}</button>
      <span class="soft">${new Date(one.when).toLocaleString()}</span>
      <button type="button" class="quiet" aria-label=${`Delete ${one.name}`} onClick=${() => { forget(one.name); setList(kept()); }}>×</button></p>`)}
    <button type="button" class="quiet" onClick=${close}>Close</button>
  </div></div>`;
}
