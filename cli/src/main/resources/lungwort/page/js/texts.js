// Words of the page: one file a language, so that translating needs no change elsewhere.
let texts = {};

export async function loadTexts(language) {
  const answer = await fetch(`/texts/${language}.json`);
  texts = await answer.json();
}

/** The words of a key, with {names} filled in; a missing key shows itself, so that it is noticed. */
export function t(key, values = {}) {
  const words = texts[key];
  if (words === undefined) {
    return `[${key}]`;
  }
  return words.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? String(values[name]) : whole));
}

/** True if there are words for a key. */
export function has(key) {
  return texts[key] !== undefined;
}
