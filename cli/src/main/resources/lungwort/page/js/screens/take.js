import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get, put } from '../api.js';
import { alarm, capital, choice, nothingNow, notKept, number, showKept, soFar, steps, when } from '../ui.js';
import { TakeView } from '../take-view.js';
import { UsualHere } from '../usual-here.js';

/** What a take suggests, on what evidence, and what the trade does next. */
export async function show(screen, id) {
  let take = await get(`/api/takes/${id}`);
  let round = await get(`/api/rounds/${take.round}`);
  const state = { fault: '', urgent: false };
  const usual = new UsualHere(take);
  let view = null;
  screen.onLeave(() => { view?.close(); window.removeEventListener('resize', draw); });

  async function say(change) {
    try {
      take = { ...take, ...await put(`/api/takes/${id}`, change) };
      round = await get(`/api/rounds/${take.round}`);
      Object.assign(state, { fault: '', urgent: false });
      draw();
    } catch (fault) {
      Object.assign(state, { fault: fault.message, urgent: state.urgent || change.breathingStopped === true });
      draw();
      showKept('stopped', take.breathingStopped);
      showKept('heard', take.breathHeard);
      document.querySelectorAll('#known').forEach((box) => { box.checked = take.knownToClinician; });
      document.querySelector('#not-kept, .error')?.scrollIntoView({ block: 'nearest' });
    }
  }

  /** What another window said of this take is seen in the round, too. */
  async function renewed(now) {
    round = now;
    draw();
    const before = take;
    try {
      const again = await get(`/api/takes/${id}`);
      take = take === before ? { ...take, ...again } : take;
    } catch (fault) {
      state.fault = fault.message;
    }
    draw();
  }

  /** A low chance of what the model can miss here would read as if there were none. */
  const chance = (e, sort, value) => (e.tellsProbability[sort] ? `${number(100 * value)} %` : t('take.noChance'));

  function verdict() {
    const e = take.examination;
    if (!e) {
      return html`<p class="warn">${t('take.notExamined')}</p>`;
    }
    const findings = e.quality.findings;
    // What a refused recording resembles says nothing of the chest.
    const refused = !e.quality.usable;
    const remarks = e.source.remarks ?? [];
    return html`
      <section class="card result ${e.suggestion}" aria-labelledby="result">
        <h2 id="result">${t(['none-heard', 'none-stands-out'].includes(e.suggestion) ? 'take.saysNone' : 'take.says')} <strong>${take.suggestionWords}</strong></h2>
        <p>${t(refused ? 'suggestion.refused' : `suggestion.${e.suggestion}`)}</p>
        ${take.hardlyABreath ? html`<p class="warn" id="hardly-a-breath">${t('take.hardlyABreath')}
          <a href="#/round/${take.round}/record/${take.site}/${take.take}">${t('take.recordAgain')}</a></p>` : nothing}
        ${take.otherKindMissed ? html`<p class="warn" id="other-kind">${t(`take.otherKind.${e.suggestion}`)}</p>` : nothing}
        ${findings.length === 0 ? nothing : html`<ul>${findings.map((f) => html`<li>${f.reason} ${f.remedy} <span class="hint">${f.detail}</span></li>`)}</ul>`}
        ${take.listenFor.map((words) => html`<p class="warn listen">${words}</p>`)}
        ${remarks.map((remark) => html`<p class="hint">${remark}</p>`)}
        ${refused || e.reasons.every((r) => take.listenFor.includes(r)) ? nothing : html`<details><summary>${t(e.suggestion === 'cannot-tell' ? 'take.whyUnsure' : 'take.why')}</summary><ul>${e.reasons.filter((r) => !take.listenFor.includes(r)).map((r) => html`<li>${r}</li>`)}</ul>
          ${['cannot-tell', 'none-stands-out'].includes(e.suggestion) ? nothing : html`<p class="hint">${t('take.chances', {
            continuous: chance(e, 'continuous', e.probabilities.continuous), discontinuous: chance(e, 'crackles', e.probabilities.discontinuous) })}</p>`}</details>`}
      </section>`;
  }

  /** A stretch without a breath comes before what the sound suggests to do next: who was there knows what it was. */
  function pauses() {
    const found = take.examination?.pauses ?? [];
    return found.length === 0 ? nothing : html`
      <section class="card pauses" aria-labelledby="pause-title">
        <h2 id="pause-title">${t('pause.title')}</h2>
        ${found.map((p) => html`<p>${p.words}</p>`)}
        ${choice('stopped', t('pause.ask'), [[true, t('pause.yes')], [false, t('pause.no')], [null, t('answer.unknown')]], take.breathingStopped, (v) => say({ breathingStopped: v }), t('pause.hint'))}
      </section>`;
  }

  function next() {
    const asked = round.asked;
    if (round.nextStep.outcome === 'emergency-now') {
      return nothingNow(round);
    }
    // What is to be mended stands above already, beside the take that it spoilt.
    const said = (take.examination?.quality.findings ?? []).map((f) => `${f.reason} ${f.remedy}`);
    if (!asked) {
      return html`<section class="card"><h2>${t(round.sitesOpen.length ? 'chest.tried' : 'chest.complete')}</h2><p><a class="button big" href="#/round/${take.round}/end">${t('chest.toEnd')}</a></p></section>`;
    }
    return html`
      <section class="card asked" aria-labelledby="next-title">
        <h2 id="next-title">${t(`chest.asked.${asked.take}`, { site: asked.words })}</h2>
        <p>${asked.because}</p>
        <ol>${asked.instructions.filter((i) => asked.site !== take.site || !said.includes(i)).map((i) => html`<li>${i}</li>`)}</ol>
        <div class="row"><a class="button big" id="next" href="#/round/${take.round}/record/${asked.site}/${asked.take}">${t('take.next')}</a>
          <a class="button quiet" href="#/round/${take.round}/chest">${t('take.chest')}</a></div>
      </section>`;
  }

  function numbers() {
    const m = take.measures;
    const e = take.examination;
    if (!m || !e) {
      return nothing;
    }
    const told = (sort, value) => (take.tellsNumber[sort] ? value : t('numbers.notTold'));
    // A rate across a stretch without a breath would be too slow and hide that it stopped.
    const rate = e.respiratoryRatePerMinute === null || e.pauses.length > 0 ? t('number.none')
      : t('take.rateValue', { rate: number(e.respiratoryRatePerMinute), low: number(e.respiratoryRate.low), high: number(e.respiratoryRate.high) });
    const rows = [
      ['take.breaths', number(e.breaths.length)], ['take.rate', rate], ['take.share', told('continuous', `${number(100 * m.wheezeShare)} %`)],
      ['take.crackles', told('crackles', number(m.cracklesPerBreath, 1))], ['take.hz', told('continuous', m.dominantHz === null ? t('number.none') : `${number(m.dominantHz)} Hz`)],
      ['take.length', `${number(e.durationSeconds, 1)} s`], ['take.model', e.model],
    ];
    return html`<details><summary>${t('take.numbers')}</summary>
      <table class="numbers"><tbody>${rows.map(([words, value]) => html`<tr><th scope="row">${t(words)}</th><td>${value}</td></tr>`)}</tbody></table></details>`;
  }

  function changes() {
    const site = round.sites.find((s) => s.site === take.site);
    const mine = site?.changes.filter((c) => c.after === id) ?? [];
    const takeWords = (other) => t(`take.${site.takes.find((one) => one.id === other).take}`);
    return mine.map((c) => html`<p class="note">${c.words} <a href="#/compare/${c.before}/${c.after}" aria-label=${t('compare.linkOf', { what: `${takeWords(c.before)}, ${takeWords(c.after)}` })}>${t('compare.link')}</a></p>`);
  }

  /** Of a recording that is made again anyway it is asked then; but one that is refused because hardly any breath stands out may be of a chest that hardly moves air. */
  function askHeard() {
    const faint = round.sites.flatMap((s) => s.takes).some((other) => other.id === id && other.hardlyAnyBreath);
    return take.examination?.quality.usable !== false || faint || take.breathHeard !== null;
  }

  function heard() {
    return !askHeard() ? nothing : html`
      <section class="card">
        ${choice('heard', t('take.heard'), [[true, t('take.heardYes')], [false, t('take.heardNo')], [null, t('answer.unknown')]], take.breathHeard, (v) => say({ breathHeard: v }), t('take.heardHint'))}
        ${['continuous', 'discontinuous', 'both'].includes(take.examination?.suggestion)
          ? html`<label class="check"><input type="checkbox" id="known" .checked=${take.knownToClinician} @change=${(e) => say({ knownToClinician: e.target.checked })}>${t('take.known')}</label>` : nothing}
      </section>`;
  }

  /** Whoever hears the page is not left with "none heard" alone: a stretch without a breath comes first, and what the answer is worth goes with it. */
  function spoken() {
    const e = take.examination;
    if (!e) {
      return t('take.notExamined');
    }
    const none = ['none-heard', 'none-stands-out'].includes(e.suggestion);
    const suggestion = `${t(none ? 'take.saysNone' : 'take.says')} ${take.suggestionWords}. ${t(e.quality.usable ? `suggestion.${e.suggestion}` : 'suggestion.refused')}`;
    return [...e.pauses.map((p) => p.words), suggestion, ...(take.hardlyABreath ? [t('take.hardlyABreath')] : [])].join(' ');
  }

  function draw() {
    screen.draw(t('take.title', { site: capital(take.siteWords), take: t(`take.${take.take}`) }), html`
      ${steps(round, 'chest')}
      ${alarm(round)}
      ${soFar(round)}
      ${notKept(round, state.fault, state.urgent)}
      ${pauses()}
      ${verdict()}
      ${changes()}
      ${usual.remark()}
      ${heard()}
      ${next()}
      ${view ? view.template() : html`<p class="waiting">${t('shell.waiting')}</p>`}
      ${usual.template()}
      ${numbers()}
      <p class="hint">${t('take.made', { when: when(take.recordedAt), file: take.file })}</p>`);
  }

  draw();
  screen.watch(take.round, () => round, renewed);
  screen.say(spoken());
  if (take.examination) {
    try {
      const loaded = await TakeView.load(take, draw);
      if (screen.here()) {
        view = loaded;
        window.addEventListener('resize', draw);
      } else {
        loaded.close();
      }
    } catch (fault) {
      state.fault = fault.message;
    }
    draw();
    await usual.load();
    draw();
    if (document.getElementById('unusual') !== null && screen.here()) {
      screen.say(t('usual.unusual'));
    }
  }
}
