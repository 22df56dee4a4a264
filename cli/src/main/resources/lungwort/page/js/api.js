import { t } from './texts.js';

/** The server's answer where a round or a recording is not in the diary any more. */
export const GONE = 404;

/** An answer of the server that says, in one sentence, why something could not be done. */
export class Sentence extends Error {
  constructor(status, message) {
    super(message);
    this.status = status;
  }
}

async function ask(method, path, body, type, how = {}) {
  let answer;
  try {
    answer = await fetch(path, { method, body, headers: body === undefined ? {} : { 'Content-Type': type }, ...how });
  } catch {
    throw new Sentence(0, t('error.unreachable'));
  }
  if (!answer.ok) {
    const words = await answer.json().catch(() => ({}));
    throw new Sentence(answer.status, words.error ?? t('error.unknown', { status: answer.status }));
  }
  return answer;
}

async function json(method, path, body, how) {
  const answer = await ask(method, path, body === undefined ? undefined : JSON.stringify(body), 'application/json', how);
  return answer.json();
}

export const get = (path) => json('GET', path);
export const post = (path, body = {}) => json('POST', path, body);
export const put = (path, body, how) => json('PUT', path, body, how);
export const remove = (path) => json('DELETE', path, {});

/** Sends bytes; answers with JSON. */
export async function send(path, bytes) {
  const answer = await ask('POST', path, bytes, 'application/octet-stream');
  return answer.json();
}

/** Fetches bytes. */
export async function bytes(path) {
  const answer = await ask('GET', path);
  return answer.arrayBuffer();
}
