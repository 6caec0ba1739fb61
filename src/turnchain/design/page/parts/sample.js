// A small picture of a fabric, as the program draws it. It says nothing itself: what it stands in does.
import { useEffect, useRef } from '../vendor/hooks.js';
import { html } from '../html.js';
import { Drawing } from '../scene.js';

export function Sample({ scene }) {
  const canvas = useRef(null);
  useEffect(() => {
    const node = canvas.current;
    const scale = (node.clientWidth * (window.devicePixelRatio || 1)) / scene.width;
    node.width = Math.round(scene.width * scale);
    node.height = Math.round(scene.height * scale);
    const context = node.getContext('2d');
    context.setTransform(scale, 0, 0, scale, 0, 0);
    new Drawing(scene).draw(context);
  }, [scene]);
  return html`<canvas class="sample" ref=${canvas} aria-hidden="true"></canvas>`;
}
