// A scene on a canvas that can be moved and looked at from nearer: wheel, pinch, drag and keys.
import { useEffect, useRef, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { Drawing } from '../scene.js';
import { say } from '../words.js';

const MOST = 12;

export function Picture({ scene, colours, label, pale }) {
  const canvas = useRef(null);
  const drawing = useRef(null);
  const [view, setView] = useState({ zoom: 1, x: 0, y: 0 });
  const hands = useRef(new Map());

  if (!drawing.current || drawing.current.scene !== scene) drawing.current = scene && new Drawing(scene);

  const box = () => {
    const { clientWidth: wide, clientHeight: high } = canvas.current;
    const fit = Math.min(wide / scene.width, high / scene.height);
    return { wide, high, fit };
  };

  const redraw = () => {
    if (!scene || !canvas.current) return;
    const { wide, high, fit } = box();
    const dots = window.devicePixelRatio || 1;
    const node = canvas.current;
    if (node.width !== Math.round(wide * dots) || node.height !== Math.round(high * dots)) {
      node.width = Math.round(wide * dots);
      node.height = Math.round(high * dots);
    }
    const context = node.getContext('2d');
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, node.width, node.height);
    const scale = fit * view.zoom;
    const x = (wide - scene.width * scale) / 2 + view.x;
    const y = (high - scene.height * scale) / 2 + view.y;
    context.setTransform(scale * dots, 0, 0, scale * dots, x * dots, y * dots);
    drawing.current.recolour(colours);
    drawing.current.draw(context);
  };

  useEffect(() => {
    redraw();
    if (document.fonts && document.fonts.status !== 'loaded') document.fonts.ready.then(redraw);
  });
  useEffect(() => {
    const watch = new ResizeObserver(() => setView((one) => ({ ...one })));
    watch.observe(canvas.current);
    return () => watch.disconnect();
  }, []);

  const zoomed = (by, x = 0, y = 0) => setView((one) => {
    const zoom = Math.min(MOST, Math.max(1, one.zoom * by));
    const part = zoom / one.zoom;
    return zoom === 1 ? { zoom, x: 0, y: 0 } : { zoom, x: x + (one.x - x) * part, y: y + (one.y - y) * part };
  });
  const moved = (x, y) => setView((one) => (one.zoom > 1 ? { ...one, x: one.x + x, y: one.y + y } : one));
  const from = (event) => {
    const { left, top, width, height } = canvas.current.getBoundingClientRect();
    return [event.clientX - left - width / 2, event.clientY - top - height / 2];
  };

  const wheel = (event) => {
    event.preventDefault();
    zoomed(Math.exp(-event.deltaY / 400), ...from(event));
  };
  useEffect(() => {
    const node = canvas.current;
    node.addEventListener('wheel', wheel, { passive: false });
    return () => node.removeEventListener('wheel', wheel);
  });

  const down = (event) => {
    canvas.current.setPointerCapture(event.pointerId);
    hands.current.set(event.pointerId, event);
  };
  const move = (event) => {
    const held = hands.current;
    const before = held.get(event.pointerId);
    if (!before) return;
    const others = [...held.values()].filter((one) => one.pointerId !== event.pointerId);
    if (others.length) {
      const span = (one) => Math.hypot(one.clientX - others[0].clientX, one.clientY - others[0].clientY) || 1;
      zoomed(span(event) / span(before), ...from(event));
    } else moved(event.clientX - before.clientX, event.clientY - before.clientY);
    held.set(event.pointerId, event);
  };
  const up = (event) => hands.current.delete(event.pointerId);

  const keys = {
    '+': () => zoomed(1.25), '=': () => zoomed(1.25), '-': () => zoomed(0.8), 0: () => setView({ zoom: 1, x: 0, y: 0 }),
    ArrowLeft: () => moved(40, 0), ArrowRight: () => moved(-40, 0), ArrowUp: () => moved(0, 40), ArrowDown: () => moved(0, -40),
  };
  const key = (event) => {
    if (!keys[event.key] || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    keys[event.key]();
  };

  return html`<div class=${`picture${pale ? ' pale' : ''}`}>
    <canvas ref=${canvas} role="img" tabindex="0" aria-label=${scene ? `${label}. ${scene.words}` : label}
      onPointerDown=${down} onPointerMove=${move} onPointerUp=${up} onPointerCancel=${up} onKeyDown=${key}></canvas>
    <div class="zoom">
      <button type="button" onClick=${() => zoomed(0.8)} aria-label=${say('picture.smaller')}>−</button>
      <button type="button" onClick=${() => setView({ zoom: 1, x: 0, y: 0 })}>${say('picture.whole')}</button>
      <button type="button" onClick=${() => zoomed(1.25)} aria-label=${say('picture.larger')}>+</button>
    </div>
  </div>`;
}
