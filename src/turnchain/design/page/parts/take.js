// Download: the pattern file, single files, everything in one archive.
import { useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../engine.js';

function bytes(data) {
  return Uint8Array.from(atob(data), (one) => one.charCodeAt(0));
}

export function download(name, kind, data) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([data], { type: kind }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** The page's address with the pattern in its fragment, which is never sent to a host. */
async function linkOf(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const packed = new Uint8Array(await new Response(stream).arrayBuffer());
  const words = btoa(Array.from(packed, (one) => String.fromCharCode(one)).join(''));
  return `${window.location.origin}${window.location.pathname}#pattern=${words.replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '')}`;
}

export function Take({ text, name, close }) {
  const [waiting, setWaiting] = useState('');
  const [wrong, setWrong] = useState('');
  const stem = name.replace(/\.toml$/, '');
  const fetchOne = async (want, file, kind) => {
    setWaiting(`Making ${file} …`);
    setWrong('');
    try {
      const reply = await ask({ id: 0, text, want: [want] });
      if (reply[want]) download(file, kind, bytes(reply[want]));
      else setWrong(reply.problems.map((one) => one.words).join(' '));
    } catch (error) { setWrong(error.message); }
    setWaiting('');
  };
  return html`<div class="shade" onClick=${(event) => event.target === event.currentTarget && close()}>
    <div class="card take" role="dialog" aria-modal="true" aria-labelledby="take" onKeyDown=${(event) => event.key === 'Escape' && close()}>
      <h2 id="take">Download</h2>
      <p><button type="button" autofocus onClick=${() => download(`${stem}.toml`, 'application/toml', text)}>Pattern file</button> to keep and to share</p>
      <p><button type="button" onClick=${() => fetchOne('archive', `${stem}.zip`, 'application/zip')}>Everything</button> charts, words, yarn, pages, in one archive</p>
      <p><button type="button" onClick=${() => fetchOne('booklet', `${stem}.pdf`, 'application/pdf')}>Booklet</button> to print</p>
      <p><button type="button" onClick=${() => fetchOne('beside', `${stem}.html`, 'text/html')}>Page to work from</button> row by row, on a phone too</p>
      <p><button type="button" onClick=${async () => { await navigator.clipboard.writeText(await linkOf(text)).then(() => setWaiting('The link is copied.'), () => setWrong('This browser cannot copy the link.')); }}>Copy a link</button> that holds the pattern itself</p>
    <p aria-live="polite">${waiting}</p>${wrong && html`<p class="problem">${wrong}</p>`}
      <button type="button" class="quiet" onClick=${close}>Close</button>
    </div></div>`;
}
