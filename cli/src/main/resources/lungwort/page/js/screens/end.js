import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, post } from '../api.js';
import { alarm, goTo, number, once, oxygenTarget, plain, problem, slowly, steps, toAlarm } from '../ui.js';
import { ReportLinks } from '../report-links.js';

/** What only who listened can say, at the take itself. */
const ASKED_AT_A_TAKE = ['pause', 'breath-heard'];

/** The end of a round: what to do next, why, what is missing, and what stood beside what. */
export async function show(screen, id) {
  let round = await get(`/api/rounds/${id}`);
  const state = { fault: '', other: false };
  const report = new ReportLinks(`/api/rounds/${id}/report`, draw);
  const failed = (fault) => { state.fault = fault.message; draw(); };

  const finish = once(async () => {
    const now = await get(`/api/rounds/${id}`);
    if (now.nextStep.outcome !== round.nextStep.outcome) {
      // What is finished is what was read, and not what another window made of it a moment ago.
      renewed(now);
      toAlarm();
      return;
    }
    await post(`/api/rounds/${id}/finish`);
    goTo(`/diary/${round.person.id}`);
  }, failed);

  const note = once(async (event) => {
    const words = new FormData(event.target).get('note').trim();
    if (words) {
      round = await post(`/api/rounds/${id}/notes`, { words });
      event.target.reset();
      draw();
      screen.say(t('settings.kept'));
    }
  }, failed);

  function renewed(now) {
    state.other ||= now.nextStep.outcome !== round.nextStep.outcome;
    round = now;
    draw();
  }

  function step() {
    const s = round.nextStep;
    // What is needed most stands among the things to do already.
    const missing = s.missing.filter((m) => !s.actions.includes(m.text));
    // What may make it an emergency is asked for before anybody is called.
    const urgent = s.outcome === 'be-seen-today' && s.missing.some((m) => ['danger-signs', 'counted-rate'].includes(m.id));
    return html`
      <section class="card step ${s.outcome}" aria-labelledby="step-title">
        ${s.outcome === 'emergency-now' ? html`<h2 id="step-title">${t('end.do')}</h2>` : html`<h2 id="step-title">${s.words}</h2><p>${s.meaning}</p>`}
        <ol>${s.actions.map((a) => html`<li>${a}</li>`)}</ol>
        ${pauses()}
        ${s.outcome === 'next-take' || urgent ? html`<div class="row">
          ${urgent || s.missing.some((m) => m.needed && !ASKED_AT_A_TAKE.includes(m.id)) ? html`<a class="button" href="#/round/${id}/${round.dangerSignsOpen.length ? 'signs' : 'vitals'}">${t('end.fill')}</a>` : nothing}
          ${round.asked && !urgent ? html`<a class="button quiet" href="#/round/${id}/record/${round.asked.site}/${round.asked.take}">${t(`chest.asked.${round.asked.take}`, { site: round.asked.words })}</a>` : nothing}
        </div>` : nothing}
      </section>
      ${oxygenTarget(round)}
      ${s.reasons.length === 0 ? nothing : html`
        <h2>${t('end.reasons')}</h2>
        <ul class="reasons">${s.reasons.map((r) => html`
          <li>${r.text} ${r.limit ? html`<span class="hint">${t('end.limit', { limit: r.limit })}</span>` : nothing}
            <span class="hint">${t('end.source', { source: sources(r) })}</span></li>`)}</ul>`}
      ${missing.length === 0 ? nothing : html`
        <h2>${t('end.missing')}</h2><p>${t(s.outcome === 'emergency-now' ? 'end.missingLater' : 'end.missingHint')}</p>
        <ul>${missing.map((m) => html`<li>${m.id === 'emergency-number' ? html`<a href="#/settings">${m.text}</a>` : m.text}</li>`)}</ul>
        <p><a class="button quiet" href="#${fillAt(missing)}">${t('end.fill')}</a></p>`}
      ${s.wouldChange.length === 0 ? nothing : html`
        <h2>${t('end.wouldChange')}</h2><ul>${s.wouldChange.map((w) => html`<li>${w}</li>`)}</ul>`}
      ${s.news2 ? html`<p class="note">${news2(s.news2)}</p>` : nothing}`;
  }

  /** Where the first of what is missing is filled in. */
  function fillAt(missing) {
    const others = missing.filter((m) => !['danger-signs', 'recordings', 'emergency-number'].includes(m.id));
    const screen = round.dangerSignsOpen.length ? 'signs' : others.length ? 'vitals' : 'chest';
    return missing.every((m) => m.id === 'emergency-number') ? '/settings' : `/round/${id}/${screen}`;
  }

  /** Where a take holds a stretch without a breath that nobody has explained, or hardly any breath and nobody said whether it was heard. */
  function pauses() {
    const open = round.sites.flatMap((s) => s.takes.filter((take) => take.breathingStopped === null && take.examination?.pauses.length)
      .map((take) => html`<a class="button" href="#/take/${take.id}">${t('pause.say', { site: s.words })}</a>`));
    const unheard = (take) => take.breathHeard === null && take.hardlyAnyBreath;
    if (round.nextStep.missing.some((m) => m.id === 'breath-heard')) {
      open.push(...round.sites.flatMap((s) => s.takes.filter(unheard).slice(-1)
        .map((take) => html`<a class="button" href="#/take/${take.id}">${t('take.sayHeard', { site: s.words })}</a>`)));
    }
    return open.length === 0 ? nothing : html`<div class="row">${open}</div>`;
  }

  function news2(n) {
    return n.complete ? t('end.news2', { total: n.total }) : t('end.news2Part', { total: n.total, missing: n.missing.join(', ') });
  }

  /** A recording that was cut off is in no table here, and would be forgotten with the round. */
  function waiting() {
    return round.unfinished.length === 0 ? nothing : html`
      <p class="warn" id="waiting">${t('end.waiting', { sites: round.unfinished.map((e) => e.words).join('; ') })}
        <a href="#/round/${id}/chest">${t('end.waitingLink')}</a></p>`;
  }

  function sounds() {
    if (round.sites.length === 0) {
      return html`<h2>${t('end.sounds')}</h2>${round.unfinished.length > 0 ? waiting() : html`<p>${t('end.noSounds')}</p>`}`;
    }
    return html`
      <h2>${t('end.sounds')}</h2>
      ${waiting()}
      <div class="scroll" tabindex="0" role="region" aria-label=${t('end.sounds')}>
      <table><thead><tr><th scope="col">${t('end.site')}</th><th scope="col">${t('end.take')}</th><th scope="col">${t('end.suggests')}</th></tr></thead>
        <tbody>${round.sites.flatMap((s) => s.takes.map((take, i) => html`
          <tr><th scope="row">${i === 0 ? s.words : html`<span class="sr">${s.words}</span>`}</th><td><a href="#/take/${take.id}">${t(`take.${take.take}`)}</a></td><td>${take.suggestionWords ?? t('take.notExamined')}${take.examination?.pauses.length ? html` <strong>${t('pause.inTake')}</strong>` : nothing}</td></tr>`))}
        </tbody></table></div>`;
  }

  function beside() {
    const takeOf = (id) => round.sites.flatMap((s) => s.takes).find((take) => take.id === id).take;
    const changes = round.sites.flatMap((s) => s.changes.map((c) => ({ ...c, site: s.words })));
    return html`
      ${round.sides.length === 0 ? nothing : html`
        <h2>${t('end.sides')}</h2>
        ${table([t('end.left'), t('end.right')], round.sides.map((p) => [
          round.places[p.left].words.replace(/, left$/, ''), [p.measuresLeft, p.tellsNumberLeft], [p.measuresRight, p.tellsNumberRight], `#/compare/${p.takeLeft}/${p.takeRight}`]))}
        <p class="hint">${round.sides[0].noise}</p>`}
      ${changes.length === 0 ? nothing : html`
        <h2>${t('end.changes')}</h2>
        ${table([t('end.before'), t('end.after')], changes.map((c) => [`${c.site}, ${t(`take.${takeOf(c.after)}`)}`, [c.measuresBefore, c.tellsNumberBefore], [c.measuresAfter, c.tellsNumberAfter], `#/compare/${c.before}/${c.after}`]))}
        <ul>${changes.map((c) => html`<li>${c.site}: ${c.words}</li>`)}</ul>`}
      ${usual()}
      ${slowly(round)}`;
  }

  function usual() {
    return round.usual.length === 0 ? nothing : html`
      <h2 id="end-usual">${t('end.usual')}</h2>
      <div class="scroll" tabindex="0" role="region" aria-labelledby="end-usual">
      <table><thead><tr><td></td><th scope="col">${t('end.today')}</th><th scope="col">${t('usual.median')}</th><th scope="col">${t('end.earlierDays')}</th><th scope="col">${t('end.within')}</th></tr></thead>
        <tbody>${round.usual.map((u) => html`<tr class=${u.changed ? 'unusual' : ''}>
          <th scope="row">${t(`measure.${u.measure}`)} <span class="hint">(${t(`unit.${u.measure}`)})</span></th>
          <td>${plain(u.value)} ${u.how} ${u.changed ? html`<strong>${t('end.outside')}</strong>` : u.outside ? html`<span class="hint">${t('end.byChance')}</span>` : nothing}</td><td>${plain(u.usual.median)}</td>
          <td>${t('end.usualSpan', { low: plain(u.usual.lowest), high: plain(u.usual.highest), days: u.usual.daysBrief })}</td>
          <td>${plain(u.twoTakesDifferBy)}</td></tr>`)}</tbody></table></div>
      <p class="hint">${t('end.usualHint')}</p>`;
  }

  function draw() {
    screen.draw(t('end.title'), html`
      ${steps(round, 'end')}
      ${alarm(round)}
      ${problem(state.fault)}
      ${state.other ? html`<p class="verdict warn" id="other-window" role="alert" tabindex="-1">${t('end.otherWindow')}</p>` : nothing}
      ${step()}
      ${sounds()}
      ${beside()}
      <h2>${t('end.cautions')}</h2>
      <ul>${round.nextStep.cautions.map((c) => html`<li>${c}</li>`)}</ul>
      <h2>${t('end.notes')}</h2>
      ${round.notes.map((n) => html`<p class="note">${n.words}</p>`)}
      <form @submit=${note}>
        <label for="note">${t('end.noteLabel')}</label><textarea id="note" name="note"></textarea>
        <div class="row"><button class="quiet">${t('end.noteKeep')}</button></div></form>
      ${report.template()}
      <div class="row">
        <button type="button" class="big" id="finish" @click=${finish}>${t('end.finish')}</button></div>
      <p class="hint">${t('end.finishHint')}</p>`);
  }
  draw();
  screen.watch(id, () => round, renewed);
}

