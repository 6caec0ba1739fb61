// What a picture's colours become when a yarn gets another colour, by the rules of the program's own drawings: tints on
// which the ink can be read, shades of worked cloth. Lightness, chroma and hue as they are seen are OKLCH (Björn
// Ottosson); how far apart two tints look is CIEDE2000 (Sharma, Wu and Dalal).

const [DARK, WHITE, BLACK] = ['#221d18', '#ffffff', '#000000'];
const LEAST_CONTRAST = 4.5;
const [WANTED, LEAST_DIFFERENCE, STEP, FADING] = [6, 5, 0.008, 0.4];
const [BETWEEN, BETWEEN_PALE, PALE] = [0.22, 0.4, 1.25];
/** How much lighter each shade of cloth is, for the darkest yarn and for the palest. */
const SHADES = {
  ground: [-0.07, -0.105], deep: [-0.125, -0.19], edge: [-0.08, -0.12], body: [0.024, 0.04], shade: [-0.02, -0.022], light: [0.092, 0.055],
  ply: [-0.038, -0.055], loop: [0.052, 0.048],
};
const TO_LMS = [[0.4122214708, 0.5363325363, 0.0514459929], [0.2119034982, 0.6806995451, 0.1073969566], [0.0883024619, 0.2817188376, 0.6299787005]];
const TO_LAB = [[0.2104542553, 0.793617785, -0.0040720468], [1.9779984951, -2.428592205, 0.4505937099], [0.0259040371, 0.7827717662, -0.8086757660]];
const FROM_LAB = [[1, 0.3963377774, 0.2158037573], [1, -0.1055613458, -0.0638541728], [1, -0.0894841775, -1.291485548]];
const FROM_LMS = [[4.0767416621, -3.3077115913, 0.2309699292], [-1.2684380046, 2.6097574011, -0.3413193965], [-0.0041960863, -0.7034186147, 1.7076147010]];
const TO_XYZ = [[0.4123907992659593, 0.357584339383878, 0.1804807884018343], [0.21263900587151024, 0.715168678767756, 0.07219231536073371],
  [0.01933081871559182, 0.11919477979462598, 0.9505321522496607]];
const WHITE_POINT = [0.3127 / 0.329, 1, 0.3583 / 0.329];

