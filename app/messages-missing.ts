/** Words of an address that no page has. */
export const missing = {
  title: 'No such page',
  lead: 'This address leads nowhere here. Nothing was changed or lost by asking for it.',
  act: 'Go to Today',
} as const;
