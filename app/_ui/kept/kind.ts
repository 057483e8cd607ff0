import type { ReactNode } from 'react';
import type { ShelfItem } from '#lib/protocol/shelf';
import type { Noun } from '#lib/work/shelf/shelf';
import type { Spec } from './fields';
import type { Errors, Typed } from './typed';

/** A form read: the document it makes, and what is said beside its fields. */
export interface Reading {
  readonly document: object;
  /** While there is one, nothing is kept. */
  readonly errors: Errors;
  /** Said beside the field, and kept all the same. */
  readonly minds: Errors;
}

/** What a list and a form have to know of one kind of document. */
export interface Kind<D> {
  readonly noun: Noun;
  readonly words: {
    readonly title: string;
    readonly note: string;
    readonly empty: string;
    readonly add: string;
    readonly caption: string;
  };
  /** The first is the name's. `nw`: a mark, never broken into two lines. */
  readonly heads: readonly {
    readonly name: string;
    readonly unit?: string;
    readonly n?: boolean;
    readonly wide?: boolean;
    readonly nw?: boolean;
  }[];
  readonly nameOf: (document: D) => string;
  /** One for each head but the first. */
  readonly cells: (document: D) => readonly ReactNode[];
  /** One version in a line of words. */
  readonly saidOf: (document: D) => string;
  /** The form filled in; `null`: empty. */
  readonly typedOf: (document: D | null) => Typed;
  readonly specs: (typed: Typed, onTyped: (change: Typed) => void) => readonly Spec[];
  readonly read: (id: string, typed: Typed) => Reading;
}

/** What was begun and is not kept yet; closing the form does not lose it. */
export interface Draft {
  readonly id: string;
  readonly typed: Typed;
  /** The version it was begun from; 0: something new. */
  readonly base: number;
  /** Keeping was tried: now empty fields are spoken of too. */
  readonly tried: boolean;
}

/** The documents of a list are of the kind it was asked for. */
export const documentOf = <D>({ document }: Pick<ShelfItem, 'document'>): D => document as unknown as D;

/** Why a document is changed, beside its own fields. */
export const WHY = '@why';
