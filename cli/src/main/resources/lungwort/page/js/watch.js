import { GONE, get } from './api.js';

const LOOK_AGAIN_MS = 5000;

/**
 * Looks at a round again every few seconds, and at once when its window is come back to: answers given in another window, in another page or by a command may have made it an emergency, and what stood here
 * before would reassure.
 *
 * @param path address of the round
 * @param shown the round as it is shown now
 * @param renewed is given the round where it is another one by now
 * @param gone is called where it was erased
 * @returns ends it
 */
export function watch(path, shown, renewed, gone) {
  let ended = false;
  let looking = false;

  async function look() {
    if (ended || looking || document.hidden) {
      return;
    }
    looking = true;
    const before = shown();
    try {
      const now = await get(path);
      // What was answered here meanwhile is newer than what was fetched.
      if (!ended && shown() === before && JSON.stringify(now) !== JSON.stringify(before)) {
        renewed(now);
      }
    } catch (fault) {
      // A page that cannot be reached says so at the next thing that is done.
      if (!ended && fault.status === GONE) {
        gone();
      }
    } finally {
      looking = false;
    }
  }

  const timer = setInterval(look, LOOK_AGAIN_MS);
  document.addEventListener('visibilitychange', look);
  window.addEventListener('focus', look);
  return () => {
    ended = true;
    clearInterval(timer);
    document.removeEventListener('visibilitychange', look);
    window.removeEventListener('focus', look);
  };
}
