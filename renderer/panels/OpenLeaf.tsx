import type { ReactElement } from 'react';
import type { ShownStudy } from '../store/study-store.ts';
import { useView } from '../table.ts';
import { BodyLeaf } from './BodyLeaf.tsx';
import { FabricLeaf } from './FabricLeaf.tsx';
import { GarmentLeaf } from './GarmentLeaf.tsx';
import { ReviewLeaf } from './ReviewLeaf.tsx';
import { TryLeaf } from './TryLeaf.tsx';

/** The leaf that lies open, if one does. */
export function OpenLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement | null {
  const leaf = useView((view) => view.leaf);
  switch (leaf) {
    case null:
      return null;
    case 'fabric':
      return <FabricLeaf sheet={shown.sheet} />;
    case 'body':
      return <BodyLeaf shown={shown} />;
    case 'garment':
      return <GarmentLeaf shown={shown} />;
    case 'try':
      return <TryLeaf key={shown.laid} shown={shown} />;
    case 'review':
      return <ReviewLeaf shown={shown} />;
    default:
      return leaf satisfies never;
  }
}
