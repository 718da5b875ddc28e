/** One outside check as it is shown; `core/proof` gives them. */
export interface ProofNumbers {
  /** `tube.cylinder.mean-pressure` */
  readonly id: string;
  /** What is looked at, in a few plain words. */
  readonly what?: string;
  /** Standard, paper, closed form or other program. */
  readonly source: string;
  readonly expected: number;
  readonly got: number;
  readonly unit: string;
  /** Allowed |got - expected|, in the same unit. */
  readonly tolerance: number;
}

/** The checks of one subject. */
export interface ProofResult {
  readonly subject: string;
  readonly checks: readonly ProofNumbers[];
}

/** One line of the table. */
export interface ProofRow extends ProofNumbers {
  readonly what: string;
  readonly pass: boolean;
  /** |got - expected| over the tolerance: 1 is the limit. 0 / 0 counts as 0; NaN for what is no number. */
  readonly used: number;
}

/** The lines of one subject. */
export interface ProofGroup {
  readonly subject: string;
  /** The subject as it is spoken of. */
  readonly title: string;
  readonly rows: readonly ProofRow[];
  readonly passed: number;
  readonly failed: number;
}

/** Every outside check, grouped by subject. */
export interface ProofTable {
  readonly subjects: readonly ProofGroup[];
  readonly passed: number;
  readonly failed: number;
}

/** How subjects and checks are spoken of. */
export interface ProofWords {
  readonly title: (subject: string) => string;
  readonly what: (check: ProofNumbers) => string;
}

/**
 * The table of outside checks; `core/words` has the words (`sayProof`).
 *
 * @param results - As `runProof` gives them; order is kept.
 * @param words - Names and ids stand as they are if left out.
 */
export function proofTable(results: readonly ProofResult[], words: ProofWords = BARE): ProofTable {
  const subjects = results.map(({ subject, checks }): ProofGroup => {
    const rows = checks.map((check) => proofRow(check, words.what(check)));
    const failed = rows.filter(({ pass }) => !pass).length;
    return { subject, title: words.title(subject), rows, passed: rows.length - failed, failed };
  });
  const sum = (of: (group: ProofGroup) => number) => subjects.reduce((total, group) => total + of(group), 0);
  return { subjects, passed: sum(({ passed }) => passed), failed: sum(({ failed }) => failed) };
}

const BARE: ProofWords = { title: (subject) => subject, what: ({ id, what }) => what ?? id };

function proofRow(check: ProofNumbers, what: string): ProofRow {
  const away = Math.abs(check.got - check.expected);
  return {
    ...check,
    what,
    pass: away <= check.tolerance,
    used: away === 0 ? 0 : away / check.tolerance,
  };
}

/** A figure of the table, to six places; tiny ones as 6.7e-6, to three. */
export const proofNumber = (value: number, places = 6): string =>
  value !== 0 && Math.abs(value) < 1e-3
    ? Number(value.toPrecision(3)).toExponential()
    : String(Number(value.toPrecision(places)));

/**
 * The table as comma-separated text: subject, id, source, expected, got, unit, tolerance, pass. Numbers in full.
 *
 * @see RFC 4180: CRLF between records, fields with commas, quotes or line ends in quotes, quotes doubled.
 */
export function proofCsv({ subjects }: ProofTable): string {
  const heading = ['subject', 'id', 'source', 'expected', 'got', 'unit', 'tolerance', 'pass'];
  const records = subjects.flatMap(({ subject, rows }) =>
    rows.map((row) => [
      subject,
      row.id,
      row.source,
      String(row.expected),
      String(row.got),
      row.unit,
      String(row.tolerance),
      row.pass ? 'pass' : 'FAIL',
    ]),
  );
  return [heading, ...records].map((record) => `${record.map(quoted).join(',')}\r\n`).join('');
}

const quoted = (field: string): string =>
  /[",\r\n]/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
