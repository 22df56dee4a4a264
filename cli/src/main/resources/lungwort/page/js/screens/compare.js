import { html } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { get } from '../api.js';
import { number, problem, when } from '../ui.js';
import { TakeView } from '../take-view.js';

/** Two takes beside each other. */
export async function show(screen, first, second) {
  const takes = await Promise.all([get(`/api/takes/${first}`), get(`/api/takes/${second}`)]);
  const comparison = await get(`/api/compare?a=${first}&b=${second}`);
  const state = { shown: 0, view: null, fault: '' };
  screen.onLeave(() => state.view?.close());

  async function look(index) {
    state.view?.close();
    state.view = null;
    state.shown = index;
    draw();
    try {
      const view = await TakeView.load(takes[index], draw);
      if (!screen.here() || state.shown !== index) {
        view.close();
        return;
      }
      state.view = view;
    } catch (fault) {
      state.fault = fault.message;
    }
    draw();
  }

  const name = (take) => `${take.siteWords}, ${t(`take.${take.take}`)}`;

  function row(words, value) {
    return html`<tr><th scope="row">${t(words)}</th>${takes.map((take) => html`<td>${value(take)}</td>`)}</tr>`;
  }

  function draw() {
    const measured = (f, sort) => (take) => (!take.measures ? t('number.none') : sort && !take.tellsNumber[sort] ? t('numbers.notTold') : f(take.measures));
    screen.draw(t('compare.title'), html`
      ${problem(state.fault)}
      <div class="scroll" tabindex="0" role="region" aria-label=${t('compare.title')}>
      <table class="beside"><thead><tr><td></td>${takes.map((take) => html`<th scope="col"><a href="#/take/${take.id}">${name(take)}</a></th>`)}</tr></thead>
        <tbody>
          ${row('compare.person', (take) => take.person)}
          ${row('compare.when', (take) => when(take.recordedAt))}
          ${row('end.suggests', (take) => take.suggestionWords ?? t('take.notExamined'))}
          ${row('take.share', measured((m) => `${number(100 * m.wheezeShare)} %`, 'continuous'))}
          ${row('take.crackles', measured((m) => number(m.cracklesPerBreath, 1), 'crackles'))}
          ${row('take.hz', measured((m) => (m.dominantHz === null ? t('number.none') : `${number(m.dominantHz)} Hz`), 'continuous'))}
          ${row('take.rate', measured((m) => number(m.ratePerMinute)))}
        </tbody></table></div>
      ${comparison.notComparable.map((r) => html`<p class="warn">${r}</p>`)}
      <h2>${t('compare.differences')}</h2><ul>${comparison.findings.map((w) => html`<li>${w}</li>`)}</ul>
      <p class="note">${comparison.caution}</p>
      <h2>${t('compare.listen')}</h2>
      <div class="row">${takes.map((take, i) => html`<button type="button" class=${state.shown === i ? '' : 'quiet'} aria-pressed=${state.shown === i ? 'true' : 'false'} @click=${() => look(i)}>${name(take)}</button>`)}</div>
      ${state.view ? state.view.template() : html`<p class="waiting">${t('shell.waiting')}</p>`}`);
  }
  draw();
  await look(0);
}
