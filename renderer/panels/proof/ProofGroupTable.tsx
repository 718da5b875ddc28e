import type { ReactElement } from 'react';
import { proofNumber, type ProofGroup, type ProofRow } from '../../../core/sheet/proof-table.ts';
import { PROOF_PLACE_WORDS } from '../../../core/words/proof-page-words.ts';
import { PROOF_WORDS } from '../../../core/words/proof-words.ts';

/** One subject's checks, those of one source under it. */
export function ProofGroupTable({ group }: { readonly group: ProofGroup }): ReactElement {
  const { headings } = PROOF_WORDS;
  return (
    <section className="proof-group" tabIndex={0} aria-label={group.title}>
      <header>
        <h2>{group.title}</h2>
        <span className={group.failed > 0 ? 'wrong' : 'soft'}>{PROOF_WORDS.tally(group)}</span>
      </header>
      <table className="proof-table">
        <thead>
          <tr>
            <th scope="col">{headings.what}</th>
            <th scope="col">{headings.expected}</th>
            <th scope="col">{headings.got}</th>
            <th scope="col">{headings.within}</th>
            <th scope="col" className="proof-unit">
              <span className="hidden">unit</span>
            </th>
            <th scope="col">{headings.used}</th>
            <th scope="col">
              <span className="hidden">outcome</span>
            </th>
          </tr>
        </thead>
        {bySource(group.rows).map(({ source, rows }) => (
          <tbody key={rows[0]!.id}>
            <tr className="proof-source">
              <th scope="rowgroup" colSpan={7}>
                {source}
              </th>
            </tr>
            {rows.map((row) => (
              <Row key={row.id} row={row} />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

const Row = ({ row }: { readonly row: ProofRow }): ReactElement => (
  <tr className={row.pass ? '' : 'failed'}>
    <th scope="row" title={row.id}>
      {row.what}
    </th>
    <td>{proofNumber(row.expected)}</td>
    <td>{proofNumber(row.got)}</td>
    <td className="soft">{proofNumber(row.tolerance, 3)}</td>
    <td className="proof-unit">{row.unit === '1' ? '' : row.unit}</td>
    <td className="proof-used">
      <span className="proof-bar" aria-hidden="true">
        <span style={{ width: `${100 * Math.min(1, Number.isFinite(row.used) ? row.used : 1)}%` }} />
      </span>
      <span className="proof-share">{PROOF_PLACE_WORDS.share(row.used)}</span>
    </td>
    <td>{row.pass ? PROOF_PLACE_WORDS.pass : PROOF_WORDS.fail}</td>
  </tr>
);

/** Rows that follow each other with the same source. */
function bySource(rows: readonly ProofRow[]): { source: string; rows: ProofRow[] }[] {
  const groups: { source: string; rows: ProofRow[] }[] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (last?.source === row.source) last.rows.push(row);
    else groups.push({ source: row.source, rows: [row] });
  }
  return groups;
}
