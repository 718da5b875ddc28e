import type { ReactElement } from 'react';

/** A key beside the word it stands for. The word says what it does, so a screen reader skips the key. */
export const Key = ({ name }: { readonly name: string }): ReactElement => (
  <kbd className="key" aria-hidden="true">
    {name}
  </kbd>
);
