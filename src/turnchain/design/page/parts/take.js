// Download: the pattern file, single files, everything in one archive, a link.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { pngOf } from '../scene.js';
import { bytes, download, linkOf } from '../sharing.js';
import { say } from '../words.js';
import { Dialog } from './dialog.js';

/** What the program makes: the part of a reply, the ending and the media type of its file. */
const MADE = { all: ['archive', 'zip', 'application/zip'], booklet: ['booklet', 'pdf', 'application/pdf'], page: ['beside', 'html', 'text/html'] };

/** The pictures as PNG by name, where the program leaves them to the page. */
async function drawn(text) {
  const { undrawn = [] } = await ask({ id: 0, text, want: ['undrawn'] });
  const made = {};
  for (const { name, scene } of undrawn) {
    const png = await pngOf(scene).catch(() => null); // one that is too large for this browser is left out
    if (png) made[name] = png;
  }
  return made;
}

export function Take({ text, beside, name, close }) {
  const [waiting, setWaiting] = useState('');
  const [wrong, setWrong] = useState('');
  const stem = name.replace(/\.toml$/, '');
  const made = (key) => async () => {
    const [want, ending, kind] = MADE[key];
    setWaiting(say('take.making', { file: `${stem}.${ending}` }));
    setWrong('');
    try {
      const pictures = key === 'all' ? await drawn(text) : {};
      const reply = await ask({ id: 0, text, want: [want], pictures });
      if (reply[want]) download(`${stem}.${ending}`, kind, bytes(reply[want]));
      else setWrong(reply.problems.map((one) => one.words).join(' '));
    } catch (error) { setWrong(error.message); }
    setWaiting('');
  };
  const link = async () => {
    try {
      await navigator.clipboard.writeText(await linkOf(text, beside));
      setWaiting(say('take.copied'));
    } catch (error) { setWrong(say('take.notcopied')); }
  };
  const print = () => { close(); setTimeout(() => window.print(), 50); };
  const ways = [['all', made('all')], ['file', () => download(`${stem}.toml`, 'application/toml', text)], ['booklet', made('booklet')],
    ['page', made('page')], ['link', link], ['print', print]];
  return html`<${Dialog} title=${say('download')} close=${close}>
    ${ways.map(([key, act]) => html`<p class="way"><button type="button" onClick=${act}>${say(`take.${key}`)}</button> <span class="soft">${say(`take.${key}.told`)}</span></p>`)}
    <p aria-live="polite">${waiting}</p>${wrong && html`<p class="problem" role="alert">${wrong}</p>`}
  <//>`;
}
