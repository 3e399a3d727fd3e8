import { describe, expect, it } from 'vitest';
import { type Asking, refusal } from '../../pipeline/desk/guard.ts';

const DOOR = { port: 4321, token: 'a-token-of-this-start' };
const OWN: Asking = {
  method: 'PUT',
  remoteAddress: '127.0.0.1',
  host: '127.0.0.1:4321',
  origin: 'http://127.0.0.1:4321',
  secFetchSite: 'same-origin',
  token: DOOR.token,
};
const ask = (change: Partial<Asking>) => refusal({ ...OWN, ...change }, DOOR)?.id;

describe('the desk answers', () => {
  it.each<[string, Partial<Asking>]>([
    ['its own page', {}],
    ['its own page reading, which sends no origin', { method: 'GET', origin: undefined }],
    ['by its other names', { host: 'localhost:4321', origin: 'http://localhost:4321' }],
    ['over the other protocol', { remoteAddress: '::1', host: '[::1]:4321', origin: 'http://[::1]:4321' }],
    ['a browser too old to say whence', { secFetchSite: undefined }],
  ])('%s', (_, change) => {
    expect(ask(change)).toBeUndefined();
  });

  it.each<[string, Partial<Asking>, string]>([
    ['another machine', { remoteAddress: '192.168.1.20' }, 'desk-not-this-machine'],
    ['nobody known', { remoteAddress: undefined }, 'desk-not-this-machine'],
    [
      'an address that only begins like its own',
      { remoteAddress: '127.0.0.1.evil.example' },
      'desk-not-this-machine',
    ],
    [
      'a name bound to its address',
      { host: 'evil.example:4321', origin: 'http://evil.example:4321' },
      'desk-foreign-page',
    ],
    ['another port', { host: '127.0.0.1:80', origin: 'http://127.0.0.1:80' }, 'desk-foreign-page'],
    ['no host', { host: undefined }, 'desk-foreign-page'],
    ['a page of elsewhere', { origin: 'https://evil.example' }, 'desk-foreign-page'],
    ['a page without an origin', { origin: 'null' }, 'desk-foreign-page'],
    ['writing without an origin', { origin: undefined }, 'desk-foreign-page'],
    [
      'reading for a page of elsewhere',
      { method: 'GET', origin: 'https://evil.example' },
      'desk-foreign-page',
    ],
    ['another site', { secFetchSite: 'cross-site' }, 'desk-foreign-page'],
    [
      'an address typed or followed',
      { method: 'GET', origin: undefined, secFetchSite: 'none' },
      'desk-foreign-page',
    ],
    ['an earlier start', { token: 'a-token-of-that-start' }, 'desk-wrong-token'],
    ['no token', { token: undefined }, 'desk-wrong-token'],
    ['a longer token', { token: `${DOOR.token}x` }, 'desk-wrong-token'],
  ])('not %s', (_, change, id) => {
    expect(ask(change)).toBe(id);
  });
});
