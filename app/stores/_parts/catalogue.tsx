'use client';
import { Fragment, useState } from 'react';
import { CATALOGUE } from '#lib/work/formula/index';
import type { Figure, Material, MaterialKind } from '#lib/work/formula/index';
import { on } from '../../_ui/classes';
import { Radios, TextField } from '../../_ui/fields';
import { Head } from '../../_ui/head';
import { keptMessages } from '../../_ui/kept/messages';
import { OpenCell, Slip } from '../../_ui/kept/open-row';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { FigureTable } from './figure-table';
import { acidsOf, figuresOf, rangeText } from './figures';

const KINDS = (Object.keys(messages.kinds) as MaterialKind[]).filter((kind) => CATALOGUE.some((one) => one.kind === kind));

/** Every kind while a name is looked for, else the chosen one. */
const shownOf = (kind: MaterialKind, text: string): readonly Material[] => {
  const wanted = text.trim().toLocaleLowerCase();
  return CATALOGUE.filter((one) => (wanted === '' ? one.kind === kind : one.name.toLocaleLowerCase().includes(wanted)));
};

/** What came with the program: each opens to its figures with range, source and what they rest on. */
export function Catalogue() {
  const [kind, setKind] = useState<MaterialKind>('fat');
  const [text, setText] = useState('');
  const { catalogue, kinds } = messages;
  const shown = shownOf(kind, text);
  return (
    <PaperSection name={catalogue.title} note={<p>{catalogue.note}</p>}>
      <div className={on('form')}>
        <TextField id="catalogue-filter" label={catalogue.filter} hint={catalogue.filterHint} value={text} onChange={setText} />
        <div className={on('whole')}>
          <Radios
            name="catalogue-kind"
            legend={catalogue.kind}
            value={kind}
            options={KINDS.map((one) => [one, kinds[one]] as const)}
            onChange={(one) => {
              setKind(one);
              setText('');
            }}
          />
        </div>
      </div>
      {shown.length === 0 ? <p className={on('gap')}>{catalogue.nothing(text.trim())}</p> : <Entries shown={shown} caption={kinds[kind]} />}
    </PaperSection>
  );
}

/** What every row has in common stands once, in the head; `null`: they differ. */
const sharedOf = (texts: readonly string[]): string | null => (new Set(texts).size === 1 ? (texts[0] ?? null) : null);

const keyOf = (material: Material): Figure | null => figuresOf(material)[0]?.[1] ?? null;

function Entries({ shown, caption }: { readonly shown: readonly Material[]; readonly caption: string }) {
  const [open, setOpen] = useState<string | null>(null);
  const { catalogue, grades } = messages;
  const { heads } = catalogue;
  const named = sharedOf(shown.map((one) => figuresOf(one)[0]?.[0] ?? ''));
  const unit = named === null ? null : sharedOf(shown.map((one) => keyOf(one)?.unit ?? ''));
  const inHead = unit === null ? {} : { unit };
  return (
    <table className={on('table gap')}>
      <caption className="unseen">{catalogue.caption(caption)}</caption>
      <thead>
        <tr>
          <Head name={heads.name} />
          {named === null ? <Head name={heads.figure} wide /> : null}
          <Head name={named ?? heads.value} {...inHead} n />
          <Head name={heads.range} {...inHead} n wide />
          <Head name={heads.rests} wide />
          <Head name={keptMessages.more} unseen />
        </tr>
      </thead>
      <tbody>
        {shown.map((material) => {
          const figure = keyOf(material);
          const isOpen = open === material.id;
          const slip = `catalogue-slip-${material.id}`;
          return (
            <Fragment key={material.id}>
              <tr data-material={material.id}>
                <th scope="row">{material.name}</th>
                {named === null ? <td className={on('wide')}>{figuresOf(material)[0]?.[0]}</td> : null}
                <td className={on('n')}>{figure === null ? '' : unit === null ? `${figure.value} ${figure.unit}` : figure.value}</td>
                <td className={on('n wide')}>{figure === null ? '' : rangeText(figure)}</td>
                <td className={on('wide')}>{figure === null ? '' : grades[figure.grade]}</td>
                <OpenCell name={material.name} isOpen={isOpen} slip={slip} onPress={() => setOpen(isOpen ? null : material.id)} />
              </tr>
              {isOpen ? (
                <Slip id={slip} columns={6}>
                  <Opened material={material} />
                </Slip>
              ) : null}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}

function Opened({ material }: { readonly material: Material }) {
  const { catalogue } = messages;
  const acids = acidsOf(material);
  return (
    <>
      {material.note === null ? null : <p className={on('reading')}>{material.note}</p>}
      <FigureTable caption={material.name} rows={figuresOf(material)} />
      {'svReason' in material && material.svReason !== '' ? (
        <p className={on('dim gap')}>
          {catalogue.reason} {material.svReason}
        </p>
      ) : null}
      {acids.length === 0 ? null : (
        <>
          <h3 className={on('minor gap')}>{catalogue.profile}</h3>
          <FigureTable caption={`${material.name}: ${catalogue.profile}`} rows={acids} />
        </>
      )}
    </>
  );
}
