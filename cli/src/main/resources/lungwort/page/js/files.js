import { send } from './api.js';
import { toWav } from './capture.js';

const DECODE_RATE_HZ = 48000;

/** The server's answer to a file that it cannot read; whatever else it refuses, it would refuse as WAV too. */
const CANNOT_READ = 415;

/** Answers to the WAV that would not fit the file as it was chosen: too large, or not read either. */
const TOO_MUCH = [413, CANNOT_READ];

/**
 * Brings a file as a take. What the server cannot read, the browser decodes, and it is sent as WAV.
 *
 * @returns the take
 * @throws Sentence what the server said to the file itself, where the browser is of no help either
 */
export async function bringFile(round, site, reason, file) {
  const path = (name) => `/api/rounds/${round}/files?site=${site}&take=${reason}&name=${encodeURIComponent(name)}`;
  try {
    return await send(path(file.name), file);
  } catch (fault) {
    if (fault.status !== CANNOT_READ) {
      throw fault;
    }
    const wav = await decoded(file);
    if (!wav) {
      throw fault;
    }
    return await send(path(`${file.name}.wav`), wav).catch((second) => {
      throw TOO_MUCH.includes(second.status) ? fault : second;
    });
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
