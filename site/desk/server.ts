/** Talks to the desk's server: same machine, token of this start, every refusal as problems in words. */
import type { Problem } from '../../pipeline/problem.ts';
import type { ChangeTold, Conflict } from './answers.ts';

const API = '/desk/api/';
const KEY = 'desk-token';

/** Thrown where the server said no; its problems say why. */
export class Refused extends Error {
  override readonly name = 'Refused';
  readonly problems: readonly Problem[];
  readonly conflict: Conflict | undefined;
  constructor(problems: readonly Problem[], conflict?: Conflict) {
    super(problems.map(({ what }) => what).join('; '));
    this.problems = problems;
    this.conflict = conflict;
  }
}

/** Thrown where the server is not there: what was typed is kept and sent when it is back. */
export class NotThere extends Error {
  override readonly name = 'NotThere';
}

/** Takes the token from the address once, so that it is neither bookmarked nor passed on. */
export function takeToken(): void {
  const address = new URL(location.href);
  const token = address.searchParams.get('token');
  if (token === null) return;
  sessionStorage.setItem(KEY, token);
  address.searchParams.delete('token');
  history.replaceState(null, '', address);
}

const headers = (more: Readonly<Record<string, string>> = {}): Record<string, string> => ({
  'x-desk-token': sessionStorage.getItem(KEY) ?? '',
  ...more,
});

async function ask(path: string, init: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(API + path, { cache: 'no-store', ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new NotThere(String(error));
  }
  if (response.ok) return response;
  const body = (await response.json().catch(() => ({}))) as {
    problems?: readonly Problem[];
    conflict?: Conflict;
  };
  throw new Refused(body.problems ?? [unexplained(response)], body.conflict);
}

const unexplained = ({ status }: Response): Problem => ({
  id: 'desk-unexplained',
  severity: 'error',
  what: `The desk's server answered ${status} and gave no reason`,
  mend: 'Look at the terminal it was started from, then load this page again.',
});

/** @throws Refused with the server's problems, NotThere where it does not answer */
export async function read<T>(path: string, signal?: AbortSignal): Promise<T> {
  const response = await ask(path, { headers: headers(), ...(signal ? { signal } : {}) });
  return (await response.json()) as T;
}

/** Sends JSON. @throws Refused, NotThere */
export async function send<T>(method: 'PUT' | 'POST', path: string, body: unknown = {}): Promise<T> {
  const response = await ask(path, {
    method,
    headers: headers({ 'content-type': 'application/json' }),
    body: JSON.stringify(body),
  });
  return (await response.json()) as T;
}

/** Sends a file as it is. @throws Refused, NotThere */
export async function sendFile<T>(path: string, file: Blob): Promise<T> {
  const response = await ask(path, {
    method: 'POST',
    headers: headers({ 'content-type': 'application/octet-stream' }),
    body: file,
  });
  return (await response.json()) as T;
}

/** A picture or text as it is. @throws Refused, NotThere */
export async function readWhole(path: string, signal?: AbortSignal): Promise<Blob> {
  const response = await ask(path, { headers: headers(), ...(signal ? { signal } : {}) });
  return response.blob();
}

/** Asks for a download and hands it to the browser. @returns its file name */
export async function download(path: string, body: unknown): Promise<string> {
  const response = await ask(path, {
    method: 'POST',
    headers: headers({ 'content-type': 'application/json' }),
    body: JSON.stringify(body),
  });
  const name =
    /filename="([^"]+)"/.exec(response.headers.get('content-disposition') ?? '')?.[1] ?? 'evenground';
  const address = URL.createObjectURL(await response.blob());
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  letGoLater(address);
  return name;
}

/** The browser reads such an address after it was given, at its own pace; a minute is ample on one machine. */
export function letGoLater(address: string): void {
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Told of every change to the content on the disk until the page goes; comes back by itself. */
export async function listen(onChange: (told: ChangeTold) => void) {
  for (;;) {
    try {
      const response = await ask('events', { headers: headers() });
      const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
      let text = '';
      for (;;) {
        const { done, value } = await reader.read();
        if (done) break;
        text += value;
        const whole = text.split('\n\n');
        text = whole.pop()!;
        for (const event of whole) {
          const data = event
            .split('\n')
            .filter(line => line.startsWith('data:'))
            .map(line => line.slice(5))
            .join('');
          if (data !== '') onChange(JSON.parse(data));
        }
      }
    } catch {
      // Told where something is saved; listening only tries again.
    }
    await new Promise(resolve => setTimeout(resolve, 2000));
  }
}
