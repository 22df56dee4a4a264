import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, put } from '../api.js';
import { alarm, choice, goTo, once, oxygenTarget, problem, steps, toAlarm } from '../ui.js';
import { numberField, readNumber } from '../number-field.js';
import { BreathCounter } from '../breath-counter.js';

/** Fields of the form that hold a number, and the names under which the diary keeps them. */
const NUMBERS = [
  ['spo2', 'spo2Percent'], ['rate', 'respiratoryRatePerMinute'], ['pulse', 'pulsePerMinute'], ['temperature', 'temperatureCelsius'],
  ['systolic', 'systolicMmHg'], ['peak-flow', 'peakFlowLitresPerMinute'], ['weight', 'weightKg'], ['oxygen-flow', 'oxygenLitresPerMinute'],
];

/** The entries that are other than before. */
const changed = (before, now) => Object.fromEntries(Object.entries(now).filter(([name, value]) => value !== before[name]));

const YES_NO = () => [[true, t('answer.yes')], [false, t('answer.no')], [null, t('answer.unknown')]];

/** What was measured and seen. Everything may be left out: what is empty was not measured, which is never taken as usual. */
export async function show(screen, id) {
  let round = await get(`/api/rounds/${id}`);
  const state = { fault: '' };
  // What is written in a field is never replaced while somebody writes in it.
  const first = round.round;
  const vitals = { ...first.vitals };
  const symptoms = { ...first.symptoms };
  const fahrenheit = round.settings.temperatureUnit === 'fahrenheit';
  const counter = new BreathCounter(draw);
  const kept = { vitals: { ...vitals }, symptoms: { ...symptoms }, symptomWords: first.symptomWords, medicines: first.medicines };
  let keeping = Promise.resolve();
  let gone = false;
  screen.onLeave(() => {
    counter.stop();
    window.removeEventListener('pagehide', keepLast);
    return keep().then(() => { gone = true; });
  });
  window.addEventListener('pagehide', keepLast);

  /** What stands in the form and is not kept yet, or null: only that is sent, so that what another window kept meanwhile stays. What is typed wrongly is said when going on. */
  function unkept() {
    const form = document.getElementById('measured');
    // A form that is taken away loses the focus too, and holds nothing any more.
    if (gone || screen.drawn !== true || form === null) {
      return null;
    }
    const now = { vitals: { ...vitals }, symptoms };
    for (const [name, field] of NUMBERS) {
      const input = form.elements[name];
      if (input) {
        const { value, fault } = readNumber(input);
        now.vitals[field] = fault ? kept.vitals[field] : value === null ? null : stored(field, value);
      }
    }
    const sent = { vitals: changed(kept.vitals, now.vitals), symptoms: changed(kept.symptoms, now.symptoms) };
    if ('respiratoryRatePerMinute' in sent.vitals) {
      sent.vitals.rateSource = sent.vitals.respiratoryRatePerMinute === null ? null : 'counted';
    }
    for (const [name, field] of [['words', 'symptomWords'], ['medicines', 'medicines']]) {
      const words = form.elements[name].value;
      if (words !== kept[field]) {
        sent[field] = words;
      }
    }
    return Object.keys(sent.vitals).length + Object.keys(sent.symptoms).length > 0 || 'symptomWords' in sent || 'medicines' in sent ? sent : null;
  }

  function stored(field, value) {
    return field === 'temperatureCelsius' && fahrenheit ? Math.round((value - 32) / 0.18) / 10 : value;
  }

  async function send() {
    const sent = unkept();
    if (sent === null) {
      return;
    }
    const before = round.nextStep.outcome;
    round = await put(`/api/rounds/${id}/answers`, sent);
    Object.assign(kept.vitals, sent.vitals);
    Object.assign(kept.symptoms, sent.symptoms);
    kept.symptomWords = sent.symptomWords ?? kept.symptomWords;
    kept.medicines = sent.medicines ?? kept.medicines;
    state.fault = '';
    draw();
    if (round.nextStep.outcome === 'emergency-now' && before !== 'emergency-now' && screen.here()) {
      document.querySelector('.alarm')?.scrollIntoView({ block: 'nearest' });
    }
  }

  /** Keeps at once what was entered, one after the other: a step pressed above, a page left or reloaded takes no value with it, and an emergency is told at its first number. */
  function keep() {
    keeping = keeping.then(send).catch((fault) => { state.fault = fault.message; draw(); });
    return keeping;
  }

  /** When the page goes away there is no time to wait for an answer. */
  function keepLast() {
    const sent = unkept();
    if (sent !== null) {
      put(`/api/rounds/${id}/answers`, sent, { keepalive: true }).catch(() => {});
    }
  }

  const save = once(async () => {
    await keeping;
    await send();
    if (round.nextStep.outcome === 'emergency-now') {
      draw();
      toAlarm();
    } else {
      goTo(`/round/${id}/chest`);
    }
  }, (fault) => { state.fault = fault.message; draw(); window.scrollTo(0, 0); });

  function takeCount() {
    const rate = counter.perMinute();
    const field = document.getElementById('rate');
    field.value = rate;
    field.dispatchEvent(new Event('change'));
    screen.say(t('count.taken', { rate }));
    counter.stop();
    field.focus();
    keep();
  }

  function pick(where, field) {
    return (value) => { where[field] = value; draw(); keep(); };
  }

  /** Without oxygen there is no flow of it: one that was written goes. */
  function pickOxygen(value) {
    vitals.onOxygen = value;
    if (value !== true) {
      vitals.oxygenLitresPerMinute = null;
    }
    draw();
    keep();
  }

  /** The flow of earlier days stands where it is typed; what is made of more is said at once beside it. */
  function oxygenFlow(range) {
    const before = round.earlierFlow;
    const hint = `${before ? t('vitals.oxygenFlowBefore', { before: before.words }) : t('vitals.oxygenFlowFirst')} ${t('vitals.oxygenFlowHint')}`;
    return html`
      ${numberField('oxygen-flow', t('vitals.oxygenFlow'), t('vitals.litres'), vitals.oxygenLitresPerMinute, { ...range['oxygen-flow'], step: 0.001, hint })}
      ${round.nextStep.reasons.filter((r) => r.rule.startsWith('more-oxygen')).map((r) => html`
        <p class="warn" id="said-more-oxygen" role="alert">${r.outcome === 'be-seen-today' ? html`<strong>${t('vitals.weightSeen')}</strong> ` : nothing}${r.text}</p>`)}`;
  }

  /** This person's own usual stands where the number is typed: a fall from it counts, even where no limit is crossed. */
  function spo2Hint() {
    const usual = round.usualSpo2;
    return usual === null ? t('vitals.spo2Hint') : `${t('vitals.spo2Usual', { usual })} ${t('vitals.spo2Hint')}`;
  }

  /** The newest earlier weight stands where the number is typed, so that pounds or two digits changed round are seen. */
  function weightHint() {
    const last = round.earlierWeights.at(-1);
    const judged = !heart ? 'vitals.weightHint' : round.person.ageMonths < 192 ? 'vitals.weightHintChild' : 'vitals.weightHintHeart';
    return `${t('vitals.weighing')} ${last ? t('vitals.weightLast', { last: last.words }) : t('vitals.weightFirst')} ${t(judged)}`;
  }

  /** What is made of the weight is said at once beside it: whether it has risen, and whether it can hardly be. */
  function weightSaid() {
    return round.nextStep.reasons.filter((r) => r.rule.startsWith('weight-') && r.rule !== 'weight-of-a-child').map((r) => html`
      <p class="warn" id=${`said-${r.rule}`} role="alert">${r.outcome === 'be-seen-today' ? html`<strong>${t('vitals.weightSeen')}</strong> ` : nothing}${r.text}</p>`);
  }

  const weight = (range) => html`
    ${numberField('weight', t('vitals.weight'), 'kg', vitals.weightKg, { ...range.weight, step: 0.1, hint: weightHint() })}
    ${weightSaid()}`;

  /** Whoever cannot say yet that something hurts is not asked; the words of a baby's parent are not those of a grandmother's son. */
  const baby = round.person.ageMonths < 24;
  const asked = round.person.ageMonths < 48 ? ['fever', 'chestInfection'] : ['chestPain', 'fever', 'chestInfection'];
  // Who can speak in sentences neither feeds nor plays.
  const grown = round.person.ageMonths >= 144;
  // Where somebody has asthma, the peak flow is asked for in the open, and says nothing without the best.
  const asthma = round.person.conditions.includes('asthma');
  // With heart failure the weight is asked for in the open.
  const heart = round.person.conditions.includes('heart-failure');
  const best = round.person.limits.bestPeakFlowLitresPerMinute;
  const worded = (name) => t(`vitals.${name}${baby ? '.baby' : ''}`);

  function draw() {
    const { vitals: range, consciousness, breathlessness } = screen.shared.lists;
    const words = (c, what) => (baby ? t(`baby.${what}.${c.id}`) : what === 'breathless' && (grown || c.id === 'none') ? t(`grown.breathless.${c.id}`) : c.words);
    const named = (list, what) => [...list.filter((c) => !(baby && c.id === 'confused')).map((c) => [c.id, words(c, what)]), [null, t('answer.unknown')]];
    const degrees = vitals.temperatureCelsius;
    const f = (c) => Math.round((c * 1.8 + 32) * 10) / 10;
    screen.draw(t('vitals.title'), html`
      ${steps(round, 'vitals')}
      ${alarm(round)}
      ${oxygenTarget(round)}
      ${problem(state.fault)}
      <p>${t('vitals.intro')}</p>
      <form id="measured" @submit=${save} @focusout=${keep}>
        <section class="card"><h2>${t('vitals.measured')}</h2>
          ${numberField('spo2', t('vitals.spo2'), '%', vitals.spo2Percent, { ...range.spo2, hint: spo2Hint() })}
          ${choice('oxygen', t('vitals.oxygen'), YES_NO(), vitals.onOxygen, pickOxygen)}
          ${vitals.onOxygen === true ? oxygenFlow(range) : nothing}
          ${numberField('rate', t('vitals.rate'), t('vitals.perMinute'), vitals.respiratoryRatePerMinute, { ...range['respiratory-rate'], hint: t('vitals.rateHint') })}
          ${counter.template(takeCount)}
          ${choice('asleep', t('vitals.asleep'), YES_NO(), vitals.asleep, pick(vitals, 'asleep'))}
          ${numberField('pulse', t('vitals.pulse'), t('vitals.perMinute'), vitals.pulsePerMinute, range.pulse)}
          ${numberField('temperature', t('vitals.temperature'), fahrenheit ? '°F' : '°C', degrees === null ? null : fahrenheit ? f(degrees) : degrees,
            { lowest: fahrenheit ? f(range.temperature.lowest) : range.temperature.lowest, highest: fahrenheit ? f(range.temperature.highest) : range.temperature.highest, step: 0.1,
              also: (written) => (!fahrenheit && written >= range.temperature.likeFahrenheit.lowest && written <= range.temperature.likeFahrenheit.highest ? t('vitals.looksFahrenheit') : '') })}
          ${heart ? weight(range) : nothing}
          ${round.person.ageMonths < 60 && vitals.systolicMmHg === null && vitals.peakFlowLitresPerMinute === null ? html`<input type="hidden" name="systolic" value=""><input type="hidden" name="peak-flow" value="">
            ${heart ? nothing : html`<details ?open=${vitals.weightKg !== null}><summary>${t('vitals.weight')}</summary>${weight(range)}</details>`}` : html`<details ?open=${asthma || vitals.systolicMmHg !== null || vitals.peakFlowLitresPerMinute !== null || (!heart && vitals.weightKg !== null)}><summary>${t(heart ? 'vitals.more' : 'vitals.moreWeight')}</summary>
            ${numberField('systolic', t('vitals.systolic'), 'mmHg', vitals.systolicMmHg, range.systolic)}
            ${numberField('peak-flow', t('vitals.peakFlow'), t('vitals.litres'), vitals.peakFlowLitresPerMinute, { ...range['peak-flow'], hint: best === null ? t('vitals.peakFlowNoBest') : t('vitals.peakFlowBest', { best }) })}
            ${heart ? nothing : weight(range)}
          </details>`}
        </section>
        <section class="card"><h2>${t('vitals.seen')}</h2>
          ${choice('awake', worded('awake'), named(consciousness, 'awake'), vitals.consciousness, pick(vitals, 'consciousness'))}
          ${choice('breathless', worded('breathless'), named(breathlessness, 'breathless'), symptoms.breathlessness, pick(symptoms, 'breathlessness'))}
          ${asked.map((s) => choice(s, s === 'chestInfection' ? worded(s) : t(`vitals.${s}`), YES_NO(), symptoms[s], pick(symptoms, s)))}
          <div class="field"><label for="words">${t('vitals.words')}</label><textarea id="words" name="words" .value=${first.symptomWords}></textarea></div>
          <div class="field"><label for="medicines">${t('vitals.medicines')}</label><textarea id="medicines" name="medicines" .value=${first.medicines}></textarea></div>
        </section>
        <div class="row"><button class="big">${t('vitals.save')}</button>
          ${round.nextStep.outcome === 'emergency-now' ? html`<a class="button quiet" href="#/round/${id}/end">${t('signs.toEnd')}</a>` : nothing}</div>
      </form>`);
  }
  draw();
  screen.watch(id, () => round, (now) => { round = now; draw(); });
}
