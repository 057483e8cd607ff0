import { on } from '../classes';
import { keptMessages } from './messages';

/** Another screen kept a version since this form was begun: what is typed stays until the person says otherwise. */
export function Newer({ onOver }: { readonly onOver: () => void }) {
  return (
    <p role="alert">
      {keptMessages.newer}{' '}
      <button type="button" className={on('link')} onClick={onOver}>
        {keptMessages.startOver}
      </button>
    </p>
  );
}
