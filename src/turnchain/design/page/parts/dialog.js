// A dialog: the browser keeps the focus within it, Esc closes it, and the focus goes back to where it was.
import { useEffect, useRef } from '../vendor/hooks.js';
import { html } from '../html.js';
import { say } from '../words.js';

export function Dialog({ title, close, done = say('close'), wide = false, children }) {
  const node = useRef(null);
  useEffect(() => {
    const before = document.activeElement;
    node.current.showModal();
    return () => before && before.isConnected && before.focus();
  }, []);
  const outside = (event) => event.target === node.current && close();
  return html`<dialog ref=${node} class=${wide ? 'wide' : ''} aria-labelledby="dialog-title" onCancel=${(event) => { event.preventDefault(); close(); }}
    onClick=${outside}><div class="inner">
    <div class="line"><h2 id="dialog-title" class="grow">${title}</h2><button type="button" onClick=${close}>${done}</button></div>
    ${children}
  </div></dialog>`;
}
