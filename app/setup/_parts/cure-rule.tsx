'use client';
import { checkCure } from '#lib/work/bars/check';
import { USUAL_CURE } from '#lib/work/bars/documents';
import type { CureKept } from '#lib/work/bars/documents';
import type { Reading } from '../../_ui/kept/kind';
import { SingleDocument } from '../../_ui/kept/single';
import type { Single } from '../../_ui/kept/single';
import { at, gather } from '../../_ui/kept/typed';
import type { Typed } from '../../_ui/kept/typed';
import { cutting } from '../messages-cutting';

const { cure: words } = cutting;
const LONGEST_DAYS = 1000;
const MOST_PERCENT = 99;

const typedCure = (kept: CureKept | null): Typed => {
  const { days, perWeek, photos, places } = kept ?? USUAL_CURE;
  return { days: days === null ? '' : String(days), perWeek: perWeek ?? '', photos: photos.join(' '), places: places.join('\n') };
};

const wholeDays = (text: string): readonly number[] =>
  text
    .split(/[\s,;]+/)
    .filter((one) => /^\d{1,3}$/.test(one))
    .map(Number);

const readCure = (typed: Typed): Reading => {
  const read = gather(typed);
  const days = read.number('days', { from: 0, to: LONGEST_DAYS, whole: true });
  const document: CureKept = {
    id: 'maker',
    days: days === null ? null : Number(days),
    perWeek: read.number('perWeek', { above: 0, to: MOST_PERCENT }),
    photos: wholeDays(at(typed, 'photos')),
    places: at(typed, 'places')
      .split('\n')
      .map((one) => one.trim())
      .filter((one) => one !== ''),
  };
  for (const { path, says } of checkCure(document)) read.note(path, says);
  return { document, errors: read.errors, minds: {} };
};

const CURE: Single<CureKept> = {
  noun: 'cure',
  title: words.title,
  note: <p>{words.note}</p>,
  kept: words.kept,
  specs: () => [
    { kind: 'number', key: 'days', label: words.days },
    { kind: 'number', key: 'perWeek', label: words.perWeek },
    { kind: 'text', key: 'photos', label: words.photos, hint: words.photosHint },
    { kind: 'lines', key: 'places', label: words.places },
  ],
  typedOf: typedCure,
  read: readCure,
  saidOf: ({ days, perWeek }) => words.said(days === null ? '' : String(days), perWeek ?? ''),
};

/** The maker's own rule of readiness, when logs are photographed, and the places on the shelf: one document, and its versions. */
export function CureRule() {
  return <SingleDocument single={CURE} />;
}
