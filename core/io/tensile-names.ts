import type { Branch, Direction } from '../fabric/fabric.ts';
import type { ColumnMeaning } from './tensile-table.ts';

/**
 * Text as the patterns below expect it: small letters without accents, plain spaces for every kind of space and for
 * underscores. A letter lost in a wrong encoding (U+FFFD) stays one character, which the patterns' dots let through.
 */
export function plainWords(text: string): string {
  return text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll(/[_\s]+/g, ' ')
    .trim();
}

/**
 * What a column is by its name, the first that fits. English, German, French, Spanish, Italian and Portuguese as the
 * standards and testers write them (common practice, from memory).
 */
const MEANINGS: readonly (readonly [ColumnMeaning, RegExp])[] = [
  [
    'branch',
    /\bbranch\b|\bphase\b|\bast\b|load ?\/ ?(unload|return)|be- ?\/ ?entlast|charge ?\/ ?decharge|\bhalf.?cycle\b|\brama\b|\bramo\b/,
  ],
  ['cycle', /\b(load )?cycles?\b|zykl(us|en)|lastspiel|lastwechsel|\bcicl[oi]s?\b|\bloop (no|number)\b/],
  ['time', /\btime\b|\bzeit\b|zeitpunkt|\btemps\b|\btiempo\b|\btempo\b|\bseconds?\b/],
  [
    'ignored',
    /\b(speed|rate|velocity|stress|modulus|energy|work|power|temperature|humidity|limit|pre-?(load|tension)|load cell|maximum|max|minimum|min|peak|break|density)\b|bruch|h.e?chst|geschwindigkeit|spannung|\be-?modul|energie|arbeit|temperatur|feucht|grenz|vorkraft|vorspann|kraftmess|vitesse|contrainte|module|travail|velocidad|velocita|velocidade|tensione|tensao|energia|precarga/,
  ],
  [
    'stripWidth',
    /(clamp|initial|original|nominal|specimen|sample|strip|start) ?width|(proben|einspann|anfangs|streifen|klemmen)breite|largeur (initiale|(de l.?)?.prouvette|d.prouvette|nominale)|(anchura|ancho) (inicial|de la probeta)|larghezza (iniziale|(del )?provino)|largura (inicial|do provete)|\bwidth ?0\b|\b[bw]0\b/,
  ],
  ['width', /\bwidth\b|breite|\blargeur\b|\banchura\b|\bancho\b|\blarghezza\b|\blargura\b/],
  [
    'direction',
    /\bdirection\b|richtung|\bsens\b|direcci.n|\bsentido\b|\bdirezione\b|\bsenso\b|\bdire..o\b|\bdirecao\b|\bgrain\b/,
  ],
  [
    'extension',
    /\bextensions?\b|elongation|\bstrain\b|stretch|displacement|\btravel\b|crosshead|\bstroke\b|\bposition\b|dehnung|verl.e?ngerung|l.e?ngen.e?nderung|l.e?ngung|weg\b|traverse|\ballongement\b|d.placement|d.formation|alargamiento|elongaci.n|desplazamiento|deformaci.n|\brecorrido\b|allungamento|spostamento|deformazione|\bcorsa\b|alongamento|deslocamento|deforma..o|\blambda\b|\bepsilon\b/,
  ],
  [
    'force',
    /\bforce\b|\bload\b|\btension\b|\bpull\b|kraft|\blast\b|\beffort\b|\bcharge\b|fuerza|\bcarga\b|\bforza\b|\bcarico\b|\bfor[c\ufffd]a\b|\btensile\b/,
  ],
  [
    'specimen',
    /\bspecimens?\b|\bsamples?\b|\btest (no|number|piece)\b|\bprobe|pr.e?fling|\.?prouvette|.chantillon|\bprobeta\b|\bmuestra\b|\bprovino\b|\bcampione\b|\bprovete\b|\bamostra\b|corpo de prova|\bstrip (no|number)\b|\breplicate\b/,
  ],
];

/** What a column is by its name alone; `ignored` where nothing is recognised. */
export function meaningOf(plain: string): ColumnMeaning {
  return MEANINGS.find(([, pattern]) => pattern.test(plain))?.[0] ?? 'ignored';
}

/** Whether a name is known to be none of a curve's quantities: a limit, a result, a speed. */
export const isOtherQuantity = (plain: string): boolean =>
  MEANINGS.some(([meaning, pattern]) => meaning === 'ignored' && pattern.test(plain));

const DIRECTIONS: readonly (readonly [Direction, RegExp])[] = [
  // Before the others: "diagonal to the warp".
  [
    'bias',
    /\bbias\b|diagonal|\b45 ?(°|deg)|^45$|schr.e?g|\bbiais\b|\bbies\b|\bsbieco\b|\bvies\b|\boblique\b/,
  ],
  [
    'warp',
    /\bwarp\b|\bkett|\bchaine\b|\burdimbre\b|\bordito\b|\burdume\b|\bteia\b|\bwales?\b|\blengthwise\b|\blongitudinal|l.e?ngs(richtung)?\b|\bmachine direction\b|^md$|maschenst.e?bchen/,
  ],
  [
    'weft',
    /\bweft\b|\bschuss|\btrame\b|\btrama\b|\bcourses?\b|\bfilling\b|\bcross(wise)?\b|\btransvers|\bquer(richtung)?\b|^cd$|^cmd$|maschenreihe/,
  ],
];

