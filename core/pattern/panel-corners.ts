import { joinedGroups } from '../units/joined-groups.ts';
import { edgeKey, type EdgeOf, type Panel, type Seam } from './pattern.ts';

/** Corners of all panels, and which of them seams bring together. */
export interface SewnCorners {
  /** The corner where an edge starts, and where it ends. */
  readonly startOf: (edge: EdgeOf) => number;
  readonly endOf: (edge: EdgeOf) => number;
  readonly count: number;
  /** One corner that stands for all that are sewn to the same point. */
  readonly leadOf: (corner: number) => number;
  readonly sew: (seam: Pick<Seam, 'one' | 'other' | 'turned'>) => void;
}

/** All corners of panels, not sewn yet; a corner is where one edge ends and the next begins. */
export function sewnCorners(panels: readonly Panel[]): SewnCorners {
  const starts = new Map<string, number>();
  const ends = new Map<string, number>();
  let count = 0;
  for (const { name, edges } of panels) {
    edges.forEach((edge, e) => {
      const key = edgeKey({ panel: name, edge: edge.name });
      starts.set(key, count + e);
      ends.set(key, count + ((e + 1) % edges.length));
    });
    count += edges.length;
  }
  const { leadOf, join } = joinedGroups(count);
  const startOf = (edge: EdgeOf) => starts.get(edgeKey(edge))!;
  const endOf = (edge: EdgeOf) => ends.get(edgeKey(edge))!;
  return {
    startOf,
    endOf,
    count,
    leadOf,
    sew: ({ one, other, turned }) => {
      join(startOf(one), turned ? endOf(other) : startOf(other));
      join(endOf(one), turned ? startOf(other) : endOf(other));
    },
  };
}

/** Knows what has been sewn, and so where two edges make an opening. */
export interface OpeningFinder {
  /** Whether the ends of edges to be sewn (in a row) are already joined to each other on both sides. */
  readonly has: (seams: readonly Seam[]) => boolean;
  readonly sew: (seams: readonly Seam[]) => void;
}

export function openingFinder(panels: readonly Panel[]): OpeningFinder {
  const corners = sewnCorners(panels);
  const areJoined = (one: number, other: number) =>
    one !== other && corners.leadOf(one) === corners.leadOf(other);
  return {
    has: (seams) => {
      const [first, last] = [seams[0]!, seams.at(-1)!];
      const ends = (seam: Seam) =>
        seam.turned
          ? [corners.endOf(seam.other), corners.startOf(seam.other)]
          : [corners.startOf(seam.other), corners.endOf(seam.other)];
      return (
        areJoined(corners.startOf(first.one), ends(first)[0]!) &&
        areJoined(corners.endOf(last.one), ends(last)[1]!)
      );
    },
    sew: (seams) => {
      for (const seam of seams) corners.sew(seam);
    },
  };
}
