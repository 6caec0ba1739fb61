// What the page says, in the language that the maker chose for it; a language is fetched when it is first used.
import english from './languages/english.js';

export const LANGUAGES = [['en', 'English'], ['de', 'Deutsch'], ['fr', 'Français']];
const FILES = { de: './languages/german.js', fr: './languages/french.js' };
const KEPT = 'turnchain language';

let table = english;
export let language = 'en';

/** The phrase of a key with its {names} put in. */
export function say(key, values = {}) {
  const phrase = table[key] ?? english[key];
  if (phrase === undefined) throw new Error(`no phrase ${key}`);
  return phrase.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

/** A phrase where there is one, else the words themselves: for what comes from the program. */
export function sayOr(key, words) {
  return english[key] === undefined ? words : say(key);
}

/** Takes another language; it is kept by this browser. */
export async function speak(code) {
  table = FILES[code] ? (await import(FILES[code])).default : english;
  language = FILES[code] ? code : 'en';
  document.documentElement.lang = language;
  try { localStorage.setItem(KEPT, language); } catch { /* it is asked for again next time */ }
}

/** The language kept from before, else that of the browser. */
export function usual() {
  let kept = null;
  try { kept = localStorage.getItem(KEPT); } catch { /* the browser's own */ }
  return kept || navigator.language.slice(0, 2);
}
