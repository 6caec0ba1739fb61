// Python in this browser, with turnchain in it. Fonts and what PDF needs come after the first answer.
import { loadPyodide } from './python/pyodide.mjs';

const START = `
import json, sys
sys.path.insert(0, "/program")
from turnchain.live.answering import Live
live = Live()
def answer(words):
    return json.dumps(live.answer(json.loads(words)))
answer
`;
const LATER = new Set(['booklet', 'archive', 'files']);
/** Letters whose widths the program has to look up in the fonts themselves (lettering/ready.py has all others). */
const RARE = /[^\u0000-\u017f\u2010-\u203f\u2150-\u226f]/;

async function unpack(python, name) {
  const response = await fetch(new URL(`./python/${name}`, import.meta.url));
  python.unpackArchive(await response.arrayBuffer(), 'zip', { extractDir: '/program' });
}

/** What paper needs: a library for fonts, and the fonts, which the page has already. */
async function forPaper(python) {
  await unpack(python, 'paper.zip');
  for (const name of ['Lato-Regular.ttf', 'Lato-Semibold.ttf']) {
    const response = await fetch(new URL(`./fonts/${name}`, import.meta.url));
    python.FS.writeFile(`/program/turnchain/fonts/${name}`, new Uint8Array(await response.arrayBuffer()));
  }
}

const started = (async () => {
  const python = await loadPyodide({ indexURL: new URL('./python/', import.meta.url).href });
  await unpack(python, 'program.zip');
  return { python, answer: python.runPython(START) };
})();
let rest = null;

self.onmessage = async ({ data: { turn, words } }) => {
  try {
    const { python, answer } = await started;
    if (RARE.test(words) || (JSON.parse(words).want || []).some((one) => LATER.has(one))) {
      rest ||= forPaper(python);
      await rest;
    }
    self.postMessage({ turn, reply: answer(words) });
    rest ||= forPaper(python);
  } catch (error) {
    self.postMessage({ turn, error: String(error.message || error) });
  }
};
