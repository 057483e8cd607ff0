import type { HttpProblem } from '#lib/protocol/http';
import type { FormulaFile, Preparation } from '#lib/work/formula/index';
import type { WorkshopVessel } from '#lib/work/formula/context';
import type { Habits } from '#lib/work/shelf/documents';
import type { Noun } from '#lib/work/shelf/shelf';
import { shelfApi } from '../../_ui/shelf-api';
import { messages } from '../messages';

interface Named {
  readonly id: string;
  readonly name?: string;
  readonly mark?: string;
}

/** What a file does not hold and the samples bring. */
interface Beside {
  readonly vessels: readonly WorkshopVessel[];
  readonly habits: Habits | null;
}

export interface PutAll {
  readonly put: number;
  /** Names of what was there already. */
  readonly left: readonly string[];
  readonly problem: HttpProblem | null;
}

/** Each after those it is made of; one that holds itself is the shelf's to refuse. */
const innerFirst = (all: readonly Preparation[]): readonly Preparation[] => {
  const done = new Set<Preparation>();
  const begun = new Set<Preparation>();
  const add = (one: Preparation): void => {
    if (begun.has(one)) return;
    begun.add(one);
    for (const { material } of one.parts) all.filter(({ id }) => id === material).forEach(add);
    done.add(one);
  };
  all.forEach(add);
  return [...done];
};

/**
 * Puts documents on the shelf, what a formula is made of before the formula; what is there already by the same id stays as it is. Stops at
 * the first refusal: what was put until then is sound by itself, and the same again puts the rest.
 */
export const putAll = async (file: FormulaFile, { vessels, habits }: Beside = { vessels: [], habits: null }): Promise<PutAll> => {
  const nouns: readonly (readonly [Noun, readonly Named[]])[] = [
    ['material', file.materials.filter(({ origin }) => origin === 'maker')],
    ['lot', file.lots],
    ['preparation', innerFirst(file.preparations)],
    ['mould', file.moulds],
    ['vessel', vessels],
    ['habits', habits === null ? [] : [habits]],
    ['formula', file.formulas.map((formula) => ({ ...formula, version: 1 }))],
  ];
  const left: string[] = [];
  let put = 0;
  for (const [noun, documents] of nouns) {
    if (documents.length === 0) continue;
    const there = await shelfApi.list(noun);
    if (!there.ok) return { put, left, problem: there.problem };
    const known = new Set(there.value.items.map(({ id }) => id));
    for (const document of documents) {
      if (known.has(document.id)) {
        left.push(document.name ?? document.mark ?? messages.file.habits);
        continue;
      }
      const answer = await shelfApi.put(noun, document.id, 0, document);
      if (!answer.ok) return { put, left, problem: answer.problem };
      put += 1;
    }
  }
  return { put, left, problem: null };
};
