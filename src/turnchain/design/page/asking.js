// Messages to the program, each of the size that is looked at where the pattern has several.
import { ask as send } from './engine.js';

let size = '';

export function lookAt(name) {
  size = name;
}

export function ask(message) {
  return send(size ? { size, ...message } : message);
}
