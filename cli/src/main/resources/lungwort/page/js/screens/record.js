import { html, nothing } from '/lib/lit-html.js';
import { t } from '../texts.js';
import { GONE, get, Sentence } from '../api.js';
import { alarm, goTo, once, problem, steps } from '../ui.js';
import { microphones } from '../capture.js';
import { Recorder } from '../recorder.js';
import { LevelMeter } from '../level-meter.js';
import { bringFile } from '../files.js';

const DEVICE = 'microphone';
const ENOUGH_SECONDS = 15;

/** Records one take, or brings a file. */
export async function show(screen, id, site, reason) {
  let round = await get(`/api/rounds/${id}`);
  const place = round.places[site];
  if (!place) {
    throw new Sentence(404, t('record.noSite'));
  }
  const meter = new LevelMeter();
  const state = { phase: 'closed', fault: '', devices: [], device: localStorage.getItem(DEVICE) ?? '', verdict: null, lost: '', spoken: '' };
  const recorder = new Recorder(id, site, reason, told);
  screen.onLeave(() => { recorder.leave(); });

  function told(news) {
    if (news.levelDb !== undefined) {
      meter.show(news.levelDb);
    } else if (news.verdict) {
      state.verdict = news.verdict;
      state.lost = '';
      speak();
      draw();
    } else if (news.fault?.status === GONE && state.phase !== 'examining') {
      // Nothing goes on, and nothing will be sent: it is not in the diary any more.
      Object.assign(state, { fault: news.fault.message, phase: 'closed' });
      draw();
      document.getElementById('open')?.focus();
    } else if (news.fault) {
      state.lost = news.fault.message;
      draw();
    } else if (news.full) {
      stop();
    } else if (news.gone) {
      cutOff(news.cut);
    }
  }

  /** The microphone is gone. What was recorded until then is not spoilt by it. */
  async function cutOff(recorded) {
    if (!recorded || recorder.seconds === 0) {
      Object.assign(state, { fault: t('capture.gone'), phase: 'closed' });
      draw();
      document.getElementById('open')?.focus();
      return;
    }
    state.phase = 'cut';
    draw();
    document.getElementById('examine')?.focus();
    await recorder.pass();
  }

  /** Another recording at this place; what was cut off waits at the drawing. */
  const anew = once(async () => {
    await recorder.pass();
    if (recorder.unsaved) {
      throw new Sentence(0, t('error.unreachable'));
    }
    Object.assign(state, { fault: '', lost: '', phase: 'closed' });
    draw();
    document.getElementById('open')?.focus();
  }, (fault) => { state.fault = fault.message; draw(); });

  /** Read aloud only when something new is to be said. */
  function speak() {
    const words = advice();
    if (words !== state.spoken) {
      state.spoken = words;
      screen.say(words);
    }
  }

  const failed = async (fault) => {
    state.fault = fault.message;
    state.phase = recorder.capture ? 'open' : 'closed';
    // Another one can be chosen where the one that was chosen is not there.
    state.devices = await microphones().catch(() => []);
    draw();
  };

  const open = once(async () => {
    state.fault = '';
    await recorder.listen(state.device);
    if (!recorder.capture) {
      return;
    }
    state.devices = await microphones();
    state.phase = 'open';
    draw();
    document.getElementById('start')?.focus();
  }, failed);

  const start = once(async () => {
    state.fault = '';
    state.verdict = null;
    await recorder.start();
    if (!recorder.recording) {
      return;
    }
    state.phase = 'recording';
    draw();
    document.getElementById('stop')?.focus();
    screen.say(t('record.running'));
  }, failed);

  const stop = once(async () => {
    examining();
    const take = await recorder.finish();
    arrive(take);
  }, (fault) => {
    state.fault = fault.message;
    if (recorder.empty || fault.status === GONE) {
      recorder.close();
      state.phase = 'closed';
      draw();
      document.getElementById('open')?.focus();
      return;
    }
    // What was not sent yet is still here, and nothing may be recorded over it.
    state.phase = 'unsent';
    draw();
    document.getElementById('send')?.focus();
  });

  /** The button that was pressed is gone: whoever hears the page, or goes by keyboard, stands at what is done now. */
  function examining() {
    state.fault = '';
    state.phase = 'examining';
    draw();
    document.getElementById('examining')?.focus();
  }

  /** Whoever went elsewhere meanwhile is not fetched back; the take stands among those that were recorded. */
  function arrive(take) {
    if (screen.here()) {
      goTo(`/take/${take.id}`);
    }
  }

  const bring = once(async (event) => {
    const file = event.target.files[0];
    if (file) {
      examining();
      arrive(await bringFile(id, site, reason, file));
    }
  }, failed);

  const dropped = (event) => {
    event.preventDefault();
    const files = event.dataTransfer.files;
    if (files.length > 0) {
      bring({ preventDefault() {}, target: { files } });
    }
  };

  async function choose(event) {
    state.device = event.target.value;
    localStorage.setItem(DEVICE, state.device);
    state.fault = '';
    try {
      await recorder.listen(state.device);
      if (recorder.capture) {
        state.phase = 'open';
        draw();
      }
    } catch (fault) {
      await failed(fault);
    }
  }

  /** The one thing that matters most now. */
  function advice() {
    const verdict = state.verdict;
    if (!verdict) {
      return t('record.listening');
    }
    if (verdict.issues.length > 0) {
      return `${verdict.issues[0].reason} ${verdict.issues[0].remedy}`;
    }
    return enough() ? t('record.enough') : t('record.good');
  }

  function enough() {
    const { breaths, breathsWanted, seconds } = state.verdict;
    return seconds >= ENOUGH_SECONDS && breaths >= breathsWanted;
  }

  /** What was said of the part that was sent last holds no longer where nothing can be sent. */
  function live() {
    const lost = state.lost !== '';
    const verdict = lost ? null : state.verdict;
    const bad = lost || verdict?.issues.length > 0;
    return html`
      <div class="live ${bad ? 'warn' : 'note'}">
        <p class="seconds"><strong>${t('record.seconds', { seconds: Math.floor(lost ? recorder.seconds : verdict?.seconds ?? 0) })}</strong>
          ${lost ? nothing : verdict && verdict.breaths >= 0 ? t('record.breaths', { breaths: verdict.breaths, wanted: verdict.breathsWanted }) : t('record.breathsSoon')}</p>
        <p class="advice">${lost ? t('record.notJudged') : advice()}</p>
      </div>
      ${lost ? html`<p class="error" role="alert">${state.lost} ${t('record.kept')}</p>` : nothing}`;
  }

  function controls() {
    switch (state.phase) {
      case 'closed':
        return html`${state.device && state.devices.length > 0 ? devices() : nothing}
          <div class="row"><button type="button" class="big" id="open" @click=${open}>${t('record.open')}</button></div><p class="hint">${t('record.openHint')}</p>`;
      case 'open':
        return html`${devices()}${meter.template()}${altered()}
          <div class="row"><button type="button" class="big" id="start" aria-describedby="start-hint" @click=${start}>${t('record.start')}</button></div>
          <p class="hint" id="start-hint">${t('record.startHint')} <span class="sr">${t('record.spoken')}</span></p>`;
      case 'unsent':
        return html`<p class="warn">${t('record.unsent')}</p>
          <div class="row"><button type="button" class="big" id="send" @click=${stop}>${t('record.sendAgain')}</button></div>`;
      case 'cut':
        return html`<div class="card warn" id="cut"><p role="alert"><strong>${t('capture.gone')}</strong> ${t('record.cut', { seconds: Math.round(recorder.seconds) })}</p>
          <div class="row"><button type="button" class="big" id="examine" @click=${stop}>${t('record.examineCut')}</button>
            <button type="button" class="quiet" id="anew" @click=${anew}>${t('record.anew')}</button></div>
          <p class="hint">${t('record.anewHint')}</p></div>`;
      case 'recording':
        return html`${meter.template()}${live()}
          <div class="row"><button type="button" class="big danger" id="stop" @click=${stop}>${t('record.stop')}</button></div>`;
      default:
        return html`<p class="note" id="examining" tabindex="-1">${t('record.examining')}</p>`;
    }
  }

  function devices() {
    const there = state.device === '' || state.devices.some((d) => d.deviceId === state.device);
    return html`<div class="field"><label for="device">${t('record.device')}</label>
      <select id="device" @change=${choose}><option value="">${t('record.usualDevice')}</option>
        ${there ? nothing : html`<option value=${state.device} selected>${t('record.missingDevice')}</option>`}
        ${state.devices.filter((d) => d.deviceId && d.deviceId !== 'default').map((d) => html`<option value=${d.deviceId} ?selected=${d.deviceId === state.device}>${d.label || t('record.unnamed')}</option>`)}</select></div>`;
  }

  function altered() {
    const names = recorder.capture?.altered ?? [];
    return names.length === 0 ? nothing : html`<p class="warn">${t('record.altered', { what: names.map((n) => t(`record.${n}`)).join(', ') })}</p>`;
  }

  function draw() {
    const quiet = state.phase === 'recording' || state.phase === 'examining';
    const instruction = round.takeReasons.find((r) => r.id === reason)?.instruction;
    screen.draw(t('record.title', { site: place.words }), html`
      ${quiet ? nothing : steps(round, 'chest')}
      ${alarm(round)}
      ${problem(state.fault)}
      <div class="note">${reason === 'first' ? nothing : html`<p><strong>${instruction}</strong></p>`}<p>${place.placement}</p>
        ${quiet ? nothing : html`<p>${t('record.breathe')}</p>`}</div>
      ${controls()}
      ${quiet ? nothing : html`
        <div class="drop" @dragover=${(e) => e.preventDefault()} @drop=${dropped}>
          <label for="file">${t('record.file')}</label>
          <input id="file" type="file" accept="audio/*,.wav,.flac" @change=${bring} aria-describedby="file-hint">
          <span class="hint" id="file-hint">${t('record.fileHint')}</span></div>
        <p><a href="#/round/${id}/chest">${t('record.back')}</a></p>`}`);
  }
  draw();
  screen.watch(id, () => round, (now) => { round = now; draw(); });
}
