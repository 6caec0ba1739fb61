"use strict";
(() => {
  const root = document.documentElement;
  const said = document.body.dataset; // the sentences of the page in its language
  const say = (words, slots = {}) => words.replace(/\{(\w+)\}/g, (_, name) => slots[name]);
  const all = (selector, under = document) => [...under.querySelectorAll(selector)];
  const svg = (name, kind) => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    made.setAttribute("class", kind);
    return made;
  };

  // ------------------------------------------------------------------------------- what the browser keeps for us

  // Places go by the names of pieces: { number, row, step }. Steps count up through all tabs, so that the later of two
  // places is known. Only what the maker does is kept: a page that opens elsewhere forgets nothing. On a page of several
  // sizes each size has places of its own, under a key of its own; choices and colours are those of the page.
  const { key: page, before } = document.body.dataset;
  let key = page;
  const kept = { at: "", places: {}, choices: {}, colours: {} };
  const isPlace = (place) => place && typeof place.row === "string" && Number.isFinite(place.step);
  const read = (name) => {
    try {
      const found = JSON.parse(localStorage.getItem(`turnchain/${name}`));
      return found && typeof found === "object" ? found : null;
    } catch {
      return null; // nothing kept, or no leave to keep anything
    }
  };
  /** Takes over what another tab kept later than this one. */
  const merge = () => {
    const found = read(key);
    if (!found) return;
    for (const [name, place] of Object.entries(found.places || {})) {
      if (isPlace(place) && !(kept.places[name]?.step >= place.step)) kept.places[name] = place;
    }
    const latest = (one) => kept.places[one]?.step || 0;
    if (typeof found.at === "string" && latest(found.at) > latest(kept.at)) kept.at = found.at;
  };
  const write = (name, what) => localStorage.setItem(`turnchain/${name}`, JSON.stringify(what));
  const keep = () => {
    merge();
    const { at, places, choices, colours } = kept;
    try {
      if (key === page) write(page, kept);
      else {
        write(key, { at, places });
        write(page, { choices, colours });
      }
      document.querySelector(".unkept").hidden = true;
    } catch {
      document.querySelector(".unkept").hidden = false; // the address keeps the place all the same
    }
  };
  const nextStep = () => {
    merge();
    return 1 + Math.max(0, ...Object.values(kept.places).map(({ step }) => step));
  };
  /** What pages kept before places went by names: under another key, by the numbers of pieces. */
  const older = (pieces) => {
    const found = read(before);
    if (!found || read(key)) return;
    for (const { id, name, number } of pieces) {
      const address = found.places?.[id];
      if (typeof address === "string") kept.places[name] = { number, row: address.slice(id.length + 1), step: 1 };
      if (typeof found.at === "string" && found.at.startsWith(`${id}/`)) kept.at = name;
    }
    for (const part of ["choices", "colours"]) if (typeof found[part] === "object") kept[part] = found[part] || {};
  };
  const own = read(page);
  for (const part of ["choices", "colours"]) if (own && typeof own[part] === "object") kept[part] = own[part] || {};
  /** Takes the places that are kept under a key. */
  const take = (name) => {
    key = name;
    kept.places = {};
    const { at } = read(key) || {};
    kept.at = typeof at === "string" ? at : "";
    merge();
  };

  // ------------------------------------------------------------------------------------------------- the pieces

  const numbers = (path) => (path.getAttribute("d").match(/-?\d+(\.\d+)?/g) || []).map(Number);
  const swiped = 48; // px

  class Piece {
    constructor(section) {
      this.section = section;
      this.id = section.id;
      this.number = Number(section.id.match(/\d+$/)[0]);
      this.name = section.dataset.name;
      this.find = (selector) => section.querySelector(selector);
      this.rows = all(".ledger li", section).map((item) => {
        const address = item.id;
        item.removeAttribute("id"); // or the browser would open the list and scroll there
        const band = document.getElementById(item.dataset.chart).querySelector("path");
        return { item, address, band: band.getAttribute("d"), corners: numbers(band) };
      });
      this.now = 0;
      this.lay();
      this.listen();
    }

    lay() {
      this.find(".ledger").open = false;
      this.find(".turn").hidden = false;
      this.find(".closer").hidden = false;
      this.find(".hint").hidden = false;
      this.over = svg("svg", "over");
      this.over.setAttribute("aria-hidden", "true");
      this.over.setAttribute("viewBox", this.find(".sheet svg").getAttribute("viewBox"));
      this.coming = svg("path", "veil coming");
      this.worked = svg("path", "veil worked");
      this.lit = svg("use", "lit");
      this.ring = svg("path", "ring");
      this.start = svg("path", "start");
      this.over.append(this.coming, this.worked, this.lit, this.ring, this.start);
      this.find(".sheet").append(this.over);
    }

    listen() {
      this.find(".back").addEventListener("click", () => this.step(-1));
      this.find(".next").addEventListener("click", () => this.step(1));
      this.find(".closer").addEventListener("click", (event) => {
        const near = !this.find(".frame").classList.contains("near");
        this.find(".frame").classList.toggle("near", near);
        event.currentTarget.setAttribute("aria-pressed", String(near));
        this.size();
        this.seek("instant");
      });
      for (const part of [this.find(".card"), this.find(".frame")]) this.swipe(part);
      this.rows.forEach(({ item }, index) =>
        item.querySelector("a").addEventListener("click", (event) => {
          event.preventDefault();
          this.go(index);
          this.section.scrollIntoView();
          this.find(index + 1 < this.rows.length ? ".next" : ".back").focus({ preventScroll: true });
        }),
      );
    }

    swipe(part) {
      let from = null;
      part.addEventListener("pointerdown", (event) => {
        from = event.pointerType === "mouse" || !event.isPrimary ? null : event;
      });
      part.addEventListener("pointercancel", () => (from = null));
      part.addEventListener("pointerup", (event) => {
        if (!from || part.classList.contains("near")) return;
        const [x, y] = [event.clientX - from.clientX, event.clientY - from.clientY];
        from = null;
        if (Math.abs(x) >= swiped && Math.abs(x) > 1.5 * Math.abs(y)) this.step(x < 0 ? 1 : -1);
      });
    }

    step(by) {
      const to = this.now + by;
      if (!this.catchUp() && to >= 0 && to < this.rows.length) this.go(to);
    }

    /** Shows a row; what the maker did (``kept``) is kept. */
    go(index, worked = true) {
      this.now = index;
      this.tell();
      this.count();
      this.light();
      this.seek();
      const { address } = this.rows[index];
      if (worked) {
        this.notice("");
        kept.places[this.name] = { number: this.number, row: this.short(address), step: nextStep() };
        kept.at = this.name;
        keep();
      }
      this.shown = kept.places[this.name]?.step || 0;
      try {
        history.replaceState(null, "", `#${address}`);
      } catch { /* some readers of files forbid it */ }
    }

    short(address) {
      return address.slice(this.id.length + 1);
    }

    at(row) {
      return this.rows.findIndex(({ address }) => this.short(address) === row);
    }

    /** Its kept place, or that of the piece which stood here and is no longer on the page: renamed, most likely. */
    kept() {
      if (kept.places[this.name]) return { place: kept.places[this.name], name: this.name };
      const names = new Set(pieces.map((piece) => piece.name));
      const [name, place] = Object.entries(kept.places).find(([one, { number }]) => number === this.number && !names.has(one)) || [];
      return place ? { place, name } : null;
    }

    /** The row nearest to one that is no longer here: of its part of the piece the last not above it. */
    nearest(row) {
      const [, part, number] = row.match(/^(.*?)row-(\d+)$/) || [];
      if (!number) return 0;
      const heights = this.rows.map(({ address }) => this.short(address).match(/^(.*?)row-(\d+)$/));
      const fits = (same) => heights.findLastIndex(([, here, height]) => (!same || here === part) && Number(height) <= Number(number));
      return Math.max(0, fits(true) >= 0 ? fits(true) : fits(false));
    }

    /** Opens at ``row``, or else where the work was left, or nearest to it; and says what is not as it was left. */
    open(row) {
      const found = this.kept();
      const wanted = row || found?.place.row;
      const index = wanted ? this.at(wanted) : 0;
      const left = found ? this.at(found.place.row) : -1;
      this.go(index >= 0 ? index : left >= 0 ? left : this.nearest(found?.place.row || wanted), false);
      this.notice("");
      const title = (at) => this.title(at);
      if (found && left < 0) {
        this.notice(say(said.comeGone, { row: spoken(found.place.row) }));
      } else if (found && left !== this.now) {
        this.notice(say(said.come, { row: title(left) }), left);
      } else if (found && found.name !== this.name) {
        this.notice(say(said.ofAnother, { name: found.name }));
      }
    }

    /** Goes where another tab has come to since. Whether it had. */
    catchUp() {
      merge();
      const place = kept.places[this.name], index = place ? this.at(place.row) : -1;
      if (!place || place.step <= this.shown || index < 0 || index === this.now) return false;
      this.go(index, false);
      this.notice(say(said.otherTab, { row: this.title(index) }));
      return true;
    }

    title(index) {
      return this.rows[index].item.querySelector(".row").firstChild.textContent;
    }

    notice(words, index) {
      const place = this.find(".notice");
      place.replaceChildren(words);
      place.hidden = !words;
      if (index === undefined) return;
      const button = document.createElement("button");
      button.type = "button";
      button.append(say(said.go, { row: this.title(index) }));
      button.addEventListener("click", () => {
        this.go(index);
        this.find(".next").focus({ preventScroll: true });
      });
      place.append(" ", button);
    }

    tell() {
      const { item } = this.rows[this.now];
      const copies = [...item.children].map((part) => part.cloneNode(true));
      const title = this.find(".card .row");
      title.replaceChildren(...copies.shift().childNodes);
      const left = this.rows.length - this.now;
      const rest = this.find(".card .rest");
      rest.querySelector(".done").textContent = left === 1 ? said.lastRow : say(said.rowsLeft, { n: left });
      this.find(".card").replaceChildren(title, ...copies, rest);
      this.find(".ledger li[aria-current]")?.removeAttribute("aria-current");
      item.setAttribute("aria-current", "step");
      this.find(".back").setAttribute("aria-disabled", String(this.now === 0));
      this.find(".next").setAttribute("aria-disabled", String(left === 1));
    }

    count() {
      const rows = {}, long = {};
      for (const { item } of this.rows.slice(this.now)) {
        const { yarn } = item.dataset;
        rows[yarn] = (rows[yarn] || 0) + 1;
        long[yarn] = (long[yarn] || 0) + Number(item.dataset.long || 0);
      }
      for (const line of all(".left tbody tr", this.section)) {
        const { yarn } = line.dataset, cell = line.querySelector(".long");
        line.classList.toggle("over", !rows[yarn]);
        line.querySelector(".rows").textContent = rows[yarn] || 0;
        if (cell) cell.textContent = `${Math.ceil((long[yarn] || 0) / 1000)}\u00a0${cell.dataset.unit}`;
      }
    }

    light() {
      const bands = this.rows.map(({ band }) => band), { item, band, corners } = this.rows[this.now];
      this.worked.setAttribute("d", bands.slice(0, this.now).join(""));
      this.coming.setAttribute("d", bands.slice(this.now + 1).join(""));
      this.lit.setAttribute("href", `#${item.dataset.chart}`);
      this.ring.setAttribute("d", band);
      const points = [0, 2, 4, 6].map((at) => corners.slice(at, at + 2)).sort((one, other) => one[0] - other[0]);
      const [one, other] = item.dataset.from === "left" ? points : points.slice(2);
      this.start.setAttribute("d", `M${one}L${other}`);
    }

    size() {
      const near = this.find(".frame").classList.contains("near");
      this.find(".sheet").style.width = near ? `${Math.max(2.4 * this.find(".frame").clientWidth, 1300)}px` : "";
    }

    seek(behavior) {
      if (this.section.hidden) return;
      const frame = this.find(".frame"), { item, corners } = this.rows[this.now];
      const [, , width, height] = this.over.getAttribute("viewBox").split(" ").map(Number);
      const xs = corners.filter((_, at) => at % 2 === 0), ys = corners.filter((_, at) => at % 2);
      const scale = this.over.getBoundingClientRect().width / width;
      const top = ((Math.min(...ys) + Math.max(...ys)) / 2) * scale - frame.clientHeight / 2;
      const margin = 0.18 * frame.clientWidth;
      const left = item.dataset.from === "left" ? Math.min(...xs) * scale - margin : Math.max(...xs) * scale + margin - frame.clientWidth;
      const far = Math.abs(frame.scrollTop - top) > 2 * frame.clientHeight || height * scale > 20000;
      frame.scrollTo({ top, left, behavior: behavior || (far ? "instant" : "auto") });
    }
  }

  const spoken = (row) => say(said.row, { n: row.match(/\d+$/)?.[0] ?? row });

  // -------------------------------------------------------------------------------------------------- the sizes

  // a page of one size is one block
  const sizes = all(".size").map((block) => ({ name: block.dataset.size, key: block.dataset.key, block }));
  if (!sizes.length) sizes.push({ name: "", key: page, block: document });
  let size, pieces, tabs, current;

  /** The pieces of a size and the tabs that lead to them, made when it is first seen. */
  const begin = (one) => {
    one.pieces = all(".piece", one.block).map((section) => new Piece(section));
    const links = all(`.pieces${one.name && `[data-size="${one.name}"]`} a`);
    one.tabs = links.slice(0, one.pieces.length);
    one.tabs.forEach((tab, index) =>
      tab.addEventListener("click", (event) => {
        event.preventDefault();
        open(one.pieces[index].id);
      }),
    );
  };
  /** Shows a size; it is kept only where the maker chose it. */
  const choose = (one) => {
    size = one;
    take(one.key);
    if (one.name) document.getElementById(one.name).checked = true;
    if (!one.pieces) begin(one);
    ({ pieces, tabs } = one);
    [current] = pieces;
    if (!one.name) older(pieces);
  };
  /** The size that an address names. */
  const sizeOf = (address) => sizes.find(({ name }) => name && (address === name || address.startsWith(`${name}/`)));

  const show = (piece) => {
    current = piece;
    pieces.forEach((one, index) => {
      one.section.hidden = one !== piece;
      if (one === piece) tabs[index].setAttribute("aria-current", "page");
      else tabs[index].removeAttribute("aria-current");
    });
  };

  /** Shows the place that an address names; of a piece alone its kept place. Whether there is such a piece. */
  const open = (address, worked = false) => {
    const named = sizeOf(address);
    if (named && named !== size) choose(named);
    if (size.name && address === size.name) return resume();
    const piece = pieces.find((one) => address === one.id || address.startsWith(`${one.id}/`));
    if (!piece) return false;
    show(piece);
    const row = piece.short(address), index = piece.at(row);
    if (worked && index >= 0) piece.go(index);
    else piece.open(row);
    return true;
  };
  /** Shows the piece that was worked on last. */
  const resume = () => {
    const piece = pieces.find((one) => one.kept()?.name === kept.at) || pieces[0];
    return open(piece.id);
  };
  const asked = () => {
    try {
      return decodeURIComponent(location.hash.slice(1));
    } catch {
      return "";
    }
  };

  addEventListener("hashchange", () => open(asked(), true));
  addEventListener("storage", () => current.catchUp());
  document.addEventListener("visibilitychange", () => document.hidden || current.catchUp());
  addEventListener("resize", () => {
    current.size();
    current.seek("instant");
  });

  const steps = { ArrowRight: 1, ArrowLeft: -1, " ": 1 };
  addEventListener("keydown", (event) => {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey) return;
    const by = steps[event.key];
    if (!by) return;
    const taken = event.key === " " ? "input,select,button,a,summary" : "input,select,.frame.near";
    if (event.target.closest(taken)) return;
    event.preventDefault();
    current.step(event.shiftKey && event.key === " " ? -1 : by);
  });

  // ------------------------------------------------------------------------------------------------- US and UK, light

  for (const choice of all(".switch input")) {
    if (kept.choices[choice.name] === choice.id) choice.checked = true;
    choice.addEventListener("change", () => {
      kept.choices[choice.name] = choice.id;
      keep();
      if (choice.name !== "size") return;
      choose(sizes.find(({ name }) => name === choice.id));
      resume();
    });
  }

  // ------------------------------------------------------------------------------------------------- the edgings

  // What is ticked is kept under a key of its own, so that no other tab's place is written over.
  for (const section of all(".edgings")) {
    const name = `${section.dataset.key}/edgings`;
    for (const box of all("input", section)) {
      box.checked = read(name)?.[box.value] === true;
      box.addEventListener("change", () => {
        const ticked = read(name) || {};
        if (box.checked) ticked[box.value] = true;
        else delete ticked[box.value];
        try {
          write(name, ticked);
        } catch {
          document.querySelector(".unkept").hidden = false;
        }
      });
    }
  }

  // ------------------------------------------------------------------------------------------------- the colours

  const linear = (colour) =>
    [1, 3, 5]
      .map((at) => parseInt(colour.slice(at, at + 2), 16) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  const luminance = (colour) => {
    const [red, green, blue] = linear(colour);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrast = (one, other) => {
    const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (high + 0.05) / (low + 0.05);
  };

  // lightness, chroma and hue as they are seen (OKLCH), by the matrices of CSS Color 4
  const times = (rows, part) => rows.map((row) => row.reduce((sum, each, at) => sum + each * part[at], 0));
  const TO_LMS = [
    [0.4122214708, 0.5363325363, 0.0514459929],
    [0.2119034982, 0.6806995451, 0.1073969566],
    [0.0883024619, 0.2817188376, 0.6299787005],
  ];
  const TO_LAB = [
    [0.2104542553, 0.7936177850, -0.0040720468],
    [1.9779984951, -2.4285922050, 0.4505937099],
    [0.0259040371, 0.7827717662, -0.8086757660],
  ];
  const FROM_LAB = [
    [1, 0.3963377774, 0.2158037573],
    [1, -0.1055613458, -0.0638541728],
    [1, -0.0894841775, -1.2914855480],
  ];
  const FROM_LMS = [
    [4.0767416621, -3.3077115913, 0.2309699292],
    [-1.2684380046, 2.6097574011, -0.3413193965],
    [-0.0041960863, -0.7034186147, 1.7076147010],
  ];
  const lchOf = (colour) => {
    const [light, a, b] = times(TO_LAB, times(TO_LMS, linear(colour)).map(Math.cbrt));
    return [light, Math.hypot(a, b), Math.atan2(b, a)];
  };
  const lightOf = (light, chroma, hue) =>
    times(FROM_LMS, times(FROM_LAB, [light, chroma * Math.cos(hue), chroma * Math.sin(hue)]).map((part) => part ** 3));
  const shown = (parts) => parts.every((part) => part >= -0.0001 && part <= 1.0001);
  const colourOf = (light, chroma, hue) => {
    let [low, high] = shown(lightOf(light, chroma, hue)) ? [chroma, chroma] : [0, chroma];
    for (let step = 0; step < 14 && low < high; step++) {
      const middle = (low + high) / 2;
      [low, high] = shown(lightOf(light, middle, hue)) ? [middle, high] : [low, middle];
    }
    const parts = lightOf(light, low, hue).map((part) => Math.min(1, Math.max(0, part)));
    const levels = parts.map((part) => (part <= 0.0031308 ? 12.92 * part : 1.055 * part ** (1 / 2.4) - 0.055));
    return "#" + levels.map((level) => Math.round(255 * level).toString(16).padStart(2, "0")).join("");
  };
  // the same hue, as light as the ink needs
  const tint = (colour, ink, wanted) => {
    const [own, chroma, hue] = lchOf(colour);
    let made = colour;
    for (let light = own + 0.004; contrast(ink, made) < wanted && light < 1.01; light += 0.004) {
      const held = Math.min(light, 1);
      made = colourOf(held, own < 1 ? chroma * ((1 - held) / (1 - own)) ** 0.4 : chroma, hue);
    }
    return made;
  };

  const paint = document.querySelector(".paint");
  if (paint) {
    paint.hidden = false;
    const [dark, light, full] = paint.dataset.inks.split(" "), least = Number(paint.dataset.least);
    const wanted = Number(paint.dataset.tint);
    const inkOn = (colour) => {
      const best = contrast(light, colour) > contrast(dark, colour) ? light : dark;
      return contrast(best, colour) >= least ? best : full;
    };
    const inputs = all("input[type=color]", paint);
    const colour = (input, index) => {
      root.style.setProperty(`--y${index + 1}`, input.value);
      root.style.setProperty(`--i${index + 1}`, inkOn(input.value));
      root.style.setProperty(`--t${index + 1}`, tint(input.value, dark, wanted));
      input.parentElement.querySelector("output").textContent = input.value;
    };
    const changed = (input, index) => {
      colour(input, index);
      if (input.value === input.defaultValue) delete kept.colours[index];
      else kept.colours[index] = [input.defaultValue, input.value];
      keep();
    };
    inputs.forEach((input, index) => {
      const [before, after] = Array.isArray(kept.colours[index]) ? kept.colours[index] : [];
      // a colour tried on is kept only while the pattern's own stays what it was
      if (before === input.defaultValue && /^#[0-9a-f]{6}$/.test(after)) {
        input.value = after;
        colour(input, index);
      }
      input.addEventListener("input", () => changed(input, index));
    });
    paint.querySelector(".reset").addEventListener("click", () =>
      inputs.forEach((input, index) => {
        input.value = input.defaultValue;
        changed(input, index);
      }),
    );
  }

  // ------------------------------------------------------------------------------------------------- begin

  root.classList.add("live");
  try {
    history.scrollRestoration = "manual"; // a page opened again shows the row
  } catch { /* then it does not */ }
  const address = asked();
  choose(sizeOf(address) || sizes.find(({ name }) => name === kept.choices.size) || sizes[0]);
  const returning = Boolean(kept.at), named = address.startsWith("piece-") || Boolean(sizeOf(address));
  if (!(named && open(address))) resume();
  // a small screen is for the row itself; what stands above it is a scroll away
  if (named || (!address && returning)) matchMedia("(min-width:62rem)").matches
      ? scrollTo(0, 0)
      : current.section.scrollIntoView();
  else if (address) document.getElementById(address)?.scrollIntoView();
})();
