import { html, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';
import { get } from './api.js';
import { number } from './ui.js';

/** What says something to everybody; the other measures are for those who ask. */
const PLAIN = ['wheeze-share', 'dominant-frequency', 'crackles-per-breath', 'rate'];

/** This take beside what is usual for this person at this place. Loaded after the take itself: the earlier recordings are read for it. */
export class UsualHere {
  constructor(take) {
    this.take = take;
    this.found = null;
    this.fault = '';
  }

  /** Only a first take answers the question: after a cough or deep breaths nobody breathes as usual. */
  async load() {
    if (this.take.take !== 'first') {
      return;
    }
    try {
      this.found = await get(`/api/takes/${this.take.id}/usual`);
    } catch (fault) {
      this.fault = fault.message;
    }
  }

  /** What is other than usual, to stand near the suggestion. */
  remark() {
    const unusual = this.found?.measures.filter((m) => m.unusual) ?? [];
    if (unusual.length === 0 && !this.found?.newKind) {
      return nothing;
    }
    return html`
      <section class="card warn" id="unusual" aria-labelledby="unusual-title"><h2 id="unusual-title">${t('usual.unusual')}</h2>
        <ul>${this.found.newKind ? html`<li>${t('usual.new', { takes: this.found.earlier.length })}</li>` : nothing}
          ${unusual.map((m) => html`<li>${t('usual.item', {
            measure: m.words, today: value(m, m.today), median: value(m, m.median), low: value(m, m.lowest), high: value(m, m.highest), takes: m.takes })}</li>`)}</ul>
        <p>${t('usual.unusualDo')}</p></section>`;
  }

  /** The measures beside the usual ones. */
  template() {
    if (this.take.take !== 'first' || !this.take.examination) {
      return nothing;
    }
    return html`
      <section id="usual" aria-labelledby="usual-title"><h2 id="usual-title">${t('usual.title')}</h2>
        ${this.fault ? html`<p class="warn">${this.fault}</p>`
        : this.found === null ? html`<p class="waiting">${t('shell.waiting')}</p>`
        : this.found.earlier.length < this.found.enough
          ? html`<p>${t('usual.few', { there: this.found.earlier.length, enough: this.found.enough })}</p>`
        : this.known()}</section>`;
  }

  known() {
    const plain = this.found.measures.filter((m) => PLAIN.includes(m.measure));
    const other = this.found.measures.filter((m) => !PLAIN.includes(m.measure));
    return html`
      <p>${this.found.earlierWords} ${t('usual.hint', { takes: this.found.earlier.length })}</p>
      ${table(plain, 'usual.measured')}
      <details><summary>${t('usual.other')}</summary>${table(other, 'usual.other')}</details>
      <p class="hint">${this.found.caution}</p>`;
  }
}

/** Each with a name of its own: whoever hears the page tells the regions apart by it. */
function table(measures, name) {
  return html`
    <div class="scroll" tabindex="0" role="region" aria-label=${t(name)}>
    <table><thead><tr><td></td><th scope="col">${t('usual.today')}</th><th scope="col">${t('usual.median')}</th><th scope="col">${t('usual.range')}</th><th scope="col">${t('usual.within')}</th></tr></thead>
      <tbody>${measures.map((m) => html`<tr class=${m.unusual ? 'unusual' : ''}>
        <th scope="row">${m.words}</th><td>${value(m, m.today)} ${m.unusual ? html`<strong>${t('usual.mark')}</strong>` : nothing}</td>
        <td>${value(m, m.median)}</td><td>${t('usual.span', { low: number(m.lowest, m.decimals), high: value(m, m.highest) })}</td>
        <td>${m.repeatability === null ? t('usual.notKnown') : value(m, m.repeatability)}</td></tr>`)}</tbody></table></div>`;
}

function value(measure, x) {
  return `${number(x, measure.decimals)}${measure.unit ? ` ${measure.unit}` : ''}`;
}
