'use client';
import { api } from '../../_ui/api';
import { Asking } from '../../_ui/problem';
import { useAsked } from '../../_ui/use-asked';
import { PaperSection } from '../../_ui/section';
import { messages } from '../messages';
import { on } from './classes';

/** The code that opens this bench on a tablet; shown on the bench machine only. */
export function Tablet() {
  const { asked, again } = useAsked(api.qr);
  const { tablet } = messages;
  return (
    <div id="tablet">
      <PaperSection name={tablet.title} note={<p>{tablet.note}</p>}>
        {asked.state === 'asking' ? <Asking /> : null}
        {asked.state === 'failed' ? (
          <>
            <p>{asked.problem.error}</p>
            <p>{asked.problem.todo}</p>
          </>
        ) : null}
        {asked.state === 'there' ? (
          <>
            <p>{tablet.what}</p>
            {/* A drawing of our own server's, not a picture to be optimised. */}
            {/* oxlint-disable-next-line nextjs/no-img-element */}
            <img className={on('qr')} src={`data:image/svg+xml,${encodeURIComponent(asked.value)}`} alt={tablet.alt} />
            <p>
              <button type="button" className={on('link')} onClick={again}>
                {tablet.again}
              </button>
            </p>
          </>
        ) : null}
      </PaperSection>
    </div>
  );
}
