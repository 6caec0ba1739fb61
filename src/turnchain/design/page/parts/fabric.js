// How the fabric is built. It stands below the swatch that it was counted on; a fabric that can be chosen is chosen here.
import { html } from '../html.js';
import { say } from '../words.js';
import { Choice } from './fields.js';

export function Fabric({ data, edit }) {
  const own = data.fabric || {};
  const number = (key) => (value) => [{ path: ['fabric', key], value: Number(value) }];
  return html`<div class="line" role="group" aria-label=${say('fabric')}>
    <${Choice} label=${say('fabric.cluster')} hide=${false} path=${['fabric', 'cluster']} value=${own.cluster ?? 3} edit=${edit}
      change=${number('cluster')} options=${[2, 3, 4, 5].map((one) => [one, one])} />
    <${Choice} label=${say('fabric.gap')} hide=${false} path=${['fabric', 'gap']} value=${own.gap ?? 1} edit=${edit}
      change=${number('gap')} options=${[0, 1].map((one) => [one, one])} />
  </div>`;
}
