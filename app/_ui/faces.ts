import localFont from 'next/font/local';

/*
 * Atkinson Hyperlegible Next and Mono (Braille Institute, SIL Open Font Licence), served by ourselves: drawn to be told apart
 * through fogged goggles. `block` and a preload: no text is drawn in another face first, so nothing shifts.
 */
const hyperlegible = localFont({
  src: '../../node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
  weight: '200 800',
  display: 'block',
  variable: '--face-text',
});
const hyperlegibleMono = localFont({
  src: '../../node_modules/@fontsource-variable/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-wght-normal.woff2',
  weight: '200 800',
  display: 'block',
  variable: '--face-figure',
});
/* Letters beyond western Europe, fetched only when a page has one. The loader reads literals only, hence the range twice. */
const hyperlegibleExt = localFont({
  src: '../../node_modules/@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-wght-normal.woff2',
  weight: '200 800',
  display: 'swap',
  preload: false,
  variable: '--face-text-ext',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF',
    },
  ],
});
const hyperlegibleMonoExt = localFont({
  src: '../../node_modules/@fontsource-variable/atkinson-hyperlegible-mono/files/atkinson-hyperlegible-mono-latin-ext-wght-normal.woff2',
  weight: '200 800',
  display: 'swap',
  preload: false,
  variable: '--face-figure-ext',
  declarations: [
    {
      prop: 'unicode-range',
      value:
        'U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF',
    },
  ],
});

/** Class names that define the four faces as custom properties. */
export const faces = [hyperlegible, hyperlegibleMono, hyperlegibleExt, hyperlegibleMonoExt].map((face) => face.variable).join(' ');
