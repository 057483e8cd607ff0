'use client';
import { useState } from 'react';
import type { LineState } from '#lib/work/batch/index';
import { massText } from '#lib/units/format';
import { MOST_WEIGHED } from '#lib/units/mass';
import { see } from '../../_live/selectors';
import { useDisplay, useLive } from '../../_live/use';
import { HoldPress, Press } from '../../_ui/press';
import { wrongMessages as words } from '../messages-wrong';
import { closeSheet, holdWords, intend, openSheet } from './controls';
import { Amount, Part } from './out-of';
import { SheetFrame, SheetGrid } from './sheet';
import { LotsOf } from './start';

type What = keyof typeof words.whats;
const WHATS = Object.keys(words.whats) as What[];

const isPoured = ({ actual }: LineState): boolean => actual > 0;
/** Which lines it can be about. */
const ABOUT: Readonly<Record<What, (line: LineState) => boolean>> = {
  lot: isPoured,
  material: (line) => isPoured(line) && line.plan.material.class !== 'hydroxide',
  'left-in-jug': isPoured,
  stock: () => true,
  melted: (line) => isPoured(line) && line.plan.material.class === 'hard-oil',
  scale: ({ status }) => status !== 'closed',
};

/** Once lye and oils are together only a jug of oil can still be found. */
const AFTER: Readonly<Record<What, boolean>> = {
  lot: false,
  material: false,
  'left-in-jug': true,
  stock: true,
  melted: false,
  scale: false,
};

/** Something went wrong, or must go another way: what, of which line, and held. Ways out follow where the batch is another one then. */
export function WrongSheet() {
  const lines = useLive(({ batch }) => batch?.lines ?? null);
  const scales = useLive(see.scales)?.length ?? 0;
  const status = useLive(see.status);
  const [what, setWhat] = useState<What | null>(null);
  const [of, setOf] = useState<string | null>(null);
  const all = Object.values(lines ?? {});
  const line = all.find(({ plan }) => plan.id === of) ?? null;
  if (what === null)
    return (
      <SheetFrame title={words.title} teach={words.teach}>
        <SheetGrid columns={3}>
          {WHATS.map((one) => {
            const now = status === 'weighing' || (status === 'joined' && AFTER[one]);
            const can = now && all.some(ABOUT[one]) && (one !== 'scale' || scales > 1);
            const { name, sub } = words.whats[one];
            return <Press key={one} name={name} sub={sub} onTap={can ? () => setWhat(one) : undefined} />;
          })}
          <Press name={words.lost.name} sub={words.lost.sub} onTap={() => openSheet('lose')} />
        </SheetGrid>
      </SheetFrame>
    );
  if (line === null) return <Which title={words.whats[what].name} lines={all.filter(ABOUT[what])} onLine={setOf} />;
  if (what === 'lot') return <TrulyLot line={line} />;
  if (what === 'material') return <TrulyMaterial line={line} others={all.filter((other) => other !== line)} />;
  if (what === 'scale') return <OtherScale line={line} />;
  if (what === 'stock') return <LeftOf line={line} />;
  if (what === 'melted') return <IsMelted line={line} />;
  return (
    <Amount
      name={line.plan.material.name}
      way={{
        name: words.inJug,
        all: line.actual,
        want: (mass) => ({ kind: 'state-wrong', what, line: line.plan.id, vessel: line.plan.vessel, mass, held: true }),
      }}
    />
  );
}

interface WhichProps {
  readonly title: string;
  readonly lines: readonly LineState[];
  readonly onLine: (line: string) => void;
}

function Which({ title, lines, onLine }: WhichProps) {
  const display = useDisplay();
  return (
    <SheetFrame title={title} teach={words.which}>
      <SheetGrid columns={3}>
        {lines.map(({ plan, actual }) => (
          <Press
            key={plan.id}
            name={plan.material.name}
            sub={massText(actual > 0 ? actual : plan.target, display)}
            onTap={() => onLine(plan.id)}
          />
        ))}
      </SheetGrid>
    </SheetFrame>
  );
}

