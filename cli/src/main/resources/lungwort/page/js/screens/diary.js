import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, post, put, remove } from '../api.js';
import { goTo, once, problem, when } from '../ui.js';
import { ReportLinks } from '../report-links.js';
import { drawTrends, trendTemplate } from '../trend.js';

const FIRST_SHOWN = 3;

/** The diary of a person. */
export async function show(screen, id) {
  const state = { fault: '', done: '', from: '', to: '', first: null, erasing: null, changing: null, deleting: null, all: false };
  let diary = await get(`/api/persons/${id}/diary`);
  let plots = [];
  const redraw = () => { plots.forEach((p) => p.destroy()); plots = drawTrends(diary); };
  const night = window.matchMedia('(prefers-color-scheme: dark)');
  screen.onLeave(() => {
    plots.forEach((p) => p.destroy());
    window.removeEventListener('resize', redraw);
    night.removeEventListener('change', redraw);
  });
  window.addEventListener('resize', redraw);
  night.addEventListener('change', redraw);
  const report = new ReportLinks(`/api/persons/${id}/report`, draw, () => `from=${diary.trend.first}&to=${diary.trend.last}`);
  const failed = (fault) => { state.fault = fault.message; draw(); };

  async function load() {
    diary = await get(`/api/persons/${id}/diary?from=${state.from}&to=${state.to}`);
    state.fault = '';
    draw();
    redraw();
  }

  const span = once(async (event) => {
    const form = new FormData(event.target);
    Object.assign(state, { from: form.get('from'), to: form.get('to') });
    await load();
    screen.say(t('diary.shown', { count: diary.rounds.length }));
  }, failed);

  const note = once(async (event) => {
    await post(`/api/persons/${id}/notes`, { words: new FormData(event.target).get('words') });
    event.target.reset();
    await load();
    screen.say(t('settings.kept'));
  }, failed);

  const changeNote = (n) => once(async (event) => {
    await put(`/api/notes/${n.id}`, { words: new FormData(event.target).get('words') });
    state.changing = null;
    await load();
    document.getElementById(`change-${n.id}`)?.focus();
    screen.say(t('settings.kept'));
  }, failed);

  const deleteNote = (n) => once(async () => {
    await remove(`/api/notes/${n.id}`);
    state.deleting = null;
    await load();
    document.getElementById('words').focus();
    screen.say(t('diary.noteDeleted'));
  }, failed);

  const erase = once(async (event) => {
    const nickname = new FormData(event.target).get('nickname');
    const whole = state.erasing === 'person';
    await post(whole ? `/api/persons/${id}/erase` : `/api/rounds/${state.erasing}/erase`, { nickname });
    state.erasing = null;
    if (whole) {
      goTo('/');
    } else {
      state.done = t('erase.done');
      await load();
      document.getElementById('done')?.focus();
    }
  }, failed);

  function ask(what) {
    state.erasing = what;
    state.fault = '';
    draw();
    document.getElementById('erase-title')?.focus();
  }

  function notErased() {
    const before = state.erasing === 'person' ? 'erase' : `erase-${state.erasing}`;
    state.erasing = null;
    draw();
    document.getElementById(before)?.focus();
  }

  /** A note that is changed, deleted, or neither after all; the focus goes to what is asked, or back to what was pressed. */
  function ofNote(changing, deleting, focus) {
    Object.assign(state, { changing, deleting });
    draw();
    document.getElementById(focus)?.focus();
  }

  function showAll() {
    state.all = true;
    draw();
    document.querySelectorAll('#rounds h3')[FIRST_SHOWN]?.focus();
  }

  /** The second question: the nickname must be typed. */
  function eraseForm(words) {
    return html`
      <form class="card error" @submit=${erase}>
        <h3 id="erase-title" tabindex="-1">${words}</h3>
        <p>${t('erase.warning')}</p>
        <div class="field"><label for="erase-name">${t('erase.type', { name: diary.person.nickname })}</label><input id="erase-name" name="nickname" autocomplete="off" required></div>
        <div class="row"><button class="danger">${t('erase.sure')}</button><button type="button" class="quiet" @click=${notErased}>${t('person.cancel')}</button></div>
      </form>`;
  }

  /** Two takes, chosen one after the other. */
  function compare(take) {
    if (state.first === null) {
      state.first = take;
      state.done = t('compare.first', { site: take.siteWords });
      screen.say(state.done);
      draw();
    } else if (state.first.id === take.id) {
      state.first = null;
      state.done = '';
      draw();
    } else {
      goTo(`/compare/${state.first.id}/${take.id}`);
    }
  }

  function compareWords(take) {
    return t(state.first === null ? 'compare.choose' : state.first.id === take.id ? 'compare.chosen' : 'compare.with');
  }

  function round(r) {
    const step = r.finishedAt ? r.nextStepWhenFinished : r.nextStepSoFar;
    const grave = ['emergency-now', 'be-seen-today'].includes(step?.outcome);
    const extra = r.takes.filter((take) => take.namesSound).length;
    return html`
      <li class="card">
        <h3 tabindex="-1">${when(r.startedAt)}</h3>
        <p class=${grave ? 'warn' : ''}>${r.finishedAt ? t('diary.said', { words: step?.words ?? '' }) : t('diary.open')}
          ${!r.finishedAt && step ? t('diary.soFar', { words: step.words }) : nothing}
          ${r.finishedAt ? nothing : html`<a href="#/round/${r.id}/chest">${t('diary.goOn')}</a>`}</p>
        ${r.dangerSigns.yes.length ? html`<p class="warn">${t('diary.signs', { count: r.dangerSigns.yes.length })}</p>` : nothing}
        ${r.breathingStopped ? html`<p class="warn">${t('diary.stopped')}</p>` : nothing}
        ${vitals(r.vitals)}
        ${r.medicines ? html`<p>${t('diary.medicines', { words: r.medicines })}</p>` : nothing}
        ${r.symptomWords ? html`<p>${r.symptomWords}</p>` : nothing}
        ${r.notes.map((n) => html`<p class="note">${n.words}</p>`)}
        ${r.takes.length === 0 ? html`<p class="hint">${t('diary.noTakes')}</p>` : html`
          <details><summary>${t('diary.takes', { count: r.takes.length })}${extra ? t('diary.extra', { count: extra }) : nothing}</summary>
            <ul class="plain">${r.takes.map((take, i) => html`
              <li><a href="#/take/${take.id}">${take.siteWords}, ${t(`take.${take.take}`)}</a>: ${take.suggestionWords ?? t('take.notExamined')}${take.pauses ? html` <strong>${t('pause.inTake')}</strong>` : nothing}
                <button type="button" class="quiet small" aria-pressed=${state.first?.id === take.id ? 'true' : 'false'} @click=${() => compare(take)}
                  aria-label=${t('compare.takeOf', { compare: compareWords(take), number: i + 1, when: when(r.startedAt), site: take.siteWords, take: t(`take.${take.take}`) })}>
                  ${compareWords(take)}</button></li>`)}</ul></details>`}
        <p><a href="#/round/${r.id}/end" aria-label=${t('diary.seeOf', { when: when(r.startedAt) })}>${t('diary.see')}</a></p>
        ${state.erasing === r.id ? eraseForm(t('erase.round', { when: when(r.startedAt) })) : html`<p><button type="button" class="quiet small" id="erase-${r.id}" aria-label=${t('erase.roundAskOf', { when: when(r.startedAt) })} @click=${() => ask(r.id)}>${t('erase.roundAsk')}</button></p>`}
      </li>`;
  }

  /** The newest few, then all: the last round is what is looked for most. */
  function rounds() {
    const shown = state.all ? diary.rounds : diary.rounds.slice(0, FIRST_SHOWN);
    return diary.rounds.length === 0 ? html`<p>${t('diary.none')}</p>` : html`
      <ul class="cards" id="rounds">${shown.map(round)}</ul>
      ${diary.rounds.length > shown.length ? html`<p><button type="button" class="quiet" @click=${showAll}>${t('diary.all', { count: diary.rounds.length })}</button></p>` : nothing}`;
  }

  function vitals(v) {
    const parts = [];
    const add = (value, words) => { if (value !== null) { parts.push(words); } };
    add(v.spo2Percent, `SpO2 ${v.spo2Percent} %${v.oxygenLitresPerMinute !== null ? ` ${t('diary.oxygenFlow', { flow: v.oxygenLitresPerMinute })}` : v.onOxygen ? ` ${t('trend.onOxygen')}` : ''}`);
    add(v.respiratoryRatePerMinute, t('diary.rate', { rate: v.respiratoryRatePerMinute }));
    add(v.pulsePerMinute, t('diary.pulse', { pulse: v.pulsePerMinute }));
    if (v.temperatureCelsius !== null) {
      parts.push(diary.settings.temperatureUnit === 'fahrenheit' ? `${(v.temperatureCelsius * 1.8 + 32).toFixed(1)} °F` : `${v.temperatureCelsius} °C`);
    }
    add(v.peakFlowLitresPerMinute, t('diary.peakFlow', { flow: v.peakFlowLitresPerMinute }));
    add(v.weightKg, t('diary.weight', { weight: v.weightKg }));
    return parts.length ? html`<p>${parts.join(' · ')}</p>` : nothing;
  }

  function notes() {
    return html`
      <h2>${t('diary.notes')}</h2>
      <form @submit=${note}><label for="words">${t('diary.noteLabel')}</label><textarea id="words" name="words" required></textarea>
        <div class="row"><button class="quiet">${t('end.noteKeep')}</button></div></form>
      <ul class="plain">${diary.notes.map((n) => html`<li class="note">
        ${state.changing === n.id ? html`<form @submit=${changeNote(n)}><label class="sr" for="change-note">${t('diary.noteLabel')}</label><textarea id="change-note" name="words" .value=${n.words}></textarea>
          <div class="row"><button class="quiet">${t('end.noteKeep')}</button><button type="button" class="quiet" @click=${() => ofNote(null, null, `change-${n.id}`)}>${t('person.cancel')}</button></div></form>`
        : html`${n.words} <span class="hint">${when(n.writtenAt)}</span>
          ${state.deleting === n.id ? html`<p id="delete-note" tabindex="-1">${t('diary.noteDeleteAsk')}</p>
            <div class="row"><button type="button" class="danger" @click=${deleteNote(n)}>${t('diary.noteDeleteSure')}</button>
              <button type="button" class="quiet" @click=${() => ofNote(null, null, `delete-${n.id}`)}>${t('person.cancel')}</button></div>`
          : html`<button type="button" class="quiet small" id="change-${n.id}" aria-label=${t('diary.noteChangeOf', { when: when(n.writtenAt) })} @click=${() => ofNote(n.id, null, 'change-note')}>${t('diary.noteChange')}</button>
            <button type="button" class="quiet small" id="delete-${n.id}" aria-label=${t('diary.noteDeleteOf', { when: when(n.writtenAt) })} @click=${() => ofNote(null, n.id, 'delete-note')}>${t('diary.noteDelete')}</button>`}`}</li>`)}</ul>`;
  }

  function draw() {
    screen.draw(t('diary.title', { name: diary.person.nickname }), html`
      <p class="who">${diary.person.age}</p>
      ${state.erasing ? nothing : problem(state.fault)}
      ${state.done ? html`<p class="note" id="done" tabindex="-1">${state.done}</p>` : nothing}
      <form @submit=${span}><div class="row">
        <div class="field inline"><label for="from">${t('diary.from')}</label><input id="from" name="from" type="date" .value=${diary.trend.first}></div>
        <div class="field inline"><label for="to">${t('diary.to')}</label><input id="to" name="to" type="date" .value=${diary.trend.last}></div>
        <button class="quiet">${t('diary.span')}</button></div></form>
      <h2>${t('diary.rounds')}</h2>
      ${rounds()}
      <h2>${t('trend.title')}</h2>
      ${trendTemplate(diary)}
      ${notes()}
      ${diary.rounds.length ? report.template() : nothing}
      <h2>${t('diary.keep')}</h2>
      <p><a class="button quiet" href="/api/persons/${id}/export" download>${t('diary.export')}</a></p><p class="hint">${t('diary.exportHint')}</p>
      <h2>${t('erase.title')}</h2>
      ${state.erasing ? problem(state.fault) : nothing}
      ${state.erasing === 'person' ? eraseForm(t('erase.person', { name: diary.person.nickname, count: diary.allRounds }))
        : html`<p><button type="button" class="quiet" id="erase" @click=${() => ask('person')}>${t('erase.personAsk', { name: diary.person.nickname })}</button></p>`}`);
  }
  draw();
  redraw();
}
