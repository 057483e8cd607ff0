/** Words of the page that shows the temperatures by themselves. */
export const temperatureMessages = {
  title: 'Temperatures',
  inWindow: 'in the window',
  above: (amount: string) => `${amount} above the window`,
  below: (amount: string) => `${amount} below the window`,
  curves: 'Lye and oils since this page opened',
  ago: (minutes: number) => (minutes === 0 ? 'now' : `−${minutes} min`),
} as const;
