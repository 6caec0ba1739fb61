// Draws a scene on a canvas. Each definition becomes a few merged paths, made once; a use is those paths moved. What lies
// outside the canvas is left out; where a chart is so large that a row is a few px high, a row that comes again is copied.
// Colours of yarns are numbers of the scene's tones, so that a picture can be shown in other yarns at once.
import { tonesOf } from './colours.js';

const plain = { fill: null, stroke: null, width: 1, cap: 'round', dash: [], opacity: 1 };

function styleKey(path) {
  return [path.fill, path.stroke, path.width, path.cap, path.dash, path.opacity].join('|');
}

/** Paths of one style merged as far as nothing lies between them; texts and groups of a definition are left out. */
function merged(scene, name, done) {
  if (done.has(name)) return done.get(name);
  const batches = [];
  const add = (style, path, x, y) => {
    const key = styleKey(style);
    let last = batches[batches.length - 1];
    if (!last || last.key !== key) {
      last = { key, style, path: new Path2D() };
      batches.push(last);
    }
    last.path.addPath(path, new DOMMatrix([1, 0, 0, 1, x, y]));
  };
  for (const item of scene.definitions[name]) {
    if (Array.isArray(item)) {
      for (const batch of merged(scene, item[0], done)) add(batch.style, batch.path, item[1], item[2]);
    } else if (item.d) add({ ...plain, ...item, d: undefined }, new Path2D(item.d), 0, 0);
  }
  done.set(name, batches);
  return batches;
}

const PLACES = /-?\d+(?:\.\d+)?/g;
const MANY = 200; // paths in a definition from which on it is cut or copied
const LOW = 8; // px: a row that is lower may stand on whole px
const nowhere = () => ({ left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity, count: 0 });

function grow(box, other, x, y) {
  box.left = Math.min(box.left, other.left + x);
  box.right = Math.max(box.right, other.right + x);
  box.top = Math.min(box.top, other.top + y);
  box.bottom = Math.max(box.bottom, other.bottom + y);
  box.count += other.count;
}

/** The box around a path, its line and the places that lead its curves included, in px of the scene. */
function boxOfPath(item) {
  const box = nowhere();
  const places = item.d.match(PLACES) || [];
  const wide = item.stroke ? (item.width || 1) : 0;
  for (let at = 0; at + 1 < places.length; at += 2) {
    const [x, y] = [Number(places[at]), Number(places[at + 1])];
    grow(box, { left: x - wide, right: x + wide, top: y - wide, bottom: y + wide, count: 0 }, 0, 0);
  }
  return { ...box, count: 1 };
}

/** The box around a definition, and how many paths it has. */
function boxOf(scene, name, done) {
  if (!done.has(name)) {
    const box = nowhere();
    for (const item of scene.definitions[name]) {
      if (Array.isArray(item)) grow(box, boxOf(scene, item[0], done), item[1], item[2]);
      else if (item.d) grow(box, boxOfPath(item), 0, 0);
    }
    done.set(name, box);
  }
  return done.get(name);
}

export class Drawing {
  constructor(scene) {
    this.scene = scene;
    this.done = new Map();
    this.paths = new Map();
    this.boxes = new Map();
    this.copies = new Map();
    this.recolour();
  }

  /** Takes the yarns' `colours` by name, other ones than those that the scene was drawn in. */
  recolour(colours = {}) {
    const key = JSON.stringify(colours);
    if (key === this.coloured) return;
    this.coloured = key;
    this.tones = tonesOf(this.scene, colours);
    this.copies.clear();
  }

  /** A colour of the scene as it is painted; "ink" is what the use has. */
  tone(colour, ink = null) {
    const own = colour === 'ink' ? ink : colour;
    return own && own[0] === '~' ? this.tones[Number(own.slice(1))] : own;
  }

  /** Draws all of it; `context` is already moved and scaled. */
  draw(context) {
    const { scene } = this;
    const { a: scale, e, f } = context.getTransform();
    const { width, height } = context.canvas;
    this.scale = scale;
    this.view = { left: -e / scale, top: -f / scale, right: (width - e) / scale, bottom: (height - f) / scale };
    if (scene.background) {
      context.fillStyle = scene.background;
      context.fillRect(0, 0, scene.width, scene.height);
    }
    context.lineJoin = 'round';
    context.fontKerning = 'none';
    for (const item of scene.items) this.item(context, item, 0, 0);
  }

