// The pattern while it is designed: its text, what was done before, the last reply, and the file or browser it is kept in.
import { useEffect, useRef, useState } from './vendor/hooks.js';
import { layBeside } from './asking.js';
import { tablesOfSize } from './brackets.js';
import { openFile, saveFile, stop, watchFile } from './engine.js';
import { Line } from './line.js';
import { shared, texts } from './sharing.js';
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

/** A reply with its tables as the page can show them: as they are written ("data"), and as they are for its size ("shown"). */
function told(found) {
  if (!found.data) return found;
  const nth = Math.max(0, (found.sizes || []).indexOf(found.size));
  return { ...found, data: shaped(found.data), shown: shaped(tablesOfSize(found.data, found.sized, nth)) };
}

/** The edits of a step; those that are made of the pattern's tables are for all its sizes. */
function made(step, data) {
  return step.edits.flatMap((one) => (typeof one === 'function' ? one(data).map((edit) => ({ sizes: 'all', ...edit })) : [one]));
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
  const keys = useRef(0); // of the steps, in turn
  const merged = useRef(0); // when the last edit was made that may be one step with the next
  const beside = useRef({}); // files by their names: a fabric's own, where no folder has it
  const age = useRef(0); // grows whenever the text is set as a whole

  const put = (change) => {
    now.current = { ...now.current, ...change };
    setState(now.current);
  };
  const settled = () => setWaiting(false);
  const halt = () => stop();
  const answered = (found, message, steps) => {
    const { reply: last } = now.current;
    const reply = found.data ? told(found) : { ...found, text: last.text, data: last.data, shown: last.shown };
    settled();
    setFailure('');
    const old = message.age !== age.current; // the text was typed anew meanwhile: that goes first
    const text = old || found.text === undefined ? now.current.text : found.text;
    const keys = steps.map((one) => one.key);
    const before = [message.text, ...(found.texts || [])];
    const past = now.current.past
      .filter((one) => found.text !== undefined || one.text !== undefined || !keys.includes(one.key)) // nothing was changed
      .map((one) => (one.text === undefined && keys.includes(one.key) ? { ...one, text: before[keys.indexOf(one.key)] } : one));
    put({ text, past, reply, good: reply.pieces ? reply : now.current.good, ready: true });
    if (!old && found.text !== undefined) save(text);
  };
  const failed = (error) => {
    setFailure(error.stopped ? say('stopped') : error.message);
    settled();
  };
  const known = () => now.current.reply.text === now.current.text;
  if (!line.current) line.current = new Line({ answered: (...all) => today.current.answered(...all), failed: (error) => today.current.failed(error), known });
  today.current = { answered, failed };

  const message = (steps) => {
    const edits = steps.map((one) => made(one, now.current.reply.data || {}));
    const counts = edits.map((one) => one.length);
    return { text: now.current.text, edits: edits.flat(), steps: counts, age: age.current, ...wanted.current() };
  };
  const send = (step = null) => {
    setTimeout(() => line.current.taking > SLOW - 10 && setWaiting(true), SLOW);
    const searched = ((now.current.reply.data || {}).stripes || {}).kind === 'stash';
    if (step && searched && line.current.taking > LONG) halt(); // it is no longer wanted
    line.current.send(message, step);
  };
  /** What was done so far, and a step more; the text before it is known when its turn has come. */
  const before = (step) => [...now.current.past, step].slice(-MOST_UNDO);
  const enter = (edits, name, future) => {
    const key = (keys.current += 1);
    put({ past: before({ key, name }), future });
    send({ key, edits });
  };
  /** A change by fields: the program writes it into the text, so that remarks and order stay. `edits` are a list, or a
      function that makes it of the pattern's tables; with `same` it is one step with those of the same name before it. */
  const edit = (edits, name, same = false) => {
    const last = now.current.past[now.current.past.length - 1];
    const joined = same && last && last.key && last.name === name && Date.now() - merged.current < TOGETHER;
    merged.current = same ? Date.now() : 0;
    if (joined) {
      put({ future: [] });
      send({ key: last.key, edits: [].concat(edits) });
    } else enter([].concat(edits), name, []);
  };
  /** The whole text anew: typed, undone, opened. Edits under way are made of it. */
  const setText = (text, past = before({ text: now.current.text, name: say('text.undo') }), future = []) => {
    age.current += 1;
    line.current.again();
    put({ text, past, future });
    send();
    save(text);
  };
  /** Lays files beside the pattern. */
  const lay = (files) => {
    beside.current = files;
    layBeside(files);
  };
  const add = (name, text) => lay({ ...beside.current, [name]: text });
  /** Another pattern, with the files beside it: nothing of the one before is shown any more. */
  const open = (text, files = {}) => {
    lay(texts(files));
    line.current.clear();
    put({ reply: {}, good: {} });
    setText(text);
  };
  const undo = () => {
    const past = [...now.current.past];
    const { text, future } = now.current;
    let last = past.pop();
    while (last && !line.current.holds(last.key) && (last.text === undefined || last.text === text) && past.length) last = past.pop();
    if (!last) return;
    const { name } = last;
    const edits = line.current.withdraw(last.key);
    if (last.text !== undefined) setText(last.text, past, [{ text, name }, ...future]);
    else if (edits) {
      put({ past, future: [{ edits, name }, ...future] });
      send();
    }
  };
  const redo = () => {
    const [next, ...future] = now.current.future;
    if (next && next.edits) enter(next.edits, next.name, future);
    else if (next) setText(next.text, [...now.current.past, { text: now.current.text, name: next.name }], future);
  };

  async function save(text) {
    const { name } = file.current;
    if (text === file.current.text) return;
    if (!keep(name || title(text), text, named(beside.current, text))) setFailure(say('kept.not'));
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
        const given = await shared();
        const text = given.text || (found.name ? found.text : (last && last.text) || '');
        lay(given.text ? given.beside : found.name || !last ? {} : texts(last.beside));
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
    ...state, waiting, saved, conflict, failure, file: file.current, beside: beside.current, add, edit, setText, open, undo, redo, settle, halt, send,
    save: () => save(now.current.text),
  };
}

/** Those of `files` that a pattern names. */
function named(files, text) {
  return Object.fromEntries(Object.entries(files).filter(([name]) => text.includes(name)));
}

/** The title that a text begins with, as the name it is kept by. */
function title(text) {
  const found = text.match(/^\s*title\s*=\s*(?:"((?:[^"\\]|\\.)*)"|'([^']*)')/m);
  return (found && (found[1] || found[2])) || 'pattern';
}
