/** Two presses within this time, at one place, are a double press. */
const DOUBLE_MS = 400;
const SAME_PLACE_PX = 12;

const PRESSED_BY_KEY = 'button, a, summary, [role=button]';
const PRESSED = 'button, a, label, summary, input, select, textarea, [role=button]';

/**
 * Keeps the second press of a double press from what came in the place of what the first pressed: "Stop" where "Start" was, or an answer on the next screen.
 */
export function guardDoublePress() {
  let down = null;
  let last = null;
  window.addEventListener('pointerdown', (event) => {
    down = { at: event.timeStamp, x: event.clientX, y: event.clientY, thing: event.target.closest(PRESSED) };
  }, true);
  window.addEventListener('click', (event) => {
    // A key, and the box that a pressed label ticks, press without a finger of their own.
    if (down === null || event.detail === 0) {
      return;
    }
    const now = down;
    down = null;
    const double = last !== null && now.at - last.at < DOUBLE_MS && Math.hypot(now.x - last.x, now.y - last.y) < SAME_PLACE_PX;
    if (double && last.thing !== null && !last.thing.isConnected) {
      event.preventDefault();
      event.stopImmediatePropagation();
      last.at = now.at;
    } else {
      last = now;
    }
  }, true);
  guardKeys();
}

/** A key held down presses again and again, and a trembling hand presses twice: where the first press brought another button, it is not pressed as well. */
function guardKeys() {
  let last = null;
  window.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== ' ') {
      // Whoever went elsewhere by another key means what is pressed there.
      last = null;
      return;
    }
    const thing = event.target.closest(PRESSED_BY_KEY);
    if (thing === null) {
      return;
    }
    const double = last !== null && event.timeStamp - last.at < DOUBLE_MS && !last.thing.isConnected;
    if (event.repeat || double) {
      event.preventDefault();
      event.stopImmediatePropagation();
    }
    last = { at: event.timeStamp, thing: double ? last.thing : thing };
  }, true);
}
