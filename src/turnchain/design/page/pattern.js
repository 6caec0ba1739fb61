// The pattern while it is designed: its text, what was done before, the last reply, and the file or browser it is kept in.
import { useEffect, useRef, useState } from './vendor/hooks.js';
import { openFile, saveFile, stop, watchFile } from './engine.js';
import { Line } from './line.js';
import { sharedText } from './sharing.js';
import { keep, kept } from './store.js';
import { shaped } from './tables.js';
import { language, say } from './words.js';

const MOST_UNDO = 200;
const SLOW = 400; // ms until a reply is waited for in words
const TOGETHER = 1500; // ms between edits that are one step
const LONG = 1500; // ms after which a new edit stops what is under way

function clock() {
  return new Date().toLocaleTimeString(language, { hour: '2-digit', minute: '2-digit' });
}

/** `wants()` gives what a message asks for beside the text; `empty()` is called where there is no pattern yet. */
export function usePattern(wants, empty) {
  const [state, setState] = useState({ text: '', past: [], future: [], reply: {}, good: {}, ready: false });
  const [waiting, setWaiting] = useState(false);
  const [saved, setSaved] = useState('');
  const [conflict, setConflict] = useState(null);
  const [failure, setFailure] = useState('');
  const now = useRef(state);
  now.current = state;
  const wanted = useRef(wants);
  wanted.current = wants;
  const file = useRef({ name: null, digest: '' });
  const saving = useRef({ busy: false, next: null, count: 0 });
  const line = useRef(null);
  const today = useRef({});
  const merged = useRef(0); // when the last edit was made that may be one step with the next
  const age = useRef(0); // grows whenever the text is set as a whole

  const put = (change) => {
    now.current = { ...now.current, ...change };
    setState(now.current);
  };
  const settled = () => setWaiting(false);
  const halt = () => stop();
  const answered = (found, message) => {
    const reply = found.data ? { ...found, data: shaped(found.data) } : found;
    settled();
    setFailure('');
    const old = message.age !== age.current; // the text was taken back or typed anew meanwhile: that goes first
    const text = old || reply.text === undefined ? now.current.text : reply.text;
    put({ text, reply, good: reply.pieces ? reply : now.current.good, ready: true });
    if (!old && reply.text !== undefined) save(text);
  };
  const failed = (error) => {
    setFailure(error.stopped ? say('stopped') : error.message);
    settled();
  };
  if (!line.current) line.current = new Line((...all) => today.current.answered(...all), (error) => today.current.failed(error));
  today.current = { answered, failed };

  const send = (edits = []) => {
    setTimeout(() => line.current.taking > SLOW - 10 && setWaiting(true), SLOW);
    const searched = ((now.current.reply.data || {}).stripes || {}).kind === 'stash';
    if (edits.length && searched && line.current.taking > LONG) halt(); // it is no longer wanted
    const made = (all) => all.flatMap((one) => (typeof one === 'function' ? one(now.current.reply.data || {}) : [one]));
    line.current.send((all) => ({ text: now.current.text, edits: made(all), age: age.current, ...wanted.current() }), edits);
  };
  const before = (name) => [...now.current.past, { text: now.current.text, name }].slice(-MOST_UNDO);
  /** A change by fields: the program writes it into the text, so that remarks and order stay. `edits` are a list, or a
      function that makes it of the pattern's tables; with `same` it is one step with those of the same name before it. */
  const edit = (edits, name, same = false) => {
    const { past } = now.current;
    const joined = same && past.length && past[past.length - 1].name === name && Date.now() - merged.current < TOGETHER;
    merged.current = same ? Date.now() : 0;
    put({ past: joined ? past : before(name), future: [] });
    send([].concat(edits));
  };
  /** The whole text anew: typed, undone, opened. */
  const setText = (text, past = before(say('text.undo')), future = []) => {
    age.current += 1;
    put({ text, past, future });
    send();
    save(text);
  };
  /** Another pattern: nothing of the one before is shown any more. */
  const open = (text) => {
    put({ reply: {}, good: {} });
    setText(text);
  };
  const undo = () => {
    const past = [...now.current.past];
    const { text, future } = now.current;
    const { editing } = line.current; // the last step is then that edit, which has not changed the text yet
    line.current.drop();
    let last = past.pop();
    while (!editing && past.length && last.text === text) last = past.pop();
    if (last) setText(last.text, past, [{ text, name: last.name }, ...future]);
  };
  const redo = () => {
    const [next, ...future] = now.current.future;
    if (next) setText(next.text, [...now.current.past, { text: now.current.text, name: next.name }], future);
  };

  async function save(text) {
    const { name } = file.current;
    if (text === file.current.text) return;
    if (!keep(name || title(text), text)) setFailure(say('kept.not'));
    else if (!name) setSaved(say('kept.here', { time: clock() }));
    if (!name) return;
    saving.current.next = text;
    if (saving.current.busy) return;
    saving.current.busy = true;
    while (saving.current.next !== null) {
      const one = saving.current.next;
      saving.current.next = null;
      saving.current.count += 1;
      try {
        const found = await saveFile(one, file.current.digest);
        if (found.conflict) { setConflict(found.conflict); break; }
        Object.assign(file.current, { digest: found.digest, text: one });
        setSaved(say('kept.file', { time: clock() }));
      } catch (error) { setFailure(error.message); }
    }
    saving.current.busy = false;
  }

  const working = () => saving.current.busy || line.current.busy;
  const read = async () => {
    let fresh;
    let before;
    do { // what was read while something was changed or saved may be older than that
      while (working()) await new Promise((done) => { setTimeout(done, 50); });
      before = saving.current.count;
      fresh = await openFile();
    } while (working() || before !== saving.current.count);
    return fresh;
  };
  const changedElsewhere = async () => {
    const fresh = await read().catch((error) => setFailure(error.message));
    if (!fresh) return;
    if (fresh.digest === file.current.digest) return;
    if (now.current.text === file.current.text) {
      Object.assign(file.current, fresh);
      setText(fresh.text); // nothing of the page's own is lost: the file's new text is one step that can be undone
    } else setConflict(fresh);
  };

  useEffect(() => {
    let quiet = () => {};
    (async () => {
      try {
        const found = await openFile();
        file.current = { ...found };
        const [last] = kept();
        const text = (await sharedText()) || (found.name ? found.text : (last && last.text) || '');
        put({ text, ready: true });
        if (text) send(); else empty();
        quiet = watchFile(changedElsewhere);
      } catch (error) { setFailure(error.message); }
    })();
    return () => quiet();
  }, []);

  /** What the maker decides where the file was changed elsewhere: to take what it holds, or to keep what is here. */
  const settle = (take) => {
    Object.assign(file.current, conflict, { text: take ? conflict.text : null });
    setConflict(null);
    if (take) setText(conflict.text); else save(now.current.text);
  };
  return {
    ...state, waiting, saved, conflict, failure, file: file.current, edit, setText, open, undo, redo, settle, halt, send,
    save: () => save(now.current.text),
  };
}

/** The title that a text begins with, as the name it is kept by. */
function title(text) {
  const found = text.match(/^\s*title\s*=\s*(?:"((?:[^"\\]|\\.)*)"|'([^']*)')/m);
  return (found && (found[1] || found[2])) || 'pattern';
}
