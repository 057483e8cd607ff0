'use client';
import { useEffect, useRef, useState } from 'react';
import type { CSSProperties } from 'react';
import { on } from '../../_ui/classes';
import { lotMessages } from '../messages-lot';
import { FRAME, Framed } from './frame';

/** Longest side that is kept of a photograph, pixels. */
const LONGEST = 1600;
const QUALITY = 0.92;
/** The button below it stays in sight on a low screen. */
const STACK: CSSProperties = { display: 'grid', maxWidth: '84svh' };
const STACKED: CSSProperties = { gridArea: '1 / 1', width: '100%' };
const PICTURE: CSSProperties = { ...STACKED, aspectRatio: `${FRAME.width} / ${FRAME.height}`, objectFit: 'cover' };

/** Whether a page may look through a camera here: a browser gives one to a safe address only. */
export const mayLook = (): boolean => typeof navigator !== 'undefined' && navigator.mediaDevices !== undefined;

/** What the frame shows of a camera's picture now, as a file; `null`: nothing came yet. */
const taken = async (video: HTMLVideoElement): Promise<File | null> => {
  const { videoWidth, videoHeight } = video;
  const wide = Math.min(videoWidth, (videoHeight * FRAME.width) / FRAME.height);
  const high = (wide * FRAME.height) / FRAME.width;
  const canvas = document.createElement('canvas');
  canvas.width = Math.min(LONGEST, Math.round(wide));
  canvas.height = Math.round((canvas.width * FRAME.height) / FRAME.width);
  if (canvas.width === 0) return null;
  const [left, top] = [(videoWidth - wide) / 2, (videoHeight - high) / 2];
  canvas.getContext('2d')?.drawImage(video, left, top, wide, high, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  return blob === null ? null : new File([blob], 'photo.jpg', { type: blob.type });
};

interface Props {
  /** The photograph before, to lay the new one over; `null`: this is the first. */
  readonly last: string | null;
  readonly onTaken: (file: File) => void;
  readonly onLeave: () => void;
}

/** The camera's own picture behind the frame, the last photograph pale over it. */
export function ThroughFrame({ last, onTaken, onLeave }: Props) {
  const video = useRef<HTMLVideoElement>(null);
  const [state, setState] = useState<'opening' | 'open' | 'none'>('opening');
  const { colour } = lotMessages;
  useEffect(() => {
    let stream: MediaStream | null = null;
    let left = false;
    const stop = (): void => stream?.getTracks().forEach((track) => track.stop());
    const open = async (): Promise<void> => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment', width: { ideal: LONGEST } } });
      } catch {
        return setState('none');
      }
      if (left || video.current === null) return stop();
      video.current.srcObject = stream;
    };
    void open();
    return () => {
      left = true;
      stop();
    };
  }, []);
  const take = async (): Promise<void> => {
    const file = video.current === null ? null : await taken(video.current);
    if (file !== null) onTaken(file);
  };
  if (state === 'none')
    return (
      <p className={on('gap')}>
        {colour.noCamera}{' '}
        <button type="button" className={on('link')} onClick={onLeave}>
          {colour.leave}
        </button>
      </p>
    );
  return (
    <>
      <div style={STACK}>
        <video ref={video} style={PICTURE} autoPlay muted playsInline onPlaying={() => setState('open')} />
        <div style={STACKED}>
          <Framed href={last} alt="" pale />
        </div>
      </div>
      <div className={on('acts')}>
        <button type="button" className={on('act first')} disabled={state !== 'open'} onClick={() => void take()}>
          {colour.shoot}
        </button>
        <button type="button" className={on('link')} onClick={onLeave}>
          {colour.leave}
        </button>
      </div>
    </>
  );
}
