import { html, svg, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';
import { number } from './ui.js';

// From quiet to loud: dark blue over grey to pale yellow; lightness rises all the way.
const RAMP = [[0, 20, 60], [20, 45, 100], [66, 78, 108], [107, 109, 113], [144, 138, 120], [187, 171, 110], [230, 206, 85], [255, 240, 130]];
const HEIGHT = 260;
const AXIS = 46;
const BREATH = 26;
const BOTTOM = 30;

export const ZOOMS = [1, 2, 4];

/** The spectrogram of a take with its evidence and breaths, to zoom and to press on. */
export class Picture {
  /**
   * @param levels as the server sends them
   * @param examination what was found
   */
  constructor(levels, examination) {
    this.levels = levels;
    this.examination = examination;
    this.duration = levels.durationSeconds;
    this.zoom = 1;
    this.image = paint(levels);
  }

  /** Seconds a pixel stands for, so that the whole take fits at zoom 1. */
  width(available) {
    return Math.max(240, Math.floor((available - AXIS) * this.zoom));
  }

  x(seconds) {
    return (seconds / Math.max(this.duration, 0.1)) * this.plotWidth;
  }

  y(hz) {
    return HEIGHT - (Math.min(hz, this.levels.topHz) / this.levels.topHz) * HEIGHT;
  }

  /**
   * @param chosen numbers of the evidence and of the stretch that are chosen, -1 for none
   * @param pressed called with the second and the number of the evidence, if any
   */
  template(available, chosen, pressed) {
    this.plotWidth = this.width(available);
    return html`
      <div class="picture">
        <svg class="axis" width=${AXIS} height=${HEIGHT + BREATH + BOTTOM} aria-hidden="true">
          ${[0, 500, 1000, 1500, 2000].map((hz) => svg`<text x=${AXIS - 5} y=${Math.min(HEIGHT, Math.max(12, this.y(hz) + 5))}>${hz}</text>`)}
          <text x=${AXIS - 5} y="30">Hz</text>
        </svg>
        <div class="pane" id="pane" tabindex="0" role="group" aria-label=${t('picture.label')}>
          <canvas id="levels" role="img" aria-label=${t('picture.alt', { seconds: number(this.duration, 1) })}></canvas>
          <svg class="marks" width=${this.plotWidth} height=${HEIGHT + BREATH + BOTTOM} @click=${(e) => pressed(this.secondsAt(e))} aria-hidden="true">
            ${this.grid()}
            ${this.examination.heard.map((e, i) => this.heard(e, i === chosen.stretch))}
            ${this.examination.evidence.map((e, i) => this.evidence(e, i, i === chosen.evidence))}
            ${this.breaths()}
            ${this.pauses()}
            <line id="now" class="now" x1="-9" x2="-9" y1="0" y2=${HEIGHT + BREATH}></line>
          </svg>
        </div>
      </div>`;
  }

  secondsAt(event) {
    const box = event.currentTarget.getBoundingClientRect();
    return Math.max(0, Math.min(this.duration, ((event.clientX - box.left) / this.plotWidth) * this.duration));
  }

  grid() {
    const step = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20].find((s) => this.x(s) >= 55) ?? 30;
    const ticks = Array.from({ length: Math.floor(this.duration / step) + 1 }, (_, i) => i * step);
    return svg`
      ${[500, 1000, 1500].map((hz) => svg`<line class="grid" x1="0" x2=${this.plotWidth} y1=${this.y(hz)} y2=${this.y(hz)}></line>`)}
      ${ticks.map((s) => svg`<text class="tick" x=${Math.max(8, Math.min(this.plotWidth - 16, this.x(s)))} y=${HEIGHT + BREATH + 20}>${number(s, step < 1 ? 1 : 0)} s</text>`)}`;
  }

  /** A bar at the top, whole for a continuous sound, in pieces for crackles. */
  heard(e, chosen) {
    const y = e.continuous ? 6 : 15;
    const [x1, x2] = [this.x(e.startSeconds), this.x(e.endSeconds)];
    return svg`
      <line class="heard under" x1=${x1 - 1} x2=${x2 + 1} y1=${y} y2=${y}></line>
      <line class="heard ${e.continuous ? 'continuous' : 'discontinuous'} ${chosen ? 'chosen' : ''}" x1=${x1} x2=${x2} y1=${y} y2=${y}></line>`;
  }

  evidence(e, index, chosen) {
    const x1 = this.x(e.startSeconds);
    const x2 = this.x(e.endSeconds);
    if (e.kind.includes('crackle')) {
      const half = e.kind === 'fine-crackle' ? 4 : 6;
      return svg`<path class="crackle ${e.kind} ${chosen ? 'chosen' : ''}" d="M${x1} ${HEIGHT - 2 - 2 * half} L${x1 - half} ${HEIGHT - 2} L${x1 + half} ${HEIGHT - 2} Z"></path>`;
    }
    const track = (e.track ?? []).map((p) => `${this.x(p.seconds).toFixed(1)},${this.y(p.hz).toFixed(1)}`).join(' ');
    const top = Math.max(14, this.y(e.dominantHz) - 12);
    return svg`
      <g class="tone ${chosen ? 'chosen' : ''}">
        ${track ? svg`<polyline class="under" points=${track}></polyline><polyline points=${track}></polyline>` : nothing}
        <path class="under" d="M${x1} ${top + 6} V${top} H${x2} V${top + 6}"></path><path d="M${x1} ${top + 6} V${top} H${x2} V${top + 6}"></path>
        <text x=${x1 + 2} y=${top - 3}>${t(`letter.${e.kind}`)}${index + 1}</text>
      </g>`;
  }

  breaths() {
    const breaths = this.examination.breaths;
    if (breaths.length === 0) {
      return svg`<text class="tick" x="6" y=${HEIGHT + 18}>${t('picture.noBreath')}</text>`;
    }
    return breaths.flatMap((b) => b.phases).map((p) => {
      const x1 = this.x(p.startSeconds);
      const width = this.x(p.endSeconds) - x1;
      return svg`<rect class="phase ${p.phase}" x=${x1} y=${HEIGHT + 2} width=${Math.max(0, width)} height=${BREATH - 4}></rect>
        ${width > 26 ? svg`<text class="phase ${p.phase}" x=${x1 + width / 2} y=${HEIGHT + 18}>${t(`phase.short.${p.phase}`)}</text>` : nothing}`;
    });
  }

  /** Over the row of breaths: breaths may have been laid where none was heard. */
  pauses() {
    return this.examination.pauses.map((p) => {
      const x1 = this.x(p.startSeconds);
      const width = this.x(p.endSeconds) - x1;
      return svg`<rect class="no-breath" x=${x1} y=${HEIGHT + 2} width=${width} height=${BREATH - 4}></rect>
        <text class="no-breath" x=${x1 + width / 2} y=${HEIGHT + 18}>${pauseWords(p, width > 150)}</text>`;
    });
  }

  /** Puts the levels on the canvas; called after the template was drawn. */
  paintInto(canvas) {
    if (!canvas || (canvas.width === this.plotWidth && canvas.drawn === this)) {
      return;
    }
    canvas.width = this.plotWidth;
    canvas.height = HEIGHT;
    canvas.drawn = this;
    const context = canvas.getContext('2d');
    context.fillStyle = '#00143c';
    context.fillRect(0, 0, canvas.width, HEIGHT);
    const from = this.x(this.levels.firstSeconds - this.levels.hopSeconds / 2);
    const to = this.x(this.levels.firstSeconds + (this.levels.frames - 0.5) * this.levels.hopSeconds);
    if (this.image) {
      context.drawImage(this.image, from, 0, Math.max(1, to - from), HEIGHT);
    }
  }

  /** Moves the line that follows the sound, and keeps it in sight. */
  moveTo(seconds) {
    const line = document.getElementById('now');
    const x = seconds === null ? -9 : this.x(seconds);
    line?.setAttribute('x1', x);
    line?.setAttribute('x2', x);
    const pane = document.getElementById('pane');
    if (pane && seconds !== null && (x < pane.scrollLeft || x > pane.scrollLeft + pane.clientWidth - 20)) {
      pane.scrollLeft = x - 40;
    }
  }
}

