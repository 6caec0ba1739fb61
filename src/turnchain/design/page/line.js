// Messages in a line of which the latest wins: while one is under way the newest waits, and those between are dropped,
// but never their edits. Edits come in steps, each of which can be taken back by itself. An edit may be a function of the
// pattern's tables: its step is sent alone, when its turn comes, so that it knows what the edits before it did.
import { ask } from './asking.js';

let line = null;
let back = 0;

/** Whether an edit of the page is under way, or waits for its turn. */
export const editing = () => Boolean(line && line.editing);

/** How many steps were withdrawn before they were made. */
export const withdrawn = () => back;

const isMade = (step) => step.edits.some((one) => typeof one === 'function');

/** `send(make, step)`: `make(steps)` builds the message when its turn comes; a step is {key, edits}. `known()` says whether
    the tables are those of the text. */
export class Line {
  constructor({ answered, failed, known }) {
    Object.assign(this, { answered, failed, known, busy: false, next: null, steps: [], sent: [], alone: false, id: 0 });
    line = this;
  }

  send(make, step = null) {
    const last = this.steps[this.steps.length - 1];
    if (step && last && last.key === step.key) last.edits.push(...step.edits);
    else if (step) this.steps.push({ ...step, edits: [...step.edits] });
    this.next = make;
    if (!this.busy) this.run();
  }

  /** How many ms the message under way has taken; 0 where there is none. */
  get taking() {
    return this.busy ? performance.now() - this.since : 0;
  }

  get editing() {
    return this.steps.length + this.sent.length > 0;
  }

  /** Whether a step is under way, or waits for its turn. */
  holds(key) {
    return [...this.sent, ...this.steps].some((one) => one.key === key);
  }

  /** What is under way is not taken when it comes back; its steps are sent anew. */
  again() {
    if (!this.sent.length) return;
    this.steps.unshift(...this.sent);
    this.sent = [];
    this.gone = true;
  }

  /** Takes a step back that was not made yet; gives its edits, or null where it was made or is none. */
  withdraw(key) {
    if (this.sent.some((one) => one.key === key)) this.again();
    const edits = this.steps.filter((one) => one.key === key).flatMap((one) => one.edits);
    this.steps = this.steps.filter((one) => one.key !== key);
    if (edits.length) back += 1;
    return edits.length ? edits : null;
  }

  /** Forgets all steps. */
  clear() {
    Object.assign(this, { steps: [], sent: [], gone: true });
  }

  taken() {
    if (!this.steps.length) return [];
    if (isMade(this.steps[0])) return this.known() || this.looked ? this.steps.splice(0, 1) : [];
    const first = this.steps.findIndex(isMade);
    return this.steps.splice(0, this.alone ? 1 : first === -1 ? this.steps.length : first);
  }

  async run() {
    this.busy = true;
    document.body.dataset.busy = 'true'; // for those who drive the page by a program
    while (this.next) {
      const make = this.next;
      const steps = this.taken();
      this.looked = !steps.length && this.steps.length > 0; // once: then the tables are as they can be
      this.sent = steps;
      this.gone = false;
      if (!this.steps.length) [this.next, this.alone] = [null, false];
      this.id += 1;
      this.since = performance.now();
      try {
        const message = { ...make(steps), id: this.id };
        const reply = await ask(message);
        if (!this.gone) this.took(reply, message, steps, make);
      } catch (error) {
        if (error.stopped || error.unsent) this.steps.unshift(...this.sent); // they go with the next message
        if (error.unsent) this.next = null; // nothing is tried again and again by itself
        this.failed(error, this.sent);
      }
      this.sent = [];
    }
    this.busy = false;
    delete document.body.dataset.busy;
  }

  /** A reply that could make no edit says nothing of the other steps: each is then sent by itself. */
  took(reply, message, steps, make) {
    if (reply.text === undefined && steps.length > 1) {
      this.again();
      this.alone = true;
      this.next = this.next || make;
    } else this.answered(reply, message, steps);
  }
}
