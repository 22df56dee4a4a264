// Runs beside the page: passes the microphone's samples on in blocks, untouched.
const BLOCK = 2048;

class Capture extends AudioWorkletProcessor {
  constructor() {
    super();
    this.block = new Float32Array(BLOCK);
    this.filled = 0;
  }

  process(inputs) {
    const channel = inputs[0][0];
    if (channel) {
      for (const sample of channel) {
        this.block[this.filled++] = sample;
        if (this.filled === BLOCK) {
          this.port.postMessage(this.block.slice());
          this.filled = 0;
        }
      }
    }
    return true;
  }
}

registerProcessor('capture', Capture);
