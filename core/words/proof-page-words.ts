/** What stands in the window beside the table of outside checks. */
export const PROOF_PLACE_WORDS = {
  /** In the menu, the help leaf and over the page. */
  prove: 'Prove',
  lead: 'Every number below is computed here and now and held against something outside Snugfield: standards, closed forms, published readings, another program.',
  help: 'How far are the numbers true? Run every check against the outside world here, in about a minute.',
  subjects: 'Subjects',
  run: 'Check again',
  stop: 'Stop',
  picture: 'Picture',
  numbers: 'Numbers',
  close: 'Close',
  pass: 'pass',
  waits: 'waits',
  checking: 'checking',
  notChecked: 'not checked',
  beginning: 'Beginning …',
  progress: (title: string, done: number, of: number) => `Checking ${done + 1} of ${of}: ${title}`,
  some: (done: number, of: number) => `${done} of ${of} subjects`,
  share: (used: number) => (Number.isFinite(used) ? `${Math.round(100 * used)}\u00a0%` : '–'),
} as const;
