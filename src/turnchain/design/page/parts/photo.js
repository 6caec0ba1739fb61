// Colours from a photograph of the stash: it stays on the device; a touch takes the colour under it for a yarn.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { say } from '../words.js';
import { Dialog } from './dialog.js';
import { addYarn } from './yarns.js';

const SIDE = 520;
const AROUND = 3; // px of the small picture on each side whose mean is taken: strands have lights and shadows
const STEP = 8; // px, by an arrow key

/** The mean colour around [x, y] of a canvas. */
function colourAt(canvas, [x, y]) {
  const { data } = canvas.getContext('2d').getImageData(x - AROUND, y - AROUND, 2 * AROUND + 1, 2 * AROUND + 1);
  const sums = [0, 0, 0, 0];
  for (let at = 0; at < data.length; at += 4) for (let part = 0; part < 4; part += 1) sums[part] += data[at + part] * (part < 3 ? data[at + 3] / 255 : 1);
  const count = sums[3] / 255 || 1; // px that lie within the picture
  return `#${sums.slice(0, 3).map((one) => Math.round(one / count).toString(16).padStart(2, '0')).join('')}`;
}

export function Photo({ yarns, edit, recolour, close }) {
  const canvas = useRef(null);
  const [picture, setPicture] = useState(null);
  const [yarn, setYarn] = useState(0); // as many as there are yarns: a new one
  const [place, setPlace] = useState(null);
  const [told, setTold] = useState('');

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
    if (!file) return;
    try {
      setPicture(await createImageBitmap(file));
      setTold('');
    } catch (error) { setTold(say('photo.bad')); }
  };
  const take = (at) => {
    setPlace(at);
    const colour = colourAt(canvas.current, at);
    if (yarn < yarns.length) recolour(yarn, colour);
    else edit([addYarn(colour)], say('yarn.add.undo'));
    setTold(say('photo.taken', { colour, name: yarn < yarns.length ? yarns[yarn].name : say('photo.new') }));
  };
  const touched = (event) => {
    const { left, top, width, height } = canvas.current.getBoundingClientRect();
    take([Math.round(((event.clientX - left) / width) * canvas.current.width), Math.round(((event.clientY - top) / height) * canvas.current.height)]);
  };
  const key = (event) => {
    const by = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, -STEP], ArrowDown: [0, STEP] }[event.key];
    if (event.key === 'Enter' && place) take(place);
    if (!by || !place) return;
    event.preventDefault();
    const [width, height] = [canvas.current.width, canvas.current.height];
    setPlace([Math.max(0, Math.min(width - 1, place[0] + by[0])), Math.max(0, Math.min(height - 1, place[1] + by[1]))]);
  };
  const mark = place && canvas.current && picture
    ? { left: `${(place[0] / canvas.current.width) * 100}%`, top: `${(place[1] / canvas.current.height) * 100}%` } : null;

  return html`<${Dialog} title=${say('photo')} close=${close} done=${say('done')}>
    <p class="soft">${say('photo.told')}</p>
    <p><label class="file">${say('photo.choose')} <input type="file" accept="image/*" onChange=${opened} /></label></p>
    ${picture && html`<div class="line">${yarns.map((one, at) => html`<button type="button" aria-pressed=${at === yarn} onClick=${() => setYarn(at)}>
        <span class="dot" style=${{ background: one.colour }}></span>${one.name}</button>`)}
      <button type="button" aria-pressed=${yarn >= yarns.length} onClick=${() => setYarn(yarns.length)}>+ ${say('photo.new')}</button></div>
      <p class="soft">${say('photo.how')}</p>`}
    <p aria-live="polite">${told}</p>
    <div class="photo"><canvas ref=${canvas} tabindex=${picture ? 0 : -1} role="img" aria-label=${say('photo.picture')} hidden=${!picture} onClick=${touched} onKeyDown=${key}></canvas>
      ${mark && html`<span class="mark" style=${mark}></span>`}</div>
  <//>`;
}
