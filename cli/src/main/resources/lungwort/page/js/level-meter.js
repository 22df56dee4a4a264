import { html } from '/lib/lit-html.js';
import { t } from './texts.js';

const LOWEST_DB = -80;
const LOUD_DB = -6;

/** How loud the microphone is, as a bar and in words; moved without drawing the screen anew. */
export class LevelMeter {
  constructor() {
    this.shown = LOWEST_DB;
  }

  template() {
    return html`
      <div class="meter"><span id="meter-label">${t('meter.label')}</span>
        <meter id="meter" aria-labelledby="meter-label" min=${LOWEST_DB} max="0" low="-62" high=${LOUD_DB} optimum="-30" value=${LOWEST_DB}></meter>
        <span id="meter-words" class="hint">${t('meter.nothing')}</span></div>`;
  }

  /** Falls slowly, so that a short peak can be seen. */
  show(db) {
    this.shown = Math.max(db, this.shown - 1.2, LOWEST_DB);
    const meter = document.getElementById('meter');
    if (!meter) {
      return;
    }
    meter.value = this.shown;
    const words = this.shown > LOUD_DB ? 'meter.loud' : this.shown < -76 ? 'meter.nothing' : this.shown < -62 ? 'meter.quiet' : 'meter.good';
    const label = document.getElementById('meter-words');
    if (label.textContent !== t(words)) {
      label.textContent = t(words);
    }
  }
}
