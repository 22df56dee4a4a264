import { html, render, nothing } from '/lib/lit-html.js';
import { loadTexts, t } from './texts.js';
import { get } from './api.js';
import { pause } from './ui.js';
import { watch } from './watch.js';
import { guardDoublePress } from './double-press.js';
import * as start from './screens/start.js';
import * as person from './screens/person.js';
import * as signs from './screens/signs.js';
import * as vitals from './screens/vitals.js';
import * as chest from './screens/chest.js';
import * as record from './screens/record.js';
import * as take from './screens/take.js';
import * as end from './screens/end.js';
import * as diary from './screens/diary.js';
import * as compare from './screens/compare.js';
import * as equipment from './screens/equipment.js';
import * as settings from './screens/settings.js';

const ROUTES = [
  [/^\/$/, start],
  [/^\/person\/(new|[0-9a-f-]{36})$/, person],
  [/^\/round\/([0-9a-f-]{36})\/signs$/, signs],
  [/^\/round\/([0-9a-f-]{36})\/vitals$/, vitals],
  [/^\/round\/([0-9a-f-]{36})\/chest$/, chest],
  [/^\/round\/([0-9a-f-]{36})\/record\/([a-z-]+)\/([a-z-]+)$/, record],
  [/^\/round\/([0-9a-f-]{36})\/end$/, end],
  [/^\/take\/([0-9a-f-]{36})$/, take],
  [/^\/diary\/([0-9a-f-]{36})$/, diary],
  [/^\/compare\/([0-9a-f-]{36})\/([0-9a-f-]{36})$/, compare],
  [/^\/equipment$/, equipment],
  [/^\/settings$/, settings],
];

/** What every screen shares: what is set, and the caution. */
const shared = { settings: {}, caution: '', version: '' };

/** The round that was left a moment ago, to go back to; else the start. */
let cameFrom = '/';
let path = '/';

let leave = () => {};
let unwatch = () => {};
let turn = 0;

function shell(content) {
  return html`
    <a class="skip" href="#main" @click=${skip}>${t('shell.skip')}</a>
    <header class="top">
      <a class="name" href="#/">${t('shell.name')}</a>
      <nav aria-label=${t('shell.nav')}>
        <a href="#/">${t('shell.start')}</a>
        <a href="#/equipment">${t('shell.equipment')}</a>
        <a href="#/settings">${t('shell.settings')}</a>
      </nav>
    </header>
    <main id="main" tabindex="-1">${content}</main>
    <footer>
      <p class="caution"><strong>${t('shell.caution')}</strong> ${shared.caution}</p>
      <p>${shared.settings.emergencyNumber
        ? t('shell.emergency', { number: shared.settings.emergencyNumber })
        : t('shell.emergencyUnknown')}</p>
      <p class="small">${t('shell.local', { version: shared.version })}</p>
    </footer>
    <div id="status" role="status" aria-live="polite" class="sr"></div>`;
}

function skip(event) {
  event.preventDefault();
  document.getElementById('main').focus();
}

async function go() {
  const mine = ++turn;
  const leaving = leave;
  leave = () => {};
  unwatch();
  unwatch = () => {};
  // A screen may still have to keep what was entered; what comes next then shows it.
  await leaving();
  if (mine !== turn) {
    return;
  }
  cameFrom = /^\/round\//.test(path) ? path : '/';
  path = location.hash.replace(/^#/, '') || '/';
  const found = ROUTES.map(([pattern, screen]) => [path.match(pattern), screen]).find(([match]) => match);
  const screen = {
    shared,
    /** Draws the screen; the first drawing moves the focus to its heading. */
    draw(title, template) {
      if (mine !== turn) {
        return;
      }
      const first = screen.drawn !== true;
      screen.drawn = true;
      document.title = `${title} - ${t('shell.name')}`;
      render(shell(html`<h1 tabindex="-1">${title}</h1>${template ?? nothing}`), app);
      if (first) {
        window.scrollTo(0, 0);
        document.querySelector('h1').focus({ preventScroll: true });
      }
    },
    refresh,
    /** Where whoever leaves this screen goes back to. */
    back: cameFrom,
    /** True while this screen is the one shown. */
    here: () => mine === turn,
    onLeave(action) {
      if (mine === turn) {
        leave = action;
      } else {
        action();
      }
    },
    /** Keeps the round that is shown as it is in the diary; one that was erased is no longer shown. */
    watch(id, shown, renewed) {
      if (mine === turn) {
        unwatch = watch(`/api/rounds/${id}`, shown, renewed, go);
      }
    },
    /** Says something to a screen reader. */
    say(words) {
      document.getElementById('status').textContent = words;
    },
  };
  // What was said of another take, or of another person, is not found here by whoever reads on.
  document.getElementById('status')?.replaceChildren();
  try {
    if (!found) {
      screen.draw(t('shell.notFound'), html`<p><a class="button" href="#/">${t('shell.toStart')}</a></p>`);
      return;
    }
    await refresh();
    await found[1].show(screen, ...found[0].slice(1));
  } catch (fault) {
    screen.draw(t('error.title'), html`
      <p class="error" role="alert">${fault.message}</p>
      <p><button type="button" @click=${go}>${t('error.again')}</button> <a class="button quiet" href="#/">${t('shell.toStart')}</a></p>`);
  }
}

/** What is set may have been changed in another tab. */
async function refresh() {
  const begin = await get('/api/start');
  Object.assign(shared, begin);
}

const app = document.getElementById('app');

async function begin() {
  await loadTexts('en');
  render(html`<p class="waiting">${t('shell.waiting')}</p>`, app);
  await pause();
  render(nothing, app);
  guardDoublePress();
  window.addEventListener('hashchange', go);
  await go();
}

begin();
