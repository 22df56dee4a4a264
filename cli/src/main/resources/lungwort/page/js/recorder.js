import { Capture, levelDb, toPcm } from './capture.js';
import { GONE, post, send } from './api.js';

/** A part is sent as soon as it is this long, so that a reload loses no more. */
const PART_SECONDS = 1;

/** While nothing can be sent, blocks go on coming many times a second; trying at each of them would leave no time for the person. */
const RETRY_MS = 500;
const RETRY_LEFT_MS = 2000;

/** A part or two are always under way while it is recorded. */
const UNSAVED_SECONDS = 3;

/** Where the server stops too. */
const MAX_SECONDS = 175;

/** Records a take: each second goes to the server, which stores it and says how it is. */
export class Recorder {
  /**
   * @param round id of the round
   * @param site where
   * @param reason why
   * @param told called with {levelDb} often, {verdict} each second, {fault} when sending fails, {full} at the longest, {gone} when the microphone is gone
   */
  constructor(round, site, reason, told) {
    Object.assign(this, { round, site, reason, told });
    this.waiting = [];
    this.waitingSamples = 0;
    this.sent = 0;
    this.heardSamples = 0;
    this.recording = false;
    this.sending = Promise.resolve();
    this.opening = 0;
    this.left = false;
    window.addEventListener('beforeunload', this.askFirst);
  }

  /** Closed now, the page would take with it what could not be sent yet. */
  askFirst = (event) => {
    if (this.unsaved) {
      event.preventDefault();
    }
  };

  /** Opens the microphone, so that the level can be seen before it matters. */
  async listen(deviceId) {
    this.close();
    this.opening += 1;
    const mine = this.opening;
    const capture = await Capture.open(deviceId, (block) => this.heard(block), () => this.gone());
    if (this.left || mine !== this.opening) {
      // Whoever left while the browser asked, or chose another one, is not listened to by this one.
      capture.close();
      return;
    }
    this.capture = capture;
  }

  /** What was recorded until then is kept; the silence after it would be judged as if it came from the chest. */
  gone() {
    const cut = this.recording;
    this.recording = false;
    this.close();
    this.told({ gone: true, cut });
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
    this.rateHz = this.capture?.sampleRateHz;
    this.recording = this.capture !== undefined && !this.left;
  }

  get seconds() {
    return this.heardSamples > 0 ? this.heardSamples / this.rateHz : 0;
  }

  /** True while a part of what was recorded is only here, and goes on being here until it can be sent. */
  get unsaved() {
    return this.waitingSamples > (this.recording ? UNSAVED_SECONDS * this.rateHz : 0);
  }

  heard(block) {
    this.told({ levelDb: levelDb(block) });
    if (!this.recording) {
      return;
    }
    this.waiting.push(block);
    this.waitingSamples += block.length;
    this.heardSamples += block.length;
    if (this.waitingSamples >= PART_SECONDS * this.rateHz && performance.now() >= this.notBefore) {
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
        if (fault.status === GONE) {
          this.forget();
        }
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

  /** True if nothing of the recording lies on the server or waits here, so that there is nothing to send again. */
  get empty() {
    return this.sent === 0 && this.waitingSamples === 0;
  }

  /** It was kept, thrown away or erased elsewhere: nothing of it can be sent any more. */
  forget() {
    this.recording = false;
    this.waiting = [];
    this.waitingSamples = 0;
    this.close();
  }

  /** Ends without examining; what was sent stays on the server, and what could not be sent follows as soon as it can. */
  async leave() {
    this.left = true;
    this.recording = false;
    this.close();
    await this.pass();
    this.passLater();
  }

  passLater() {
    if (this.waitingSamples > 0) {
      setTimeout(async () => {
        await this.pass();
        this.passLater();
      }, RETRY_LEFT_MS);
    } else {
      window.removeEventListener('beforeunload', this.askFirst);
    }
  }

  close() {
    this.capture?.close();
    this.capture = undefined;
  }
}
