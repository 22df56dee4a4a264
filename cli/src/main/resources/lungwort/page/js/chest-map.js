import { html, svg, nothing } from '/lib/lit-html.js';
import { t } from './texts.js';

// The drawing, which the sheet of paper has too: left and right are always those of the person, so the front view has the person's left on the right of the picture.
const VIEWS = await (await fetch('/chest-outlines.json')).json();

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
      <circle class="hit" cx=${x} cy=${y} r="18"></circle>
      <circle cx=${x} cy=${y} r="14.5"></circle>
      ${chosen ? svg`<circle class="ring" cx=${x} cy=${y} r="18"></circle>` : nothing}
      <text x=${x} y=${y + 5.5}>${mark}</text>
      ${extra ? svg`<circle class="extra" cx=${x + 11} cy=${y - 11} r="5"></circle>` : nothing}
    </g>`;
}