/** Numbers of two takes beside each other; a number that says nothing is not told. */
function table([left, right], rows) {
  const told = ([m, tells]) => [
    tells.continuous && t('numbers.share', { share: number(100 * m.wheezeShare) }),
    tells.crackles && (m.cracklesPerBreath === null ? t('numbers.cracklesAll', { crackles: m.crackles }) : t('numbers.crackles', { crackles: number(m.cracklesPerBreath, 1) })),
    tells.continuous && m.dominantHz !== null && `${number(m.dominantHz)} Hz`,
  ].filter((w) => w);
  // Beside a number of one kind of sound an empty place would read as if there were none of the other.
  const silent = ([, tells]) => (tells.continuous === tells.crackles ? [] : [t(tells.continuous ? 'numbers.cracklesNotTold' : 'numbers.shareNotTold')]);
  const words = (take) => (told(take).length === 0 ? [t('numbers.notTold')] : [...told(take), ...silent(take)]).map((w) => html`<div>${w}</div>`);
  return html`
    <div class="scroll" tabindex="0" role="region" aria-label="${left}, ${right}">
    <table class="beside"><thead><tr><th scope="col">${t('end.site')}</th><th scope="col">${left}</th><th scope="col">${right}</th></tr></thead>
      <tbody>${rows.map(([name, a, b, link]) => html`<tr><th scope="row">${name}<a class="beside-link" href=${link} aria-label=${t('compare.linkOf', { what: name })}>${t('compare.link')}</a></th><td>${words(a)}</td><td>${words(b)}</td></tr>`)}</tbody></table></div>`;
}

function sources(reason) {
  return reason.citations.map((c) => `${c.source} [${c.mark}]`).join('; ');
}
