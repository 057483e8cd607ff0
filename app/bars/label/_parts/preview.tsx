import type { LabelPage } from '#lib/protocol/label';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../../_live/use';
import { on } from '../../../_ui/classes';
import { labelApi } from '../../../_ui/label-api';
import { PaperSection } from '../../../_ui/section';
import { messages } from '../messages';

const PIXELS_PER_MM = 96 / 25.4;
const pixels = (mm: number): number => Math.round(mm * PIXELS_PER_MM);

/** The label at its size, and the files it is printed from. */
export function Preview({ label }: { readonly label: LabelPage }) {
  const { locale } = useDisplay();
  const { preview: words } = messages;
  const { id, mark, layout, onSheet, settings, version, net, needs, undrawn, eu } = label;
  const pdfs = [
    [labelApi.pdf(id, null), words.single],
    ...(onSheet.a4 === 0 ? [] : [[labelApi.pdf(id, 'a4'), words.a4(onSheet.a4)]]),
    ...(onSheet.letter === 0 ? [] : [[labelApi.pdf(id, 'letter'), words.letter(onSheet.letter)]]),
  ] as const;
  const svgs = [
    [labelApi.svg(id, String(version)), words.svg],
    ...(onSheet.a4 === 0 ? [] : [[labelApi.svg(id, String(version), 'a4'), words.svgA4]]),
  ] as const;
  const files = [...(undrawn.length > 0 ? [] : pdfs), ...svgs] as const;
  const ready = layout.fits && net !== null && eu.every(({ state }) => state !== 'missing');
  return (
    <PaperSection name={words.title} note={<p>{words.note}</p>}>
      <img
        src={labelApi.svg(id, `${version} ${net ?? ''}`)}
        alt={words.alt(mark)}
        width={pixels(settings.size.width)}
        height={pixels(settings.size.height)}
      />
      <p className={on('gap')}>
        {layout.fits ? words.fits : <b className={on('warn')}>{words.tight(needs)}</b>}
        {layout.fits ? ` ${words.letters(numberText(layout.letters, locale, 1))}` : null}
        {layout.lettersForUs || !layout.fits ? null : ` ${words.small}`}
        {layout.netLow ? null : ` ${words.high}`}
      </p>
      {undrawn.length === 0 ? null : <p className={on('warn')}>{words.undrawn(undrawn.join(' '))}</p>}
      {net === null ? <p className={on('warn')}>{words.noNet}</p> : null}
      {settings.estimated ? <p>{words.sign}</p> : null}
      {settings.estimated || settings.durability.kind === 'opened' ? <p>{words.drawn}</p> : null}
      <div className={on('acts')}>
        {files.map(([href, name], at) => (
          <a key={name} className={on(at === 0 && ready ? 'act first' : 'act')} href={href} target="_blank" rel="noreferrer">
            {name}
          </a>
        ))}
      </div>
    </PaperSection>
  );
}
