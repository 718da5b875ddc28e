import { useEffect, useRef, type ReactElement } from 'react';
import { BODY_REGION_NAMES } from '../../../core/sheet/tissue-rows.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import { sourceOf } from '../../../core/sheet/tissue-legend.ts';
import { REGION_WORDS, TISSUE_SOURCE_WORDS } from '../../../core/words/tape-words.ts';
import { bonyLabel } from '../../../core/words/tissue-words.ts';
import type { BonyPoint } from '../../../core/body/tissue-map.ts';
import { placeLabels } from '../../store/place-labels.ts';
import type { StageMark } from '../../store/stage-signals.ts';
import type { ShownFlesh } from '../../store/body-store.ts';
import { useBody, useTable } from '../../table.ts';

/** Bony places named beside the form, and the flesh under the pointer. */
export function TissueMarks(): ReactElement | null {
  const flesh = useBody((body) => body.flesh);
  const isOpen = useBody((body) => body.part === 'flesh');
  if (flesh === null || !isOpen) return null;
  return (
    <>
      <BonyLabels flesh={flesh} />
      <TissueCard flesh={flesh} />
    </>
  );
}

/** Of a place on both sides, the one nearer to the free side of the stage. */
function oncePerPlace(marks: readonly StageMark[], bony: readonly BonyPoint[]): readonly StageMark[] {
  const best = new Map<string, StageMark>();
  for (const mark of marks.filter(({ isVisible }) => isVisible)) {
    // The stage may still tell where tapes lie.
    const place = bony[Number(mark.key)]?.place;
    if (place === undefined) continue;
    const before = best.get(place);
    if (before === undefined || mark.x > before.x) best.set(place, mark);
  }
  return [...best.values()];
}

const SVG = 'http://www.w3.org/2000/svg';

function BonyLabels({ flesh: { bony } }: { readonly flesh: ShownFlesh }): ReactElement {
  const { signals } = useTable();
  const sheet = useRef<SVGSVGElement>(null);
  useEffect(() => {
    const draw = (): void => {
      const svg = sheet.current;
      if (svg === null) return;
      const frame = signals.marks.get();
      const labels = placeLabels({ ...frame, marks: oncePerPlace(frame.marks, bony) });
      while (svg.children.length > labels.length) svg.lastElementChild!.remove();
      while (svg.children.length < labels.length) svg.append(newLabel());
      labels.forEach(({ key, x, y, labelX, labelY }, index) => {
        const [line, dot, text] = svg.children[index]!.children;
        set(line!, { x1: x, y1: y, x2: labelX, y2: labelY });
        set(dot!, { cx: x, cy: y });
        set(text!, { x: labelX + 5, y: labelY });
        text!.textContent = bonyLabel(bony[Number(key)]!);
      });
    };
    draw();
    return signals.marks.listen(draw);
  }, [signals, bony]);
  return <svg ref={sheet} className="bony-labels" aria-hidden="true" />;
}

function newLabel(): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  for (const name of ['line', 'circle', 'text']) {
    const element = document.createElementNS(SVG, name);
    if (name === 'circle') element.setAttribute('r', '3');
    group.append(element);
  }
  return group;
}

function set(element: Element, places: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(places)) element.setAttribute(name, value.toFixed(1));
}

/** Depth, stiffness and their source under the pointer, written straight to the page. */
function TissueCard({ flesh: { map } }: { readonly flesh: ShownFlesh }): ReactElement {
  const { signals } = useTable();
  const card = useRef<HTMLDivElement>(null);
  useEffect(
    () =>
      signals.tissue.listen((place) => {
        const element = card.current;
        if (element === null) return;
        element.hidden = place === null;
        if (place === null) return;
        const { vertex } = place;
        const region = map.region === null ? '' : REGION_WORDS[BODY_REGION_NAMES[map.region[vertex]!]!];
        element.children[0]!.textContent = `${fixed(1000 * map.depth[vertex]!, 1)}\u00a0mm, ${fixed(map.modulus[vertex]! / 1000, 0)}\u00a0kPa`;
        element.children[1]!.textContent = [region, TISSUE_SOURCE_WORDS[sourceOf(map, vertex)]]
          .filter((words) => words !== '')
          .join('\n');
        element.style.transform = `translate(${place.x + 18}px, ${place.y + 14}px)`;
      }),
    [signals, map],
  );
  return (
    <div ref={card} className="pointer-card" hidden aria-hidden="true">
      <strong />
      <span />
    </div>
  );
}
