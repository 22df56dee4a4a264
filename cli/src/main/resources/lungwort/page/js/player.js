/** Frequency bands one can listen through, in Hz: null is everything. */
export const BANDS = { all: null, low: [80, 400], wheeze: [150, 1200], crackle: [300, 2000] };

const SPEEDS = [1, 0.5, 0.25];
const TARGET_PEAK = 0.5;
const MOST_GAIN = 40;

export { SPEEDS };

/** Plays a take, or a part of it, slowed down or through a band. Slowing keeps the pitch. */
export class Player {
  /**
   * @param wav bytes of a 16-bit mono WAV as the server sends it
   * @param moved called with the position in seconds while it plays, and with null when it stops
   */
  constructor(wav, moved) {
    this.moved = moved;
    this.raised = gainFor(new Int16Array(wav.slice(44, wav.byteLength - (wav.byteLength % 2))));
    this.url = URL.createObjectURL(new Blob([wav], { type: 'audio/wav' }));
    this.audio = new Audio(this.url);
    this.audio.preservesPitch = true;
    this.audio.addEventListener('ended', () => this.stop());
    this.band = 'all';
    this.raise = true;
    this.end = Infinity;
  }

  /** Built at the first press: browsers allow sound only then. */
  prepare() {
    if (this.context) {
      return;
    }
    this.context = new AudioContext();
    this.source = this.context.createMediaElementSource(this.audio);
    this.gain = this.context.createGain();
    this.gain.connect(this.context.destination);
    this.wire();
  }

  wire() {
    if (!this.context) {
      return;
    }
    this.source.disconnect();
    this.filters?.forEach((f) => f.disconnect());
    this.filters = [];
    const band = BANDS[this.band];
    if (band) {
      // Two of each: 24 dB an octave, enough to hear what lies inside.
      for (const [type, hz] of [['highpass', band[0]], ['highpass', band[0]], ['lowpass', band[1]], ['lowpass', band[1]]]) {
        const filter = this.context.createBiquadFilter();
        filter.type = type;
        filter.frequency.value = hz;
        this.filters.push(filter);
      }
    }
    [this.source, ...this.filters, this.gain].reduce((from, to) => from.connect(to));
    this.gain.gain.value = this.raise ? this.raised : 1;
  }

  setBand(band) {
    this.band = band;
    this.wire();
  }

  setRaise(raise) {
    this.raise = raise;
    this.wire();
  }

  setSpeed(speed) {
    this.audio.playbackRate = speed;
  }

  get playing() {
    return !this.audio.paused;
  }

  get seconds() {
    return this.audio.currentTime;
  }

  async play(from = this.audio.currentTime, to = Infinity) {
    this.prepare();
    await this.context.resume();
    this.audio.currentTime = from;
    this.end = to;
    await this.audio.play();
    this.follow();
  }

  follow = () => {
    if (!this.playing) {
      return;
    }
    if (this.audio.currentTime >= this.end) {
      this.stop();
      return;
    }
    this.moved(this.audio.currentTime);
    requestAnimationFrame(this.follow);
  };

  pause() {
    this.audio.pause();
    this.moved(this.audio.currentTime);
  }

  stop() {
    this.audio.pause();
    this.moved(null);
  }

  close() {
    this.audio.pause();
    this.context?.close();
    URL.revokeObjectURL(this.url);
  }
}

/** Breath is soft: raised so that its loudest parts, single clicks aside, are half of full scale. */
function gainFor(samples) {
  const sorted = Float32Array.from(samples, (s) => Math.abs(s) / 32768).sort();
  const loud = sorted[Math.floor(0.999 * (sorted.length - 1))] || 1;
  return Math.min(MOST_GAIN, Math.max(1, TARGET_PEAK / loud));
}
