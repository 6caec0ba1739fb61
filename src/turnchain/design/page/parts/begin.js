// My patterns: where to begin, what this browser keeps, and what is said of the pattern as a whole.
import { useEffect, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { forget, kept } from '../store.js';
import { LANGUAGES, language, say } from '../words.js';
import { Dialog } from './dialog.js';
import { Choice, Field } from './fields.js';
import { Garments } from './garments.js';

/** The least that can be planned. */
function plain() {
  return `title = "${say('new.title')}"

[swatch]
clusters = 10
width = 22
rows = 20
height = 22

[[yarn]]
name = "${say('yarn.new', { n: 1 })}"
colour = "#b5533c"

[[piece]]
name = "${say('name.panel')}"
width = 40
length = 40
`;
}

function Whole({ data, edit, problems }) {
  const tongue = data.language || data.terms || 'US';
  const put = (key) => (['US', 'UK'].includes(key)
    ? [{ path: ['language'], value: null }, { path: ['terms'], value: key }] : [{ path: ['language'], value: key }]);
  return html`<h3>${say('begin.this')}</h3><div class="line">
    <${Field} wide text label=${say('begin.title')} path=${['title']} value=${data.title} edit=${edit} problems=${problems} />
    <${Choice} hide=${false} label=${say('begin.words')} path=${['language']} value=${tongue} edit=${edit} change=${put}
      options=${['US', 'UK', 'de', 'fr'].map((one) => [one, say(`begin.${one.toLowerCase()}`)])} />
    <${Choice} hide=${false} label=${say('begin.units')} path=${['units']} value=${data.units || 'cm'} edit=${edit} options=${[['cm', 'cm'], ['in', 'in']]} />
  </div>`;
}

export function Begin({ data, text, edit, problems, open, tongue, close }) {
  const [start, setStart] = useState('');
  const [list, setList] = useState(kept());
  useEffect(() => { fetch('starter').then((found) => found.text()).then(setStart); }, []);
  const opened = async (event) => {
    const files = await Promise.all([...event.target.files].map(async (one) => [one.name, await one.text()]));
    const isPattern = ([, words]) => /^\s*(\[\[?\s*piece\s*\]|title\s*=)/m.test(words);
    const [, pattern] = files.find(isPattern) || files[0] || [];
    if (pattern !== undefined) open(pattern, Object.fromEntries(files.filter(([, words]) => words !== pattern)));
  };
  const gone = (name) => { forget(name); setList(kept()); };
  return html`<${Dialog} title=${say('patterns')} close=${close}>
    <p class="way"><button type="button" disabled=${!start} onClick=${() => open(start)}>${say('begin.example')}</button> <span class="soft">${say('begin.example.told')}</span></p>
    <p class="way"><button type="button" onClick=${() => open(plain())}>${say('begin.empty')}</button> <span class="soft">${say('begin.empty.told')}</span></p>
    <${Garments} open=${open} />
    <p><label class="file">${say('begin.open')} <input type="file" accept=".toml" multiple onChange=${opened} /></label> <span class="soft">${say('begin.open.told')}</span></p>
    ${list.length > 0 && html`<h3>${say('begin.kept')}</h3>`}
    ${list.map((one) => html`<p class="line"><button type="button" onClick=${() => open(one.text, one.beside)}>${one.name}</button>
      <span class="soft">${new Date(one.when).toLocaleString(language)}</span>
      <button type="button" class="quiet" aria-label=${say('begin.delete', { name: one.name })} onClick=${() => gone(one.name)}>×</button></p>`)}
    ${text && html`<${Whole} data=${data} edit=${edit} problems=${problems} />`}
    <p><span class="field"><label for="page-language">${say('begin.page')}</label>
      <select id="page-language" value=${language} onChange=${(event) => tongue(event.target.value)}>
        ${LANGUAGES.map(([code, name]) => html`<option value=${code} lang=${code} selected=${code === language}>${name}</option>`)}</select></span></p>
  <//>`;
}
