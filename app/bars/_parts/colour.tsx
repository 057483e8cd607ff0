'use client';
import type { CureKept } from '#lib/work/bars/documents';
import { photoDue, photoNext } from '#lib/work/bars/due';
import { shortDate } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Problem } from '../../_ui/problem';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { lotMessages } from '../messages-lot';
import { CrossLast } from './cross-last';
import { Frame, photoAddress } from './frame';
import type { LotProps } from './lot-props';
import { daysSince } from './stage';
import { TakePhoto } from './take-photo';
import { useWant } from './use-want';

const DAY_MS = 86_400_000;
/** Two side by side on the smallest screen. */
const STRIP = { gridTemplateColumns: 'repeat(auto-fill, minmax(9em, 1fr))' };

/** One log over days, each photograph in the same frame, and when the next is due. */
export function Colour({ page: { row, state }, rule, again }: LotProps & { readonly rule: CureKept }) {
  const { locale } = useDisplay();
  const wanting = useWant(row, again);
  const { colour } = lotMessages;
  const from = row.cut?.wall ?? null;
  const shown = state.photos.filter(({ struck }) => struck === null);
  const last = shown.at(-1);
  // As the schedule counts: from the cut.
  const dayOf = (wall: number): string =>
    from === null ? colour.uncut(daysSince(row.poured, wall)) : wall < from ? colour.before : colour.day(daysSince(from, wall));
  return (
    <PaperSection
      name={colour.title}
      note={
        <>
          <p>{colour.note}</p>
          {row.traits.vanillin ? <p>{colour.vanillin}</p> : null}
        </>
      }
    >
      <div className={on('form')} style={STRIP}>
        {shown.map((photo) => (
          <Frame key={photo.entry} href={photoAddress(photo.sha256)} alt={colour.alt(row.mark, dayOf(photo.wall))}>
            {`${dayOf(photo.wall)}, ${shortDate(photo.wall, { offsetMin: photo.offsetMin, locale })}`}
            {photo.note === '' ? null : <p>{photo.note}</p>}
            <p>
              <CrossLast last={photo} wanting={wanting} words={colour.cross(dayOf(photo.wall))} />
            </p>
          </Frame>
        ))}
        {last === undefined ? (
          <Frame href={null} alt="">
            {colour.none}
          </Frame>
        ) : null}
      </div>
      <WhenNext from={from} photos={shown.map(({ wall }) => wall)} schedule={rule.photos} />
      <TakePhoto wanting={wanting} last={last === undefined ? null : photoAddress(last.sha256)} />
      {wanting.problem === null ? null : <Problem problem={wanting.problem} />}
    </PaperSection>
  );
}

interface NextProps {
  /** When it was cut; `null`: not yet, and no day is counted. */
  readonly from: number | null;
  readonly photos: readonly number[];
  readonly schedule: readonly number[];
}

/** The photograph that is due by the schedule, or the day of the next. */
function WhenNext({ from, photos, schedule }: NextProps) {
  const now = useNow();
  const { locale } = useDisplay();
  const { colour } = lotMessages;
  if (from === null || now === null) return null;
  const today = daysSince(from, now);
  const taken = photos.filter((wall) => wall >= from).map((wall) => daysSince(from, wall));
  const due = photoDue(schedule, taken, today);
  if (due !== null)
    return (
      <p className={on('gap')}>
        <b>{colour.due(due)}</b>
      </p>
    );
  const next = photoNext(schedule, today);
  return next === null ? null : <p className={on('gap')}>{colour.next(shortDate(from + next * DAY_MS, { offsetMin: null, locale }))}</p>;
}
