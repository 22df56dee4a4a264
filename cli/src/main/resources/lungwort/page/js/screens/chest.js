import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, post, remove } from '../api.js';
import { alarm, goTo, nothingNow, once, problem, soFar, steps, toHeading } from '../ui.js';
import { chestMap } from '../chest-map.js';

/** The chest with the site that is asked for next. */
export async function show(screen, id) {
  let round = await get(`/api/rounds/${id}`);
  const state = { fault: '', site: round.asked?.site ?? null, dropping: null, takingOut: null, done: '' };
  const failed = (fault) => { state.fault = fault.message; draw(); };

  const keep = (entry) => once(async () => {
    const take = await post(`/api/recordings/${entry.id}/finish`, {});
    goTo(`/take/${take.id}`);
  }, failed);

  const throwAway = (entry) => once(async () => {
    await remove(`/api/recordings/${entry.id}`);
    state.dropping = null;
    await lookAgain();
    if (screen.here()) {
      toHeading();
      screen.say(t('unfinished.dropped'));
    }
  }, failed);

  /** It cannot be made again as it was, so it is asked for once more. */
  function askToDrop(entry) {
    const before = state.dropping;
    state.dropping = entry?.id ?? null;
    draw();
    document.getElementById(entry ? 'drop-recording' : `drop-${before}`)?.focus();
  }

  const takeOut = (take, words) => once(async () => {
    await remove(`/api/takes/${take.id}`);
    Object.assign(state, { fault: '', takingOut: null, done: words });
    round = await get(`/api/rounds/${id}`);
    state.site = round.asked?.site ?? null;
    if (screen.here()) {
      draw();
      document.getElementById('taken-out')?.focus();
    }
  }, failed);

  /** Its recording is gone then, so it is asked for once more. */
  function askToTakeOut(take) {
    const before = state.takingOut;
    Object.assign(state, { takingOut: take?.id ?? null, done: '' });
    draw();
    document.getElementById(take ? 'take-out-sure' : `take-out-${before}`)?.focus();
  }

  async function lookAgain() {
    round = await get(`/api/rounds/${id}`);
    if (screen.here()) {
      draw();
    }
  }

  function waiting(entry) {
    return html`
      <section class="card warn">
        <h2>${t('unfinished.title')}</h2>
        <p>${t('unfinished.what', { site: entry.words, seconds: entry.seconds.toFixed(0) })}</p>
        ${entry.active ? html`<p>${t('unfinished.active')}</p>` : state.dropping === entry.id ? html`
          <p id="drop-recording" tabindex="-1">${t('unfinished.dropAsk')}</p>
          <div class="row"><button type="button" class="danger" @click=${throwAway(entry)}>${t('unfinished.dropSure')}</button>
            <button type="button" class="quiet" @click=${() => askToDrop(null)}>${t('person.cancel')}</button></div>` : html`
          <div class="row"><button type="button" aria-label=${t('unfinished.keepOf', { site: entry.words })} @click=${keep(entry)}>${t('unfinished.keep')}</button>
            <button type="button" class="quiet" id="drop-${entry.id}" aria-label=${t('unfinished.dropOf', { site: entry.words })} @click=${() => askToDrop(entry)}>${t('unfinished.drop')}</button></div>`}
      </section>`;
  }

  function asked() {
    const next = round.asked;
    const own = state.site && (!next || state.site !== next.site);
    const site = own ? state.site : next?.site;
    if (round.nextStep.outcome === 'emergency-now' && !own) {
      return nothingNow(round);
    }
    if (!site) {
      return html`<section class="card"><h2>${t(round.sitesOpen.length ? 'chest.tried' : 'chest.complete')}</h2><p>${t('chest.completeHint')}</p>
        <p><a class="button big" href="#/round/${id}/end">${t('chest.toEnd')}</a></p></section>`;
    }
    const reason = own ? 'first' : next.take;
    const placement = round.places[site].placement;
    const steps = own ? [] : next.instructions.filter((s) => s !== placement);
    const beginning = !own && reason === 'first' && round.sites.length === 0;
    return html`
      <section class="card asked" aria-labelledby="asked-title">
        <h2 id="asked-title">${t(own ? 'chest.chosen' : `chest.asked.${reason}`, { site: round.places[site].words })}</h2>
        ${own || beginning ? nothing : html`<p>${next.because}</p>`}
        ${beginning || steps.length === 0 ? nothing : html`<ul>${steps.map((s) => html`<li>${s}</li>`)}</ul>`}
        <p>${placement}</p>
        ${beginning ? html`<h3>${t('chest.before')}</h3><ol>${steps.map((s) => html`<li>${s}</li>`)}</ol>` : nothing}
        <div class="row"><a class="button big" id="record" href="#/round/${id}/record/${site}/${reason}">${t('chest.record')}</a></div>
      </section>`;
  }

  function choose(site) {
    state.site = site;
    draw();
    document.getElementById('asked-title')?.scrollIntoView({ block: 'nearest' });
    screen.say(`${t('chest.chosen', { site: round.places[site].words })}. ${t('chest.chosenWhere')}`);
  }

  function draw() {
    const done = round.plan.filter((s) => !round.sitesOpen.includes(s)).length;
    screen.draw(t('chest.title'), html`
      ${steps(round, 'chest')}
      ${alarm(round)}
      ${soFar(round)}
      ${problem(state.fault)}
      ${round.dangerSignsOpen.length > 0 ? html`<p class="warn">${t('chest.signsOpen', { count: round.dangerSignsOpen.length })}
        <a href="#/round/${id}/signs">${t('chest.signsLink')}</a></p>` : nothing}
      ${round.unfinished.map(waiting)}
      ${asked()}
      <p>${t('chest.progress', { done, all: round.plan.length })}</p>
      ${chestMap(round, state.site ?? round.asked?.site, choose)}
      ${takes()}
      <div class="row"><a class="button quiet" href="#/round/${id}/end">${t('chest.toEndEarly')}</a></div>`);
  }

  function takes() {
    const all = round.sites.flatMap((s) => s.takes.map((take) => ({ ...take, words: s.words })));
    const done = state.done ? html`<p class="note" id="taken-out" tabindex="-1">${state.done}</p>` : nothing;
    return all.length === 0 ? done : html`
      <h2>${t('chest.takes')}</h2>
      ${done}
      ${round.sites.some((s) => s.takes.length > 1 && s.takes.some((take) => take.mayTakeOut)) ? html`<p class="hint">${t('takeout.last')}</p>` : nothing}
      <ul class="plain">${all.map((take) => html`
        <li><a href="#/take/${take.id}">${take.words}, ${t(`take.${take.take}`)}</a>: ${take.suggestionWords ?? t('take.notExamined')}${take.examination?.pauses.length ? html` <strong>${t('pause.inTake')}</strong>` : nothing}${takeOutOf(take)}</li>`)}</ul>`;
  }

  /** Beside a take that was put in by mistake. */
  function takeOutOf(take) {
    if (!take.mayTakeOut) {
      return nothing;
    }
    const names = { site: take.words, take: t(`take.${take.take}`) };
    return state.takingOut === take.id ? html`
      <div class="card warn">
        <p id="take-out-sure" tabindex="-1">${t('takeout.sure', { ...names, file: take.file })} ${take.whatGoes}</p>
        <div class="row"><button type="button" class="danger" @click=${takeOut(take, t('takeout.done', names))}>${t('takeout.yes')}</button>
          <button type="button" class="quiet" @click=${() => askToTakeOut(null)}>${t('person.cancel')}</button></div>
      </div>` : html`
      <button type="button" class="quiet small" id="take-out-${take.id}" aria-label=${t('takeout.askOf', names)} @click=${() => askToTakeOut(take)}>${t('takeout.ask')}</button>`;
  }
  draw();
  screen.watch(id, () => round, (now) => { round = now; draw(); });
}
