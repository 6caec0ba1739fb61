// Talks to turnchain. In: messages. Out: replies, the latest only: while one is under way the newest waits and those
// between are dropped, but never their edits.

const json = { 'Content-Type': 'application/json' };

/** Sends `message` and gives the reply; throws an Error with words where the program does not answer. */
export async function ask(message) {
  const response = await fetch('/live', { method: 'POST', headers: json, body: JSON.stringify(message) });
  if (!response.ok) throw new Error((await response.json().catch(() => ({}))).error || 'The program does not answer.');
  return response.json();
}

export async function openFile() {
  const response = await fetch('/file');
  const found = await response.json();
  if (!response.ok) throw new Error(found.error);
  return found;
}

/** Saves; gives {digest}, or {conflict: {text, digest}} where the file was changed elsewhere. */
export async function saveFile(text, digest) {
  const response = await fetch('/save', { method: 'POST', headers: json, body: JSON.stringify({ text, digest }) });
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

/** A line of messages in which the latest wins. `send(make)`: `make(edits)` builds the message when its turn comes. */
export class Line {
  constructor(answered, failed) {
    Object.assign(this, { answered, failed, busy: false, next: null, edits: [], id: 0 });
  }

  send(make, edits = []) {
    this.edits.push(...edits);
    this.next = make;
    if (!this.busy) this.run();
  }

  async run() {
    this.busy = true;
    while (this.next) {
      const make = this.next;
      const edits = this.edits;
      this.next = null;
      this.edits = [];
      const id = ++this.id;
      try {
        this.answered(await ask({ ...make(edits), id }), edits);
      } catch (error) {
        this.failed(error);
      }
    }
    this.busy = false;
  }
}
