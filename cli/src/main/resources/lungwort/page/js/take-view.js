import { html, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';
import { bytes, get } from './api.js';
import { number } from './ui.js';
import { Picture, ZOOMS } from './picture.js';
import { BANDS, Player, SPEEDS } from './player.js';

const FIRST_SHOWN = 8;

/** A take to look at and to hear: picture, evidence, playback. Several may stand beside each other only one after the other. */
export class TakeView {
  static async load(take, changed) {
    const [levels, wav] = await Promise.all([get(`/api/takes/${take.id}/levels`), bytes(`/api/takes/${take.id}/sound`)]);
    return new TakeView(take, levels, wav, changed);
  }

  constructor(take, levels, wav, changed) {
    this.take = take;
    this.changed = changed;
    this.chosen = -1;
    this.stretch = -1;
    this.speed = 1;
    this.all = false;
    this.picture = new Picture(levels, take.examination);
    this.player = new Player(wav, (seconds) => this.moved(seconds));
    this.wasPlaying = false;
  }

  close() {
    this.player.close();
  }

  moved(seconds) {
    this.picture.moveTo(seconds);
    if (this.wasPlaying !== this.player.playing) {
      this.wasPlaying = this.player.playing;
      this.changed();
    }
  }

  /** Plays what surrounds a piece of evidence. */
  hear(index) {
    const e = this.take.examination.evidence[index];
    this.chosen = index;
    this.stretch = -1;
    const around = e.endSeconds - e.startSeconds < 0.1 ? 0.35 : 0.2;
    this.player.play(Math.max(0, e.startSeconds - around), e.endSeconds + around);
    this.changed();
  }

  /** Plays a stretch in which the model hears something, with a little around it. */
  hearStretch(index) {
    const e = this.take.examination.heard[index];
    this.chosen = -1;
    this.stretch = index;
    this.player.play(Math.max(0, e.startSeconds - 0.3), e.endSeconds + 0.3);
    this.changed();
  }

  toggle() {
    if (this.player.playing) {
      this.player.pause();
    } else {
      const over = this.player.seconds >= this.picture.duration - 0.05;
      this.player.play(over ? 0 : this.player.seconds);
    }
    this.changed();
  }

  /** Draws; the picture is as wide as the screen allows. */
  template() {
    const available = Math.min(document.getElementById('app').clientWidth, 960) - 34;
    queueMicrotask(() => this.picture.paintInto(document.getElementById('levels')));
    return html`
      ${this.picture.template(available, { evidence: this.chosen, stretch: this.stretch }, (seconds) => this.player.play(seconds))}
      <p class="legend">${t('picture.legend')}</p>
      ${this.controls()}
      ${this.heard()}
      ${this.evidence()}`;
  }

  controls() {
    const select = (id, label, values, value, words, set) => html`
      <div class="field inline"><label for=${id}>${label}</label>
        <select id=${id} @change=${(e) => { set(e.target.value); this.changed(); }}>${values.map((v) => html`<option value=${v} ?selected=${String(v) === String(value)}>${words(v)}</option>`)}</select></div>`;
    return html`
      <div class="row player">
        <button type="button" id="play" @click=${() => this.toggle()}>${this.player.playing ? t('player.pause') : t('player.play')}</button>
        ${select('speed', t('player.speed'), SPEEDS, this.speed, (v) => t(`player.speed.${v}`), (v) => { this.speed = v; this.player.setSpeed(Number(v)); })}
        ${select('band', t('player.band'), Object.keys(BANDS), this.player.band, (v) => t(`player.band.${v}`), (v) => this.player.setBand(v))}
        ${select('zoom', t('player.zoom'), ZOOMS, this.picture.zoom, (v) => t('player.zoomTimes', { times: v }), (v) => { this.picture.zoom = Number(v); })}
      </div>
      <label class="check"><input type="checkbox" .checked=${this.player.raise} @change=${(e) => this.player.setRaise(e.target.checked)}>${t('player.raise')}</label>`;
  }

  /** Where to listen first. */
  heard() {
    const { heard, suggestion } = this.take.examination;
    if (heard.length === 0) {
      return nothing;
    }
    return html`
      <h2>${t('heard.title')}</h2>
      <p>${t(suggestion === 'cannot-tell' ? 'heard.hintOpen' : 'heard.hint')}</p>
      <ul class="evidence" id="stretches">${heard.map((e, i) => html`
        <li><button type="button" class="quiet ${i === this.stretch ? 'chosen' : ''}" aria-pressed=${i === this.stretch ? 'true' : 'false'} @click=${() => this.hearStretch(i)}>
          ${t(e.continuous ? 'heard.continuous' : 'heard.discontinuous', { from: number(e.startSeconds, 1), to: number(e.endSeconds, 1) })}</button></li>`)}</ul>`;
  }

  showAll() {
    this.all = true;
    this.changed();
    document.querySelectorAll('#measured-sounds button')[FIRST_SHOWN]?.focus();
  }

  evidence() {
    const { evidence: all, quality, suggestion } = this.take.examination;
    if (!quality.usable || all.length === 0) {
      const none = !quality.usable ? 'evidence.refused' : suggestion === 'none-heard' ? 'evidence.none' : 'evidence.noneCounts';
      return html`<h2>${t('evidence.title')}</h2><p>${t(none)}</p>`;
    }
    const shown = this.all ? all : all.slice(0, FIRST_SHOWN);
    return html`
      <h2>${t('evidence.title')}</h2>
      <p>${t('evidence.hint')}</p>
      <ul class="evidence" id="measured-sounds">${shown.map((e, i) => html`
        <li><button type="button" class="quiet ${i === this.chosen ? 'chosen' : ''}" aria-pressed=${i === this.chosen ? 'true' : 'false'} @click=${() => this.hear(i)}>
          ${t('evidence.item', { number: i + 1, kind: t(`kind.${e.kind}`), seconds: number(e.startSeconds, 1) })}
          <span class="hint">${describe(e)}</span></button></li>`)}</ul>
      ${all.length > shown.length ? html`<p><button type="button" class="quiet" @click=${() => this.showAll()}>${t('evidence.all', { count: all.length })}</button></p>` : nothing}`;
  }
}

/** What was measured, in one line. */
function describe(e) {
  const where = e.phase === 'unknown' ? t('phase.unknown') : t(`phase.${e.phase}`);
  if (e.kind.includes('crackle')) {
    return t('evidence.crackle', { where, twoCycle: number(e.twoCycleDurationMs, 1), largest: number(e.largestDeflectionWidthMs, 1) });
  }
  return t(e.polyphonic ? 'evidence.polyphonic' : 'evidence.tone', { where, hz: number(e.dominantHz), length: number(e.endSeconds - e.startSeconds, 2) });
}
