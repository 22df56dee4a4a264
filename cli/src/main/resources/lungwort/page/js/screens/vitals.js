import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, put } from '../api.js';
import { alarm, choice, goTo, numberField, once, oxygenTarget, problem, steps } from '../ui.js';
import { BreathCounter } from '../breath-counter.js';

const YES_NO = () => [[true, t('answer.yes')], [false, t('answer.no')], [null, t('answer.unknown')]];

/** What was measured and seen. Everything may be left out: what is empty was not measured, which is never taken as usual. */
export async function show(screen, id) {
  let round = await get(`/api/rounds/${id}`);
  const state = { fault: '' };
  const vitals = { ...round.round.vitals };
  const symptoms = { ...round.round.symptoms };
  const fahrenheit = round.settings.temperatureUnit === 'fahrenheit';
  const counter = new BreathCounter(draw);
  screen.onLeave(() => counter.stop());

  const save = once(async (event) => {
    const form = new FormData(event.target);
    const value = (name) => (form.get(name) === '' ? null : Number(form.get(name)));
    const degrees = value('temperature');
    const rate = value('rate');
    const sent = {
      spo2Percent: value('spo2'),
      onOxygen: vitals.onOxygen,
      respiratoryRatePerMinute: rate,
      rateSource: rate === null ? null : 'counted',
      asleep: vitals.asleep,
      pulsePerMinute: value('pulse'),
      temperatureCelsius: degrees === null ? null : fahrenheit ? Math.round((degrees - 32) / 0.18) / 10 : degrees,
      systolicMmHg: value('systolic'),
      consciousness: vitals.consciousness,
      peakFlowLitresPerMinute: value('peak-flow'),
    };
    round = await put(`/api/rounds/${id}/answers`, {
      vitals: sent, symptoms, symptomWords: form.get('words'), medicines: form.get('medicines'),
    });
    if (round.nextStep.outcome === 'emergency-now') {
      Object.assign(vitals, round.round.vitals);
      state.fault = '';
      draw();
      window.scrollTo(0, 0);
    } else {
      goTo(`/round/${id}/chest`);
    }
  }, (fault) => { state.fault = fault.message; draw(); window.scrollTo(0, 0); });

  function takeCount() {
    const rate = counter.perMinute();
    document.getElementById('rate').value = rate;
    screen.say(t('count.taken', { rate }));
    counter.stop();
  }

  function pick(where, field) {
    return (value) => { where[field] = value; draw(); };
  }

  /** This person's own usual stands where the number is typed: a fall from it counts, even where no limit is crossed. */
  function spo2Hint() {
    const usual = round.usualSpo2Percent;
    return usual === null ? t('vitals.spo2Hint') : `${t('vitals.spo2Usual', { usual })} ${t('vitals.spo2Hint')}`;
  }

  /** Whoever cannot say yet that something hurts is not asked; the words of a baby's parent are not those of a grandmother's son. */
  const baby = round.person.ageMonths < 24;
  const asked = round.person.ageMonths < 48 ? ['fever', 'chestInfection'] : ['chestPain', 'fever', 'chestInfection'];
  // Who can speak in sentences neither feeds nor plays.
  const grown = round.person.ageMonths >= 144;
  const worded = (name) => t(`vitals.${name}${baby ? '.baby' : ''}`);

  function draw() {
    const { vitals: range, consciousness, breathlessness } = screen.shared.lists;
    const words = (c, what) => (baby ? t(`baby.${what}.${c.id}`) : grown && what === 'breathless' ? t(`grown.breathless.${c.id}`) : c.words);
    const named = (list, what) => [...list.filter((c) => !(baby && c.id === 'confused')).map((c) => [c.id, words(c, what)]), [null, t('answer.unknown')]];
    const degrees = vitals.temperatureCelsius;
    const f = (c) => Math.round((c * 1.8 + 32) * 10) / 10;
    screen.draw(t('vitals.title'), html`
      ${steps(round, 'vitals')}
      ${alarm(round)}
      ${oxygenTarget(round)}
      ${problem(state.fault)}
      <p>${t('vitals.intro')}</p>
      <form @submit=${save}>
        <section class="card"><h2>${t('vitals.measured')}</h2>
          ${numberField('spo2', t('vitals.spo2'), '%', vitals.spo2Percent, { ...range.spo2, hint: spo2Hint() })}
          ${choice('oxygen', t('vitals.oxygen'), YES_NO(), vitals.onOxygen, pick(vitals, 'onOxygen'))}
          ${numberField('rate', t('vitals.rate'), t('vitals.perMinute'), vitals.respiratoryRatePerMinute, { ...range['respiratory-rate'], hint: t('vitals.rateHint') })}
          ${counter.template(takeCount)}
          ${choice('asleep', t('vitals.asleep'), YES_NO(), vitals.asleep, pick(vitals, 'asleep'))}
          ${numberField('pulse', t('vitals.pulse'), t('vitals.perMinute'), vitals.pulsePerMinute, range.pulse)}
          ${numberField('temperature', t('vitals.temperature'), fahrenheit ? '°F' : '°C', degrees === null ? null : fahrenheit ? f(degrees) : degrees,
            { lowest: fahrenheit ? f(range.temperature.lowest) : range.temperature.lowest, highest: fahrenheit ? f(range.temperature.highest) : range.temperature.highest, step: 0.1 })}
          ${round.person.ageMonths < 60 && vitals.systolicMmHg === null && vitals.peakFlowLitresPerMinute === null ? html`<input type="hidden" name="systolic" value=""><input type="hidden" name="peak-flow" value="">` : html`<details ?open=${vitals.systolicMmHg !== null || vitals.peakFlowLitresPerMinute !== null}><summary>${t('vitals.more')}</summary>
            ${numberField('systolic', t('vitals.systolic'), 'mmHg', vitals.systolicMmHg, range.systolic)}
            ${numberField('peak-flow', t('vitals.peakFlow'), t('vitals.litres'), vitals.peakFlowLitresPerMinute, range['peak-flow'])}
          </details>`}
        </section>
        <section class="card"><h2>${t('vitals.seen')}</h2>
          ${choice('awake', worded('awake'), named(consciousness, 'awake'), vitals.consciousness, pick(vitals, 'consciousness'))}
          ${choice('breathless', worded('breathless'), named(breathlessness, 'breathless'), symptoms.breathlessness, pick(symptoms, 'breathlessness'))}
          ${asked.map((s) => choice(s, s === 'chestInfection' ? worded(s) : t(`vitals.${s}`), YES_NO(), symptoms[s], pick(symptoms, s)))}
          <div class="field"><label for="words">${t('vitals.words')}</label><textarea id="words" name="words" .value=${round.round.symptomWords}></textarea></div>
          <div class="field"><label for="medicines">${t('vitals.medicines')}</label><textarea id="medicines" name="medicines" .value=${round.round.medicines}></textarea></div>
        </section>
        <div class="row"><button class="big">${t('vitals.save')}</button>
          ${round.nextStep.outcome === 'emergency-now' ? html`<a class="button quiet" href="#/round/${id}/end">${t('signs.toEnd')}</a>` : nothing}</div>
      </form>`);
  }
  draw();
}
