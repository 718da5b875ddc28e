import { outlineOf, signedArea } from './flat-outline.ts';
import type { ImportedPattern } from './imported-pattern.ts';
import { openingFinder, type OpeningFinder } from './panel-corners.ts';
import { edgeAsSide, panelSides, type PanelSide } from './panel-sides.ts';
import { edgeKey, type PatternCurve, type Seam } from './pattern.ts';
import { easeBetween, type SeamEase } from './seam-ease.ts';
import { curveLength } from './arc-length.ts';
import { namesAgree, panelsSuit } from './seam-names.ts';

/** Two edges that may belong together. */
export interface SeamProposal {
  readonly seam: Seam;
  readonly ease: SeamEase;
  /** What speaks for it. */
  readonly because: 'names' | 'notches' | 'length';
  /** `sure` and `likely` ones can be sewn as they are; `possible` ones only have like lengths. */
  readonly sureness: 'sure' | 'likely' | 'possible';
}

/** Edges that differ by more are not proposed. */
const MOST_EASE = 0.05;
/** Notches at fractions that differ by less are the same. */
const SAME_FRACTION = 0.02;
/** Edges without names or notches are only like each other within this. */
const ALIKE = 0.005;
/** What speaks for two sides, and against. Set by hand. */
const POINTS = {
  name: 4,
  marks: { none: 0, same: 4, sameTurnedOver: 1, different: -2 },
  place: { sameSide: 1.5, acrossCentre: 2.5, unknown: 0, samePanel: -3.5, mirrored: -1, crossed: -3 },
  ease: -80,
};
interface Candidate {
  readonly one: PanelSide;
  readonly other: PanelSide;
  readonly turned: boolean;
  readonly score: number;
  readonly because: SeamProposal['because'];
}

/**
 * Proposes what is sewn to what, from lengths within 5 %, notches at the same fractions, and names; every edge at most once,
 * the surest first. Two edges whose ends are already joined to each other are an opening (a hem, a waist) and not proposed.
 */
export function proposeSeams({
  panels,
  notches,
}: Pick<ImportedPattern, 'panels' | 'notches'>): SeamProposal[] {
  const isOpening = openingFinder(panels);
  const isBack = new Map(panels.map((panel) => [panel.name, signedArea(outlineOf(panel)) < 0]));
  const sides = panels.flatMap((panel) => panelSides(panel, notches));
  const found = chosen(sides, { isBack, isOpening });
  const taken = new Set(found.flatMap(({ seam }) => [edgeKey(seam.one), edgeKey(seam.other)]));
  const left = panels.flatMap(({ name, edges }) =>
    edges
      .filter((edge) => !taken.has(edgeKey({ panel: name, edge: edge.name })))
      .map((edge) => edgeAsSide(name, edge)),
  );
  return [...found, ...chosen(left, { isBack, isOpening })];
}

interface Known {
  /** Whether a panel's loop runs clockwise. */
  readonly isBack: ReadonlyMap<string, boolean>;
  readonly isOpening: OpeningFinder;
}

function chosen(sides: readonly PanelSide[], { isBack, isOpening }: Known): SeamProposal[] {
  const candidates = sides
    .flatMap((one, s) => sides.slice(s + 1).flatMap((other) => candidateOf(one, other, isBack) ?? []))
    .toSorted((one, other) => other.score - one.score);
  const used = new Set<PanelSide>();
  return candidates.flatMap((candidate) => {
    const { one, other } = candidate;
    if (used.has(one) || used.has(other)) return [];
    const proposals = proposalsOf(candidate);
    if (candidate.because === 'length' && isOpening.has(proposals.map(({ seam }) => seam))) return [];
    used.add(one).add(other);
    // What only has like lengths closes nothing for those that come after it.
    if (candidate.because !== 'length') isOpening.sew(proposals.map(({ seam }) => seam));
    return proposals;
  });
}

function candidateOf(
  one: PanelSide,
  other: PanelSide,
  isBack: ReadonlyMap<string, boolean>,
): Candidate | null {
  const ease = Math.abs(easeBetween(one.length, other.length).ratio);
  if (!(ease <= MOST_EASE) || one.edges.length !== other.edges.length) return null;
  const { marks, turned } = comparedNotches(one, other, isBack.get(one.panel) === isBack.get(other.panel));
  const isNamed = namesAgree(one, other);
  const isMarked = marks === 'same' || marks === 'sameTurnedOver';
  if (!isNamed && !isMarked && ease > ALIKE) return null;
  const score =
    (isNamed ? POINTS.name : 0) +
    POINTS.marks[marks] +
    POINTS.place[panelsSuit(one, other)] +
    POINTS.ease * ease;
  return { one, other, turned, score, because: isNamed ? 'names' : isMarked ? 'notches' : 'length' };
}

/** Whether two sides have the same notches, and whether one runs against the other for it. */
function comparedNotches(
  one: PanelSide,
  other: PanelSide,
  naturally: boolean,
): { readonly marks: keyof typeof POINTS.marks; readonly turned: boolean } {
  if (one.notches.length + other.notches.length === 0) return { marks: 'none', turned: naturally };
  if (matches(one.notches, other.notches, naturally)) return { marks: 'same', turned: naturally };
  // One of both would have to be drawn from its inner side.
  if (matches(one.notches, other.notches, !naturally)) return { marks: 'sameTurnedOver', turned: !naturally };
  return { marks: 'different', turned: naturally };
}

/** Whether notches lie alike from the start of one side and from the end (or start) of the other. */
function matches(one: readonly number[], other: readonly number[], turned: boolean): boolean {
  const seen = turned ? other.map((fraction) => 1 - fraction).toReversed() : other;
  return (
    one.length === seen.length && one.every((fraction, i) => Math.abs(fraction - seen[i]!) < SAME_FRACTION)
  );
}

function proposalsOf({ one, other, turned, score, because }: Candidate): SeamProposal[] {
  const those = turned ? other.edges.toReversed() : other.edges;
  const sureness = because === 'length' ? 'possible' : score >= POINTS.name ? 'sure' : 'likely';
  return one.edges.map((edge, e) => ({
    seam: {
      name: seamName(one, edge, other),
      one: { panel: one.panel, edge: edge.name },
      other: { panel: other.panel, edge: those[e]!.name },
      turned,
    },
    ease: easeBetween(curveLength(edge.points), curveLength(those[e]!.points)),
    because,
    sureness,
  }));
}

const seamName = (one: PanelSide, edge: PatternCurve, other: PanelSide): string =>
  `${one.panel} ${edge.name} - ${other.panel}`;
