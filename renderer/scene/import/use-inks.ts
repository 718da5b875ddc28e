import { useEffect, useState } from 'react';

/** Colours of ink and paper as the page has them, for what is drawn among the paper. */
export interface Inks {
  readonly ink: string;
  readonly soft: string;
  readonly alarm: string;
}

/** The page's colours, anew when it goes from light to dark. */
export function useInks(): Inks {
  const [inks, setInks] = useState(readInks);
  useEffect(() => {
    const dark = matchMedia('(prefers-color-scheme: dark)');
    const read = (): void => setInks(readInks());
    dark.addEventListener('change', read);
    return () => dark.removeEventListener('change', read);
  }, []);
  return inks;
}

function readInks(): Inks {
  const style = getComputedStyle(document.documentElement);
  const colour = (name: string): string => style.getPropertyValue(name).trim();
  return { ink: colour('--ink'), soft: colour('--soft'), alarm: colour('--wrong') };
}
