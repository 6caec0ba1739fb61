// Sends messages to the program that serves this page.

const json = { 'Content-Type': 'application/json' };

const SILENT = 'The program does not answer.';

/** What the program answers; an Error with words, `unsent`, where it cannot be reached. */
function reached(path, message) {
  const sent = message && { method: 'POST', headers: json, body: JSON.stringify(message) };
  return fetch(path, sent).catch(() => { throw Object.assign(new Error(SILENT), { unsent: true }); });
}

/** Sends `message` and gives the reply; throws an Error with words where the program does not answer. */
export async function ask(message) {
  const response = await reached('/live', message);
  if (!response.ok) throw new Error((await response.json().catch(() => ({}))).error || SILENT);
  return response.json();
}

export async function openFile() {
  const response = await reached('/file');
  const found = await response.json();
  if (!response.ok) throw new Error(found.error);
  return found;
}

/** Saves; gives {digest}, or {conflict: {text, digest}} where the file was changed elsewhere. */
export async function saveFile(text, digest) {
  const response = await reached('/save', { text, digest });
  const found = await response.json();
  if (response.status === 409) return { conflict: found };
  if (!response.ok) throw new Error(found.error);
  return found;
}

/** Calls `changed` whenever the file is changed by anybody. */
export function watchFile(changed) {
  const news = new EventSource('/news');
  news.onmessage = changed;
  return () => news.close();
}

/** Stops what is searched at the moment; the message under way is then answered with what was found, or not at all. */
export async function stop() {
  await fetch('/stop', { method: 'POST', headers: json, body: '{}' });
}
