/** What a shelf keeps: a size chart as its file has it. */
interface KeptChart {
  readonly name: string;
  readonly text: string;
}

const KEY = 'snugfield size chart';

/** Keeps a studio's size chart in the window's own storage; where that is shut, from day to day nothing is kept. */
export const chartShelf = {
  take: (): KeptChart | null => {
    try {
      const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
      return isKept(kept) ? { name: kept.name, text: kept.text } : null;
    } catch {
      return null;
    }
  },
  put: (chart: KeptChart | null): void => {
    try {
      if (chart === null) localStorage.removeItem(KEY);
      else localStorage.setItem(KEY, JSON.stringify(chart));
    } catch {
      // Storage is full or not allowed: the chart holds for today.
    }
  },
};

const isKept = (value: unknown): value is KeptChart =>
  typeof value === 'object' &&
  value !== null &&
  'name' in value &&
  typeof value.name === 'string' &&
  'text' in value &&
  typeof value.text === 'string';
