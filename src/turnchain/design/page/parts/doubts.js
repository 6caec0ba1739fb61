// Card 5: problems, warnings, and other plans that came close, as pictures to be taken with a click.
import { useEffect, useState } from '../vendor/hooks.js';
import { html } from '../html.js';
import { ask } from '../asking.js';
import { say } from '../words.js';
import { measureName } from './sizes.js';
import { Thumb } from './thumb.js';

const REST = 250; // ms after a reply, until its alternatives are drawn

/** The alternatives of a piece with their pictures; those of the plan before while they are awaited. */
function usePictured(text, piece, planned) {
  const [found, setFound] = useState({ name: '', also: [] });
  useEffect(() => {
    if (!planned) return undefined;
    let wanted = true;
    const timer = setTimeout(() => ask({ id: 0, text, piece, want: ['also'] })
      .then((reply) => wanted && reply.also && setFound({ name: planned.name, also: reply.also }), () => {}), REST);
    return () => { wanted = false; clearTimeout(timer); };
  }, [planned]);
  return planned && found.name === planned.name ? found.also : [];
}

function Also({ other, planned, colours, edit }) {
  const name = say('also.rows', { n: other.rows });
  const same = (fit) => planned.fit.some((one) => one.measure === fit.measure && one.worked === fit.worked);
  const told = other.fit.filter((fit) => !same(fit)).map((fit) => `${measureName(fit.measure)} ${fit.said.worked}${fit.said.off && ` (${fit.said.off})`}`);
  if (other.irregular) told.push(say('also.irregular', { n: other.irregular }));
  return html`<button type="button" class="also" onClick=${() => edit(other.edits, name)}>
    <${Thumb} outline=${other.outline} bands=${other.bands} colours=${colours} />
    <span><strong>${name}, ${say(`also.${other.rowPlan}`)}</strong>${told.map((one) => html`<small>${one}</small>`)}</span>
  </button>`;
}

export function Doubts({ text, reply, piece, colours, edit }) {
  const [looked, setLooked] = useState([]);
  const problems = reply.problems || [];
  const doubts = (reply.doubts || []).filter((one) => !looked.includes(one));
  const hidden = (reply.doubts || []).length - doubts.length;
  const planned = (reply.pieces || []).find((one) => one.name === piece);
  const also = usePictured(text, piece, planned);
  return html`<section class="card doubts" aria-labelledby="card-doubts" tabindex="0">
    <h2 id="card-doubts"><b>5</b> ${say('warnings')}</h2>
    <div role="status">${problems.map((one) => html`<p class="problem" lang="en">${one.words}</p>`)}
    ${doubts.map((one) => html`<div class="doubt"><p lang="en">${one}</p><button type="button" class="quiet" onClick=${() => setLooked([...looked, one])}>${say('warnings.hide')}</button></div>`)}
    ${!problems.length && !doubts.length && html`<p class="soft">${say('warnings.none')}</p>`}</div>
    ${hidden > 0 && html`<button type="button" class="quiet" onClick=${() => setLooked([])}>${say('warnings.hidden', { n: hidden })}</button>`}
    ${also.length > 0 && html`<h3>${say('also')}</h3>${also.map((other) => html`<${Also} other=${other} planned=${planned} colours=${colours} edit=${edit} />`)}`}
  </section>`;
}
