// The page begins here: the bench is put into it, with the pattern file or what this browser keeps.
import { render } from './vendor/preact.js';
import { html } from './html.js';
import { Bench } from './bench.js';
import { speak, usual } from './words.js';

const place = document.getElementById('bench');
await speak(usual());
place.replaceChildren();
render(html`<${Bench} />`, place);
