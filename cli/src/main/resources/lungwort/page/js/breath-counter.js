import { html } from '/lib/lit-html.js';
import { t } from './texts.js';

/** A whole minute, as every table of breathing rates asks for. */
const SECONDS = 60;

/** Counts breaths with the person: one press for each, a whole minute long. */
export class BreathCounter {
  /** @param changed draws the screen anew */
  constructor(changed) {
    this.changed = changed;
    this.presses = 0;
    this.started = null;
    this.done = false;
  }

  start = () => {
    this.presses = 0;
    this.done = false;
    this.started = performance.now();
    this.timer = setInterval(() => {
      if (this.left() <= 0) {
        clearInterval(this.timer);
        this.done = true;
      }
      this.changed();
      if (this.done) {
        // The button of the breaths is gone: whoever pressed it by keyboard, or hears the page, stands at what was counted, and uses it by no breath too many.
        document.getElementById('counted')?.focus();
      }
    }, 1000);
    this.changed();
    document.getElementById('breath')?.focus();
  };

  press = () => {
    this.presses += 1;
    this.changed();
  };

  stop() {
    clearInterval(this.timer);
    this.started = null;
    this.done = false;
  }

  cancel = () => {
    this.stop();
    this.changed();
    document.getElementById('count')?.focus();
  };

  left() {
    return Math.max(0, Math.ceil(SECONDS - (performance.now() - this.started) / 1000));
  }

  perMinute() {
    return this.presses;
  }

  template(take) {
    if (this.started === null) {
      return html`<p><button type="button" class="quiet" id="count" @click=${this.start}>${t('count.start')}</button></p>`;
    }
    return html`
      <div class="note" role="group" aria-label=${t('count.title')}>
        ${this.done ? html`
          <p id="counted" tabindex="-1">${t('count.result', { rate: this.perMinute() })}</p>
          <div class="row"><button type="button" @click=${() => { take(); this.changed(); }}>${t('count.take', { rate: this.perMinute() })}</button>
            <button type="button" class="quiet" @click=${this.start}>${t('count.again')}</button></div>`
        : html`
          <p>${t('count.how', { left: this.left(), presses: this.presses })}</p>
          <div class="row"><button type="button" class="big" id="breath" @click=${this.press}>${t('count.press')}</button>
            <button type="button" class="quiet" @click=${this.cancel}>${t('count.cancel')}</button></div>`}
      </div>`;
  }
}
