// The slip of a pulled edge: each place it can stand at with its rows, what it comes to, and whether the head passes.
import { useEffect, useRef } from '../vendor/hooks.js';
import { html } from '../html.js';
import { say } from '../words.js';
import { measureName } from './sizes.js';

/** A stitch marker: look at this twice. */
function Marker() {
  return html`<svg class="marker" viewBox="0 0 10 16" aria-hidden="true"><path d="M2 3.5a3 3 0 0 1 6 0v9a3 3 0 0 1-6 0v-5" /></svg>`;
}

/** In words whether a head passes at a place; empty where no neck is concerned. */
function passing({ opening }) {
  if (!opening) return '';
  if (opening.passes === null) return say('slip.nohead');
  if (opening.passes) return say('slip.fits');
  return opening.short ? say('slip.small', opening) : say('slip.strict');
}

export function Slip({ pull, step, choose, take, leave }) {
  const list = useRef(null);
  useEffect(() => {
    const chosen = list.current.querySelector('.chosen');
    if (chosen) chosen.scrollIntoView({ block: 'nearest' });
  }, [pull.at]);
  const said = (place, measure) => (place.fit.find((one) => one.measure === measure) || { said: {} }).said.worked || '';
  const shown = pull.places[pull.at];
  const neck = pull.places.some((place) => said(place, 'neck width')) && pull.measure !== 'neck width';
  const round = pull.places.some((place) => place.opening);
  const tight = shown.opening && shown.opening.passes === false;
  return html`<div class="slip" role="dialog" aria-label=${say('slip', { measure: measureName(pull.measure) })}>
    <div class="line"><strong class="grow">${measureName(pull.measure)} ${said(shown, pull.measure)}</strong>
      <span class=${tight ? 'doubtful' : 'soft'} aria-live="polite">${passing(shown)}</span></div>
    <div class="places" ref=${list} tabindex="0"><table><thead><tr><th>${say('slip.rows')}</th><th>${measureName(pull.measure)}</th>
      ${neck && html`<th>${say('slip.neck')}</th>`}${round && html`<th>${say('slip.round')}</th>`}</tr></thead><tbody>
      ${pull.places.map((place, at) => html`<tr class=${at === pull.at ? "chosen" : ""}>
        <td>${place.rows}</td><td><button type="button" aria-pressed=${at === pull.at} onClick=${() => choose(at)}>${said(place, pull.measure)}</button></td>
        ${neck && html`<td>${said(place, 'neck width')}</td>`}
        ${round && html`<td>${place.opening && html`${place.opening.around} ${place.opening.passes === false && html`<${Marker} />`}`}</td>`}</tr>`)}
    </tbody></table></div>
    <div class="line"><button type="button" onClick=${() => step(-1)}>− ${say('slip.less')}</button><button type="button" onClick=${() => step(1)}>+ ${say('slip.more')}</button>
      <button type="button" class="strong" onClick=${take}>${say('slip.take')}</button><button type="button" class="quiet" onClick=${leave}>${say('cancel')}</button></div>
    <p class="soft keys">${say('slip.keys')}</p>
  </div>`;
}