interface OfLine {
  readonly line: LineState;
}

const state = (want: Parameters<typeof intend>[0]): void => {
  intend(want);
  closeSheet();
};

/** Beside ways out that stand already it narrows those; else it may be what is wrong. */
const useBeside = (): { readonly beside?: true } =>
  useLive(see.cards).some(({ remedy, code }) => remedy !== undefined || code === 'stock-enough') ? { beside: true } : {};

/** What is left of it on the shelf: nothing, or so much as is typed. */
function LeftOf({ line }: OfLine) {
  const [typed, setTyped] = useState(false);
  const { id, material } = line.plan;
  const about = { kind: 'state-wrong', what: 'stock', line: id, vessel: null, held: true, ...useBeside() } as const;
  if (typed) {
    const title = words.leftOf(material.name);
    return <Part name={material.name} way={{ name: words.left, title, all: MOST_WEIGHED, want: (mass) => ({ ...about, mass }) }} />;
  }
  return (
    <SheetFrame title={material.name} teach={words.stockTeach}>
      <SheetGrid>
        <HoldPress {...words.noneLeft} words={holdWords} onHeld={() => state({ ...about, mass: 0 })} />
        <Press {...words.someLeft} onTap={() => setTyped(true)} />
      </SheetGrid>
    </SheetFrame>
  );
}

function IsMelted({ line }: OfLine) {
  const about = { kind: 'state-wrong', what: 'melted', line: line.plan.id, vessel: null, mass: null, held: true } as const;
  return (
    <SheetFrame title={line.plan.material.name} teach={words.meltedTeach}>
      <SheetGrid>
        <HoldPress name={words.whats.melted.name} sub={words.isMelted} words={holdWords} onHeld={() => state(about)} />
      </SheetGrid>
    </SheetFrame>
  );
}

/** The lots there are of it besides the one in the record. */
function TrulyLot({ line }: OfLine) {
  const { id, material, lot: now } = line.plan;
  const about = { kind: 'state-wrong', what: 'lot', line: id, vessel: null, mass: null, held: true } as const;
  return (
    <SheetFrame title={material.name} teach={words.whichLot}>
      <SheetGrid>
        <LotsOf line={id}>
          {(lots) => {
            const others = lots.filter((lot) => lot.id !== now?.id);
            if (others.length === 0) return <p>{words.noOtherLot}</p>;
            return others.map((lot) => (
              <HoldPress
                key={lot.id}
                name={lot.mark}
                sub={words.whats.lot.name}
                words={holdWords}
                onHeld={() => state({ ...about, lot })}
              />
            ));
          }}
        </LotsOf>
      </SheetGrid>
    </SheetFrame>
  );
}

function TrulyMaterial({ line, others }: OfLine & { readonly others: readonly LineState[] }) {
  const about = { kind: 'state-wrong', what: 'material', line: line.plan.id, vessel: null, mass: null, held: true } as const;
  return (
    <SheetFrame title={line.plan.material.name} teach={words.whichMaterial}>
      <SheetGrid columns={3}>
        {others
          .filter(({ plan }) => plan.material.class !== 'hydroxide')
          .map(({ plan }) => (
            <HoldPress
              key={plan.id}
              name={plan.material.name}
              sub={words.itWas}
              words={holdWords}
              onHeld={() => state({ ...about, was: plan.id })}
            />
          ))}
      </SheetGrid>
    </SheetFrame>
  );
}

function OtherScale({ line }: OfLine) {
  const scales = useLive(see.scales) ?? [];
  const { id, scale, material } = line.plan;
  return (
    <SheetFrame title={material.name} teach={words.scaleTeach}>
      <SheetGrid>
        {scales
          .filter(({ role }) => role !== scale)
          .map((other) => (
            <HoldPress
              key={other.id}
              name={other.name}
              sub={words.fromNow}
              words={holdWords}
              onHeld={() => state({ kind: 'change-scale', line: id, scale: other.role, held: true })}
            />
          ))}
      </SheetGrid>
    </SheetFrame>
  );
}
