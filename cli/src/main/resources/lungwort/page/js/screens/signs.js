import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, put } from '../api.js';
import { alarm, goTo, notKept, once, showKept, steps, toAlarm } from '../ui.js';

/** Danger signs come first; one yes is an answer, and nothing has to be recorded. */
export async function show(screen, id) {
  let round = await get(`/api/rounds/${id}`);
  const state = { fault: '', urgent: false };
  const failed = (fault, urgent = false) => { Object.assign(state, { fault: fault.message, urgent }); draw(); };

  async function answer(sign, value) {
    try {
      const only = (which) => value === which ? [sign.id] : [];
      round = await put(`/api/rounds/${id}/danger-signs`, { yes: only('yes'), no: only('no'), notSure: only('notSure') });
      Object.assign(state, { fault: '', urgent: false });
      draw();
      if (value === 'notSure') {
        // The button that took it back is gone.
        document.getElementsByName(sign.id)[0].focus();
      }
      if (value === 'yes') {
        document.querySelector('.alarm, .verdict')?.scrollIntoView({ block: 'nearest' });
      }
    } catch (fault) {
      failed(fault, state.urgent || value === 'yes' && sign.outcome === 'emergency-now');
      showKept(sign.id, sign.answer);
      document.querySelector('#not-kept, .error')?.scrollIntoView({ block: 'nearest' });
    }
  }

  const noneOfThem = once(async () => {
    const others = round.dangerSigns.filter((s) => s.answer === null).map((s) => s.id);
    round = await put(`/api/rounds/${id}/danger-signs`, { yes: [], no: [], noneOf: others });
    if (round.dangerSigns.some((s) => s.answer === 'yes')) {
      draw();
      toAlarm();
    } else {
      goTo(`/round/${id}/vitals`);
    }
  }, failed);

  function question(sign) {
    return html`
      <fieldset class="sign ${sign.answer === 'yes' ? 'there' : ''}">
        <legend>${sign.question}</legend>
        <div class="options">${['yes', 'no'].map((value) => html`
          <label class="option"><input class="sign" type="radio" name=${sign.id} value=${value} .checked=${sign.answer === value}
            @change=${() => answer(sign, value)}><span>${t(`answer.${value}`)}</span></label>`)}</div>
        ${sign.answer === null ? nothing : html`<button type="button" class="quiet small" aria-label=${t('signs.takeBackOf', { sign: sign.question })}
          @click=${() => answer(sign, 'notSure')}>${t('signs.takeBack')}</button>`}
      </fieldset>`;
  }

  function verdict() {
    const yes = round.dangerSigns.some((s) => s.answer === 'yes');
    if (!yes || round.nextStep.outcome === 'emergency-now') {
      return alarm(round);
    }
    return html`<section class="verdict warn" role="alert" tabindex="-1"><h2>${round.nextStep.words}</h2><p>${round.nextStep.meaning}</p></section>`;
  }

  /** A sign that can wait for the day does not answer the others, and the rest of the round still tells the clinician something. */
  function more(open) {
    return open === 0 ? html`<a class="button big" href="#/round/${id}/vitals">${t('signs.goOn')}</a>`
      : html`<button type="button" class="big" @click=${noneOfThem}>${t('signs.noneOther')}</button>`;
  }

  function draw() {
    const open = round.dangerSigns.filter((s) => s.answer === null).length;
    const yes = round.dangerSigns.some((s) => s.answer === 'yes');
    screen.draw(t('signs.title'), html`
      ${steps(round, 'signs')}
      ${verdict()}
      ${notKept(round, state.fault, state.urgent)}
      <p>${t('signs.intro')}</p>
      ${round.dangerSigns.map(question)}
      <div class="row">
        ${yes && round.nextStep.outcome !== 'emergency-now' ? more(open) : nothing}
        ${yes ? html`
          <a class="button ${round.nextStep.outcome === 'emergency-now' ? 'quiet' : ''}" href="#/round/${id}/end">${t('signs.toEnd')}</a>`
        : open === 0 ? html`<a class="button big" href="#/round/${id}/vitals">${t('signs.goOn')}</a>`
        : html`<button type="button" class="big" @click=${noneOfThem}>${open === round.dangerSigns.length ? t('signs.none') : t('signs.noneOther')}</button>`}
      </div>
      ${yes ? nothing : html`<p class="hint">${t('signs.unsure')}</p>`}
      <details><summary>${t('signs.sources')}</summary>
        <ul>${round.dangerSigns.map((s) => html`<li>${s.question} <span class="hint">${s.sources}</span></li>`)}</ul></details>`);
  }
  draw();
  screen.watch(id, () => round, (now) => { round = now; draw(); });
}