/** The direction that a text names, or null. Wales run with the warp, courses with the weft. */
export function directionIn(plain: string): Direction | null {
  return DIRECTIONS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
}

const RETURN_WORDS =
  /\bun-?load|\breturn|recover|\bback\b|entlast|r.e?ck(lauf|weg|zug)?\b|zur.e?ck|\bretour\b|d.charge\b|descarga|\bretorno\b|\britorno\b|\bscarico\b|^down$|^ab$/;
const LOAD_WORDS =
  /\bload(ing)?\b|belast|\bhin(lauf|weg)?\b|\baller\b|\bcharge\b|\bcarga\b|\bcarico\b|\bandata\b|\bida\b|^up$|^auf$|\bpull/;

/** The branch that a cell of a branch column names, or null. */
export function branchIn(plain: string): Branch | null {
  if (RETURN_WORDS.test(plain)) return 'return';
  return LOAD_WORDS.test(plain) ? 'load' : null;
}

/** The branch that a column's header names beside its quantity; "load" alone is the force itself. */
export function branchInHeader(plain: string): Branch | null {
  if (RETURN_WORDS.test(plain)) return 'return';
  return /\bloading\b|belastung|\bhin(lauf|weg)\b|\baller\b|\bandata\b/.test(plain) ? 'load' : null;
}

const NUMBER_SIGN = '\\s*(?:no\\.?|nr\\.?|n°|number|nummer|#|:)*\\s*';
const SPECIMEN = new RegExp(
  `(?:specimen|sample|strip|probe|pr.e?fling|prouvette|chantillon|probeta|muestra|provino|campione|provete|amostra|corpo de prova|replicate|test)${NUMBER_SIGN}(\\d{1,6})\\b`,
);
const CYCLE = new RegExp(`(?:cycle|zyklus|lastspiel|ciclo)${NUMBER_SIGN}(\\d{1,6})\\b`);

/** `Specimen 3` -> 3. */
export const specimenIn = (plain: string): number | null => firstNumber(SPECIMEN, plain);
/** `Zyklus 3` -> 3. */
export const cycleIn = (plain: string): number | null => firstNumber(CYCLE, plain);

function firstNumber(pattern: RegExp, text: string): number | null {
  const digits = pattern.exec(text)?.[1];
  return digits === undefined ? null : Number(digits);
}

/** Values that a file may name outside its columns. */
export type ContextKey =
  'gauge' | 'circumference' | 'width' | 'specimen' | 'cycle' | 'direction' | 'branch' | 'test' | 'date';

const KEYS: readonly (readonly [ContextKey | 'count', RegExp])[] = [
  [
    'count',
    /number of|\bcount\b|anzahl|nombre de|n.mero de (probetas|ciclos|provetes|amostras)|numero di|\bcycles\b|zyklen|\bciclos\b|\bcicli\b|\bspeed\b|geschwindigkeit/,
  ],
  ['circumference', /circumference|umfang|circonf.rence|circunferencia|perimetro|circonferenza|loop length/],
  [
    'gauge',
    /gau?ge|einspannl.e?nge|messl.e?nge|ausgangsl.e?nge|anfangsl.e?nge|\bl ?0\b|grip (distance|separation)|jaw separation|(initial|original|clamping) length|longueur (initiale|de r.f.rence|utile|entre)|longitud (inicial|de referencia|entre)|lunghezza (iniziale|di riferimento|utile)|comprimento (inicial|de refer.ncia|entre)/,
  ],
  ['width', /width|breite|largeur|anchura|\bancho\b|larghezza|largura/],
  ['date', /^(test |pr.e?f)?(date|datum|fecha|data|date of test|date d.essai|pr.e?fdatum)\b/],
  ['direction', /\bdirection\b|richtung|\bsens\b|direcci.n|\bsentido\b|direzione|\bsenso\b|dire..o\b/],
  ['cycle', /\bcycle\b|zyklus|\bciclo\b|lastspiel/],
  ['branch', /\bbranch\b|\bphase\b/],
  [
    'specimen',
    /\bspecimen\b|\bsample\b|\bprobe(n?nummer)?\b|pr.e?fling|.prouvette|.chantillon|\bprobeta\b|\bmuestra\b|\bprovino\b|\bcampione\b|\bprovete\b|\bamostra\b|\btest (no|number|piece)\b/,
  ],
  ['test', /^(test|method|pr.e?fung|pr.e?fverfahren|essai|ensayo|prova|ensaio)\b/],
];

/** What a line such as "Einspannlänge;100 mm" names by its key; null where it is none of ours. */
export function contextKeyOf(plain: string): ContextKey | null {
  const key = KEYS.find(([, pattern]) => pattern.test(plain))?.[0] ?? null;
  return key === 'count' ? null : key;
}

/** Rows of statistics under a table. */
export const isStatistic = (plain: string): boolean =>
  /^(mean|average|median|min(imum)?|max(imum)?|std|s\.?d\.?|st\.? ?dev|standard|cv|variance|coefficient|mittel|mittelwert|standardabweichung|varianz|moyenne|.cart|media|desviaci.n|deviazione|m.dia|desvio|end|ende|fin|fine|fim)\b/.test(
    plain,
  );
