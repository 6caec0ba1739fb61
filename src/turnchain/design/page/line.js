// Messages in a line of which the latest wins: while one is under way the newest waits, and those between are dropped,
// but never their edits.
import { ask } from './engine.js';

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