const times = (rows, column) => rows.map((row) => row[0] * column[0] + row[1] * column[1] + row[2] * column[2]);
const channels = (colour) => [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
const hex = (levels) => `#${levels.map((one) => one.toString(16).padStart(2, '0')).join('')}`;
const linear = (colour) => channels(colour).map((one) => one / 255).map((one) => (one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4));

/** To the nearest whole number, halves to the even one. */
function rounded(value) {
  const low = Math.floor(value);
  if (value - low !== 0.5) return Math.round(value);
  return low % 2 ? low + 1 : low;
}

function luminance(colour) {
  const [red, green, blue] = linear(colour);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one, other) {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

/** The ink that can be read on a colour. */
export function inkOn(colour) {
  const best = contrast(WHITE, colour) > contrast(DARK, colour) ? WHITE : DARK;
  return contrast(best, colour) >= LEAST_CONTRAST ? best : BLACK;
}

function mixed(one, other, share) {
  const [first, second] = [channels(one), channels(other)];
  return hex(first.map((part, at) => rounded(part * share + second[at] * (1 - share))));
}

function lchOf(colour) {
  const [lightness, a, b] = times(TO_LAB, times(TO_LMS, linear(colour)).map(Math.cbrt));
  return [lightness, Math.hypot(a, b), Math.atan2(b, a)];
}

const lightOf = (lightness, chroma, hue) => times(FROM_LMS, times(FROM_LAB, [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)]).map((one) => one ** 3));
const isShown = (light) => light.every((one) => one >= -1e-4 && one <= 1 + 1e-4);

/** The colour of a lightness and a hue, with as much of the chroma as a screen can show. */
function colourOf(wanted, chroma, hue) {
  const lightness = Math.min(1, Math.max(0, wanted));
  let [low, high] = [0, chroma];
  if (isShown(lightOf(lightness, chroma, hue))) low = chroma;
  else {
    for (let nth = 0; nth < 14; nth += 1) {
      const middle = (low + high) / 2;
      if (isShown(lightOf(lightness, middle, hue))) low = middle; else high = middle;
    }
  }
  const inside = lightOf(lightness, low, hue).map((one) => Math.min(1, Math.max(0, one)));
  return hex(inside.map((one) => rounded(255 * (one <= 0.0031308 ? 12.92 * one : 1.055 * one ** (1 / 2.4) - 0.055))));
}

function lightened(colour, wanted) {
  const [own, chroma, hue] = lchOf(colour);
  const light = Math.min(wanted, 1);
  return colourOf(light, own < 1 ? chroma * ((1 - light) / (1 - own)) ** FADING : chroma, hue);
}

function tint(colour) {
  let [made, light] = [colour, lchOf(colour)[0]];
  while (contrast(DARK, made) < WANTED) {
    light += STEP / 2;
    made = lightened(colour, light);
  }
  return made;
}

function labOf(colour) {
  const share = (one) => (one > 216 / 24389 ? Math.cbrt(one) : ((24389 / 27) * one + 16) / 116);
  const [x, y, z] = times(TO_XYZ, linear(colour)).map((one, at) => share(one / WHITE_POINT[at]));
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const radians = (degrees) => (degrees * Math.PI) / 180;
const cosine = (degrees) => Math.cos(radians(degrees));
const degrees = (y, x) => (x || y ? ((Math.atan2(y, x) * 180) / Math.PI + 360) % 360 : 0);

function meanHue(one, other) {
  if (Math.abs(one - other) <= 180) return (one + other) / 2;
  return (one + other + (one + other < 360 ? 360 : -360)) / 2;
}

/** CIEDE2000 between two colours. */
function difference(one, other) {
  const [[l1, a1, b1], [l2, a2, b2]] = [labOf(one), labOf(other)];
  const mean = (Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2;
  const stretch = 1 + 0.5 * (1 - Math.sqrt(mean ** 7 / (mean ** 7 + 25 ** 7)));
  const [c1, c2] = [Math.hypot(stretch * a1, b1), Math.hypot(stretch * a2, b2)];
  const [h1, h2] = [degrees(b1, stretch * a1), degrees(b2, stretch * a2)];
  const grey = c1 * c2 === 0;
  const turn = grey ? 0 : ((h2 - h1 + 540) % 360) - 180;
  const hue = grey ? h1 + h2 : meanHue(h1, h2);
  const [light, chroma] = [(l1 + l2) / 2, (c1 + c2) / 2];
  const byHue = 1 - 0.17 * cosine(hue - 30) + 0.24 * cosine(2 * hue) + 0.32 * cosine(3 * hue + 6) - 0.2 * cosine(4 * hue - 63);
  const dl = (l2 - l1) / (1 + (0.015 * (light - 50) ** 2) / Math.sqrt(20 + (light - 50) ** 2));
  const dc = (c2 - c1) / (1 + 0.045 * chroma);
  const dh = (2 * Math.sqrt(c1 * c2) * Math.sin(radians(turn / 2))) / (1 + 0.015 * chroma * byHue);
  const spread = radians(60 * Math.exp(-(((hue - 275) / 25) ** 2)));
  const twist = -2 * Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7)) * Math.sin(spread);
  return Math.sqrt(Math.max(0, dl * dl + dc * dc + dh * dh + twist * dc * dh));
}

/** The tint of every yarn; those whose rows touch differ where their colours do: the lighter of two is raised. */
export function tints(colours, touching) {
  const made = Object.fromEntries(Object.entries(colours).map(([name, colour]) => [name, tint(colour)]));
  const apart = touching.filter(([one, other]) => difference(colours[one], colours[other]) >= LEAST_DIFFERENCE);
  for (let nth = 0; nth < 200; nth += 1) {
    const near = apart.filter(([one, other]) => difference(made[one], made[other]) < LEAST_DIFFERENCE);
    const raised = new Set(near.map(([one, other]) => (luminance(made[one]) > luminance(made[other]) ? one : other)));
    raised.forEach((name) => { made[name] = lightened(made[name], lchOf(made[name])[0] + STEP); });
    if (!raised.size) break;
  }
  return made;
}

function shade(colour, name) {
  const [lightness, chroma, hue] = lchOf(colour);
  const pale = Math.min(1, Math.max(0, (lightness - 0.3) / 0.6));
  const [dark, light] = SHADES[name];
  return colourOf(lightness + dark + (light - dark) * pale, chroma, hue);
}

function between(tinted, row, under) {
  const share = row !== under && contrast(tinted[row], tinted[under]) < PALE ? BETWEEN_PALE : BETWEEN;
  return mixed(DARK, tinted[row], share);
}

const MADE = {
  yarn: (colours, tinted, name) => colours[name],
  tint: (colours, tinted, name) => tinted[name],
  ink: (colours, tinted, name) => inkOn(colours[name]),
  against: (colours, tinted, name) => mixed(DARK, tinted[name], BETWEEN),
  between: (colours, tinted, row, under) => between(tinted, row, under),
  shade: (colours, tinted, name, one) => shade(colours[name], one),
};

/** The colours of a scene's tones where its yarns have these `colours` by name; of yarns that it names alone. */
export function tonesOf({ tones = [], yarns = {}, touching = [] }, colours = {}) {
  const now = Object.fromEntries(Object.entries(yarns).map(([name, own]) => [name, /^#[0-9a-f]{6}$/i.test(colours[name]) ? colours[name] : own]));
  if (Object.entries(now).every(([name, one]) => one === yarns[name])) return tones.map(([colour]) => colour);
  const tinted = tints(now, touching);
  return tones.map(([, how, ...names]) => MADE[how](now, tinted, ...names));
}
