// Draws a scene on a canvas. Each definition becomes a few merged paths, made once; a use is those paths moved.

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

export class Drawing {
  constructor(scene) {
    this.scene = scene;
    this.done = new Map();
    this.paths = new Map();
  }

  /** Draws all of it; `context` is already moved and scaled. */
  draw(context) {
    const { scene } = this;
    if (scene.background) {
      context.fillStyle = scene.background;
      context.fillRect(0, 0, scene.width, scene.height);
    }
    context.lineJoin = 'round';
    context.fontKerning = 'none';
    for (const item of scene.items) this.item(context, item);
  }

  item(context, item) {
    if (Array.isArray(item)) this.use(context, item);
    else if (item.items) for (const inner of item.items) this.item(context, inner);
    else if (item.d) this.path(context, item);
    else this.text(context, item);
  }

  use(context, [name, x, y, ink]) {
    context.translate(x, y);
    for (const { style, path } of merged(this.scene, name, this.done)) paint(context, style, path, ink);
    context.translate(-x, -y);
  }

  path(context, item) {
    if (!this.paths.has(item)) this.paths.set(item, new Path2D(item.d));
    paint(context, { ...plain, ...item }, this.paths.get(item), null);
  }

  text(context, item) {
    context.save();
    context.translate(item.x, item.y);
    if (item.turn) context.rotate((item.turn * Math.PI) / 180);
    context.font = `${item.weight === 'semibold' ? 600 : 400} ${item.size}px Lato`;
    context.textAlign = { middle: 'center', end: 'right' }[item.anchor] || 'left';
    context.fillStyle = item.colour;
    context.fillText(item.t, 0, 0);
    context.restore();
  }
}

function paint(context, style, path, ink) {
  context.globalAlpha = style.opacity;
  if (style.fill) {
    context.fillStyle = style.fill === 'ink' ? ink : style.fill;
    context.fill(path);
  }
  if (style.stroke) {
    context.strokeStyle = style.stroke === 'ink' ? ink : style.stroke;
    context.lineWidth = style.width;
    context.lineCap = style.cap;
    context.setLineDash(style.dash);
    context.stroke(path);
  }
  context.globalAlpha = 1;
}
