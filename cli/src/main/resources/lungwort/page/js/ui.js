import { html, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';

const AWAY_MS = 100;

/** Lets the browser draw. */
export const pause = () => new Promise((done) => setTimeout(done, 0));

/** Goes to another screen. */
export function goTo(path) {
  location.hash = path;
}

/** A sentence that says what went wrong, read aloud at once. */
export function problem(words) {
  return words ? html`<p class="error" role="alert">${words}</p>` : nothing;
}

/**
 * Date and time on the clock where it was written down, as people here write them; with its offset from UTC where this computer's clock showed another time, or shows the
 * hour twice because clocks changed.
 */
export function when(text) {
  const shown = new Date(`${text.slice(0, 16)}Z`)
    .toLocaleString([], { timeZone: 'UTC', weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' });
  const offset = text.match(/(?:Z|[+-]\d\d:\d\d)$/)?.[0].replace('Z', '+00:00') ?? '';
  return offset && !clockHere(text, offset) ? t('when.elsewhere', { when: shown, offset }) : shown;
}

/** True if this computer's clock showed the same, and only once. */
function clockHere(text, offset) {
  const at = new Date(text).getTime();
  const here = (hours) => -new Date(at + hours * 3_600_000).getTimezoneOffset();
  const [hours, minutes] = offset.slice(1).split(':').map(Number);
  const there = (offset.startsWith('-') ? -1 : 1) * (60 * hours + minutes);
  return here(0) === there && here(-1) === here(1);
}

/** A day as people here write it. */
export function day(text) {
  return new Date(`${text.slice(0, 10)}T12:00`).toLocaleDateString([], { day: 'numeric', month: 'short', year: 'numeric' });
}

/** A number with so many decimals, or a dash where none was measured. */
export function number(value, decimals = 0) {
  return value === null || value === undefined ? t('number.none') : value.toFixed(decimals);
}

/** Without needless decimals. */
export const plain = (value) => number(value, Number.isInteger(value) ? 0 : 1);

/** With a capital first letter, for headings. */
export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** Does something once at a time; while it runs, the button waits. */
export function once(action, failed) {
  let busy = false;
  return async (event) => {
    event?.preventDefault();
    if (busy) {
      return;
    }
    busy = true;
    const button = event?.submitter ?? event?.currentTarget;
    button?.setAttribute?.('aria-disabled', 'true');
    const before = document.querySelector('.error[role=alert]')?.textContent;
    try {
      await action(event);
    } catch (fault) {
      await failed(fault);
      sayAgain(before);
      // Whoever pressed a button at the end of a long screen would not see a sentence at its top.
      document.querySelector('.error[role=alert]')?.scrollIntoView({ block: 'center' });
    } finally {
      busy = false;
      button?.removeAttribute?.('aria-disabled');
    }
  };
}

/** The same sentence twice would be no news to a screen reader: gone for a moment, it is read aloud as the first time. */
function sayAgain(before) {
  const sentence = document.querySelector('.error[role=alert]');
  if (sentence?.textContent === before) {
    sentence.hidden = true;
    setTimeout(() => { sentence.hidden = false; }, AWAY_MS);
  }
}

/** The steps of a round, with the one that is shown now. */
export function steps(round, now) {
  const all = [['signs', 'step.signs'], ['vitals', 'step.vitals'], ['chest', 'step.chest'], ['end', 'step.end']];
  return html`
    <p class="who">${t('round.who', { name: round.person.nickname, age: round.person.age })}</p>
    <nav class="steps" aria-label=${t('step.nav')}>
      <ol>${all.map(([id, words]) => html`<li>${id === now
        ? html`<span aria-current="step">${t(words)}</span>`
        : html`<a href="#/round/${round.round.id}/${id}">${t(words)}</a>`}</li>`)}</ol>
    </nav>
    ${round.longAgo ? html`<p class="warn" id="long-ago">${t('round.longAgo', { when: when(round.round.startedAt) })} <a href="#/">${t('round.new')}</a></p>` : nothing}`;
}

/**
 * An answer that could not be kept. Whoever said that a danger sign is there is told to call all the same: no fault of this page may keep that back.
 *
 * @param words what went wrong
 * @param urgent true if a danger sign was said to be there
 */
export function notKept(round, words, urgent) {
  return !urgent ? problem(words) : html`
    <section class="alarm" id="not-kept" role="alert">
      <p>${t('alarm.notKept')}</p>
      <p class="call">${callNow(round.settings)}</p>
      <p>${words}</p>
    </section>`;
}

/** Radio buttons show what is kept, where an answer could not be. */
export function showKept(name, value) {
  for (const input of document.getElementsByName(name)) {
    input.checked = input.value === String(value ?? '');
  }
}

/** Whom to call now, with the number where it is known. */
export function callNow(settings) {
  return settings.emergencyNumber
    ? html`<a href="tel:${settings.emergencyNumber.replaceAll(' ', '')}">${t('alarm.call', { number: settings.emergencyNumber })}</a>`
    : t('alarm.callUnknown');
}

/** Above everything else in a round once a danger sign or a value says so. */
export function alarm(round) {
  const step = round.nextStep;
  if (step.outcome !== 'emergency-now') {
    return nothing;
  }
  return html`
    <section class="alarm" role="alert" tabindex="-1" aria-label=${step.words}>
      <h2>${step.words}</h2>
      <p class="call">${callNow(round.settings)}</p>
      <p>${t('alarm.nothing')}</p>
      <ul>${step.reasons.filter((r) => r.outcome === 'emergency-now').map((r) => html`<li>${r.text}</li>`)}</ul>
    </section>`;
}

/** What was pressed is gone, and nothing came in its place: whoever goes by keyboard, or hears the page, stands at its beginning. */
export function toHeading() {
  document.querySelector('h1').focus();
}

/** Whoever pressed a button below it is brought there: to eyes, to the keyboard and to a screen reader. */
export function toAlarm() {
  window.scrollTo(0, 0);
  document.querySelector('.alarm, .verdict')?.focus({ preventScroll: true });
}

/** In place of the next take in an emergency: a large button to record would say the opposite of the alarm above it. */
export function nothingNow(round) {
  return html`
    <section class="card" id="nothing-now"><p>${t('alarm.nothingNow')}</p>
      <p><a class="button" href="#/round/${round.round.id}/end">${t('signs.toEnd')}</a></p></section>`;
}

/** True with conditions in which a clinician may have set a lower oxygen target. */
export function targetMayDiffer(conditions) {
  return conditions.includes('copd') || conditions.includes('hypercapnia-risk');
}

/** Below the alarm, never in place of it: where a lower oxygen target is written down, if a clinician has set one. */
export function oxygenTarget(round) {
  const { person, nextStep } = round;
  const byGeneralLimit = nextStep.reasons.some((r) => r.rule === 'home-oximetry-severe');
  return !byGeneralLimit || !targetMayDiffer(person.conditions) ? nothing : html`
    <p class="note" id="oxygen-target">${t('alarm.target', { name: person.nickname })}
      <a href="#/person/${person.id}">${t('start.change', { name: person.nickname })}</a></p>`;
}

/** While the chest is listened to: a step that cannot wait for the last place is told at once. */
export function soFar(round) {
  const step = round.nextStep;
  return step.outcome !== 'be-seen-today' ? nothing : html`
    <p class="warn" id="so-far">${t('step.soFar', { step: step.words })} <a href="#/round/${round.round.id}/end">${t('signs.toEnd')}</a></p>`;
}

/** A choice of one among few, as large buttons that are radio buttons underneath. */
export function choice(name, legend, options, chosen, changed, hint) {
  return html`
    <fieldset class="choice">
      <legend>${legend}${hint ? html`<span class="hint">${hint}</span>` : nothing}</legend>
      <div class="options">${options.map(([value, words]) => html`
        <label class="option ${value === null ? 'unknown' : ''}"><input type="radio" name=${name} value=${value} .checked=${chosen === value}
          @change=${() => changed(value)}><span>${words}</span></label>`)}</div>
    </fieldset>`;
}

/** What moved so slowly that no day stands out in the plots. */
export function slowly({ slowChanges }) {
  return slowChanges.map((c) => html`<p class="warn slowly"><strong>${t('trend.slowly')}</strong> ${c.words}</p>`);
}
