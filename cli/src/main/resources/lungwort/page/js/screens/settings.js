import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { put } from '../api.js';
import { once, problem } from '../ui.js';

/** What holds for all persons. */
export async function show(screen) {
  const state = { fault: '', kept: false };

  const keep = once(async (event) => {
    const form = new FormData(event.target);
    const number = form.get('number').trim();
    screen.shared.settings = await put('/api/settings', { temperatureUnit: form.get('unit'), ...(number ? { emergencyNumber: number } : {}) });
    Object.assign(state, { fault: '', kept: true });
    draw();
    screen.say(t('settings.kept'));
  }, (fault) => { Object.assign(state, { fault: fault.message, kept: false }); draw(); });

  function draw() {
    const { settings } = screen.shared;
    screen.draw(t('settings.title'), html`
      ${problem(state.fault)}
      ${state.kept ? html`<p class="note" id="kept">${t('settings.kept')}</p>` : nothing}
      <form @submit=${keep}>
        <div class="field"><label for="number">${t('number.label')}</label><input id="number" name="number" type="tel" autocomplete="off" .value=${settings.emergencyNumber ?? ''} aria-describedby="number-hint">
          <span class="hint" id="number-hint">${t('number.why')}</span></div>
        <fieldset class="choice"><legend>${t('settings.unit')}</legend><div class="options">
          ${['celsius', 'fahrenheit'].map((unit) => html`<label class="option"><input type="radio" name="unit" value=${unit} .checked=${settings.temperatureUnit === unit}><span>${t(`settings.${unit}`)}</span></label>`)}
        </div></fieldset>
        <div class="row"><button>${t('settings.keep')}</button></div>
      </form>`);
  }
  draw();
}
