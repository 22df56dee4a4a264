import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { post, put, Sentence } from '../api.js';
import { goTo, once, problem, targetMayDiffer } from '../ui.js';
import { numberField, readNumber } from '../number-field.js';

const NO_LIMITS = {
  spo2Below: null, respiratoryRateAbove: null, pulseAbove: null, spo2Scale2: false,
  bestPeakFlowLitresPerMinute: null, usualSpo2: null, setBy: '', setOn: '',
};

/** Adds a person, or changes what is known. */
export async function show(screen, id) {
  const known = screen.shared.persons.find((p) => p.id === id);
  if (id !== 'new' && !known) {
    throw new Sentence(404, t('person.gone'));
  }
  const person = known ?? { nickname: '', birthMonth: '', conditions: [], about: '', limits: NO_LIMITS };
  // Whoever writes down a target in the middle of a round goes on with that round; somebody new begins at the start.
  const back = known ? screen.back : '/';
  const state = { fault: '', conditions: person.conditions };

  /** With some conditions a clinician may have set another oxygen target: then its place is shown at once. */
  function conditionsChanged(event) {
    state.conditions = new FormData(event.currentTarget.form ?? event.target.form).getAll('condition');
    draw();
  }

  const save = once(async (event) => {
    const form = new FormData(event.target);
    const body = entered(event.target, form);
    if (known) {
      // Only what was changed here: another window may have changed the rest meanwhile.
      const changed = Object.fromEntries(Object.entries(body).filter(([name, value]) => JSON.stringify(value) !== JSON.stringify(untouched[name])));
      await put(`/api/persons/${id}`, { ...changed, before: { conditions: person.conditions, about: person.about, limits: person.limits } });
    } else {
      await post('/api/persons', body);
    }
    goTo(back);
  }, (fault) => { state.fault = fault.message; draw(); });

  function draw() {
    const [year, month] = person.birthMonth.split('-');
    screen.draw(known ? t('person.change', { name: person.nickname }) : t('person.title'), html`
      <form id="person" @submit=${save}>
        ${problem(state.fault)}
        <div class="field"><label for="nickname">${t('person.nickname')}</label>
          <input id="nickname" name="nickname" required maxlength="60" autocomplete="off" .value=${person.nickname} aria-describedby="nickname-hint">
          <span class="hint" id="nickname-hint">${t('person.nicknameHint')}</span></div>
        <fieldset><legend>${t('person.born')} <span class="hint">${t('person.bornHint')}</span></legend>
          <div class="row">
            <label for="month" class="sr">${t('person.month')}</label>
            <select id="month" name="month" required>
              <option value="">${t('person.month')}</option>
              ${Array.from({ length: 12 }, (_, i) => String(i + 1).padStart(2, '0')).map((m) => html`
                <option value=${m} ?selected=${m === month}>${new Date(`2020-${m}-02T12:00`).toLocaleDateString('en', { month: 'long' })}</option>`)}
            </select>
            <label for="year" class="sr">${t('person.year')}</label>
            <input id="year" name="year" inputmode="numeric" pattern="[0-9]{4}" title=${t('person.yearHint')} placeholder=${t('person.year')} required maxlength="4" .value=${year ?? ''}>
          </div></fieldset>
        <fieldset><legend>${t('person.conditions')}</legend>
          ${screen.shared.lists.conditions.map((c) => html`<label class="check"><input type="checkbox" name="condition" value=${c.id}
            .checked=${person.conditions.includes(c.id)} @change=${conditionsChanged}>${c.words}</label>`)}</fieldset>
        ${state.conditions.includes('asthma') ? bestPeakFlow(person.limits, screen.shared.lists.vitals) : nothing}
        <div class="field"><label for="about">${t('person.about')}</label>
          <textarea id="about" name="about" .value=${person.about}></textarea></div>
        ${limitFields(person.limits, screen.shared.lists.vitals, targetMayDiffer(state.conditions), state.conditions.includes('asthma'))}
        <div class="row"><button>${t('person.save')}</button> <a class="button quiet" href="#${back}">${t('person.cancel')}</a></div>
      </form>`);
  }
  draw();
  const untouched = entered(document.getElementById('person'));
}

function entered(element, form = new FormData(element)) {
  return {
    nickname: form.get('nickname').trim(),
    birthMonth: `${form.get('year')}-${form.get('month')}`,
    conditions: form.getAll('condition'),
    about: form.get('about'),
    limits: limits(form, element),
  };
}

/** No clinician has to set it: whoever has asthma and a meter knows it, and without it a fall says nothing. */
function bestPeakFlow(limits, range) {
  return numberField('best', t('limits.best'), t('vitals.litres'), limits.bestPeakFlowLitresPerMinute, { ...range['peak-flow'], hint: t('limits.bestHint') });
}

/** What is wrong with a number is said beside it, so its place is not left folded away. */
const unfold = {
  capture: true,
  handleEvent: (event) => {
    for (let fold = event.target.closest('details'); fold; fold = fold.parentElement.closest('details')) {
      fold.open = true;
    }
  },
};

