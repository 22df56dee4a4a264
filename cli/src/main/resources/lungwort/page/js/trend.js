import uPlot from '/lib/uplot.js';
import { html, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';
import { day, number, plain, slowly } from './ui.js';

const FIELDS = { 'wheeze-share': (d) => (d.wheezeShare === null ? null : 100 * d.wheezeShare), 'crackles-per-breath': (d) => d.cracklesPerBreath, rate: (d) => d.ratePerMinute, spo2: (d) => d.spo2Percent, 'oxygen-flow': (d) => d.oxygenLitresPerMinute, 'peak-flow': (d) => d.peakFlowLitresPerMinute, weight: (d) => d.weightKg };
/** Over how many places a value is a mean. */
const PLACES = { 'wheeze-share': (d) => d.wheezePlaces, 'crackles-per-breath': (d) => d.cracklePlaces };
/** Shown with a decimal. */
const FINE = ['crackles-per-breath', 'weight'];
const HEIGHT = 190;

/** A colour of the page as it is now, by day or by night. */
const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

/** Where the plots go, and the same numbers as a table. */
export function trendTemplate(diary) {
  const days = diary.trend.days.filter((d) => d.rounds > 0);
  return html`
    ${diary.measures.map((m) => html`
      <figure class="trend"><figcaption>${t(`measure.${m.id}`)} <span class="unit">(${t(`unit.${m.id}`)})</span> ${usual(diary, m)} <span class="hint">${m.noise}</span>${m.id === 'spo2' && days.some((d) => d.spo2OnOxygen) ? html` <span class="hint">${t('trend.ring')}</span>` : nothing}</figcaption>
        <div class="plot" data-measure=${m.id}></div></figure>
      ${m.id === 'spo2' && diary.trend.newestFlowWords ? html`<p class="note" id="newest-flow-words">${diary.trend.newestFlowWords}</p>` : nothing}`)}
    ${diary.trend.placesWords ? html`<p class="note" id="places-words">${diary.trend.placesWords}</p>` : nothing}
    ${slowly(diary.trend)}
    <p class="hint">${t('trend.gaps')} ${diary.noiseCaution}</p>
    <details><summary>${t('trend.table')}</summary>
      <div class="scroll" tabindex="0" role="region" aria-label=${t('trend.table')}>
      <table><thead><tr><th scope="col">${t('trend.day')}</th>${diary.measures.map((m) => html`<th scope="col">${t(`measure.${m.id}`)}</th>`)}</tr></thead>
        <tbody>${days.map((d) => html`<tr><th scope="row">${day(d.day)}</th>${diary.measures.map((m) => html`<td>${m.id === 'oxygen-flow' ? FIELDS[m.id](d) ?? number(null) : number(FIELDS[m.id](d), FINE.includes(m.id) ? 1 : 0)}${PLACES[m.id]?.(d) ? html` <span class="hint">${t('trend.places', { places: PLACES[m.id](d) })}</span>` : nothing}${m.id === 'rate' && d.rateHeard ? html` <span class="hint">${t('trend.heard')}</span>` : nothing}${m.id === 'spo2' && d.spo2OnOxygen ? html` <span class="hint">${t('trend.onOxygen')}</span>` : nothing}</td>`)}</tr>`)}</tbody></table></div></details>`;
}

function usual(diary, measure) {
  // Which flow of oxygen is right for a person only a clinician says, and which weight: they have no usual.
  if (measure.id === 'oxygen-flow') {
    return html`<span class="hint" id="oxygen-flow-words">${diary.trend.oxygenFlowWords}</span>`;
  }
  if (measure.id === 'weight') {
    return html`<span class="hint" id="weight-words">${diary.trend.weightWords}</span>`;
  }
  const u = diary.trend.usual[measure.id];
  const stated = measure.id === 'spo2' ? diary.person.limits.usualSpo2 : null;
  if (stated) {
    return html`<span class="hint">${t('trend.stated', { percent: stated.percent, on: stated.on, by: stated.setBy, how: stated.onOxygen === null ? '' : t(stated.onOxygen ? 'trend.statedOnOxygen' : 'trend.statedInAir') })} ${words(u)}</span>`;
  }
  return u ? html`<span class="hint">${words(u)}</span>` : nothing;
}

/** Of which days it is, too: after a long illness they can lie before those that are drawn. */
function words(u) {
  return u ? t('trend.usual', { low: plain(u.lowest), high: plain(u.highest), days: u.daysWords }) : '';
}

/** Where a plot ends above. A baby has hundredths of a litre of oxygen: on a scale up to whole litres a flow that doubles would look flat. */
function highest(id, known, room) {
  const most = Math.max(...known);
  return id === 'oxygen-flow' ? 1.3 * most : Math.ceil(most + room);
}

/** Draws the plots; each is as wide as its place. */
export function drawTrends(diary) {
  const axis = { stroke: colour('--ink'), grid: { stroke: colour('--line') }, ticks: { stroke: colour('--line') } };
  const seconds = diary.trend.days.map((d) => new Date(`${d.day}T12:00`).getTime() / 1000);
  return [...document.querySelectorAll('.plot')].map((place) => {
    place.replaceChildren();
    place.removeAttribute('role');
    place.removeAttribute('aria-label');
    const id = place.dataset.measure;
    const values = diary.trend.days.map(FIELDS[id]);
    if (values.every((v) => v === null)) {
      place.textContent = t('trend.nothing');
      return null;
    }
    const known = values.filter((v) => v !== null);
    const room = Math.max(1, 0.15 * (Math.max(...known) - Math.min(...known)));
    const zero = id === 'oxygen-flow' || id === 'wheeze-share' || id === 'crackles-per-breath';
    place.setAttribute('role', 'img');
    place.setAttribute('aria-label', t('trend.alt', { measure: t(`measure.${id}`) }));
    return new uPlot({
      width: place.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { drag: { x: false, y: false } },
      scales: { y: { range: [zero ? 0 : Math.floor(Math.min(...known) - room), highest(id, known, room)] } },
      axes: [axis, { ...axis, size: 46 }],
      // What was measured on extra oxygen stands as a ring on the same line.
      series: [{}, { stroke: colour('--main'), width: 2, spanGaps: false, points: { show: true, size: 8, fill: colour('--main') } },
        { stroke: colour('--main'), paths: () => null, points: { show: true, size: 9, width: 2, fill: colour('--card') } }],
    }, [seconds, values, diary.trend.days.map((d) => (id === 'spo2' && d.spo2OnOxygen ? d.spo2Percent : null))], place);
  }).filter(Boolean);
}
