'use client';
import { useEffect } from 'react';
import { see } from '../../_live/selectors';
import { useLive } from '../../_live/use';
import { messages } from '../messages';
import { noticeMessages, sceneRefusal } from '../messages-notices';
import styles from '../bench.module.css';
import { listenForScans } from './scan';
import { useNothingUnseen } from './unseen';

/** What stands in it is placed as if it were not there. */
const THROUGH = { display: 'contents' };

/** What came of a press that came to nothing. */
export function Notice() {
  const notice = useLive(see.notice);
  const unreadable = useLive(see.unreadable);
  const watcher = useLive(see.role) === 'watcher';
  useEffect(listenForScans, []);
  useNothingUnseen();
  const { refusals, notices, unreadable: cannotRead } = noticeMessages;
  const words = ((): string => {
    if (notice === null) return unreadable === null ? '' : cannotRead;
    if (notice.code === 'scene-refused') return sceneRefusal(String(notice.params['why'] ?? ''));
    if (notice.code === 'no-answer') return notices[notice.code];
    if (notice.code === 'not-in-control' && watcher) return messages.watching.howToLead;
    return refusals[notice.code];
  })();
  // The region is there before its words: a screen reader hears only what is put into one that it knows.
  return (
    <output style={THROUGH}>
      {words === '' ? null : (
        <span key={notice?.id} className={styles['notice']} data-notice={notice?.code ?? 'unreadable'}>
          {words}
        </span>
      )}
    </output>
  );
}
