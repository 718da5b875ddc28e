import type { FabricCard } from '../../core/sheet/fabric-card.ts';
import { CARD_WORDS, cardText, type CardTable } from '../../core/words/card-text.ts';
import { findingLines } from './say-findings.ts';
import { textTable } from './text-table.ts';

/** A fabric card for the terminal: the same words and numbers as the printed one. */
export function benchAsText(card: FabricCard): string {
  const text = cardText(card);
  const mark = text.mark === null ? [] : [text.mark];
  const parts: readonly (readonly string[])[] = [
    [[text.name, text.lot, ...mark].join(' · '), ...(text.note === null ? [] : [text.note])],
    [CARD_WORDS.methods, pairs(text.methods.map(({ title, text }) => [title, text]))],
    [CARD_WORDS.numbers, pairs(text.single.map(({ title, value }) => [title, value]))],
    [table(text.numbers), ...(text.star === null ? [] : [`  ${text.star}`])],
    [CARD_WORDS.residuals, table(text.residuals)],
    [CARD_WORDS.coupling, ...text.coupling.map((sentence) => `  ${sentence}`)],
    [CARD_WORDS.remarks, findingLines(card.findings) || `  ${CARD_WORDS.noRemarks}`],
  ];
  return parts.map((lines) => lines.join('\n')).join('\n\n');
}

/** Titles to the left, words after them. */
const pairs = (lines: readonly (readonly string[])[]): string => indented(textTable(lines, 2));

const table = ({ heading, lines }: CardTable): string => indented(textTable([heading, ...lines]));

const indented = (text: string): string => text.replaceAll(/^/gm, '  ');
