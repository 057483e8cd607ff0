import type { Milligrams } from '#lib/units/mass';

/** What stands on a label, in the order it is read. Texts are whole; where they break is the layout's. */
export interface LabelText {
  readonly title: string;
  readonly purpose: string | null;
  /** The net content, and how much it is; `null`: not known. */
  readonly net: { readonly metric: string; readonly customary: string; readonly mass: Milligrams; readonly estimated: boolean } | null;
  /** Months after opening; `null`: nothing of them is said. */
  readonly openedMonths: number | null;
  /** Paragraphs: ingredients first, then cautions, durability, batch, responsible person. */
  readonly paragraphs: readonly string[];
  /** Stands there alone where not everything has room: half a label is none. */
  readonly noRoom: string;
}

/** mm. */
export interface LabelSize {
  readonly width: number;
  readonly height: number;
}

/** What a line of text belongs to: `text`: its paragraphs, told apart by `of`. `sign`: letters inside a sign. */
export type Part = 'title' | 'purpose' | 'text' | 'net' | 'sign';

/** mm from the top left; text by its baseline, `size` an em. In the order it is read. */
export type Placed =
  | {
      readonly kind: 'text';
      readonly part: Part;
      /** Number of the piece of its part that the line stands in. */
      readonly of: number;
      readonly x: number;
      readonly y: number;
      readonly size: number;
      readonly strong: boolean;
      readonly text: string;
    }
  | { readonly kind: 'sign'; readonly sign: 'estimated' | 'opened'; readonly x: number; readonly y: number; readonly side: number }
  | { readonly kind: 'code'; readonly x: number; readonly y: number; readonly side: number };
