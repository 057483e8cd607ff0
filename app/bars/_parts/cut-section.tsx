'use client';
import { useState } from 'react';
import { numberText } from '#lib/units/format';
import type { CutterKept } from '#lib/work/bars/documents';
import { isOut } from '#lib/work/bars/due';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { useCure } from '../../_ui/cure/use-cure';
import { PaperSection } from '../../_ui/section';
import { shelfApi } from '../../_ui/shelf-api';
import { useAsked } from '../../_ui/use-asked';
import { useNow } from '../../_ui/use-now';
import { lotMessages } from '../messages-lot';
import { CutFields } from './cut-fields';
import { CutAct } from './cut-act';
import { fitsFor, labelBefore, lossFrom, numberIn, typedCut } from './cut-model';
import type { CutTyped } from './cut-model';
import { Fits } from './fits';
import { LabelWarning } from './label-warning';
import type { LotProps } from './lot-props';

interface Props extends LotProps {
  readonly there: BarsThere;
}

/** Everything before the knife: which fits there are, what their bars will weigh, and whether they carry their label. */
export function CutSection({ page, there, again }: Props) {
  const { row } = page;
  const { asked } = useAsked(() => shelfApi.list('cutter'));
  const { cut } = lotMessages;
  if (asked.state === 'asking' || !isOut(row)) return null;
  const cutters = asked.state === 'there' ? asked.value.items.map(({ document }) => document as unknown as CutterKept) : [];
  return (
    <div id="cut">
      <PaperSection name={cut.title} note={<p>{cut.note}</p>}>
        {row.mould.gives === 'bars' ? (
          <CutAct page={page} again={again} fit={null} cutter={null} typed={null} />
        ) : (
          <Plan page={page} there={there} again={again} cutters={cutters} />
        )}
      </PaperSection>
    </div>
  );
}

const HUNDRED_GRAMS = 100_000;

/** As if one bar of 100 g had been cut today: what is left of it is what is left of any. */
const asIfCut = ({ row }: LotProps['page'], now: number): LotProps['page']['row'] => ({
  ...row,
  cut: { wall: now, count: 1, mass: HUNDRED_GRAMS, thickness: null },
  weighings: [],
});

function Plan({ page, there, again, cutters }: Props & { readonly cutters: readonly CutterKept[] }) {
  const [first] = cutters;
  const [typed, setTyped] = useState<CutTyped>(() => ({ ...typedCut(page.state, first ?? null), label: labelBefore(page.row, there.all) }));
  const [chosen, setChosen] = useState<number | null>(null);
  const now = useNow();
  const [opened] = useState(() => Date.now());
  const [tried] = useState(() => [asIfCut(page, opened)]);
  const cureOf = useCure(tried, there.all, there.rule, now === null ? null : opened);
  const cure = tried[0] === undefined ? 'not-cut' : cureOf(tried[0]);
  const forecast = typeof cure === 'string' ? null : (cure.forecast ?? null);
  const cutter = cutters.find(({ id }) => id === typed.cutter) ?? null;
  const loss = lossFrom(there.all);
  const fits = fitsFor(typed, cutter, loss, forecast);
  const { locale } = useDisplay();
  const fit = fits?.find(({ bars }) => bars === chosen) ?? (fits?.length === 1 ? (fits[0] ?? null) : null);
  const { cut } = lotMessages;
  return (
    <>
      <CutFields
        typed={typed}
        cutters={cutters}
        onTyped={(change) => setTyped({ ...typed, ...change })}
        onCutter={(id) =>
          setTyped({
            ...typedCut(page.state, cutters.find((one) => one.id === id) ?? null),
            length: typed.length,
            mass: typed.mass,
            label: typed.label,
          })
        }
      />
      <div aria-live="polite" className={on('gap')}>
        {fits === null ? <p className={on('dim')}>{cut.lengthFirst}</p> : null}
        {fits !== null && fits.length === 0 ? <p className={on('warn')}>{cut.none}</p> : null}
        {fits === null || fits.length === 0 ? null : (
          <Fits fits={fits} length={numberIn(typed.length) ?? 1} chosen={fit?.bars ?? null} label={typed.label} onChoose={setChosen} />
        )}
        {fit === null || fits === null ? null : <LabelWarning fit={fit} fits={fits} label={typed.label} locale={locale} />}
      </div>
      <p className={on('dim gap')}>
        {loss === null
          ? cut.notLearned
          : cut.learned(loss.bars, numberText(loss.mean, locale, 1), numberText(loss.half, locale, 1), loss.learned)}
      </p>
      {fit === null ? null : <CutAct page={page} again={again} fit={fit} cutter={cutter} typed={typed} />}
    </>
  );
}
