// Messages in a line of which the latest wins: while one is under way the newest waits, and those between are dropped,
// but never their edits. An edit may be a function of the pattern's tables: it is then made when its turn comes, alone,
// so that it knows what the edits before it did.
import { ask } from './asking.js';

let line = null;

/** Whether an edit of the page is under way, or waits for its turn. */
export const editing = () => Boolean(line && line.editing);

/** `send(make, edits)`: `make(edits)` builds the message when its turn comes. */
export class Line {
  constructor(answered, failed) {
    Object.assign(this, { answered, failed, busy: false, next: null, edits: [], sent: [], id: 0 });
    line = this;
  }

  send(make, edits = []) {
    this.edits.push(...edits);
    this.next = make;
    if (!this.busy) this.run();
  }

  /** How many ms the message under way has taken; 0 where there is none. */
  get taking() {
    return this.busy ? performance.now() - this.since : 0;
  }

  /** Whether an edit is under way, or waits for its turn. */
  get editing() {
    return this.edits.length + this.sent.length > 0;
  }

  /** Forgets edits that were not sent yet, and does not send those under way again. */
  drop() {
    Object.assign(this, { edits: [], sent: [] });
  }

  taken() {
    const first = this.edits.findIndex((one) => typeof one === 'function');
    return this.edits.splice(0, first === -1 ? this.edits.length : first || 1);
  }

  async run() {
    this.busy = true;
    document.body.dataset.busy = 'true'; // for those who drive the page by a program
    while (this.next) {
      const make = this.next;
      const edits = this.taken();
      this.sent = edits;
      if (!this.edits.length) this.next = null;
      this.id += 1;
      this.since = performance.now();
      try {
        const message = { ...make(edits), id: this.id };
        this.answered(await ask(message), message);
      } catch (error) {
        if (error.stopped || error.unsent) this.edits.unshift(...this.sent); // they go with the next message
        if (error.unsent) this.next = null; // nothing is tried again and again by itself
        this.failed(error);
      }
      this.sent = [];
    }
    this.busy = false;
    delete document.body.dataset.busy;
  }
}
