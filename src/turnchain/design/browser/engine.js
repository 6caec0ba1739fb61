// Sends messages to turnchain in this browser: Python runs in a worker, nothing is sent anywhere. The same functions as the
// engine of the page that a program serves.

const waiting = new Map();
let number = 0;
let worker = started();

function started() {
  const one = new Worker(new URL('./worker.js', import.meta.url), { type: 'module' });
  one.onmessage = ({ data }) => {
    const { turn, reply, error } = data;
    const { done, failed } = waiting.get(turn);
    waiting.delete(turn);
    if (error) failed(new Error(error));
    else done(JSON.parse(reply));
  };
  one.onerror = (event) => refuse(new Error(event.message || 'Python did not start in this browser.'));
  return one;
}

function refuse(error) {
  for (const { failed } of waiting.values()) failed(error);
  waiting.clear();
}

if ('serviceWorker' in navigator) navigator.serviceWorker.register('./offline.js');

export function ask(message) {
  number += 1;
  const turn = number;
  return new Promise((done, failed) => {
    waiting.set(turn, { done, failed });
    worker.postMessage({ turn, words: JSON.stringify(message) });
  });
}

export async function openFile() {
  return { name: null };
}

export async function saveFile() {
  return { digest: '' };
}

export function watchFile() {
  return () => {};
}

/** Stops what is worked out at the moment: Python is ended and begins anew. */
export async function stop() {
  worker.terminate();
  worker = started();
  refuse(Object.assign(new Error('stopped'), { stopped: true }));
}
