import { html, svg, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';

// The drawing: left and right are always those of the person, so the front view has the person's left on the right of the picture.
const BODY = 'M84 14 C84 30 82 38 70 44 C46 52 30 56 26 72 C22 92 24 120 22 148 L38 150 C40 128 42 112 46 102 C50 130 48 160 50 190 L52 226 L148 226 L150 190 C152 160 150 130 154 102 C158 112 160 128 162 150 L178 148 C176 120 178 92 174 72 C170 56 154 52 130 44 C118 38 116 30 116 14';
const FLANK = 'M78 12 C76 30 74 38 66 48 C50 62 44 84 46 112 C48 150 54 170 54 226 L132 226 C136 190 140 160 138 120 C138 84 132 60 120 46 C114 38 112 28 112 12';

const VIEWS = {
  back: {
    lines: ['M100 44 L100 226', 'M62 70 C72 66 82 70 86 78 L80 128 C70 124 62 104 62 70', 'M138 70 C128 66 118 70 114 78 L120 128 C130 124 138 104 138 70', 'M56 206 C76 196 90 196 100 204 C110 196 124 196 144 206'],
    body: BODY,
    sites: { 'back-upper-left': [91, 68], 'back-upper-right': [109, 68], 'back-middle-left': [88, 116], 'back-middle-right': [112, 116], 'back-lower-left': [72, 160], 'back-lower-right': [128, 160] },
  },
  front: {
    lines: ['M100 60 L100 136', 'M64 60 C80 54 92 56 100 62 C108 56 120 54 136 60', 'M58 196 C74 176 88 150 100 138 C112 150 126 176 142 196'],
    body: BODY,
    sites: { neck: [100, 40], 'front-upper-right': [74, 78], 'front-upper-left': [126, 78], 'front-middle-right': [84, 116], 'front-middle-left': [116, 116], 'front-lower-right': [68, 152], 'front-lower-left': [132, 152] },
  },
  'side-left': {
    lines: ['M70 62 C66 90 74 108 92 108 C106 108 110 90 108 60', 'M58 196 C84 176 110 176 134 190'],
    body: FLANK,
    sites: { 'side-upper-left': [90, 84], 'side-middle-left': [92, 122], 'side-lower-left': [94, 158] },
  },
  'side-right': {
    lines: ['M70 62 C66 90 74 108 92 108 C106 108 110 90 108 60', 'M58 196 C84 176 110 176 134 190'],
    body: FLANK,
    mirrored: true,
    sites: { 'side-upper-right': [90, 84], 'side-middle-right': [92, 122], 'side-lower-right': [94, 158] },
  },
};

/** Sites close to each other get room beside the spine, so that a finger meets only one. */
const SPREAD = { 'back-upper-left': -13, 'back-upper-right': 13, 'back-middle-left': -8, 'back-middle-right': 8 };

/**
 * The chest from four sides.
 *
 * @param round the round
 * @param chosen id of the site that is chosen
 * @param choose called with the id of a site
 */
export function chestMap(round, chosen, choose) {
  const needed = new Set([...round.plan, ...round.sites.map((s) => s.site)]);
  const views = Object.entries(VIEWS).map(([id, view]) => [id, view, Object.keys(view.sites).filter((s) => needed.has(s))]);
  return html`
    <div class="chest" role="group" aria-label=${t('map.label')}>
      ${views.filter(([, , sites]) => sites.length > 0).map(([id, view, sites]) => html`
        <figure>
          <svg viewBox="10 6 180 224" role="group" aria-label=${t(`map.${id}`)}>
            <g transform=${view.mirrored ? 'translate(200 0) scale(-1 1)' : nothing} aria-hidden="true">
              <path class="body" d=${view.body}></path>
              ${view.lines.map((d) => svg`<path class="bone" d=${d}></path>`)}
            </g>
            ${id.startsWith('side') ? nothing : sides(id)}
            ${sites.map((s) => spot(round, s, place(view, s), s === chosen, choose))}
          </svg>
          <figcaption>${t(`map.${id}`)}</figcaption>
        </figure>`)}
    </div>
    <p class="legend">${t('map.legend')}</p>`;
}

function place(view, site) {
  const [x, y] = view.sites[site];
  return [(view.mirrored ? 200 - x : x) + (SPREAD[site] ?? 0), y];
}

/** Whose left and whose right. */
function sides(id) {
  const [first, second] = id === 'back' ? ['map.left', 'map.right'] : ['map.right', 'map.left'];
  return svg`<text class="side" x="16" y="222" aria-hidden="true">${t(first)}</text><text class="side end" x="184" y="222" aria-hidden="true">${t(second)}</text>`;
}

/** How far a site is: done, next, or open. */
export function stateOf(round, site) {
  if (round.asked?.site === site) {
    return 'next';
  }
  const view = round.sites.find((s) => s.site === site);
  if (!view) {
    return 'open';
  }
  return round.sitesOpen.includes(site) ? 'again' : 'done';
}

/** Whether any take there suggested an extra sound: a tick alone would look as if all were well. */
function extraSound(round, site) {
  const takes = round.sites.find((s) => s.site === site)?.takes ?? [];
  return takes.some((take) => ['continuous', 'discontinuous', 'both'].includes(take.examination?.suggestion));
}

function spot(round, site, [x, y], chosen, choose) {
  const state = stateOf(round, site);
  const extra = extraSound(round, site);
  const words = t(`map.spot.${state}`, { site: round.places[site].words });
  const position = round.plan.indexOf(site) + 1;
  const mark = state === 'done' ? '✓' : state === 'again' ? '!' : position > 0 ? position : '+';
  const press = (event) => {
    if (event.type === 'click' || event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      choose(site);
    }
  };
  return svg`
    <g class="spot ${state} ${chosen ? 'chosen' : ''}" role="button" tabindex="0" data-site=${site} aria-pressed=${chosen ? 'true' : 'false'}
      aria-label=${extra ? t('map.spot.extra', { spot: words }) : words} @click=${press} @keydown=${press}>
      <circle cx=${x} cy=${y} r="14.5"></circle>
      ${chosen ? svg`<circle class="ring" cx=${x} cy=${y} r="18"></circle>` : nothing}
      <text x=${x} y=${y + 5.5}>${mark}</text>
      ${extra ? svg`<circle class="extra" cx=${x + 11} cy=${y - 11} r="5"></circle>` : nothing}
    </g>`;
}
