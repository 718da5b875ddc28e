import { useEffect, useRef, type ReactElement } from 'react';
import { placeNotches } from '../store/place-notches.ts';
import { useTable } from '../table.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** Numbered notches with thin leader lines to the form, drawn straight to the page as the form turns. */
export function Notches(): ReactElement {
  const { signals } = useTable();
  const sheet = useRef<SVGSVGElement>(null);
  useEffect(
    () =>
      signals.notches.listen((frame) => {
        const svg = sheet.current;
        if (svg === null) return;
        const notches = placeNotches(frame);
        while (svg.children.length > notches.length) svg.lastElementChild!.remove();
        while (svg.children.length < notches.length) svg.append(newNotch());
        notches.forEach(({ zone, x, y, labelX, labelY }, index) => {
          const [line, dot, ring, number] = svg.children[index]!.children;
          const towards = labelX > x ? -11 : 11;
          set(line!, { x1: x, y1: y, x2: labelX + towards, y2: labelY });
          set(dot!, { cx: x, cy: y });
          set(ring!, { cx: labelX, cy: labelY });
          set(number!, { x: labelX, y: labelY });
          number!.textContent = String(zone);
        });
      }),
    [signals],
  );
  return <svg ref={sheet} className="notches" aria-hidden="true" />;
}

function newNotch(): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  for (const [name, radius] of [['line'], ['circle', 2.5], ['circle', 11], ['text']] as const) {
    const element = document.createElementNS(SVG, name);
    if (radius !== undefined) element.setAttribute('r', String(radius));
    group.append(element);
  }
  return group;
}

function set(element: Element, places: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(places)) element.setAttribute(name, value.toFixed(1));
}