/** One pixel a frame and bin. */
function paint({ frames, bins, levels }) {
  if (frames === 0) {
    return null;
  }
  const bytes = Uint8Array.from(atob(levels), (c) => c.charCodeAt(0));
  const canvas = document.createElement('canvas');
  canvas.width = frames;
  canvas.height = bins;
  const image = new ImageData(frames, bins);
  const colours = Array.from({ length: 256 }, (_, level) => colour(level / 255));
  for (let f = 0; f < frames; f++) {
    for (let b = 0; b < bins; b++) {
      image.data.set(colours[bytes[f * bins + b]], 4 * ((bins - 1 - b) * frames + f));
    }
  }
  canvas.getContext('2d').putImageData(image, 0, 0);
  return canvas;
}

function colour(level) {
  const position = level * (RAMP.length - 1);
  const low = Math.min(Math.floor(position), RAMP.length - 2);
  return [...RAMP[low].map((value, c) => Math.round(value + (RAMP[low + 1][c] - value) * (position - low))), 255];
}

/** How long no breath was found; a stretch that the recording's start or end cuts lasted at least so long. */
function pauseWords(pause, wide) {
  if (pause.cut === 'start' || pause.cut === 'end') {
    return t(wide ? 'picture.pauseCut' : 'picture.pauseCutShort', { seconds: number(Math.floor(pause.seconds)) });
  }
  return t(wide ? 'picture.pause' : 'picture.pauseShort', { seconds: number(pause.seconds) });
}
