// Colours from a photograph of the stash: it stays on the device; a touch takes the colour under it for a yarn.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';

const SIDE = 520;
const AROUND = 3; // px of the small picture on each side whose mean is taken: strands have lights and shadows

export function Photo({ yarns, edit, close }) {
  const canvas = useRef(null);
  const [picture, setPicture] = useState(null);
  const [yarn, setYarn] = useState(0);
  const [place, setPlace] = useState(null);

  useEffect(() => {
    if (!picture) return;
    const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
    canvas.current.width = Math.round(picture.width * scale);
    canvas.current.height = Math.round(picture.height * scale);
    canvas.current.getContext('2d', { willReadFrequently: true }).drawImage(picture, 0, 0, canvas.current.width, canvas.current.height);
    setPlace([Math.round(canvas.current.width / 2), Math.round(canvas.current.height / 2)]);
  }, [picture]);

  const opened = async (event) => {
    const [file] = event.target.files;
    if (file) setPicture(await createImageBitmap(file));
  };
  const colourAt = ([x, y]) => {
    const { data } = canvas.current.getContext('2d').getImageData(x - AROUND, y - AROUND, 2 * AROUND + 1, 2 * AROUND + 1);
    const sums = [0, 0, 0];
    for (let at = 0; at < data.length; at += 4) for (let part = 0; part < 3; part += 1) sums[part] += data[at + part];
    const count = data.length / 4;
    return `#${sums.map((one) => Math.round(one / count).toString(16).padStart(2, '0')).join('')}`;
  };
  const take = (at) => {
    setPlace(at);
    const colour = colourAt(at);
    edit([{ path: ['yarn', yarn, 'colour'], value: colour }], `colour of ${yarns[yarn].name}`);
  };
  const touched = (event) => {
    const { left, top, width, height } = canvas.current.getBoundingClientRect();
    take([Math.round(((event.clientX - left) / width) * canvas.current.width), Math.round(((event.clientY - top) / height) * canvas.current.height)]);
  };
  const key = (event) => {
    const by = { ArrowLeft: [-8, 0], ArrowRight: [8, 0], ArrowUp: [0, -8], ArrowDown: [0, 8] }[event.key];
    if (event.key === 'Enter' && place) take(place);
    if (!by || !place) return;
    event.preventDefault();
    setPlace([Math.max(0, Math.min(canvas.current.width - 1, place[0] + by[0])), Math.max(0, Math.min(canvas.current.height - 1, place[1] + by[1]))]);
  };
  const mark = place && canvas.current ? { left: `${(place[0] / canvas.current.width) * 100}%`, top: `${(place[1] / canvas.current.height) * 100}%` } : null;

  return html`<div class="shade"><div class="card take" role="dialog" aria-modal="true" aria-labelledby="photo" onKeyDown=${(event) => event.key === 'Escape' && close()}>
    <h2 id="photo">Colours from a photograph</h2>
    <p class="soft">It stays on this device. A camera's colours are approximate: hold each beside its yarn in daylight.</p>
    <p><label class="file">Choose a photograph <input type="file" accept="image/*" autofocus onChange=${opened} /></label></p>
    ${picture && html`<div class="line">${yarns.map((one, at) => html`<button type="button" aria-pressed=${at === yarn} onClick=${() => setYarn(at)}>${one.name}</button>`)}</div>
      <p class="soft">Choose a yarn, then touch it in the picture (or arrow keys and Enter).</p>`}
    <div class="photo"><canvas ref=${canvas} tabindex=${picture ? 0 : -1} role="img" aria-label="The photograph" hidden=${!picture} onClick=${touched} onKeyDown=${key}></canvas>
      ${picture && mark && html`<span class="mark" style=${mark}></span>`}</div>
    <button type="button" class="quiet" onClick=${close}>Done</button>
  </div></div>`;
}
