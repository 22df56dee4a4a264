import { Capture, levelDb, toPcm } from './capture.js';
import { post, send } from './api.js';

/** A part is sent as soon as it is this long, so that a reload loses no more. */
const PART_SECONDS = 1;

/** While nothing can be sent, blocks go on coming many times a second; trying at each of them would leave no time for the person. */
const RETRY_MS = 500;

/** Where the server stops too. */
const MAX_SECONDS = 175;

/** Records a take: each second goes to the server, which stores it and says how it is. */
export class Recorder {
  /**
   * @param round id of the round
   * @param site where
   * @param reason why
   * @param told called with {levelDb} often, {verdict} each second, {fault} when sending fails, {full} at the longest
   */
  constructor(round, site, reason, told) {
    Object.assign(this, { round, site, reason, told });
    this.waiting = [];
    this.waitingSamples = 0;
    this.sent = 0;
    this.heardSamples = 0;
    this.recording = false;
    this.sending = Promise.resolve();
  }

  /** Opens the microphone, so that the level can be seen before it matters. */
  async listen(deviceId) {
    this.capture?.close();
    this.capture = await Capture.open(deviceId, (block) => this.heard(block));
  }

  async start() {
    this.entry = await post(`/api/rounds/${this.round}/recordings`, {
      site: this.site, take: this.reason, sampleRateHz: this.capture.sampleRateHz,
    });
    this.sent = 0;
    this.heardSamples = 0;
    this.waiting = [];
    this.waitingSamples = 0;
    this.notBefore = 0;
    this.recording = true;
  }

  get seconds() {
    return this.capture ? this.heardSamples / this.capture.sampleRateHz : 0;
  }

  heard(block) {
    this.told({ levelDb: levelDb(block) });
    if (!this.recording) {
      return;
    }
    this.waiting.push(block);
    this.waitingSamples += block.length;
    this.heardSamples += block.length;
    if (this.waitingSamples >= PART_SECONDS * this.capture.sampleRateHz && performance.now() >= this.notBefore) {
      this.notBefore = performance.now() + RETRY_MS;
      this.pass();
    }
    if (this.seconds >= MAX_SECONDS) {
      this.recording = false;
      this.told({ full: true });
    }
  }

  /** Sends what waits, one part after the other; a part that fails is kept and sent with the next. */
  pass() {
    this.sending = this.sending.then(async () => {
      const parts = this.waiting;
      const count = this.waitingSamples;
      if (count === 0) {
        return;
      }
      this.waiting = [];
      this.waitingSamples = 0;
      try {
        // Once it has ended, nobody reads the verdict any more.
        const wanted = this.recording ? 'yes' : 'no';
        const verdict = await send(`/api/recordings/${this.entry.id}/samples?from=${this.sent}&verdict=${wanted}`, toPcm(parts));
        this.sent += count;
        if (this.recording) {
          this.told({ verdict });
        }
      } catch (fault) {
        this.waiting = [...parts, ...this.waiting];
        this.waitingSamples += count;
        this.unsent = fault;
        this.told({ fault });
      }
    });
    return this.sending;
  }

  /** Ends the recording and has it examined; may be asked again after it failed. */
  async finish() {
    this.recording = false;
    await this.pass();
    if (this.waitingSamples > 0) {
      await this.pass();
    }
    if (this.waitingSamples > 0) {
      // Examined now, it would be a shorter recording than the one that was made.
      throw this.unsent;
    }
    const take = await post(`/api/recordings/${this.entry.id}/finish`, {});
    this.close();
    return take;
  }

  /** Ends without examining; what was sent stays on the server. */
  async leave() {
    const began = this.recording;
    this.recording = false;
    if (began) {
      await this.pass();
    }
    this.close();
  }

  close() {
    this.capture?.close();
    this.capture = undefined;
  }
}
