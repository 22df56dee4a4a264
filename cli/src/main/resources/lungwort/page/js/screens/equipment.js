import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { send, Sentence } from '../api.js';
import { number, once, problem } from '../ui.js';
import { Capture, levelDb, toPcm } from '../capture.js';
import { LevelMeter } from '../level-meter.js';

const TESTS = ['silence', 'tap', 'bandwidth'];
const SECONDS = 4;

/** Tests the chain from chest piece to file, before the first round. */
export async function show(screen) {
  const state = { fault: '', running: '', results: {} };
  const meter = new LevelMeter();
  let capture = null;
  let left = false;
  screen.onLeave(() => { left = true; capture?.close(); });
  const failed = (fault) => {
    const again = `test-${state.running}`;
    Object.assign(state, { fault: fault.message, running: '' });
    capture?.close();
    draw();
    document.getElementById(again)?.focus();
  };

  const test = (name) => once(async () => {
    state.fault = '';
    state.running = name;
    draw();
    screen.say(t(`equipment.${name}.do`));
    const { pcm, rate } = await listen();
    if (left) {
      return;
    }
    state.results[name] = await send(`/api/equipment/${name}?rate=${rate}`, pcm);
    state.running = '';
    draw();
    document.getElementById(`test-${name}`)?.focus();
    screen.say(words(state.results[name]));
  }, failed);

  async function listen() {
    const blocks = [];
    const device = localStorage.getItem('microphone') ?? '';
    let done;
    let lost;
    const full = new Promise((resolve, reject) => { done = resolve; lost = reject; });
    // Nobody waits for it yet where the microphone goes at once.
    full.catch(() => {});
    capture = await Capture.open(device, (block) => {
      meter.show(levelDb(block));
      blocks.push(block);
      if (blocks.length * block.length >= SECONDS * capture.sampleRateHz) {
        done();
      }
    }, () => lost(new Sentence(0, t('capture.gone'))));
    if (left) {
      capture.close();
      done();
    }
    await full;
    const heard = { pcm: toPcm(blocks), rate: capture.sampleRateHz };
    capture.close();
    return heard;
  }

  function words(result) {
    return t(`equipment.${result.id}`, { value: number(result.value) });
  }

  function card(name, index) {
    const result = state.results[name];
    return html`
      <li class="card"><h2>${index + 1}. ${t(`equipment.${name}.title`)}</h2>
        <p>${t(`equipment.${name}.do`)}</p>
        ${state.running === name ? html`${meter.template()}<p class="note">${t('equipment.running', { seconds: SECONDS })}</p>`
          : html`<p><button type="button" class=${result ? 'quiet' : ''} id="test-${name}" ?disabled=${state.running !== ''} aria-label=${t('equipment.startOf', { start: t(result ? 'equipment.again' : 'equipment.start'), test: t(`equipment.${name}.title`) })} @click=${test(name)}>${t(result ? 'equipment.again' : 'equipment.start')}</button></p>`}
        ${result ? html`<p class=${result.passed ? 'note' : 'warn'}>${words(result)}</p>` : nothing}
      </li>`;
  }

  function draw() {
    screen.draw(t('equipment.title'), html`
      <p>${t('equipment.intro')}</p>
      ${problem(state.fault)}
      <ol class="cards">${TESTS.map(card)}</ol>
      <h2>${t('equipment.meaning')}</h2><p>${t('equipment.meaningText')}</p>
      <p><a class="button quiet" href="#/">${t('shell.toStart')}</a></p>`);
  }
  draw();
}
