import { useLayoutEffect, useRef, useState, type RefObject } from 'react';

interface BoxSize {
  readonly width: number;
  readonly height: number;
}

/** The size of an element in whole px, followed as it changes; `first` until it is on the screen. */
export function useBoxSize(first: BoxSize): readonly [RefObject<HTMLDivElement | null>, BoxSize] {
  const ref = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState(first);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const measure = (): void => {
      const { width, height } = element.getBoundingClientRect();
      if (width > 0 && height > 0) setSize({ width: Math.floor(width), height: Math.floor(height) });
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size];
}
