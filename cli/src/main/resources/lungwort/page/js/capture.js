import { t } from './texts.js';
import { Sentence } from './api.js';

/** What would change the sound is switched off; where a browser cannot, it is said. */
const RAW = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };

/** What a browser says of a microphone that is not there. */
const MISSING = ['OverconstrainedError', 'NotFoundError'];

/** Blocks come many times a second; after so many looks without one, none will come. */
const LOOK_MS = 1000;
const MOST_LATE_LOOKS = 4;

/** The microphones that this browser may use; names are known once it was allowed. */
export async function microphones() {
  const all = await navigator.mediaDevices.enumerateDevices();
  return all.filter((d) => d.kind === 'audioinput');
}

/** An open microphone. */
export class Capture {
  /**
   * @param deviceId which microphone, or '' for the usual one
   * @param heard called with each block of samples
   * @param gone called once when nothing comes from it any more: unplugged, switched off, or taken away by the computer
   */
  static async open(deviceId, heard, gone) {
    if (!navigator.mediaDevices?.getUserMedia || !window.AudioWorkletNode) {
      throw new Sentence(0, t('capture.unsupported'));
    }
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({
        audio: { ...RAW, channelCount: { ideal: 1 }, ...(deviceId ? { deviceId: { exact: deviceId } } : {}) },
      });
    } catch (fault) {
      throw new Sentence(0, t(fault.name === 'NotAllowedError' ? 'capture.refused' : deviceId && MISSING.includes(fault.name) ? 'capture.chosenGone' : 'capture.none'));
    }
    const capture = new Capture(stream, heard, gone);
    try {
      await capture.connect();
    } catch {
      capture.close();
      throw new Sentence(0, t('capture.unsupported'));
    }
    return capture;
  }

  constructor(stream, heard, gone) {
    this.stream = stream;
    this.heard = heard;
    this.gone = gone;
    this.track = stream.getAudioTracks()[0];
    this.context = new AudioContext();
  }

  async connect() {
    await this.context.audioWorklet.addModule('/js/capture-worklet.js');
    this.node = new AudioWorkletNode(this.context, 'capture', { numberOfOutputs: 0, channelCount: 1, channelCountMode: 'explicit' });
    this.node.port.onmessage = (event) => {
      this.lateLooks = 0;
      this.heard(event.data);
    };
    this.context.createMediaStreamSource(this.stream).connect(this.node);
    await this.context.resume();
    this.lateLooks = 0;
    this.looking = setInterval(() => this.look(), LOOK_MS);
    // What follows is silence that no chest made.
    this.track.addEventListener('ended', () => this.lose());
  }

  /** Some microphones fall silent without a word: then no block comes, and nothing else would say so. */
  look() {
    this.lateLooks += 1;
    if (this.lateLooks > MOST_LATE_LOOKS) {
      this.lose();
    }
  }

  lose() {
    const { gone } = this;
    this.gone = undefined;
    clearInterval(this.looking);
    gone?.();
  }

  get sampleRateHz() {
    return Math.round(this.context.sampleRate);
  }

  /** What the browser still does to the sound although it was asked not to: keys of the texts. */
  get altered() {
    const settings = this.track.getSettings();
    return Object.keys(RAW).filter((name) => settings[name] === true);
  }

  get deviceName() {
    return this.track.label;
  }

  close() {
    this.gone = undefined;
    clearInterval(this.looking);
    this.stream.getTracks().forEach((track) => track.stop());
    this.node?.port.close();
    if (this.context.state !== 'closed') {
      this.context.close();
    }
  }
}

/** 16-bit samples, little-endian on every computer. */
export function toPcm(blocks) {
  const length = blocks.reduce((sum, b) => sum + b.length, 0);
  const view = new DataView(new ArrayBuffer(2 * length));
  let at = 0;
  for (const block of blocks) {
    for (const sample of block) {
      const level = Math.max(-32768, Math.min(32767, Math.round(sample * 32768)));
      view.setInt16(at, level, true);
      at += 2;
    }
  }
  return new Uint8Array(view.buffer);
}

/** Level of a block in dB re full scale. */
export function levelDb(block) {
  let sum = 0;
  for (const sample of block) {
    sum += sample * sample;
  }
  return 10 * Math.log10(sum / block.length + 1e-12);
}

/** A WAV file of 16-bit samples. */
export function toWav(samples, sampleRateHz) {
  const pcm = toPcm([samples]);
  const head = new DataView(new ArrayBuffer(44));
  const tag = (at, text) => [...text].forEach((c, i) => head.setUint8(at + i, c.charCodeAt(0)));
  tag(0, 'RIFF');
  head.setUint32(4, 36 + pcm.length, true);
  tag(8, 'WAVE');
  tag(12, 'fmt ');
  head.setUint32(16, 16, true);
  head.setUint16(20, 1, true);
  head.setUint16(22, 1, true);
  head.setUint32(24, sampleRateHz, true);
  head.setUint32(28, 2 * sampleRateHz, true);
  head.setUint16(32, 2, true);
  head.setUint16(34, 16, true);
  tag(36, 'data');
  head.setUint32(40, pcm.length, true);
  return new Blob([head.buffer, pcm], { type: 'audio/wav' });
}
