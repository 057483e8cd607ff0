/** How this screen is called on others: what it is, and when it was opened. */
const opened = new Date();

export const screenLabel = (): string => {
  const touch = typeof matchMedia === 'function' && matchMedia('(pointer: coarse)').matches;
  const time = opened.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  return `${touch ? 'tablet' : 'screen'} ${time}`;
};
