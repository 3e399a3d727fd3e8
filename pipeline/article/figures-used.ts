/** Which figures an article places, known without drawing or rendering anything. */
import type { FigureChoice } from '../figure/figure.ts';
import type { StartRule } from '../run/run.ts';
import { type OwnDirective, parseArticle } from './own-directives.ts';

export interface FigureUse {
  /** As written: `speed-over-time`; not yet known to exist. */
  readonly kind: string;
  readonly choice: FigureChoice;
  /** Place among the article's figures, from 1; two uses of the same figure have two numbers. */
  readonly number: number;
  /** Kind and choice as one word; the same figure has the same key. */
  readonly key: string;
  /** Stem of its files: the kind, and `-2`, `-3` for further figures of that kind. */
  readonly name: string;
}

/** Kind, start rule and attempts as one word, for finding a figure again. */
export function figureKey(kind: string, choice: FigureChoice): string {
  return [kind, choice.startRule, ...(choice.attempts ?? [])].join(' ');
}

/** The article's figures in the order of the text; `house` gives the start rule where none is written. */
export function articleFigures(
  markdown: string,
  house: { readonly headline_start_rule: StartRule },
): readonly FigureUse[] {
  return figuresOf(parseArticle(markdown).directives, house).map(({ use }) => use);
}

/** As `articleFigures`, each with the directive that asks for it; those without a kind are left out. */
export function figuresOf(
  directives: readonly OwnDirective[],
  house: { readonly headline_start_rule: StartRule },
): readonly { readonly directive: OwnDirective; readonly use: FigureUse }[] {
  const names = new Map<string, string>();
  const found: { directive: OwnDirective; use: FigureUse }[] = [];
  for (const directive of directives) {
    const kind = directive.attributes.show;
    if (directive.name !== 'figure' || kind === undefined || !directive.inPlace) continue;
    const choice = choiceOf(directive.attributes, house);
    const key = figureKey(kind, choice);
    const ofKind = [...names.keys()].filter(other => other.split(' ')[0] === kind).length;
    const name = names.get(key) ?? (ofKind === 0 ? kind : `${kind}-${ofKind + 1}`);
    names.set(key, name);
    found.push({ directive, use: { kind, choice, number: found.length + 1, key, name } });
  }
  return found;
}

function choiceOf(
  attributes: Readonly<Record<string, string>>,
  house: { readonly headline_start_rule: StartRule },
): FigureChoice {
  const attempts = (attributes.attempts ?? '').split(/\s+/).filter(word => word !== '');
  const start = attributes.start;
  const startRule: StartRule =
    start === 'first-movement' || start === 'one-foot-rollout' ? start : house.headline_start_rule;
  return { startRule, ...(attempts.length === 0 ? {} : { attempts }) };
}
