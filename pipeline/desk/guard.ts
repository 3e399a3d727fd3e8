/** Who may ask the desk: its own page, on this machine, of this start. Nothing else, whatever it sends. */
import { timingSafeEqual } from 'node:crypto';
import type { Problem } from '../problem.ts';
import { foreignPage, notThisMachine, wrongToken } from '../problems/desk.ts';

/** What a request says of itself and where it comes from. */
export interface Asking {
  readonly method: string;
  readonly remoteAddress: string | undefined;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly secFetchSite: string | undefined;
  readonly token: string | undefined;
}

/** What the desk was started with. */
export interface Door {
  readonly port: number;
  readonly token: string;
}

const LOOPBACK = /^(127(\.\d{1,3}){3}|::1|::ffff:127(\.\d{1,3}){3})$/;

/**
 * Why a request is refused; undefined where it may pass. A name that was bound to this machine's address to get round
 * the browser's own rule is told by its Host, a page of elsewhere by its Origin, a stale page by the token.
 */
export function refusal(asking: Asking, { port, token }: Door): Problem | undefined {
  if (asking.remoteAddress === undefined || !LOOPBACK.test(asking.remoteAddress)) return notThisMachine();
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`, `[::1]:${port}`];
  if (asking.host === undefined || !hosts.includes(asking.host)) return foreignPage();
  const writes = asking.method !== 'GET' && asking.method !== 'HEAD';
  const own = `http://${asking.host}`;
  // A browser leaves the origin out of its own page's reading only.
  if (asking.origin === undefined ? writes : asking.origin !== own) return foreignPage();
  if (asking.secFetchSite !== undefined && asking.secFetchSite !== 'same-origin') return foreignPage();
  return sameText(asking.token ?? '', token) ? undefined : wrongToken();
}

function sameText(a: string, b: string): boolean {
  const [first, second] = [Buffer.from(a), Buffer.from(b)];
  return first.length === second.length && timingSafeEqual(first, second);
}
