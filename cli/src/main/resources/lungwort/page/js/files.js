import { send } from './api.js';
import { toWav } from './capture.js';

const DECODE_RATE_HZ = 48000;

/**
 * Brings a file as a take. What the server cannot read, the browser decodes, and it is sent as WAV.
 *
 * @returns the take
 */
export async function bringFile(round, site, reason, file) {
  const path = (name) => `/api/rounds/${round}/files?site=${site}&take=${reason}&name=${encodeURIComponent(name)}`;
  try {
    return await send(path(file.name), file);
  } catch (fault) {
    if (fault.status !== 400) {
      throw fault;
    }
    const wav = await decoded(file);
    if (!wav) {
      throw fault;
    }
    return send(path(`${file.name}.wav`), wav);
  }
}

async function decoded(file) {
  try {
    const context = new OfflineAudioContext(1, 1, DECODE_RATE_HZ);
    const buffer = await context.decodeAudioData(await file.arrayBuffer());
    const mono = new Float32Array(buffer.length);
    for (let c = 0; c < buffer.numberOfChannels; c++) {
      const channel = buffer.getChannelData(c);
      for (let i = 0; i < mono.length; i++) {
        mono[i] += channel[i] / buffer.numberOfChannels;
      }
    }
    return toWav(mono, buffer.sampleRate);
  } catch {
    return null;
  }
}
