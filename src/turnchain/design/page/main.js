// The page begins here: the bench is put into it, with the pattern file or what this browser keeps.
import { render } from './vendor/preact.js';
import { html } from './html.js';
import { Bench } from './bench.js';

const place = document.getElementById('bench');
place.replaceChildren();
render(html`<${Bench} />`, place);
