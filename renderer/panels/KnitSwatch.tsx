import type { ReactElement } from 'react';

/** Tones of the pinked swatches: inks, so that colour stays with the map. */
const TONES = [
  { ground: '#4a545f', yarn: '#75818d' },
  { ground: '#8d7a6b', yarn: '#b9a797' },
  { ground: '#5f6a58', yarn: '#8d9985' },
] as const;

/** A square of knit, wales of small Vs; only a token, the same for every fabric but its tone. */
export function KnitSwatch({ index }: { readonly index: number }): ReactElement {
  const { ground, yarn } = TONES[index % TONES.length]!;
  const id = `knit-${index}`;
  return (
    <svg className="knit" viewBox="0 0 56 56" aria-hidden="true">
      <defs>
        <pattern id={id} width="7" height="6" patternUnits="userSpaceOnUse">
          <rect width="7" height="6" fill={ground} />
          <path
            d="M0.6 0.4 3.5 4.4 6.4 0.4"
            fill="none"
            stroke={yarn}
            strokeWidth="1.7"
            strokeLinecap="round"
          />
          <path
            d="M0.6 6.4 3.5 10.4 6.4 6.4"
            fill="none"
            stroke={yarn}
            strokeWidth="1.7"
            strokeLinecap="round"
          />
        </pattern>
      </defs>
      <rect width="56" height="56" rx="2" fill={`url(#${id})`} />
    </svg>
  );
}
