// A piece as a small picture: its rows in their colours as worn, and its outline.
import { html } from '../html.js';

export const BARE = '#f4efe6'; // rows that name no yarn

export function corners(list, high) {
  return list.map(([x, y]) => `${x.toFixed(3)},${(high - y).toFixed(3)}`).join(' ');
}

/** The box of an outline in cm, and how high it reaches: {left, low, wide, high, top}. */
export function boxOf(outline) {
  const xs = outline.map((one) => one[0]);
  const ys = outline.map((one) => one[1]);
  const [left, low, top] = [Math.min(...xs), Math.min(...ys), Math.max(...ys)];
  return { left, low, top, wide: Math.max(...xs) - left, high: top - low };
}

/** `bands`: [{band, yarn}]; `colours` by name of yarn. It says nothing itself: what it stands in does. */
export function Thumb({ outline, bands, colours }) {
  const { left, wide, high, top } = boxOf(outline);
  return html`<svg class="thumb" aria-hidden="true" viewBox=${`${left - 0.5} -0.5 ${wide + 1} ${high + 1}`}>
    ${bands.map((one) => html`<polygon points=${corners(one.band, top)} fill=${colours[one.yarn] || BARE} />`)}
    <polygon class="outline" points=${corners(outline, top)} />
  </svg>`;
}
