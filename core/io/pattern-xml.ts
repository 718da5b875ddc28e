import { Fault } from '../fault/fault.ts';
import { shortened } from './mesh-number.ts';

/** What an XML text is made of; lines count from 1. */
export type XmlPart =
  | {
      readonly kind: 'open';
      readonly name: string;
      readonly attributes: ReadonlyMap<string, string>;
      readonly line: number;
    }
  | { readonly kind: 'close'; readonly name: string; readonly line: number }
  | { readonly kind: 'text'; readonly text: string; readonly line: number };

/** Stretches that are passed over: how they begin, how they end, what they are called. */
const PASSED = [
  ['<!--', '-->', 'a comment'],
  ['<?', '?>', 'an instruction'],
] as const;
const CDATA = '<![CDATA[';
const NAME = /[A-Za-z_:][\w:.-]*/y;
const ATTRIBUTE = /\s+([^\s=>/"'<]+)\s*=\s*("[^"]*"|'[^']*')/y;
const END_OF_TAG = /\s*(\/?)>/y;

/**
 * Tags and texts of an XML file, one after another; every element that opens closes. Its own entities are not looked up.
 *
 * @throws {Fault} `pattern/not-svg`, `pattern/unfinished`.
 * @see W3C, Extensible Markup Language (XML) 1.0, sections 2 and 4.6; from memory.
 */
export function* xmlParts(text: string): Generator<XmlPart, undefined> {
  const lineAt = lineCounter(text);
  const open: { readonly name: string; readonly line: number }[] = [];
  let hasRoot = false;
  for (let at = 0; at < text.length;) {
    const next = text.indexOf('<', at);
    const end = next < 0 ? text.length : next;
    if (open.length > 0) yield { kind: 'text', text: decoded(text.slice(at, end)), line: lineAt(at) };
    if (next < 0) break;
    const line = lineAt(next);
    const passed = passedOver(text, next, line);
    if (passed) {
      if (passed.text !== null) yield { kind: 'text', text: passed.text, line };
      at = passed.end;
      continue;
    }
    const tag = readTag(text, next, line);
    const { name, attributes } = tag;
    if (hasRoot && open.length === 0) throw notSvg(line, `<${name}`, 'the end of the drawing');
    hasRoot = true;
    if (!tag.isClosing) {
      open.push({ name, line });
      yield { kind: 'open', name, attributes, line };
    }
    if (tag.isClosing || tag.isEmpty) {
      requireLast(open.pop(), name, line);
      yield { kind: 'close', name, line };
    }
    at = tag.end;
  }
  requireClosed(open.at(-1));
}

function requireClosed(last: { readonly name: string; readonly line: number } | undefined): void {
  if (last) throw new Fault('pattern/unfinished', { line: last.line, what: `the element ${last.name}` });
}

function requireLast(last: { readonly name: string } | undefined, name: string, line: number): void {
  if (last?.name !== name) throw notSvg(line, `</${name}>`, 'the end of the last open element');
}

const notSvg = (line: number, value: string, expected: string): Fault<'pattern/not-svg'> =>
  new Fault('pattern/not-svg', { line, value: shortened(value), expected });

/** Lines of places that are asked for from first to last. */
function lineCounter(text: string): (at: number) => number {
  let line = 1;
  let next = text.indexOf('\n');
  return (at) => {
    for (; next >= 0 && next < at; next = text.indexOf('\n', next + 1)) line++;
    return line;
  };
}

/** A comment, an instruction, a document type or text as it is; null where a tag begins. */
function passedOver(
  text: string,
  at: number,
  line: number,
): { readonly end: number; readonly text: string | null } | null {
  const upTo = (end: string, what: string) => {
    const found = text.indexOf(end, at);
    if (found < 0) throw new Fault('pattern/unfinished', { line, what });
    return { end: found + end.length, text: null };
  };
  for (const [start, end, what] of PASSED) if (text.startsWith(start, at)) return upTo(end, what);
  if (text.startsWith(CDATA, at)) {
    const { end } = upTo(']]>', 'a text');
    return { end, text: text.slice(at + CDATA.length, end - 3) };
  }
  if (!text.startsWith('<!', at)) return null;
  const [bracket, close] = [text.indexOf('[', at), text.indexOf('>', at)];
  const hasOwn = bracket >= 0 && bracket < close;
  return upTo(hasOwn ? ']>' : '>', 'the document type');
}

interface Tag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly isClosing: boolean;
  readonly isEmpty: boolean;
  readonly end: number;
}

function readTag(text: string, start: number, line: number): Tag {
  const isClosing = text[start + 1] === '/';
  const name = matchAt(NAME, text, start + (isClosing ? 2 : 1));
  if (!name) throw notSvg(line, text.slice(start, start + 40), 'a tag');
  let at = start + (isClosing ? 2 : 1) + name[0].length;
  const attributes = new Map<string, string>();
  for (let found = matchAt(ATTRIBUTE, text, at); found; found = matchAt(ATTRIBUTE, text, at)) {
    attributes.set(found[1]!, decoded(found[2]!.slice(1, -1)));
    at += found[0].length;
  }
  const end = matchAt(END_OF_TAG, text, at);
  if (!end) {
    if (text.indexOf('>', at) < 0)
      throw new Fault('pattern/unfinished', { line, what: `the tag ${name[0]}` });
    throw notSvg(line, text.slice(at, at + 40).trim(), `an attribute or the end of the tag ${name[0]}`);
  }
  return { name: name[0], attributes, isClosing, isEmpty: end[1] === '/', end: at + end[0].length };
}

function matchAt(sticky: RegExp, text: string, at: number): RegExpExecArray | null {
  sticky.lastIndex = at;
  return sticky.exec(text);
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

/** The five entities of XML and characters by number; others stay as they are. */
const decoded = (text: string): string =>
  text.replaceAll(/&(#\d{1,7}|#x[\da-f]{1,6}|[a-z]{2,4});/gi, (whole, entity: string) => {
    if (!entity.startsWith('#')) return NAMED[entity] ?? whole;
    const code = entity[1]?.toLowerCase() === 'x' ? Number(`0${entity.slice(1)}`) : Number(entity.slice(1));
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
