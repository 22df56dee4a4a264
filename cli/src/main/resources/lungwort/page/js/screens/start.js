import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { post, put, send } from '../api.js';
import { callNow, goTo, once, problem, toHeading, when } from '../ui.js';

/** The first screen: who is to be listened to. */
export async function show(screen) {
  const state = { fault: '', brought: [], asked: sessionStorage.getItem('number-asked') === 'yes' };
  const failed = (fault) => { state.fault = fault.message; draw(); };

  const begin = (person) => once(async () => {
    const round = await post(`/api/persons/${person.id}/rounds`);
    goTo(`/round/${round.round.id}/signs`);
  }, failed);

  const keepNumber = once(async (event) => {
    const number = new FormData(event.target).get('number');
    screen.shared.settings = await put('/api/settings', { emergencyNumber: number });
    state.fault = '';
    draw();
    toHeading();
    screen.say(t('settings.kept'));
  }, failed);

  /** What was exported on another computer: all of it, or nothing. */
  const bringDiary = once(async (event) => {
    const field = event.target;
    const file = field.files[0];
    if (!file) {
      return;
    }
    Object.assign(state, { fault: '', brought: [t('shell.waiting')] });
    draw();
    try {
      const came = await send(`/api/import?name=${encodeURIComponent(file.name)}`, file);
      state.brought = [t('import.done', { name: file.name, ...came }), ...(came.changed > 0 ? [t('import.changed', came)] : []), ...came.remarks];
      await screen.refresh();
    } catch (fault) {
      state.brought = [];
      throw fault;
    } finally {
      field.value = '';
    }
    draw();
    document.getElementById('brought')?.scrollIntoView({ block: 'nearest' });
  }, failed);

  function later() {
    sessionStorage.setItem('number-asked', 'yes');
    state.asked = true;
    draw();
    toHeading();
  }

  function number() {
    if (screen.shared.settings.emergencyNumber || state.asked) {
      return nothing;
    }
    return html`
      <section class="card" aria-labelledby="number-title">
        <h2 id="number-title">${t('number.title')}</h2>
        <p>${t('number.why')}</p>
        <form @submit=${keepNumber}>
          <div class="field"><label for="number">${t('number.label')}</label>
            <input id="number" name="number" type="tel" autocomplete="off" required></div>
          <div class="row"><button>${t('number.keep')}</button>
            <button type="button" class="quiet" @click=${later}>${t('number.later')}</button></div>
        </form>
      </section>`;
  }

  /** An alarm of a round that nobody finished goes on: whoever comes back to the page, or comes anew, meets it here. */
  function alarm(person) {
    const step = person.openRound?.nextStepSoFar;
    return !alarming(person) ? nothing : html`
      <section class="alarm" aria-label="${person.nickname}: ${step.words}">
        <p>${t('start.alarm', { when: when(person.openRound.startedAt) })} <strong>${step.words}</strong></p>
        <p class="call">${callNow(screen.shared.settings)}</p>
        <p><a href="#/round/${person.openRound.id}/end">${t('signs.toEnd')}</a></p>
      </section>`;
  }

  function card(person) {
    return html`
      <li class="card">
        <h2>${person.nickname}</h2>
        ${alarm(person)}
        <p class="hint">${person.age}${person.newestRoundAt ? html`, ${t('start.newest', { when: when(person.newestRoundAt) })}` : nothing}</p>
        ${person.said ? html`<p class="warn said">${t('start.said', { when: when(person.said.startedAt) })} <strong>${person.said.words}</strong>.
          ${t('start.saidDone')} <a href="#/round/${person.said.round}/end">${t('signs.toEnd')}</a></p>` : nothing}
        ${person.openRound ? html`
          <div class="row">
            <a class="button" href="#/round/${person.openRound.id}/${next(person.openRound)}">${t('start.continue', { when: when(person.openRound.startedAt) })}</a>
            <button type="button" class="quiet" @click=${begin(person)}>${t('start.anew')}</button>
          </div>` : html`
          <div class="row"><button type="button" @click=${begin(person)}>${t('start.begin', { name: person.nickname })}</button></div>`}
        <p><a href="#/diary/${person.id}">${t('start.diary', { name: person.nickname })}</a> ·
          <a href="#/person/${person.id}">${t('start.change', { name: person.nickname })}</a> ·
          <a href="/api/persons/${person.id}/sheet" download>${t('start.sheet', { name: person.nickname })}</a></p>
      </li>`;
  }

  function draw() {
    const { settings } = screen.shared;
    const alarms = screen.shared.persons.filter(alarming);
    const persons = [...alarms, ...screen.shared.persons.filter((person) => !alarming(person))];
    screen.draw(t('start.title'), html`
      <p class="warn">${settings.emergencyNumber
        ? t('start.emergency', { number: settings.emergencyNumber })
        : t('start.emergencyUnknown')}</p>
      ${problem(state.fault)}
      ${state.brought.length ? html`<div class="note" id="brought" role="status">${state.brought.map((words) => html`<p>${words}</p>`)}</div>` : nothing}
      ${alarms.length ? nothing : number()}
      ${persons.length === 0 ? html`<p>${t('start.nobody')}</p>` : html`<ul class="cards">${persons.map(card)}</ul>`}
      ${alarms.length ? number() : nothing}
      <p><a class="button ${persons.length ? 'quiet' : ''}" href="#/person/new">${t('start.add')}</a></p>
      <details><summary>${t('import.title')}</summary>
        <div class="field"><label for="import">${t('import.label')}</label>
          <input id="import" type="file" accept=".zip,application/zip" aria-describedby="import-hint" @change=${bringDiary}>
          <span class="hint" id="import-hint">${t('import.hint')}</span></div></details>
      ${settings.equipment ? nothing : html`<p class="note">${t('start.equipment')} <a href="#/equipment">${t('start.equipmentLink')}</a></p>`}`);
  }
  draw();
}

/** True with an open round that is an emergency by what is known. */
function alarming(person) {
  return person.openRound?.nextStepSoFar?.outcome === 'emergency-now';
}

/** Where an open round goes on: at the first thing that was not done. */
function next(round) {
  const answered = round.dangerSigns.yes.length + round.dangerSigns.no.length > 0;
  const measured = [...Object.values(round.vitals), ...Object.values(round.symptoms)].some((value) => value !== null);
  return !answered ? 'signs' : measured ? 'chest' : 'vitals';
}