function limitFields(limits, range, mayDiffer, asthma) {
  const pair = (name, label, unit, limit, vital) => html`
    <fieldset><legend>${label}</legend><div class="fields">
      ${numberField(`${name}-today`, t('limits.today'), unit, limit?.seenToday, vital)}
      ${numberField(`${name}-emergency`, t('limits.emergency'), unit, limit?.emergency, vital)}
    </div></fieldset>`;
  return html`
    <details @invalid=${unfold} ?open=${limits.setBy !== '' || limits.usualSpo2 !== null || mayDiffer}>
      <summary>${t('limits.title')}</summary>
      <p class="warn">${t('limits.hint')}</p>
      ${mayDiffer ? html`<p class="note" id="limits-target">${t('limits.target')}</p>` : nothing}
      <label class="check"><input type="checkbox" name="scale2" .checked=${limits.spo2Scale2}>${t('limits.scale2')}</label>
      <div class="fields">
        <div class="field"><label for="setBy">${t('limits.setBy')}</label><input id="setBy" name="setBy" .value=${limits.setBy}></div>
        <div class="field"><label for="setOn">${t('limits.setOn')}</label><input id="setOn" name="setOn" type="date" .value=${limits.setOn}></div>
      </div>
      <details id="limits-more" ?open=${!mayDiffer || inNumbers(limits)}><summary>${t('limits.more')}</summary>
      ${pair('spo2', t('limits.spo2'), '%', limits.spo2Below, range.spo2)}
      ${pair('rate', t('limits.rate'), t('vitals.perMinute'), limits.respiratoryRateAbove, range['respiratory-rate'])}
      ${pair('pulse', t('limits.pulse'), t('vitals.perMinute'), limits.pulseAbove, range.pulse)}
      <div class="fields" @input=${(event) => usualTyped(event.target, limits.usualSpo2)}>
        ${numberField('usual', t('limits.usual'), '%', limits.usualSpo2?.percent, { ...range.spo2, hint: t('limits.usualHint') })}
        <div class="field"><label for="usualFrom">${t('limits.usualFrom')}</label><input id="usualFrom" name="usualFrom" type="date" .value=${limits.usualSpo2?.on ?? thisDay()}></div>
        <div class="field"><label for="usualBreathing">${t('limits.usualBreathing')}</label>
          <select id="usualBreathing" name="usualBreathing">${[['', 'limits.usualEither'], ['air', 'limits.usualAir'], ['oxygen', 'limits.usualOxygen']].map(([value, words]) => html`
            <option value=${value} ?selected=${value === breathing(limits.usualSpo2)}>${t(words)}</option>`)}</select></div>
        <div class="field"><label for="usualBy">${t('limits.usualBy')}</label><input id="usualBy" name="usualBy" .value=${limits.usualSpo2?.setBy ?? ''}></div>
        <div class="field"><label for="usualOn">${t('limits.usualOn')}</label><input id="usualOn" name="usualOn" type="date" .value=${limits.usualSpo2?.setOn ?? ''}></div>
      </div>
      ${asthma ? nothing : bestPeakFlow(limits, range)}
      </details>
    </details>`;
}

/** True if a clinician set more than the target that comes first, which is all that most with COPD have. */
function inNumbers(limits) {
  return [limits.spo2Below, limits.respiratoryRateAbove, limits.pulseAbove, limits.usualSpo2, limits.bestPeakFlowLitresPerMinute].some((limit) => limit !== null);
}

/** For which values a usual was stated: '' for both. */
function breathing(usual) {
  return usual?.onOxygen == null ? '' : usual.onOxygen ? 'oxygen' : 'air';
}

/** Another number is stated anew: its day becomes today, unless another day was written. The number that was known keeps its day. */
function usualTyped(field, known) {
  if (field.id !== 'usual' || !known) {
    return;
  }
  const from = field.form.elements.namedItem('usualFrom');
  const same = readNumber(field).value === known.percent;
  if (from.value === (same ? thisDay() : known.on)) {
    from.value = same ? known.on : thisDay();
  }
}

/** The day on this computer's wall, as 2026-03-14. */
function thisDay() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0')).join('-');
}

/** @throws Sentence if a number is written wrongly, or one of a pair is missing */
function limits(form, { elements }) {
  const whole = (name) => {
    const { value, fault } = readNumber(elements[name]);
    if (fault) {
      throw new Sentence(0, fault);
    }
    return value;
  };
  const pair = (name) => {
    const today = whole(`${name}-today`);
    const emergency = whole(`${name}-emergency`);
    if (today === null && emergency === null) {
      return null;
    }
    if (today === null || emergency === null) {
      throw new Sentence(0, t('limits.both'));
    }
    return { seenToday: today, emergency };
  };
  return {
    spo2Below: pair('spo2'), respiratoryRateAbove: pair('rate'), pulseAbove: pair('pulse'),
    spo2Scale2: form.get('scale2') === 'on', bestPeakFlowLitresPerMinute: whole('best'),
    usualSpo2: whole('usual') === null ? null : {
      percent: whole('usual'), on: form.get('usualFrom') || thisDay(),
      onOxygen: form.get('usualBreathing') === '' ? null : form.get('usualBreathing') === 'oxygen',
      // Often the same clinician did both.
      setBy: form.get('usualBy').trim() || form.get('setBy'), setOn: form.get('usualOn'),
    },
    setBy: form.get('setBy'), setOn: form.get('setOn'),
  };
}
