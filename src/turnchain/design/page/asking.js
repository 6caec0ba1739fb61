// Messages to the program, each of the size that is looked at where the pattern has several, and with the files that lie
// beside the pattern where this browser keeps them.
import { ask as send } from './engine.js';

let size = '';
let beside = {};

export function lookAt(name) {
  size = name;
}

/** `files`: texts by their names, such as a fabric's own. */
export function layBeside(files) {
  beside = files;
}

export function ask(message) {
  const more = { ...(size ? { size } : {}), ...(Object.keys(beside).length ? { beside } : {}) };
  return send({ ...more, ...message });
}
