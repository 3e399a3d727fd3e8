/** The desk's word of changed files, as its page hears it. */
import { request } from 'node:http';
import type { ChangeTold } from '../../pipeline/desk/server.ts';
import type { RunningDesk } from './running-desk.ts';

export interface Listening {
  /** The first word after this call that names the file; an editor's own files may be told before it. */
  of(file: string): Promise<ChangeTold>;
  close(): void;
}

/** Listens until closed. @throws Error where the desk does not let it */
export function listenTo(desk: RunningDesk): Promise<Listening> {
  return new Promise((opened, failed) => {
    const waiting = new Set<(heard: ChangeTold) => void>();
    const asked = request(
      `${desk.origin}/desk/api/events`,
      { headers: { 'x-desk-token': desk.token } },
      response => {
        if (response.statusCode !== 200) {
          failed(new Error(`The desk answered ${response.statusCode}.`));
          return;
        }
        let text = '';
        response.setEncoding('utf8');
        response.on('data', (part: string) => {
          text += part;
          const events = text.split('\n\n');
          text = events.pop()!;
          for (const event of events) {
            if (!event.startsWith('data: ')) continue;
            const heard = JSON.parse(event.slice('data: '.length)) as ChangeTold;
            for (const hear of waiting) hear(heard);
          }
        });
        response.on('error', () => {});
        opened({
          of: file =>
            new Promise(found => {
              const hear = (heard: ChangeTold): void => {
                if (!heard.changed.includes(file)) return;
                waiting.delete(hear);
                found(heard);
              };
              waiting.add(hear);
            }),
          close: () => asked.destroy(),
        });
      },
    );
    asked.on('error', failed);
    asked.end();
  });
}

/** The middle one; the upper of two. */
export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
