import { html, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';

/** A number as people write it: with a comma or a point, perhaps with the sign of its unit. A browser's own number field makes 384 of 38,4. */
const WRITTEN = /^\d+(?:[.,]\d+)?$/;

/**
 * A number that may be left out. What is written wrongly is said below the field as soon as it is left.
 *
 * @param also words for a number outside, where they say more than its limits do; else ''
 */
export function numberField(id, label, unit, value, { lowest, highest, step = 1, hint = '', also = () => '' }) {
  const check = (event) => say(event.target, also);
  return html`
    <div class="field">
      <label for=${id}>${label} <span class="unit">(${unit})</span></label>
      <input id=${id} name=${id} inputmode="decimal" autocomplete="off" data-lowest=${lowest} data-highest=${highest} data-step=${step} data-unit=${unit}
        aria-describedby=${hint ? `${id}-fault ${id}-hint` : `${id}-fault`} .value=${value ?? ''} @change=${check} @input=${clear}>
      <span class="fault" id="${id}-fault" role="alert"></span>
      ${hint ? html`<span class="hint" id="${id}-hint">${hint}</span>` : nothing}
    </div>`;
}

/**
 * What is written in a field.
 *
 * @return value: the number, or null where it is empty or wrong; fault: what is wrong, or ''; outside: a number that lies outside its limits
 */
export function readNumber(input) {
  const text = input.value.replace(/[\s%]/g, '');
  const { lowest, highest, step, unit } = input.dataset;
  if (text === '') {
    return { value: null, fault: '' };
  }
  const value = WRITTEN.test(text) ? Number(text.replace(',', '.')) : NaN;
  if (Number.isNaN(value)) {
    return { value: null, fault: t('number.wrong') };
  }
  if (value < Number(lowest) || value > Number(highest)) {
    return { value: null, outside: value, fault: t('number.outside', { value: text, low: lowest, high: highest, unit }) };
  }
  return Number(step) === 1 && !Number.isInteger(value) ? { value: null, fault: t('number.whole') } : { value, fault: '' };
}

/** Says what is wrong with a field, to eyes, to a screen reader, and to the form, which does not go on with it. */
function say(input, also) {
  const { fault, outside } = readNumber(input);
  const words = outside === undefined ? fault : also(outside) || fault;
  input.setCustomValidity(words);
  input.setAttribute('aria-invalid', words ? 'true' : 'false');
  document.getElementById(`${input.id}-fault`).textContent = words;
}

/** Nobody is scolded while still writing. */
function clear(event) {
  event.target.setCustomValidity('');
  if (readNumber(event.target).fault === '') {
    event.target.setAttribute('aria-invalid', 'false');
    document.getElementById(`${event.target.id}-fault`).textContent = '';
  }
}