  item(context, item, x, y) {
    if (Array.isArray(item)) this.use(context, item, x, y, item[3]);
    else if (item.items) for (const inner of item.items) this.item(context, inner, x, y);
    else if (item.d) this.path(context, item);
    else this.text(context, item);
  }

  /** A use at (x, y) beside its own place; of one that is only partly seen no more than that part. */
  use(context, [name, left, top], x, y, ink) {
    const box = boxOf(this.scene, name, this.boxes);
    const [atX, atY] = [x + left, y + top];
    const seen = { left: box.left + atX, right: box.right + atX, top: box.top + atY, bottom: box.bottom + atY };
    const { view } = this;
    if (seen.right < view.left || seen.left > view.right || seen.bottom < view.top || seen.top > view.bottom) return;
    if (box.count > MANY && (box.bottom - box.top) * this.scale < LOW) {
      this.copy(context, name, box, atX, atY, ink);
    } else if (box.count > MANY && (seen.left < view.left || seen.right > view.right)) {
      for (const item of this.scene.definitions[name]) {
        if (Array.isArray(item)) this.use(context, item, atX, atY, item[3] === 'ink' ? ink : item[3]);
        else if (item.d) { context.translate(atX, atY); this.paint(context, { ...plain, ...item }, this.made(item), ink); context.translate(-atX, -atY); }
      }
    } else {
      context.translate(atX, atY);
      for (const { style, path } of merged(this.scene, name, this.done)) this.paint(context, style, path, ink);
      context.translate(-atX, -atY);
    }
  }

  /** A row of a few px, drawn once for each ink and scale, and then copied to whole px. */
  copy(context, name, box, x, y, ink) {
    const key = `${name} ${ink} ${this.scale}`;
    if (!this.copies.has(key)) {
      if (this.copies.size > 64) this.copies.clear();
      const canvas = new OffscreenCanvas(Math.ceil((box.right - box.left) * this.scale) + 2, Math.ceil((box.bottom - box.top) * this.scale) + 2);
      const own = canvas.getContext('2d');
      own.lineJoin = 'round';
      own.setTransform(this.scale, 0, 0, this.scale, 1 - box.left * this.scale, 1 - box.top * this.scale);
      for (const { style, path } of merged(this.scene, name, this.done)) this.paint(own, style, path, ink);
      this.copies.set(key, canvas);
    }
    const { e, f } = context.getTransform();
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.drawImage(this.copies.get(key), Math.round(e + (x + box.left) * this.scale) - 1, Math.round(f + (y + box.top) * this.scale) - 1);
    context.restore();
  }

  made(item) {
    if (!this.paths.has(item)) this.paths.set(item, new Path2D(item.d));
    return this.paths.get(item);
  }

  path(context, item) {
    this.paint(context, { ...plain, ...item }, this.made(item), null);
  }

  paint(context, style, path, ink) {
    paint(context, { ...style, fill: this.tone(style.fill, ink), stroke: this.tone(style.stroke, ink) }, path);
  }

  text(context, item) {
    context.save();
    context.translate(item.x, item.y);
    if (item.turn) context.rotate((item.turn * Math.PI) / 180);
    context.font = `${item.weight === 'semibold' ? 600 : 400} ${item.size}px Lato`;
    context.textAlign = { middle: 'center', end: 'right' }[item.anchor] || 'left';
    context.fillStyle = this.tone(item.colour);
    context.fillText(item.t, 0, 0);
    context.restore();
  }
}

const LETTERS = ['400 20px Lato', '600 20px Lato'];

/** A scene as PNG, a px for a px, in base 64. An Error where this browser has no canvas as large. */
export async function pngOf(scene) {
  await Promise.all(LETTERS.map((one) => document.fonts.load(one)));
  const canvas = new OffscreenCanvas(scene.width, scene.height);
  new Drawing(scene).draw(canvas.getContext('2d'));
  const data = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
  let words = '';
  for (let at = 0; at < data.length; at += 32768) words += String.fromCharCode(...data.subarray(at, at + 32768));
  return btoa(words);
}

function paint(context, style, path) {
  context.globalAlpha = style.opacity;
  if (style.fill) {
    context.fillStyle = style.fill;
    context.fill(path);
  }
  if (style.stroke) {
    context.strokeStyle = style.stroke;
    context.lineWidth = style.width;
    context.lineCap = style.cap;
    context.setLineDash(style.dash);
    context.stroke(path);
  }
  context.globalAlpha = 1;
}
