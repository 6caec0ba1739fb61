// The same yarns in other orders, as pictures to choose from.
import { useEffect, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { say } from '../words.js';
import { Dialog } from './dialog.js';
import { Thumb } from './thumb.js';

function nameOf(order, nth) {
  if (nth === 0) return say('orders.now');
  if (order.kind === 'list') return say('orders.two');
  if (order.kind === 'between') return say('orders.between', { name: order.between });
  return order.kind === 'random' ? say('orders.random', { n: order.seed }) : say(`kind.${order.kind}`);
}

export function Orders({ text, reply, piece, colours, edit, close }) {
  const [seed, setSeed] = useState(1);
  const [orders, setOrders] = useState(null);
  const planned = reply.pieces.find((one) => one.name === piece) || reply.pieces[0];
  useEffect(() => {
    let wanted = true;
    ask({ id: 0, text, want: ['orders'], seed }).then((found) => wanted && setOrders(found.orders || []), () => wanted && setOrders([]));
    return () => { wanted = false; };
  }, [seed, text]);
  const take = (order, name) => {
    close();
    if (order !== orders[0]) edit(order.edits, name);
  };
  const bands = (order) => planned.rows.map((row, nth) => ({ band: row.band, yarn: order.yarns[planned.name][nth] }));
  return html`<${Dialog} title=${say('orders.title')} close=${close} wide>
    <p class="soft">${say('orders.told')}</p>
    ${orders === null ? html`<p class="waiting" role="status">${say('orders.waiting')}</p>` : html`<div class="sheet">
      ${orders.map((order, nth) => {
        const name = nameOf(order, nth);
        return html`<button type="button" onClick=${() => take(order, name)}><${Thumb} outline=${planned.outline} bands=${bands(order)} colours=${colours} />
          <strong>${name}</strong><span class="soft">${say('stripes.ends', { n: order.ends })}</span>
          ${order.short.length > 0 && html`<span class="problem">${say('orders.short', { names: order.short.join(', ') })}</span>`}</button>`;
      })}</div>`}
    <p><button type="button" onClick=${() => setSeed(seed + 4)}>${say('orders.more')}</button></p>
  <//>`;
}
